"""A bull that runs with the herd, the afterbirth, and twins, told entry by entry."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.forms import Calf
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import BullLeft, Service
from tests.unit.husbandry.book import Book, at, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-01-01"))
RUNS = Service(animal="Neema", on=day("2026-05-03"), method="bull", running=True)
LEFT = BullLeft(animals=("*",), on=day("2026-06-12"))

# --- a bull that runs with her -----------------------------------------------------------------------


def test_a_bull_that_ran_with_her_gives_a_span_of_calvings_and_a_check_sixty_days_after_he_left() -> None:
    """282 d of gestation from his first and last day, -10 and +13 d; check at +60 d; computed."""
    tasks = Book(COW, RUNS, LEFT).tasks("2026-06-12 08:00", "Neema")
    assert tasks["pregnancy_check"] == ("2026-08-11", "2026-09-10")
    assert tasks["dry_off"] == ("2026-12-11", "2026-12-25")
    assert tasks["steam_up"] == ("2027-01-19", "2027-03-21")
    assert tasks["calving"] == ("2027-01-30", "2027-04-03")
    assert "return_heat" not in tasks  # he sees to the next heat himself


def test_told_in_the_other_order_it_is_the_same() -> None:
    assert Book(COW, LEFT, RUNS).tasks("2026-06-12 08:00", "Neema") == Book(COW, RUNS, LEFT).tasks(
        "2026-06-12 08:00", "Neema"
    )


def test_as_long_as_his_going_is_not_told_he_is_taken_to_stay_three_cycles() -> None:
    """63 d; common practice, no source."""
    tasks = Book(COW, RUNS).tasks("2026-05-03 08:00", "Neema")
    assert tasks["pregnancy_check"] == ("2026-09-03", "2026-10-03")
    assert tasks["calving"] == ("2027-01-30", "2027-04-26")


def test_a_heat_while_he_is_with_her_ends_no_plan_and_asks_for_no_straw() -> None:
    seen = Heat(animal="Neema", first_seen=at("2026-06-01 07:00"))
    tasks = Book(COW, RUNS, seen, LEFT).tasks("2026-06-12 08:00", "Neema")
    assert "serve" not in tasks
    assert tasks["calving"] == ("2027-01-30", "2027-04-03")


def test_a_heat_a_cycle_after_he_left_ends_his_plan() -> None:
    seen = Heat(animal="Neema", first_seen=at("2026-07-02 07:00"))
    tasks = Book(COW, RUNS, LEFT, seen).tasks("2026-07-02 08:00", "Neema")
    assert tasks.keys() == {"serve"}


def test_months_felt_at_the_check_narrow_the_span() -> None:
    """Three months of 30.4 d before 1 Sep 2026 is 2 Jun, within his time with her; computed."""
    felt = PregnancyCheck(animal="Neema", on=day("2026-09-01"), result="pregnant", months=Decimal(3))
    book = Book(COW, RUNS, LEFT, felt)
    assert book.animal("Neema").conceived_on == day("2026-06-02")


def test_months_felt_never_lie_outside_his_time_with_her() -> None:
    felt = PregnancyCheck(animal="Neema", on=day("2026-09-01"), result="pregnant", months=Decimal(7))
    assert Book(COW, RUNS, LEFT, felt).animal("Neema").conceived_on == day("2026-05-03")


def test_a_check_without_months_leaves_the_span() -> None:
    found = PregnancyCheck(animal="Neema", on=day("2026-09-01"), result="pregnant")
    tasks = Book(COW, RUNS, LEFT, found).tasks("2026-09-01 08:00", "Neema")
    assert tasks["calving"] == ("2027-01-30", "2027-04-03")


def test_his_going_changes_nothing_for_a_cow_served_by_straw() -> None:
    straw = Service(animal="Neema", on=day("2026-05-03"), method="ai")
    assert Book(COW, straw, LEFT).tasks("2026-06-12 08:00", "Neema") == Book(COW, straw).tasks(
        "2026-06-12 08:00", "Neema"
    )


# --- the afterbirth ----------------------------------------------------------------------------------

CALVED = Calving(animal="Neema", on=day("2026-03-01"), at=at("2026-03-01 06:00"), calves=(Calf(sex="male"),))


def test_the_afterbirth_is_asked_for_at_twelve_hours() -> None:
    """Calved 2026-03-01 06:00: asked 18:00 the same day; 24 h is 6:00 the next; computed."""
    tasks = Book(COW, CALVED).tasks("2026-03-01 07:00", "Neema")
    assert tasks["afterbirth"] == ("2026-03-01 18:00", "2026-03-02 18:00")


def test_of_a_calving_whose_hour_is_not_told_it_is_asked_for_the_next_morning() -> None:
    calved = Calving(animal="Neema", on=day("2026-03-01"))
    assert Book(COW, calved).tasks("2026-03-02 05:00", "Neema")["afterbirth"] == ("2026-03-02", "2026-03-02")


def test_once_it_is_out_it_is_asked_for_no_more() -> None:
    out = Done(task="afterbirth", animals=("Neema",), on=day("2026-03-01"))
    assert "afterbirth" not in Book(COW, CALVED, out).tasks("2026-03-01 12:00", "Neema")


# --- twins -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("sexes", "barren"),
    [(("female", "male"), [True, False]), (("female", "female"), [False, False]), (("male",), [False])],
)
def test_a_heifer_born_beside_a_bull_calf_is_known_as_one(sexes: tuple[str, ...], barren: list[bool]) -> None:
    """About 92 % of them are sterile (veterinary column; eXtension, verified)."""
    calving = Calving(animal="Neema", on=day("2026-03-01"), calves=tuple(Calf(sex=sex) for sex in sexes))
    book = Book(COW, calving)
    assert [a.twin_of_bull for a in book.farm.animals.values() if a.dam is not None] == barren
