"""The rules about calves, routine work, vaccination and holds, told entry by entry."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.forms import Calf
from service.husbandry.kinds.body import Girth
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Done, Setting
from service.husbandry.kinds.health import Deworming, Disinfection, Spraying, Treatment, Vaccination
from service.husbandry.kinds.herd_book import AnimalSale, Death, NewAnimal
from service.husbandry.kinds.one_day import Weaning
from service.husbandry.signs import DISEASES
from tests.unit.husbandry.book import Book, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-01-01"))
BULL = NewAnimal(name="Simba", sex="male", status="bull", on=day("2025-01-01"))


def calf_book(born: str) -> Book:
    return Book(COW, Calving(animal="Neema", on=day(born), calves=(Calf(sex="male"),)))


# --- calves ------------------------------------------------------------------------------------------


def test_a_calf_is_fed_step_by_step_and_weaned() -> None:
    """
    Starter at 7 d, young-stock feed at 91, heifer feed at 243; common practice, no source.

    Weaning at 12 weeks (Lukuyu & Gachuiri 2012, verified): born 2026-02-10, 2026-05-05; computed.
    """
    book = calf_book("2026-02-10")
    first = {"calf_feed": ("2026-02-17", "2026-03-03"), "weaning": ("2026-05-05", "2026-05-21")}
    assert book.tasks("2026-02-10 12:00", "Neema calf") == first
    second = book.tasks("2026-03-04 00:00", "Neema calf")
    assert second["calf_feed"] == ("2026-05-12", "2026-05-26")
    third = book.tasks("2026-05-27 00:00", "Neema calf")
    assert third == {"calf_feed": ("2026-10-11", "2026-10-25")}
    assert book.tasks("2026-10-26 00:00", "Neema calf") == {}


def test_a_step_told_done_gives_way_to_the_next() -> None:
    book = calf_book("2026-02-10")
    book.tell(Done(task="calf_feed", animals=("Neema calf",), on=day("2026-02-16")))
    assert book.tasks("2026-02-16 20:00", "Neema calf")["calf_feed"] == ("2026-05-12", "2026-05-26")


def test_a_calf_weaned_is_not_weaned_again() -> None:
    book = calf_book("2026-02-10")
    book.tell(Weaning(animal="Neema calf", on=day("2026-05-01")))
    assert book.tasks("2026-05-01 12:00", "Neema calf").keys() == {"calf_feed"}


def test_a_calf_of_unknown_age_is_left_alone() -> None:
    book = Book(NewAnimal(name="Pendo", sex="female", status="calf", on=day("2026-02-10")))
    assert book.tasks("2026-02-10 12:00", "Pendo") == {}


# --- routine -----------------------------------------------------------------------------------------


def test_routine_work_is_not_planned_before_the_farm_tells_of_it() -> None:
    assert Book(COW, BULL).plan("2026-03-02 12:00").tasks == ()


def test_ticks_are_washed_off_weekly_from_the_last_time() -> None:
    """Interval 7 d, Kenyan press interview; verified. From Monday 2026-03-02: 03-09; computed."""
    book = Book(COW, Spraying(on=day("2026-03-02")))
    assert book.tasks("2026-03-02 12:00") == {"spray": ("2026-03-09", None)}
    assert book.tasks("2026-05-02 12:00") == {"spray": ("2026-03-09", None)}
    book.tell(Spraying(on=day("2026-03-11")))
    assert book.tasks("2026-03-11 12:00") == {"spray": ("2026-03-18", None)}
    book.tell(Spraying(on=day("2026-03-05")))  # told late: the last one counts
    assert book.tasks("2026-03-11 12:00") == {"spray": ("2026-03-18", None)}


def test_the_shed_is_disinfected_weekly() -> None:
    """Weekly; common practice, no source."""
    book = Book(Disinfection(on=day("2026-03-02")))
    assert book.tasks("2026-03-02 12:00") == {"disinfect": ("2026-03-09", None)}


def test_a_farm_sets_how_often_it_sprays() -> None:
    every = Setting(task="spray", every_days=Decimal(14), on=day("2026-03-10"))
    assert Book(COW, every).tasks("2026-03-10 12:00") == {"spray": ("2026-03-24", None)}
    sprayed = Book(COW, Spraying(on=day("2026-03-08")), every)
    assert sprayed.tasks("2026-03-10 12:00") == {"spray": ("2026-03-22", None)}


@pytest.mark.parametrize(
    ("last", "due"),
    [  # adults every three months; common practice, no source
        ("2026-11-30", "2027-02-28"),
        ("2027-11-30", "2028-02-29"),
        ("2026-03-02", "2026-06-02"),
    ],
)
def test_adults_are_wormed_every_three_calendar_months(last: str, due: str) -> None:
    book = Book(COW, BULL, Deworming(animals=("Neema",), on=day(last)))
    assert book.tasks(f"{last} 12:00", "Neema") == {"deworm": (due, None)}
    assert book.tasks(f"{last} 12:00", "Simba") == {}


def test_under_six_months_of_age_they_are_wormed_every_six_weeks() -> None:
    """Monthly to 6-weekly for calves under 6 months; common practice, no source."""
    book = calf_book("2026-02-10")
    book.tell(Deworming(animals=("Neema calf",), on=day("2026-08-09")))
    assert book.tasks("2026-08-09 12:00", "Neema calf")["deworm"] == ("2026-09-20", None)
    book.tell(Deworming(animals=("Neema calf",), on=day("2026-08-10")))  # six months old
    assert book.tasks("2026-08-10 12:00", "Neema calf")["deworm"] == ("2026-11-10", None)


def test_a_calf_entered_without_its_birth_counts_as_young_for_six_months() -> None:
    book = Book(NewAnimal(name="Pendo", sex="female", status="calf", on=day("2026-02-10")))
    book.tell(Deworming(on=day("2026-03-01")))
    assert book.tasks("2026-03-01 12:00", "Pendo") == {"deworm": ("2026-04-12", None)}


def test_a_farm_sets_how_often_it_worms_and_then_every_animal_counts() -> None:
    book = Book(COW, BULL, Deworming(animals=("Neema",), on=day("2026-03-02")))
    book.tell(Setting(task="deworm", every_days=Decimal(60), on=day("2026-03-10")))
    assert book.tasks("2026-03-10 12:00", "Neema") == {"deworm": ("2026-05-01", None)}
    assert book.tasks("2026-03-10 12:00", "Simba") == {"deworm": ("2026-05-09", None)}


def test_animals_are_weighed_only_where_the_farm_set_how_often() -> None:
    book = Book(COW, BULL, Girth(animal="Neema", cm=Decimal(165), on=day("2026-03-02")))
    assert book.plan("2026-03-02 12:00").tasks == ()
    book.tell(Setting(task="weigh", every_days=Decimal(30), on=day("2026-03-10")))
    assert book.tasks("2026-03-10 12:00", "Neema") == {"weigh": ("2026-04-01", None)}
    assert book.tasks("2026-03-10 12:00", "Simba") == {"weigh": ("2026-04-09", None)}


# --- vaccination -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("disease", "last", "due"),
    [
        ("fmd", "2026-08-31", "2027-02-28"),  # every 6 months, Kenyan press and ministry plan; verified
        ("lsd", "2028-02-29", "2029-02-28"),  # yearly, Kenyan press 2022; verified
        ("anthrax", "2026-03-02", "2027-03-02"),  # yearly, East African veterinary forum; verified
        ("blackquarter", "2026-03-02", "2027-03-02"),  # the same
        ("cbpp", "2026-03-02", "2027-03-02"),  # the same
        ("rabies", "2026-03-02", "2027-03-02"),  # yearly; from memory
        ("rvf", "2026-03-02", "2027-03-02"),  # yearly; from memory
    ],
)
def test_a_vaccination_is_repeated(disease: str, last: str, due: str) -> None:
    book = Book(COW, Vaccination(animals=("Neema",), disease=disease, on=day(last)))
    assert book.tasks(f"{last} 12:00", "Neema") == {f"vaccinate {disease}": (due, None)}


@pytest.mark.parametrize("disease", ["ecf", "brucellosis"])
def test_some_vaccinations_are_once_for_life(disease: str) -> None:
    """East African veterinary forum table; verified."""
    book = Book(COW, Vaccination(animals=("Neema",), disease=disease, on=day("2026-03-02")))
    assert book.tasks("2026-03-02 12:00", "Neema") == {}


def test_there_is_one_vaccination_for_each_disease_and_animal() -> None:
    book = Book(COW, BULL)
    for disease in DISEASES:
        book.tell(Vaccination(animals=("*",), disease=disease, on=day("2026-03-02")))
    assert len(book.tasks("2026-03-02 12:00", "Neema")) == len(DISEASES) - 2
    assert len(book.plan("2026-03-02 12:00").tasks) == 2 * (len(DISEASES) - 2)


# --- holds -------------------------------------------------------------------------------------------


def treated(on: str, milk: int | None, meat: int | None, *animals: str) -> Treatment:
    return Treatment(
        animals=animals or ("Neema",),
        on=day(on),
        milk_hold_days=None if milk is None else Decimal(milk),
        meat_hold_days=None if meat is None else Decimal(meat),
    )


def test_a_hold_ends_with_the_first_day_of_sale() -> None:
    """Dose on 3 Mar at an hour not kept: 72 h end during the 6th, 28 d during the 31st; computed."""
    book = Book(COW, treated("2026-03-03", 3, 28))
    assert book.tasks("2026-03-03 12:00", "Neema") == {
        "milk_hold_end": ("2026-03-07", "2026-03-07"),
        "meat_hold_end": ("2026-04-01", "2026-04-01"),
    }
    assert book.tasks("2026-03-08 00:00", "Neema").keys() == {"meat_hold_end"}


def test_of_two_drugs_the_latest_end_is_told() -> None:
    book = Book(COW, treated("2026-03-03", 7, None), treated("2026-03-05", 3, 5))
    assert book.tasks("2026-03-05 12:00", "Neema") == {
        "milk_hold_end": ("2026-03-11", "2026-03-11"),
        "meat_hold_end": ("2026-03-11", "2026-03-11"),
    }


def test_no_hold_and_an_unknown_hold_plan_nothing() -> None:
    assert Book(COW, treated("2026-03-03", 0, None)).tasks("2026-03-03 12:00", "Neema") == {}


@pytest.mark.parametrize("kind", [Deworming, Spraying])
def test_worm_medicine_and_tick_wash_hold_milk_too(kind: type[Deworming | Spraying]) -> None:
    book = Book(COW, kind(on=day("2026-03-03"), milk_hold_days=Decimal(2)))
    assert book.tasks("2026-03-03 12:00", "Neema")["milk_hold_end"] == ("2026-03-06", "2026-03-06")


def test_nobody_waits_for_the_milk_of_a_bull_or_a_calf() -> None:
    book = calf_book("2026-02-10")
    book.tell(BULL)
    book.tell(treated("2026-03-03", 3, 5, "Simba", "Neema calf"))
    assert book.tasks("2026-03-03 12:00", "Simba").keys() == {"meat_hold_end"}
    assert "milk_hold_end" not in book.tasks("2026-03-03 12:00", "Neema calf")


# --- leaving -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "leaving", [Death(animal="Neema", on=day("2026-03-04")), AnimalSale(animal="Neema", on=day("2026-03-04"))]
)
def test_an_animal_that_left_has_no_tasks(leaving: Death | AnimalSale) -> None:
    book = Book(COW, treated("2026-03-03", 3, 28), Deworming(on=day("2026-03-03")))
    assert book.tasks("2026-03-04 12:00", "Neema")
    book.tell(leaving)
    assert book.tasks("2026-03-04 12:00", "Neema") == {}
