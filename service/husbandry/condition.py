"""
Body condition, 1 (starved) to 5 (fat) in quarters: what each stage wants, and what a score means there.

Figures and sources: docs/trade/condition.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from enum import StrEnum

from service.husbandry.cycle import expected_calving
from service.husbandry.herd import Animal, Sex, Status
from service.husbandry.intervals import DEFAULTS
from service.husbandry.life import is_cow, is_dry, status

D = Decimal


class Stage(StrEnum):
    """Where in the round of a cow's year a score is given."""

    DRY_OFF = "dry_off"  # about to be dried off
    CALVING = "calving"  # dry, or a heifer in calf
    FRESH = "fresh"  # calved lately, not yet to be served
    SERVICE = "service"
    LATE = "late"  # in calf and milking, drying off still far
    HEIFER = "heifer"  # to be served


class Found(StrEnum):
    """What a score means at its stage."""

    THIN = "thin"
    GOOD = "good"
    FAT = "fat"


@dataclass(frozen=True, slots=True)
class Wanted:
    """Scores wanted, *low* to *high*; under *thin* and over *fat* something should be done."""

    low: Decimal
    high: Decimal
    thin: Decimal
    fat: Decimal


WANTED = {
    Stage.DRY_OFF: Wanted(D("3.25"), D("3.75"), D("3"), D("4")),
    Stage.CALVING: Wanted(D("3.25"), D("3.5"), D("3"), D("3.75")),
    Stage.FRESH: Wanted(D("2.5"), D("3"), D("2.5"), D("3.75")),
    Stage.SERVICE: Wanted(D("2.5"), D("3"), D("2.5"), D("3.75")),
    Stage.LATE: Wanted(D("3"), D("3.5"), D("2.5"), D("3.75")),
    Stage.HEIFER: Wanted(D("2.75"), D("3"), D("2.5"), D("3.5")),
}
"""
Penn State and Ontario (Parker 2002): dry-off 3.5, limits 3-4, 3.25-3.75 kept while dry, calving
3.25-3.5 with alarms under 3 and over 3.75; Garnsworthy 2010: service 2.5-3, under 2.5 heat comes late
(all verified). Late in milk and heifers from memory. Alarms where none is given: Byreline's own choice.
"""

DRY_OFF_NEAR_DAYS = 30
"""Days before drying off from which a score is measured by it; Byreline's own choice."""

FRESH_DAYS = DEFAULTS.heat_after_calving_from_days
"""Days after calving before she is to be served."""

FASTEST_LOSS = D(1)
"""A whole score lost after calving is a fault of feeding (Missouri G3170: 0.5-0.75 is usual; verified)."""

CALVING_SCORE_DAYS = 30
"""Days before calving from which a score stands for that at calving; Byreline's own choice."""


def stage(animal: Animal, on: date) -> Stage | None:
    """The stage of *animal* on a day; None of males and calves."""
    if animal.sex is Sex.MALE or status(animal, on) is Status.CALF:
        return None
    if not is_cow(animal):
        return Stage.CALVING if animal.in_calf else Stage.HEIFER
    if is_dry(animal):
        return Stage.CALVING
    if animal.in_calf:
        return Stage.DRY_OFF if _dries_soon(animal, on) else Stage.LATE
    calved = animal.calved_on
    fresh = calved is not None and on - calved < timedelta(days=FRESH_DAYS)
    return Stage.FRESH if fresh else Stage.SERVICE


def _dries_soon(animal: Animal, on: date) -> bool:
    expected = expected_calving(animal)
    if expected is None:
        return False
    return expected.on - on <= timedelta(days=DEFAULTS.dry_off_from_days + DRY_OFF_NEAR_DAYS)


def found(score: Decimal, at: Stage) -> Found:
    """What *score* means at that stage."""
    wanted = WANTED[at]
    if score < wanted.thin:
        return Found.THIN
    return Found.FAT if score > wanted.fat else Found.GOOD


def lost_too_much(animal: Animal) -> bool:
    """Whether she has lost a whole score or more since she calved."""
    before, now, calved = animal.condition_before, animal.condition, animal.calved_on
    if before is None or now is None or calved is None or animal.condition_before_on is None:
        return False
    if animal.condition_before_on < calved - timedelta(days=CALVING_SCORE_DAYS):
        return False
    return before - now >= FASTEST_LOSS
