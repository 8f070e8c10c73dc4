"""Heat, service, pregnancy and calving as dates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from service.husbandry import cycle
from service.husbandry.cycle import Days, Expected
from service.husbandry.herd import Served
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from tests.unit.husbandry.book import Book, at, day


def days(first: str, last: str) -> Days:
    return Days(day(first), day(last))


@pytest.mark.parametrize(
    ("first_seen", "best", "last"),
    [  # computed; the AM-PM rule (Trimberger 1948, verified) says: same evening, or next morning
        ("2026-03-01 06:30", "2026-03-01 18:30", "2026-03-01 22:30"),
        ("2026-03-01 17:00", "2026-03-02 05:00", "2026-03-02 09:00"),
        ("2026-02-28 22:00", "2026-03-01 10:00", "2026-03-01 14:00"),
        ("2028-02-28 22:00", "2028-02-29 10:00", "2028-02-29 14:00"),
    ],
)
def test_she_is_served_about_twelve_hours_after_the_first_sign(first_seen: str, best: str, last: str) -> None:
    window = cycle.serve_window(at(first_seen))
    assert (window.best, window.last) == (at(best), at(last))
    assert window.first == at(first_seen) + timedelta(hours=6)


def test_seen_at_six_in_the_morning_she_is_served_at_six_in_the_evening() -> None:
    """About 12 h after the first sign; common practice, no source."""
    window = cycle.serve_window(at("2026-03-01 06:00"))
    assert window.best == at("2026-03-01 18:00")
    assert window.first < window.best < window.last


def test_the_next_heat_is_looked_for_from_the_18th_to_the_24th_day() -> None:
    """Cycle 18-24 d, eXtension; verified. Dates computed."""
    assert cycle.return_window(day("2026-03-01")) == days("2026-03-19", "2026-03-25")
    assert cycle.return_window(day("2027-05-24")) == days("2027-06-11", "2027-06-17")


def test_after_blood_the_next_heat_is_looked_for_a_few_days_sooner() -> None:
    """Blood 4 Mar: from 19 Mar at the earliest; common practice, no source."""
    assert cycle.return_after_blood(day("2026-03-04")) == days("2026-03-19", "2026-03-27")


def test_the_check_is_due_when_field_officers_ask_for_it() -> None:
    """Palpation 60-90 d; common practice, no source. Dates computed."""
    assert cycle.check_window(day("2026-03-01")) == days("2026-04-30", "2026-05-30")
    assert cycle.check_window(day("2027-05-24")) == days("2027-07-23", "2027-08-22")


@pytest.mark.parametrize(
    ("expected", "dry_off", "steam_up", "watch_from"),
    [  # the full plan of a service on 2026-03-01 and 2027-05-24 (leap), 279 d; computed
        ("2026-12-05", "2026-10-06", "2026-11-14", "2026-11-25"),
        ("2028-02-27", "2027-12-29", "2028-02-06", "2028-02-17"),
    ],
)
def test_what_goes_before_a_calving_counts_back_from_it(
    expected: str, dry_off: str, steam_up: str, watch_from: str
) -> None:
    calving = Expected(day(expected), day(expected) - timedelta(279), about=False, latest=day(expected))
    assert cycle.dry_off_window(calving).first == day(dry_off)
    assert cycle.dry_off_window(calving).last == day(dry_off) + timedelta(14)
    assert cycle.steam_up_window(calving) == days(steam_up, expected)
    assert cycle.calving_window(calving).first == day(watch_from)
    assert cycle.calving_window(calving).last == day(expected) + timedelta(13)


def test_the_watch_over_a_guessed_calving_is_wider_by_half_a_month_either_side() -> None:
    guessed = Expected(day("2026-12-05"), day("2026-03-01"), about=True, latest=day("2026-12-05"))
    assert cycle.calving_window(guessed) == days("2026-11-10", "2027-01-02")
    assert cycle.dry_off_window(guessed).first == day("2026-10-06")


def test_heat_is_to_be_seen_again_from_45_days_after_calving() -> None:
    """Voluntary waiting period 45-60 d, dairy texts; from memory. Date computed."""
    assert cycle.heat_after_calving(day("2026-01-15")).first == day("2026-03-01")


@pytest.mark.parametrize(
    ("months", "gone"),
    [("5", 152), ("3", 91), ("2.5", 76), ("9", 274), ("7", 213), ("0", 0)],  # 30.4 d each, rounded; computed
)
def test_months_of_pregnancy_are_of_30_4_days(months: str, gone: int) -> None:
    on = day("2026-03-02")
    assert cycle.conceived_before(on, Decimal(months)) == on - timedelta(gone)


def test_a_calf_is_of_a_service_only_if_a_gestation_lies_between() -> None:
    """Range seen 262-296 d, Knott 1932; verified."""
    calved = day("2026-12-05")
    for days in (262, 296):
        assert cycle.can_be_of(served(calved - timedelta(days)), calved)
    for days in (21, 320):
        assert not cycle.can_be_of(served(calved - timedelta(days)), calved)


def test_a_calf_can_be_of_a_bull_if_a_gestation_lies_between_it_and_any_day_of_his() -> None:
    calved = day("2026-12-05")
    ran = replace(served(calved - timedelta(330)), running=True)
    assert cycle.can_be_of(replace(ran, until=calved - timedelta(280)), calved)
    assert not cycle.can_be_of(replace(ran, until=calved - timedelta(320)), calved)


def served(on: date) -> Served:
    return Served(on, about=False, method=None, sire=None, technician=None)


def neema(breed: str | None = None) -> Book:
    return Book(NewAnimal(name="Neema", sex="female", breed=breed, on=day("2025-01-01")))


@pytest.mark.parametrize(
    ("served", "breed", "due"),
    [  # calendar arithmetic, computed; printed gestation charts disagree with it and with each other
        ("2026-01-01", "Jersey", "2026-10-07"), ("2026-01-01", "Friesian", "2026-10-08"),
        ("2026-01-01", None, "2026-10-10"), ("2026-01-01", "Boran", "2026-10-13"),
        ("2026-01-01", "Brown Swiss", "2026-10-18"),
        ("2026-02-28", "Ayrshire", "2026-12-04"), ("2026-02-28", None, "2026-12-07"),
        ("2026-02-28", "zebu", "2026-12-10"), ("2026-02-28", "Brown Swiss", "2026-12-15"),
        ("2026-07-01", "Jersey", "2027-04-06"), ("2026-07-01", "Friesian", "2027-04-07"),
        ("2026-07-01", None, "2027-04-09"), ("2026-07-01", "Sahiwal", "2027-04-12"),
        ("2026-12-31", "Friesian", "2027-10-07"), ("2026-12-31", None, "2027-10-09"),
        ("2027-06-01", "Ayrshire", "2028-03-06"), ("2027-06-01", "Boran", "2028-03-12"),
        ("2028-01-01", None, "2028-10-09"), ("2028-01-01", "Brown Swiss", "2028-10-17"),
        ("2028-02-29", "Jersey", "2028-12-04"), ("2028-02-29", None, "2028-12-07"),
        ("2026-03-01", "Friesian", "2026-12-06"),  # about 40 weeks; common practice, no source
    ],
)  # fmt: skip
def test_the_calving_is_the_service_and_the_gestation(served: str, breed: str | None, due: str) -> None:
    book = neema(breed)
    book.tell(Service(animal="Neema", on=day(served)))
    assert cycle.expected_calving(book.animal("Neema")) == Expected(
        day(due), day(served), about=False, latest=day(due)
    )


def test_without_a_service_the_months_told_stand_for_it_as_a_guess() -> None:
    book = neema()
    check = PregnancyCheck(animal="Neema", on=day("2026-03-02"), result="pregnant", months=Decimal(5))
    book.tell(check)
    due = day("2025-10-01") + timedelta(282)
    expected = Expected(due, day("2025-10-01"), about=True, latest=due)
    assert cycle.expected_calving(book.animal("Neema")) == expected


def test_with_nothing_to_count_from_there_is_no_expected_calving() -> None:
    book = neema()
    assert cycle.expected_calving(book.animal("Neema")) is None
    book.tell(PregnancyCheck(animal="Neema", on=day("2026-03-02"), result="pregnant"))
    assert book.animal("Neema").in_calf
    assert cycle.expected_calving(book.animal("Neema")) is None
