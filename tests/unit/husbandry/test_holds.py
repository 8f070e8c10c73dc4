"""Holds of milk and meat."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal

import pytest

from service.husbandry.holds import (
    LONGEST_DAYS,
    WORMS_LONGEST_DAYS,
    Hold,
    Milking,
    drug_hold,
    first_milking,
    first_sale,
    hold_end,
    lifts,
    meat_hold,
    milk_hold,
)
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.health import Deworming, Spraying, Treatment, Vaccination
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.one_day import DryingOff
from tests.unit.husbandry.book import Book, at, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-01-01"))
UNKNOWN = Hold(None)


def drug(on: str, milk: str | int | None = None, meat: int | None = None, **more: object) -> Treatment:
    return Treatment(
        animals=("Neema",),
        on=day(on),
        milk_hold_days=None if milk is None else Decimal(milk),
        meat_hold_days=None if meat is None else Decimal(meat),
        **more,  # type: ignore[arg-type]
    )


def held(book: Book, on: str, session: str | None = None) -> Hold | None:
    return milk_hold(book.animal("Neema"), day(on), session)


def morning(on: str) -> Hold:
    return Hold(Milking(day(on)))


def evening(on: str) -> Hold:
    return Hold(Milking(day(on), evening=True))


# --- the arithmetic ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("on", "days", "first"),
    [  # last dose 3 Mar at an hour not told: 72 h, 7 d and 28 d end during the 6th, 10th and 31st; computed
        ("2026-03-03", "3", "2026-03-07"),
        ("2026-03-03", "7", "2026-03-11"),
        ("2026-03-03", "28", "2026-04-01"),
        ("2026-03-03", "2.5", "2026-03-07"),  # a part of a day counts whole
        ("2028-02-28", "1", "2028-03-01"),  # over the leap day
    ],
)
def test_the_day_of_the_dose_counts_whole(on: str, days: str, first: str) -> None:
    assert first_sale(day(on), Decimal(days)) == day(first)
    assert hold_end(day(on), None, Decimal(days)) == Milking(day(first))


def test_no_hold_on_the_label_and_no_label_told_have_no_end() -> None:
    for days in (Decimal(0), None):
        assert first_sale(day("2026-03-03"), days) is None
        assert hold_end(day("2026-03-03"), at("2026-03-03 18:00"), days) is None


@pytest.mark.parametrize(
    ("dose", "days", "first"),
    [  # the trade sheet's check values, computed: the clock starts at the hour of the last dose
        ("2026-03-03 18:00", 3, Milking(day("2026-03-06"), evening=True)),
        ("2026-03-03 18:00", 7, Milking(day("2026-03-10"), evening=True)),
        ("2026-03-03 18:00", 28, Milking(day("2026-03-31"), evening=True)),
        ("2026-03-05 06:00", 3, Milking(day("2026-03-08"))),
        ("2026-03-03 18:01", 3, Milking(day("2026-03-07"))),
        ("2026-03-03 05:30", 3, Milking(day("2026-03-06"))),
    ],
)
def test_the_first_milking_at_or_after_the_end_may_be_sold(dose: str, days: int, first: Milking) -> None:
    assert hold_end(day(dose[:10]), at(dose), Decimal(days)) == first


def test_a_morning_milking_is_before_the_evening_one_of_its_day() -> None:
    assert first_milking(at("2026-03-06 06:00")) < first_milking(at("2026-03-06 06:01"))
    assert first_milking(at("2026-03-06 18:00")) < first_milking(at("2026-03-06 18:01"))


def test_five_milkings_are_thrown_away_after_an_evening_dose_of_72_hours() -> None:
    """The trade sheet, computed: dose just after the milking of 3 March 18:00; 4, 5 and the morning of 6."""
    book = Book(COW, drug("2026-03-03", 3, last_dose=at("2026-03-03 18:00")))
    milkings = [
        (day("2026-03-04") + timedelta(days), session)
        for days in range(4)
        for session in ("morning", "evening")
    ]
    thrown = [one for one in milkings if milk_hold(book.animal("Neema"), *one) is not None]
    assert thrown == milkings[:5]


# --- whose milk, on which day ------------------------------------------------------------------------


def test_milk_of_before_the_drug_is_free_however_late_it_is_told() -> None:
    book = Book(COW, drug("2026-03-03", 4))
    assert held(book, "2026-03-02") is None
    assert held(book, "2026-03-03") == morning("2026-03-08")
    assert held(book, "2026-03-07", "evening") == morning("2026-03-08")
    assert held(book, "2026-03-08") is None


def test_the_morning_before_an_evening_dose_is_free() -> None:
    book = Book(COW, drug("2026-03-03", 3, last_dose=at("2026-03-03 18:00")))
    assert held(book, "2026-03-03", "morning") is None
    assert held(book, "2026-03-03", "evening") == evening("2026-03-06")
    assert held(book, "2026-03-03", "day") == evening("2026-03-06")
    assert held(book, "2026-03-06", "morning") == evening("2026-03-06")
    assert held(book, "2026-03-06") == evening("2026-03-06")  # a sum of the day has the morning's in it
    assert held(book, "2026-03-06", "evening") is None


def test_a_course_holds_from_its_first_day_to_its_last_dose_and_the_label() -> None:
    book = Book(COW, drug("2026-03-01", 3, last_dose=at("2026-03-03 18:00")))
    assert held(book, "2026-03-01", "morning") == evening("2026-03-06")


def test_of_several_drugs_the_latest_end_counts() -> None:
    book = Book(COW, drug("2026-03-03", 7, product="a"), drug("2026-03-05", 3, product="b"))
    assert held(book, "2026-03-06") == morning("2026-03-11")
    book.tell(drug("2026-03-08", 3, product="b"))
    assert book.animal("Neema").milk_held_until == day("2026-03-12")


# --- a label that is not told ------------------------------------------------------------------------


def test_a_drug_whose_label_is_not_told_holds_until_it_is() -> None:
    book = Book(COW, drug("2026-03-03"))
    for on in ("2026-03-03", "2026-03-20", "2026-09-01"):
        assert held(book, on) == UNKNOWN
    animal = book.animal("Neema")
    assert animal.milk_held_until is None
    assert animal.milk_hold_unknown_since == animal.meat_hold_unknown_since == day("2026-03-03")
    assert held(book, str(day("2026-03-03") + timedelta(LONGEST_DAYS + 1))) is None


def test_none_on_the_label_is_not_unknown() -> None:
    book = Book(COW, drug("2026-03-03", 0, 0))
    assert held(book, "2026-03-03") is None
    assert meat_hold(book.animal("Neema"), day("2026-03-03")) is None


def test_a_new_dose_of_the_same_drug_starts_the_known_hold_again() -> None:
    """Second dose 5 March 06:00 moves 72 h to 8 March 06:00 (the trade sheet, computed)."""
    first = drug("2026-03-03", 3, product="Penicillin", last_dose=at("2026-03-03 18:00"))
    again = drug("2026-03-05", product="penicillin", last_dose=at("2026-03-05 06:00"))
    assert held(Book(COW, first, again), "2026-03-06") == morning("2026-03-08")


def test_a_dose_told_without_its_name_while_a_hold_runs_is_of_that_drug() -> None:
    assert held(Book(COW, drug("2026-03-03", 3, product="a"), drug("2026-03-05")), "2026-03-06") == (
        morning("2026-03-09")
    )
    assert held(Book(COW, drug("2026-03-03", 3, product="a"), drug("2026-03-20")), "2026-03-21") == UNKNOWN


def test_another_drug_whose_label_is_not_told_holds_beside_a_known_one() -> None:
    book = Book(COW, drug("2026-03-03", 3, product="a"), drug("2026-03-04", product="b"))
    assert held(book, "2026-03-05") == UNKNOWN
    assert book.animal("Neema").milk_held_until == day("2026-03-07")


def test_a_label_told_with_a_later_dose_is_the_earlier_ones_too() -> None:
    book = Book(COW, drug("2026-03-03", product="a"), drug("2026-03-04", 4, product="a"))
    assert held(book, "2026-03-05") == morning("2026-03-09")
    assert held(book, "2026-03-09") is None


# --- worm medicine, tick wash, vaccination -----------------------------------------------------------


def test_worm_medicine_of_a_cow_in_milk_holds_until_its_label_is_told() -> None:
    book = Book(COW, Deworming(on=day("2026-03-03")))
    assert held(book, "2026-03-04") == UNKNOWN
    assert held(book, str(day("2026-03-03") + timedelta(WORMS_LONGEST_DAYS))) == UNKNOWN
    assert held(book, str(day("2026-03-03") + timedelta(WORMS_LONGEST_DAYS + 1))) is None
    assert meat_hold(book.animal("Neema"), day("2026-03-04")) is None


def test_worm_medicine_of_a_dry_cow_waits_for_no_label() -> None:
    book = Book(COW, DryingOff(animal="Neema", on=day("2026-03-01")), Deworming(on=day("2026-03-03")))
    assert held(book, "2026-03-04") is None


@pytest.mark.parametrize("kind", [Spraying, Vaccination])
def test_tick_wash_and_vaccine_hold_what_their_label_is_told_to_hold(kind: type) -> None:
    more = {"disease": "fmd"} if kind is Vaccination else {}
    silent = kind(animals=("Neema",), on=day("2026-03-03"), **more)
    assert held(Book(COW, silent), "2026-03-03") is None
    told = kind(animals=("Neema",), on=day("2026-03-03"), milk_hold_days=Decimal(2), **more)
    assert held(Book(COW, told), "2026-03-04") == morning("2026-03-06")


# --- drying off and calving --------------------------------------------------------------------------


def test_a_dry_cow_drug_holds_from_the_dose_and_again_from_the_calving() -> None:
    book = Book(COW, drug("2026-03-01", 30, dry_cow=True))
    assert book.tasks("2026-03-01 12:00", "Neema").keys() == {"milk_hold_end"}
    book.tell(DryingOff(animal="Neema", on=day("2026-03-01")))
    assert "milk_hold_end" not in book.tasks("2026-03-01 12:00", "Neema")
    assert book.animal("Neema").milk_held_until == day("2026-04-01")
    book.tell(Calving(animal="Neema", on=day("2026-05-01")))
    assert book.animal("Neema").milk_held_until == day("2026-06-01")
    assert held(book, "2026-05-10") == morning("2026-06-01")
    assert book.tasks("2026-05-01 12:00", "Neema")["milk_hold_end"] == ("2026-06-01", "2026-06-01")
    book.tell(Calving(animal="Neema", on=day("2027-05-01")))
    assert held(book, "2027-05-10") is None


def test_the_first_milk_after_a_calving_is_the_calfs() -> None:
    """Colostrum days 1 to 4 (Lukuyu & Gachuiri 2012, verified): calved 10 February, day 4 is the 14th."""
    book = Book(COW, Calving(animal="Neema", on=day("2026-02-10")))
    assert held(book, "2026-02-14") == Hold(Milking(day("2026-02-15")), drug=False)
    assert held(book, "2026-02-15") is None
    assert drug_hold(book.animal("Neema"), day("2026-02-11")) is None
    assert "milk_hold_end" not in book.tasks("2026-02-10 12:00", "Neema")


# --- meat, lifting -----------------------------------------------------------------------------------


def test_meat_is_held_by_its_own_days() -> None:
    book = Book(COW, drug("2026-03-03", 3, 28))
    animal = book.animal("Neema")
    assert meat_hold(animal, day("2026-03-31")) == morning("2026-04-01")
    assert meat_hold(animal, day("2026-04-01")) is None
    assert meat_hold(animal, day("2026-03-02")) is None


@pytest.mark.parametrize(
    ("after", "lifted"),
    [
        (None, True),
        ((), True),
        ((drug("2026-03-03", 3),), True),
        ((drug("2026-03-03", 4),), False),
        ((drug("2026-03-03", 9),), False),
        ((drug("2026-03-03"),), False),
    ],
)
def test_a_hold_is_lifted_where_milk_could_be_sold_sooner(
    after: tuple[Treatment, ...] | None, lifted: bool
) -> None:
    before = Book(COW, drug("2026-03-03", 4)).animal("Neema")
    then = None if after is None else Book(COW, *after).animal("Neema")
    assert lifts(before, then, day("2026-03-04")) is lifted
    assert lifts(before, then, day("2026-03-08")) is False


# --- the order of telling ----------------------------------------------------------------------------


def test_the_hour_of_the_last_dose_moves_the_task() -> None:
    book = Book(COW, drug("2026-03-03", 3, 28, last_dose=at("2026-03-03 18:00")))
    assert book.tasks("2026-03-03 19:00", "Neema") == {
        "milk_hold_end": ("2026-03-06", "2026-03-06"),
        "meat_hold_end": ("2026-03-31", "2026-03-31"),
    }


def test_the_order_in_which_doses_are_told_does_not_matter() -> None:
    doses = [
        drug("2026-03-01", product="a"),
        drug("2026-03-03", 4, product="a"),
        drug("2026-03-05", product="b"),
        drug("2026-03-06", 2),
    ]
    farms = [Book(COW, *some).animal("Neema") for some in (doses, doses[::-1], doses[2:] + doses[:2])]
    assert farms[0] == farms[1] == farms[2]


def test_every_day_has_one_answer() -> None:
    """From the dose to the end held, before and after free: no day in between slips."""
    book = Book(COW, drug("2026-03-03", 4))
    days = [day("2026-03-01") + timedelta(n) for n in range(12)]
    free: list[date] = [on for on in days if milk_hold(book.animal("Neema"), on) is None]
    assert free == [on for on in days if on < day("2026-03-03") or on >= day("2026-03-08")]


def test_the_moment_of_a_milking_is_of_the_farms_own_clock() -> None:
    assert first_milking(datetime(2026, 3, 6, 15, 0, tzinfo=at("2026-03-06 00:00").tzinfo)).evening
