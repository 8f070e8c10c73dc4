"""Where in its life an animal is."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.husbandry.herd import Status
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.one_day import DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.life import status
from tests.unit.husbandry.book import Book, day

ENTERED = NewAnimal(name="Neema", sex="female", on=day("2026-01-01"))


def status_of(book: Book, today: str = "2026-03-02", name: str = "Neema") -> Status:
    return status(book.animal(name), day(today))


@pytest.mark.parametrize("told", list(Status))
def test_an_animal_is_what_it_was_said_to_be_when_it_entered(told: Status) -> None:
    sex = "male" if told in (Status.BULL, Status.STEER) else "female"
    assert status_of(Book(replace(ENTERED, sex=sex, status=told.value))) is told


@pytest.mark.parametrize(
    ("born", "expected"),
    [
        (None, Status.MILKING),  # a cow, with nothing told
        ("2021-05-01", Status.MILKING),
        ("2024-01-01", Status.MILKING),  # two years old when she entered
        ("2024-01-02", Status.HEIFER),
        ("2025-07-02", Status.HEIFER),  # eight months old today
        ("2025-07-03", Status.CALF),
    ],
)
def test_without_a_word_on_her_state_her_age_tells(born: str | None, expected: Status) -> None:
    assert status_of(Book(replace(ENTERED, born=None if born is None else day(born)))) is expected


def test_a_male_without_a_word_on_his_state_is_a_bull_once_he_is_no_calf() -> None:
    assert status_of(Book(replace(ENTERED, sex="male"))) is Status.BULL
    assert status_of(Book(replace(ENTERED, sex="male", born=day("2025-12-01")))) is Status.CALF


def test_a_calf_is_one_until_it_is_weaned_or_eight_months_old() -> None:
    """Born 10 Feb, it is eight months old on 10 Oct; computed."""
    book = Book(replace(ENTERED, born=day("2026-02-10"), on=day("2026-02-10"), status="calf"))
    assert status_of(book, "2026-10-09") is Status.CALF
    assert status_of(book, "2026-10-10") is Status.HEIFER
    book.tell(Weaning(animal="Neema", on=day("2026-05-05")))
    assert status_of(book, "2026-05-06") is Status.HEIFER


def test_a_calf_entered_without_its_birth_grows_up_from_the_day_it_entered() -> None:
    book = Book(replace(ENTERED, status="calf"))
    assert status_of(book, "2026-08-31") is Status.CALF
    assert status_of(book, "2026-09-01") is Status.HEIFER


def test_a_heifer_is_in_calf_once_found_so_and_milking_once_she_has_calved() -> None:
    book = Book(replace(ENTERED, status="heifer"))
    book.tell(Service(animal="Neema", on=day("2026-01-05")))
    assert status_of(book) is Status.HEIFER
    book.tell(PregnancyCheck(animal="Neema", on=day("2026-03-10"), result="pregnant"))
    assert status_of(book) is Status.IN_CALF_HEIFER
    book.tell(Calving(animal="Neema", on=day("2026-10-12")))
    assert status_of(book) is Status.MILKING


def test_a_cow_is_dry_from_drying_off_to_her_calving() -> None:
    book = Book(replace(ENTERED, status="milking"), DryingOff(animal="Neema", on=day("2026-02-01")))
    assert status_of(book) is Status.DRY
    book.tell(Calving(animal="Neema", on=day("2026-03-20")))
    assert status_of(book) is Status.MILKING


def test_as_she_is_said_to_be_when_she_enters_goes_over_what_was_told_of_before() -> None:
    book = Book(replace(ENTERED, status="dry"), Calving(animal="Neema", on=day("2025-04-01")))
    assert status_of(book) is Status.DRY
    book = Book(replace(ENTERED, status="milking"), DryingOff(animal="Neema", on=day("2025-04-01")))
    assert status_of(book) is Status.MILKING
    book = Book(replace(ENTERED, status="in_calf_heifer"), Calving(animal="Neema", on=day("2025-04-01")))
    assert status_of(book) is Status.MILKING
    assert not book.animal("Neema").in_calf
