"""Replay: who is in the herd, under which names, and whom an entry is about."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.forms import Calf
from service.husbandry.herd import Sex, Status
from service.husbandry.kinds.body import Girth
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Contact, Done, Setting
from service.husbandry.kinds.health import Deworming, Spraying
from service.husbandry.kinds.herd_book import AnimalSale, Death, Naming, NewAnimal
from service.husbandry.kinds.service import Service
from service.husbandry.replay import herd_of, replay, working_names
from service.husbandry.units import Money
from tests.unit.husbandry.book import Book, day

NEEMA = NewAnimal(name="Neema", sex="female", born=day("2020-04-12"), status="milking", on=day("2026-01-01"))
TAUSI = NewAnimal(name="Tausi", sex="female", status="milking", on=day("2026-01-01"))
HEIFER_CALF, BULL_CALF = Calf(sex="female"), Calf(sex="male")


def names(book: Book) -> set[str]:
    return {animal.name for animal in book.farm.animals.values()}


def test_a_farm_that_told_nothing_has_nothing() -> None:
    assert replay([]).animals == {}


def test_a_new_animal_enters_as_told() -> None:
    animal = Book(NEEMA).animal("Neema")
    assert (animal.name, animal.sex, animal.born) == ("Neema", Sex.FEMALE, day("2020-04-12"))
    assert animal.present
    assert not animal.bought


def test_an_animal_answers_to_all_its_names_and_goes_by_the_last() -> None:
    book = Book(NEEMA, Naming(animal="Neema", name="Nuru", on=day("2026-02-01")))
    book.tell(Naming(animal="Nuru", name="Neema", on=day("2026-02-02")))
    assert book.animal("Neema").names == ("Neema", "Nuru")


def test_a_calf_is_an_animal_from_its_birth_with_its_dam_and_sire() -> None:
    book = Book(NEEMA, Service(animal="Neema", on=day("2026-01-05"), sire="Simba"))
    book.tell(Calving(animal="Neema", on=day("2026-10-14"), calves=(BULL_CALF,)))
    calf = book.animal("Neema calf")
    assert (calf.sex, calf.born, calf.sire) == (Sex.MALE, day("2026-10-14"), "Simba")
    assert calf.dam == book.ids["Neema"]
    assert calf.told_status is Status.CALF


def test_a_calf_born_too_soon_after_a_service_is_not_of_its_sire() -> None:
    book = Book(NEEMA, Service(animal="Neema", on=day("2026-01-05"), sire="Simba"))
    book.tell(Calving(animal="Neema", on=day("2026-03-14"), calves=(BULL_CALF,)))
    assert book.animal("Neema calf").sire is None


def test_a_calf_born_dead_is_no_animal() -> None:
    dead = Calf(sex="male", alive=False)
    book = Book(NEEMA, Calving(animal="Neema", on=day("2026-03-01"), calves=(dead, HEIFER_CALF)))
    assert names(book) == {"Neema", "Neema calf"}
    assert book.animal("Neema calf").sex is Sex.FEMALE


@pytest.mark.parametrize(
    ("dam", "calves", "taken", "expected"),
    [
        ("Neema", 1, [], ["Neema calf"]),
        ("Neema", 2, [], ["Neema calf", "Neema calf 2"]),
        ("Zawadi", 2, [], ["Zawadi calf", "Zawad calf 2"]),
        ("Mwanaidi Juu", 1, [], ["Mwanaid calf"]),
        ("Big Red Cow", 2, [], ["Big Red calf", "Big R calf 2"]),
        ("Bibi ya Juma", 2, [], ["Bibi ya calf", "Bibi calf 2"]),
        ("Neema", 1, ["NEEMA CALF", "Neema calf 2"], ["Neema calf 3"]),
    ],
)
def test_working_names_are_the_dams_cut_to_twelve_characters(
    dam: str, calves: int, taken: list[str], expected: list[str]
) -> None:
    made = working_names(dam, [Calf()] * calves, taken)
    assert list(made) == expected
    assert all(len(name) <= 12 for name in made)


def test_a_calf_named_at_birth_keeps_its_name_and_its_twin_gets_the_first_working_one() -> None:
    assert working_names("Neema", [Calf(name="Pendo"), Calf()], []) == ("Pendo", "Neema calf")


def test_once_a_calf_has_a_name_the_next_one_gets_the_working_name() -> None:
    book = Book(NEEMA, Calving(animal="Neema", on=day("2026-01-10"), calves=(HEIFER_CALF,)))
    first = book.ids["Neema calf"]
    book.tell(Naming(animal="Neema calf", name="Pendo", on=day("2026-02-01")))
    book.tell(Calving(animal="Neema", on=day("2027-01-20"), calves=(BULL_CALF,)))
    assert book.farm.animals[first].names == ("Pendo", "Neema calf")
    assert book.ids["Neema calf"] != first
    herd = {known.name: known for known in herd_of(book.farm, day("2027-02-01")).animals}
    assert herd["Pendo"].names == ("Pendo",)
    assert herd["Neema calf"].names == ("Neema calf",)


def test_a_second_calf_while_the_first_has_no_name_is_numbered() -> None:
    book = Book(NEEMA, Calving(animal="Neema", on=day("2026-01-10"), calves=(HEIFER_CALF,)))
    book.tell(Calving(animal="Neema", on=day("2027-01-20"), calves=(BULL_CALF,)))
    assert names(book) == {"Neema", "Neema calf", "Neema calf 2"}


def test_entries_about_an_animal_whose_entering_was_taken_back_are_passed_over() -> None:
    book = Book(NEEMA, TAUSI, Service(animal="Neema", on=day("2026-02-01")))
    book.tell(Calving(animal="Neema", on=day("2026-11-10"), calves=(HEIFER_CALF,)))
    book.tell(Girth(animal="Neema calf", cm=Decimal(80), on=day("2026-12-01")))
    book.told = book.told[1:]
    assert names(book) == {"Tausi"}


def test_all_are_those_that_were_there_that_day() -> None:
    book = Book(NEEMA, TAUSI, AnimalSale(animal="Tausi", on=day("2026-03-05")))
    bought = Money.of(900000, "TZS")
    book.tell(NewAnimal(name="Bahati", sex="female", price=bought, on=day("2026-03-10")))
    book.tell(NewAnimal(name="Pendo", sex="female", born=day("2026-03-10"), on=day("2026-03-10")))
    book.tell(NewAnimal(name="Zawadi", sex="female", on=day("2026-03-10")))  # only told of that day
    book.tell(Deworming(on=day("2026-03-08")))
    wormed = {a.name for a in book.farm.animals.values() if a.dewormed_on}
    assert wormed == {"Neema", "Zawadi"}


def test_an_animal_sold_or_dead_has_left_on_its_day_with_the_reason() -> None:
    book = Book(NEEMA, TAUSI, AnimalSale(animal="Tausi", on=day("2026-03-05")))
    book.tell(Death(animal="Neema", on=day("2026-03-06"), reason="sick"))
    assert (book.animal("Tausi").left_on, book.animal("Tausi").left_why) == (day("2026-03-05"), "sold")
    assert (book.animal("Neema").left_on, book.animal("Neema").left_why) == (day("2026-03-06"), "sick")
    assert herd_of(book.farm, day("2026-03-07")).animals == ()


def test_the_reader_knows_the_herd_as_it_is() -> None:
    book = Book(
        NEEMA, NewAnimal(name="Pendo", sex="female", dam="neema", status="calf", on=day("2026-01-01"))
    )
    neema, pendo = herd_of(book.farm, day("2026-03-02")).animals
    assert (neema.name, neema.status, neema.in_calf, neema.dam) == ("Neema", Status.MILKING, False, None)
    assert (pendo.name, pendo.status, pendo.dam) == ("Pendo", Status.CALF, "Neema")
    assert book.animal("Pendo").dam == neema_id(book)


def neema_id(book: Book) -> int:
    return book.ids["Neema"]


def test_a_dam_that_is_not_in_the_herd_is_kept_by_name() -> None:
    book = Book(NewAnimal(name="Pendo", sex="female", dam="Malaika", on=day("2026-01-01")))
    assert (book.animal("Pendo").dam, book.animal("Pendo").dam_name) == (None, "Malaika")


def test_the_farm_keeps_its_people_its_rules_and_its_herds_work() -> None:
    book = Book(
        Contact(role="vet", name="Juma", phone="+255600000001", on=day("2026-01-01")),
        Contact(role="vet", name="Asha", phone="+255600000002", on=day("2026-02-01")),
        Setting(task="spray", every_days=Decimal(14), on=day("2026-01-02")),
        Setting(hour=Decimal(18), on=day("2026-01-03")),
        Spraying(on=day("2026-02-05")),
        Spraying(on=day("2026-01-05")),
        Done(task="milk_record", animals=(), on=day("2026-02-06")),
    )
    farm = book.farm
    assert farm.people["vet"].name == "Asha"
    assert farm.settings == {"spray": 14, "hour": 18}
    assert farm.asked_on == {"spray": day("2026-01-02")}
    assert farm.sprayed_on == day("2026-02-05")
    assert farm.done == {"milk_record": day("2026-02-06")}


def test_work_done_without_a_record_is_kept_with_its_animals() -> None:
    book = Book(NEEMA, TAUSI, Done(task="return_heat", animals=("Tausi",), on=day("2026-02-06")))
    assert book.animal("Tausi").done == {"return_heat": day("2026-02-06")}
    assert book.animal("Neema").done == {}
    assert book.farm.done == {}
