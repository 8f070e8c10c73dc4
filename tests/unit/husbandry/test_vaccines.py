"""The vaccination calendar: who is vaccinated when, and who must not be."""

from __future__ import annotations

import pytest

from service.husbandry.forms import Calf
from service.husbandry.herd import Animal
from service.husbandry.intervals import DEFAULTS, Intervals
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.health import Illness, Recovery, Vaccination
from service.husbandry.kinds.herd_book import AnimalSale, NewAnimal
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.months import months_after
from service.husbandry.signs import DISEASES
from service.husbandry.vaccines import CALENDAR, Planned, Unfit, begun, planned, unfit, wanting
from tests.unit.husbandry.book import Book, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-06-01"))


def calf(
    name: str = "Asali", sex: str = "female", born: str | None = "2026-02-10", on: str = "2026-02-10"
) -> NewAnimal:
    return NewAnimal(name=name, sex=sex, status="calf", born=day(born) if born else None, on=day(on))


def told(disease: str, *names: str, on: str = "2026-03-02") -> Vaccination:
    return Vaccination(animals=names or ("Neema",), disease=disease, on=day(on))


def due(book: Book, name: str, disease: str, own: Intervals = DEFAULTS) -> tuple[str, str | None] | None:
    farm = book.farm
    found = planned(disease, book.animal(name), farm, own) if disease in begun(farm, own) else None
    return None if found is None else (str(found.first), None if found.last is None else str(found.last))


def test_every_disease_stands_in_the_calendar() -> None:
    assert set(CALENDAR) == set(DISEASES)


# --- brucellosis: heifers of 3 to 8 months, East African veterinary forum table; verified ----------------


def test_a_heifer_calf_is_vaccinated_once_from_three_to_eight_months() -> None:
    """Born 10 February 2026: 10 May .. 10 October 2026; computed."""
    assert due(Book(calf()), "Asali", "brucellosis") == ("2026-05-10", "2026-10-10")


def test_a_window_at_a_month_without_that_day_ends_with_the_month() -> None:
    """30 November 2025 + 3 months is 28 February 2026; computed."""
    book = Book(calf(born="2025-11-30", on="2025-11-30"))
    assert due(book, "Asali", "brucellosis") == ("2026-02-28", "2026-07-30")


@pytest.mark.parametrize("animal", [calf(sex="male"), calf(born=None)])
def test_no_window_without_the_sex_and_the_birth(animal: NewAnimal) -> None:
    assert due(Book(animal), "Asali", "brucellosis") is None


def test_once_vaccinated_there_is_no_other_time() -> None:
    assert due(Book(calf(), told("brucellosis", "Asali", on="2026-06-01")), "Asali", "brucellosis") is None


def test_a_cooperative_can_leave_it_to_the_farms() -> None:
    off = Intervals.of({"brucellosis_for_all": 0})
    assert due(Book(calf()), "Asali", "brucellosis", off) is None
    again = Book(COW, calf(), told("brucellosis"))
    assert due(again, "Asali", "brucellosis", off) == ("2026-05-10", "2026-10-10")


# --- beginning --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("disease", [d for d in DISEASES if d != "brucellosis"])
def test_what_was_never_told_of_does_not_begin_by_itself(disease: str) -> None:
    assert due(Book(COW, calf()), "Asali", disease) is None
    assert due(Book(COW, calf()), "Neema", disease) is None


@pytest.mark.parametrize(
    ("disease", "months"),
    [
        ("fmd", 4),  # from 3-4 months: Kenyan press; verified
        ("lsd", 6),  # from 4-6 months: Kenyan press 2022; verified
        ("anthrax", 3),  # from 3 months: East African veterinary forum; verified
        ("blackquarter", 3),  # the same
        ("cbpp", 6),  # 2 weeks there, many schedules 6 months; verified
        ("ecf", 1),  # from 1 month: the same; verified
        ("rabies", 3),  # from 3 months: texts; from memory
    ],
)
def test_once_told_of_it_goes_on_with_the_young_from_their_age_on(disease: str, months: int) -> None:
    book = Book(COW, calf(), told(disease, on="2026-02-20"))
    assert due(book, "Asali", disease) == (str(months_after(day("2026-02-10"), months)), None)


def test_a_herd_mate_of_age_comes_into_the_next_round() -> None:
    """Foot and mouth again after six months; Kenyan press and ministry plan; verified."""
    other = NewAnimal(name="Tausi", sex="female", status="dry", on=day("2025-06-01"))
    assert due(Book(COW, other, told("fmd")), "Tausi", "fmd") == ("2026-09-02", None)
    later = NewAnimal(name="Tausi", sex="female", status="dry", on=day("2026-10-01"))
    assert due(Book(COW, told("fmd"), later), "Tausi", "fmd") == ("2027-03-02", None)


def test_what_is_due_does_not_move_when_the_others_are_vaccinated_again() -> None:
    book = Book(COW, calf(), told("fmd", on="2026-02-20"))
    before = due(book, "Asali", "fmd")
    book.tell(told("fmd", on="2026-08-20"))
    assert due(book, "Asali", "fmd") == before == ("2026-06-10", None)


def test_what_one_that_has_left_was_given_still_counts_for_the_herd() -> None:
    sold = AnimalSale(animal="Neema", on=day("2026-03-01"))
    assert due(Book(COW, calf(), told("fmd", on="2026-02-20"), sold), "Asali", "fmd") == ("2026-06-10", None)


def test_anthrax_and_blackquarter_do_not_begin_after_three_years() -> None:
    """3 months to 3 years: East African veterinary forum table; verified. What was begun is repeated."""
    born = day("2022-01-01")
    old = NewAnimal(name="Tausi", sex="female", status="milking", born=born, on=day("2025-06-01"))
    for disease in ("anthrax", "blackquarter"):
        assert due(Book(COW, old, told(disease)), "Tausi", disease) is None
        assert due(Book(old, told(disease, "Tausi")), "Tausi", disease) == ("2027-03-02", None)


def test_once_for_life_is_for_the_young_not_for_one_that_came_grown() -> None:
    """East Coast fever from one month; forum table; verified. Whether a grown one had it, nobody told."""
    other = NewAnimal(name="Tausi", sex="female", status="dry", on=day("2025-06-01"))
    book = Book(COW, other, calf(), told("ecf", "Asali", on="2026-03-20"))
    assert due(book, "Tausi", "ecf") is None
    assert due(book, "Asali", "ecf") is None
    book.tell(calf(name="Zuri", born="2026-03-25", on="2026-03-25"))
    assert due(book, "Zuri", "ecf") == ("2026-04-25", None)


def test_a_live_vaccine_is_not_planned_for_one_in_calf_that_never_had_it() -> None:
    other = NewAnimal(name="Tausi", sex="female", status="in_calf_heifer", on=day("2025-06-01"))
    assert due(Book(COW, other, told("rvf")), "Tausi", "rvf") is None
    assert due(Book(COW, other, told("fmd")), "Tausi", "fmd") == ("2026-09-02", None)


def test_nor_is_it_repeated_for_one_that_had_it_before_and_is_now_in_calf() -> None:
    """Rift Valley fever live and not in pregnancy: texts, from memory. Due again once she has calved."""
    had = (told("rvf", on="2025-07-01"), told("fmd", on="2025-07-01"))
    book = Book(COW, *had, Service(animal="Neema", on=day("2026-01-10")))
    assert due(book, "Neema", "rvf") == ("2026-07-01", None)
    book.tell(PregnancyCheck(animal="Neema", on=day("2026-03-10"), result="pregnant"))
    assert due(book, "Neema", "rvf") is None
    assert due(book, "Neema", "fmd") == ("2026-01-01", None)
    book.tell(Calving(animal="Neema", on=day("2026-10-18"), calves=(Calf(sex="female"),)))
    assert due(book, "Neema", "rvf") == ("2026-07-01", None)


def test_a_cooperative_can_switch_a_disease_on_for_all_its_farms() -> None:
    on = Intervals.of({"fmd_for_all": 1, "fmd_from_months": 3})
    book = Book(COW, calf())
    assert due(book, "Asali", "fmd", on) == ("2026-05-10", None)
    assert due(book, "Neema", "fmd", on) == ("2025-06-01", None)


def test_a_cooperative_can_set_the_interval() -> None:
    own = Intervals.of({"fmd_months": 4})
    assert due(Book(COW, told("fmd")), "Neema", "fmd", own) == ("2026-07-02", None)


def test_of_a_plan_it_is_known_what_it_follows_from() -> None:
    book = Book(COW, calf(), told("fmd", on="2026-02-20"))
    assert planned("fmd", book.animal("Asali"), book.farm, DEFAULTS) == Planned(
        day("2026-06-10"), None, day("2026-02-10")
    )


# --- who must not have it -----------------------------------------------------------------------------------


def grown(**more: object) -> Animal:
    return Book(NewAnimal(name="Neema", on=day("2025-06-01"), **more)).animal("Neema")  # type: ignore[arg-type]


HEIFER = {"sex": "female", "status": "calf", "born": day("2025-10-02")}


@pytest.mark.parametrize(
    ("disease", "animal", "on", "why"),
    [
        ("brucellosis", grown(**{**HEIFER, "sex": "male"}), "2026-03-02", Unfit.SEX),
        ("brucellosis", grown(**HEIFER), "2026-01-01", Unfit.YOUNG),
        ("brucellosis", grown(**HEIFER), "2026-01-02", None),
        ("brucellosis", grown(**HEIFER), "2026-06-02", None),
        ("brucellosis", grown(**HEIFER), "2026-06-03", Unfit.OLD),
        ("brucellosis", grown(sex="female", status="milking"), "2026-03-02", Unfit.OLD),
        ("brucellosis", grown(sex="female", status="in_calf_heifer"), "2026-03-02", Unfit.OLD),
        ("ecf", grown(**HEIFER), "2025-11-01", Unfit.YOUNG),
        ("ecf", grown(**HEIFER), "2025-11-02", None),
        ("cbpp", grown(**HEIFER), "2025-10-15", Unfit.YOUNG),
        ("cbpp", grown(**HEIFER), "2025-10-16", None),
        ("fmd", grown(**HEIFER), "2026-01-01", Unfit.YOUNG),
        ("anthrax", grown(sex="female", status="milking", born=day("2018-01-01")), "2026-03-02", None),
        ("rvf", grown(sex="female", status="in_calf_heifer"), "2026-03-02", Unfit.IN_CALF),
        ("fmd", grown(sex="female", status="in_calf_heifer"), "2026-03-02", None),
        ("rvf", grown(sex="male", status="bull"), "2026-03-02", None),
    ],
)
def test_some_must_not_be_vaccinated(disease: str, animal: Animal, on: str, why: Unfit | None) -> None:
    """S19 3-8 months, ECF from 1 month, CBPP from 2 weeks: forum table; verified. RVF: from memory."""
    assert unfit(disease, animal, day(on)) is why


def test_a_vaccination_before_she_conceived_was_no_fault() -> None:
    book = Book(COW, Service(animal="Neema", on=day("2026-03-10")))
    book.tell(PregnancyCheck(animal="Neema", on=day("2026-05-10"), result="pregnant"))
    assert unfit("rvf", book.animal("Neema"), day("2026-03-02")) is None
    assert unfit("rvf", book.animal("Neema"), day("2026-05-11")) is Unfit.IN_CALF


def test_a_sick_one_waits_until_it_is_well() -> None:
    book = Book(COW, Illness(animal="Neema", on=day("2026-03-01"), signs=("fever",)))
    assert unfit("fmd", book.animal("Neema"), day("2026-03-02")) is Unfit.ILL
    book.tell(Recovery(animal="Neema", on=day("2026-03-05")))
    assert unfit("fmd", book.animal("Neema"), day("2026-03-06")) is None


def test_a_campaign_is_for_those_fit_on_its_day_and_not_vaccinated_for_life() -> None:
    book = Book(COW, calf(), calf(name="Zuri", sex="male"), told("ecf", "Zuri", on="2026-03-20"))
    herd, on = book.farm.animals.values(), day("2026-05-10")
    names = {
        disease: [animal.name for animal in herd if wanting(disease, animal, on, DEFAULTS)]
        for disease in ("brucellosis", "ecf", "fmd")
    }
    assert names == {"brucellosis": ["Asali"], "ecf": ["Neema", "Asali"], "fmd": ["Neema", "Asali", "Zuri"]}
