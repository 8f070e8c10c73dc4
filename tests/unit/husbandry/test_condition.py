"""Body condition: the stage, what it wants, and what a score means."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.condition import WANTED, Found, Stage, found, lost_too_much, stage
from service.husbandry.forms import Calf, Entry
from service.husbandry.herd import Animal
from service.husbandry.kinds.body import Condition
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.one_day import DryingOff
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from tests.unit.husbandry.book import Book, day

D = Decimal


def score(value: str, on: str) -> Condition:
    return Condition(animal="Neema", score=D(value), on=day(on))


def served(on: str) -> Service:
    return Service(animal="Neema", on=day(on))


def in_calf(on: str) -> PregnancyCheck:
    return PregnancyCheck(animal="Neema", on=day(on), result="pregnant")


def calved(on: str) -> Calving:
    return Calving(animal="Neema", on=day(on), calves=(Calf(sex="female"),))


def neema(*entries: Entry, status: str = "milking", sex: str = "female") -> Animal:
    new = NewAnimal(name="Neema", sex=sex, status=status, on=day("2025-01-01"))
    return Book(new, *entries).animal("Neema")


@pytest.mark.parametrize(
    ("entries", "status", "at"),
    [
        ((), "milking", Stage.SERVICE),
        ((), "dry", Stage.CALVING),
        ((), "heifer", Stage.HEIFER),
        ((), "in_calf_heifer", Stage.CALVING),
        ((calved("2026-02-01"),), "milking", Stage.FRESH),
        ((calved("2026-01-15"),), "milking", Stage.SERVICE),  # 46 days
        ((served("2025-11-01"), in_calf("2026-01-05")), "milking", Stage.LATE),
        ((served("2025-08-20"), in_calf("2025-11-05")), "milking", Stage.DRY_OFF),  # due 29 May: 88 days
        (
            (served("2025-08-20"), in_calf("2025-11-05"), DryingOff(animal="Neema", on=day("2026-02-28"))),
            "milking",
            Stage.CALVING,
        ),
    ],
)
def test_the_stage_follows_from_what_was_told(entries: tuple[Entry, ...], status: str, at: Stage) -> None:
    assert stage(neema(*entries, status=status), day("2026-03-02")) is at


def test_males_and_calves_have_no_stage() -> None:
    assert stage(neema(status="bull", sex="male"), day("2026-03-02")) is None
    assert stage(neema(status="calf"), day("2025-03-02")) is None


# Penn State; Ontario (Parker 2002); Garnsworthy 2010 (all verified); heifers from memory.
@pytest.mark.parametrize(
    ("at", "low", "high"),
    [
        (Stage.DRY_OFF, "3.25", "3.75"),
        (Stage.CALVING, "3.25", "3.5"),
        (Stage.SERVICE, "2.5", "3"),
        (Stage.HEIFER, "2.75", "3"),
        (Stage.LATE, "3", "3.5"),
    ],
)
def test_a_stage_wants_the_published_scores(at: Stage, low: str, high: str) -> None:
    assert (WANTED[at].low, WANTED[at].high) == (D(low), D(high))


@pytest.mark.parametrize(
    ("value", "at", "means"),
    [
        ("2.75", Stage.CALVING, Found.THIN),  # under 3.0 too thin (verified)
        ("3", Stage.CALVING, Found.GOOD),
        ("3.75", Stage.CALVING, Found.GOOD),
        ("4", Stage.CALVING, Found.FAT),  # over 3.75 too fat (verified)
        ("2.25", Stage.SERVICE, Found.THIN),  # under 2.5 delays heat (verified)
        ("2.5", Stage.SERVICE, Found.GOOD),
        ("2.75", Stage.DRY_OFF, Found.THIN),
        ("4.25", Stage.DRY_OFF, Found.FAT),
    ],
)
def test_a_score_is_judged_by_its_stage(value: str, at: Stage, means: Found) -> None:
    assert found(D(value), at) is means


def test_wanted_scores_lie_between_the_alarms() -> None:
    assert all(one.thin <= one.low < one.high <= one.fat for one in WANTED.values())


# Missouri G3170 (verified): 0.5-0.75 lost in the first weeks is usual, more than a score is a fault.
@pytest.mark.parametrize(("now", "fault"), [("2.75", False), ("2.5", True), ("2.25", True)])
def test_a_whole_score_lost_since_calving_is_a_fault(now: str, fault: bool) -> None:
    cow = neema(score("3.5", "2026-01-20"), calved("2026-02-01"), score(now, "2026-03-02"))
    assert lost_too_much(cow) is fault


def test_what_was_lost_before_she_calved_does_not_count() -> None:
    cow = neema(score("3.5", "2025-10-20"), calved("2026-02-01"), score("2.5", "2026-03-02"))
    assert not lost_too_much(cow)


def test_a_second_score_of_the_day_is_a_correction() -> None:
    cow = neema(score("3", "2026-02-01"), score("2", "2026-03-02"), score("2.5", "2026-03-02"))
    assert (cow.condition, cow.condition_on) == (D("2.5"), day("2026-03-02"))
    assert (cow.condition_before, cow.condition_before_on) == (D(3), day("2026-02-01"))
