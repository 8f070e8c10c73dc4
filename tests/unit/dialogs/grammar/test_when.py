"""Days and hours, by the rules of the contract's "When"."""

from datetime import date, datetime

import pytest

from dialogs.grammar.when import latest_date, latest_day_of_month, latest_weekday
from tests.unit.dialogs.grammar.reading import EVENING, MORNING, entries, entry, problem

TODAY = date(2026, 3, 2)


def first_seen(told: str, now: datetime = EVENING) -> str:
    return str(entry(f"Neema ana joto {told}", now=now)["first_seen"])[:16]


def served_on(told: str, now: datetime = EVENING) -> str:
    return str(entry(f"Neema kapandishwa {told}", now=now)["on"])


def milking(told: str, now: datetime) -> tuple[str, str]:
    read = entry(f"Neema 6 {told}", now=now)
    return read["session"], read["on"]


def test_a_weekday_is_the_latest_one_before_today() -> None:
    assert latest_weekday(TODAY, 0) == date(2026, 2, 23)  # today is a Monday
    assert latest_weekday(TODAY, 6) == date(2026, 3, 1)


def test_a_bare_day_or_date_is_the_latest_such_not_in_the_future() -> None:
    assert latest_day_of_month(TODAY, 2) == TODAY
    assert latest_day_of_month(TODAY, 3) == date(2026, 2, 3)
    assert latest_day_of_month(TODAY, 31) == date(2026, 1, 31)
    assert latest_date(TODAY, 3, 3) == date(2025, 3, 3)


@pytest.mark.parametrize(
    ("told", "moment"),
    [
        ("", "2026-03-02T18:15"),
        ("saa moja asubuhi", "2026-03-02T07:00"),
        ("saa kumi na mbili jioni", "2026-03-02T18:00"),
        ("saa 11 alfajiri", "2026-03-02T05:00"),
        ("saa 2 na nusu asubuhi", "2026-03-02T08:30"),
        ("saa 3 kasoro robo asubuhi", "2026-03-02T08:45"),
        ("saa 10", "2026-03-02T16:00"),  # a bare hour is the latest such
        ("saa 2 usiku", "2026-03-01T20:00"),  # later than now: yesterday's
        ("jana saa 2 usiku", "2026-03-01T20:00"),
        ("jana saa 8 usiku", "2026-03-02T02:00"),  # the night that began yesterday
        ("leo saa 8 usiku", "2026-03-02T02:00"),  # ... the hour just past where that is to come
        ("jana saa 11 alfajiri", "2026-03-01T05:00"),  # dawn belongs to the day named
        ("at 7:30", "2026-03-02T07:30"),
        ("saa 1:30 asubuhi", "2026-03-02T07:30"),
        ("4pm", "2026-03-02T16:00"),
        ("at 11pm", "2026-03-01T23:00"),
        ("asubuhi", "2026-03-02T06:00"),
        ("mchana", "2026-03-02T12:00"),
        ("jioni", "2026-03-02T18:00"),
        ("usiku", "2026-03-01T21:00"),
        ("jana usiku", "2026-03-01T21:00"),
        ("since last night", "2026-03-01T21:00"),
        ("juzi jioni", "2026-02-28T18:00"),
        ("half past six this morning", "2026-03-02T06:30"),
    ],
)
def test_a_moment(told: str, moment: str) -> None:
    assert first_seen(told) == moment


def test_a_part_under_way_is_at_most_now() -> None:
    assert first_seen("jioni", datetime.fromisoformat("2026-03-02T16:10+03:00")) == "2026-03-02T16:10"
    assert first_seen("asubuhi", datetime.fromisoformat("2026-03-02T05:10+03:00")) == "2026-03-02T05:10"


def test_a_part_not_begun_is_yesterdays() -> None:
    assert first_seen("jioni", MORNING) == "2026-03-01T18:00"
    assert first_seen("asubuhi", datetime.fromisoformat("2026-03-02T02:59+03:00")) == "2026-03-01T06:00"


@pytest.mark.parametrize(
    ("told", "day"),
    [
        ("leo", "2026-03-02"), ("jana", "2026-03-01"), ("juzi", "2026-02-28"), ("ijumaa", "2026-02-27"),
        ("jumatatu", "2026-02-23"), ("tarehe 28", "2026-02-28"), ("tarehe 12", "2026-02-12"),
        ("12/2", "2026-02-12"), ("5/1/2026", "2026-01-05"), ("5.1.26", "2026-01-05"),
        ("2026-02-20", "2026-02-20"), ("20 Februari", "2026-02-20"), ("Feb 20", "2026-02-20"),
        ("on the 20th", "2026-02-20"), ("tarehe 5 mwezi wa kwanza", "2026-01-05"),
        ("siku 3 zilizopita", "2026-02-27"), ("wiki mbili zilizopita", "2026-02-16"),
        ("3 weeks ago", "2026-02-09"), ("yesterday", "2026-03-01"),
    ],
)  # fmt: skip
def test_a_day(told: str, day: str) -> None:
    assert served_on(told) == day


@pytest.mark.parametrize(
    ("told", "day"),
    [
        ("mwezi wa pili", "2026-02-15"), ("mwezi uliopita", "2026-02-15"), ("in January", "2026-01-15"),
        ("mwezi huu", "2026-03-02"), ("karibu tarehe 20", "2026-02-20"),
    ],
)  # fmt: skip
def test_a_month_or_a_neighbourhood_is_a_guess(told: str, day: str) -> None:
    read = entry(f"Neema kapandishwa {told}")
    assert (read["on"], read["about"]) == (day, True)


def test_an_event_to_come_is_not_recorded() -> None:
    assert problem("Pendo kapandishwa kesho")[0] == "in_future"
    assert problem("Pendo kapandishwa tarehe 15/8/2026")[0] == "in_future"
    assert problem("Neema atazaa kesho")[0] == "in_future"


def test_a_day_that_no_calendar_has_cannot_be() -> None:
    assert problem("Neema amezaa tarehe 40") == ("out_of_range", "on")


@pytest.mark.parametrize(
    ("told", "now", "session", "day"),
    [
        ("", "06:40", "morning", "2026-03-02"), ("", "11:00", "midday", "2026-03-02"),
        ("", "15:00", "evening", "2026-03-02"), ("jana", "06:40", "day", "2026-03-01"),
        ("jioni", "06:40", "evening", "2026-03-01"), ("asubuhi", "18:15", "morning", "2026-03-02"),
        ("last night", "06:40", "evening", "2026-03-01"), ("usiku", "21:30", "evening", "2026-03-02"),
        ("juzi asubuhi", "06:40", "morning", "2026-02-28"),
    ],
)  # fmt: skip
def test_the_session_of_a_milking(told: str, now: str, session: str, day: str) -> None:
    assert milking(told, datetime.fromisoformat(f"2026-03-02T{now}+03:00")) == (session, day)


def test_a_day_told_is_not_carried_into_a_telling_with_a_day_of_its_own() -> None:
    calving, milk = entries("Neema amezaa 28 Feb ndama jike, maziwa 6 leo")
    assert (calving["on"], milk["on"]) == ("2026-02-28", "2026-03-02")
    calving, first, second = entries("tarehe 28 Neema kazaa dume, leo Tausi 7, Zawadi 5")
    assert (calving["on"], first["on"], second["on"]) == ("2026-02-28", "2026-03-02", "2026-03-02")


def test_the_night_that_leads_to_today_began_yesterday() -> None:
    assert entries("Sumu ameibiwa usiku wa kuamkia leo")[0]["on"] == "2026-03-01"


@pytest.mark.parametrize(
    ("told", "on"),
    [
        ("mwaka jana Desemba", "2025-12-15"),
        ("Desemba mwaka jana", "2025-12-15"),
        ("in March last year", "2025-03-15"),
        ("mwezi wa tatu mwaka jana", "2025-03-15"),
        ("tarehe 5 Machi mwaka jana", "2025-03-05"),
        ("mwaka 2024", "2024-07-15"),
    ],
)
def test_a_year_may_stand_beside_its_month(told: str, on: str) -> None:
    assert served_on(told) == on


def test_last_year_is_not_yesterday() -> None:
    read = entry("Neema alizaa mwaka jana")
    assert (read["on"], read["about"]) == ("2025-03-15", True)
    assert entry("Neema alizaa 2024")["on"] == "2024-07-15"


def test_the_month_that_is_paid_for_is_kept() -> None:
    told = ("kituo kimelipa 180000 ya mwezi wa kwanza", "malipo ya mwezi wa 1 laki moja na elfu themanini")
    for text in told:
        assert (entry(text)["month"], entry(text)["amount"]["amount"]) == ("2026-01", "180000.00")
