"""The good hours for a service, as they are told."""

import pytest

from dialogs import hours
from dialogs.texts import render
from service.husbandry.cycle import serve_window
from tests.unit.husbandry.book import at


# First sign +6 h .. +16 h (the contract), kept to hours in which someone can come, on full hours.
@pytest.mark.parametrize(
    ("first_seen", "now", "first", "last"),
    [
        ("2026-03-01 06:30", "2026-03-01 06:30", "2026-03-01 13:00", "2026-03-01 20:00"),
        ("2026-03-01 17:00", "2026-03-01 18:00", "2026-03-02 05:00", "2026-03-02 09:00"),
        ("2026-02-28 22:00", "2026-02-28 22:30", "2026-03-01 05:00", "2026-03-01 14:00"),
        ("2028-02-28 22:00", "2028-02-28 22:30", "2028-02-29 05:00", "2028-02-29 14:00"),
        ("2026-03-01 07:00", "2026-03-01 15:20", "2026-03-01 15:20", "2026-03-01 20:00"),
        ("2026-03-01 13:20", "2026-03-01 14:00", "2026-03-01 19:00", "2026-03-01 20:00"),
    ],
)
def test_the_good_hours_are_the_longest_part_of_the_window_by_day(first_seen, now, first, last):
    window = serve_window(at(first_seen))
    good = hours.good_hours((window.first, window.last), at(now))
    assert good == (at(first), at(last))


def test_a_window_in_the_night_alone_is_told_as_it_is():
    window = (at("2026-03-01 21:00"), at("2026-03-02 04:00"))
    assert hours.good_hours(window, at("2026-03-01 20:30")) == window


@pytest.mark.parametrize(
    ("now", "told"),
    [
        ("2026-03-02 07:00", "leo saa 7 mchana hadi saa 2 usiku"),
        ("2026-03-01 23:00", "Jumatatu saa 7 mchana hadi saa 2 usiku"),
        ("2026-03-02 16:10", "sasa hadi saa 2 usiku"),
    ],
)
def test_the_day_is_named_so_that_it_is_right_whenever_it_is_read(now, told):
    window = (at("2026-03-02 13:00"), at("2026-03-02 23:00"))
    assert render(hours.told(window, at(now)), "sw") == told


def test_a_moment_past_is_told_to_the_quarter_hour_with_its_day():
    now = at("2026-03-02 18:00")
    told = [render(hours.moment(at(m), now), "sw") for m in
            ("2026-03-02 06:40", "2026-03-01 20:00", "2026-02-27 17:50")]  # fmt: skip
    assert told == ["saa 12 na nusu alfajiri", "jana saa 2 usiku", "27 Feb saa 12 kasoro robo jioni"]
