"""A cow's lactation from what was told of her milkings: what she gave, what is to come, its shape. Litres."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from service.husbandry.daily_milk import DayMilk, daily, shares, usual_sessions, whole_day
from service.husbandry.herd import Animal, Status
from service.husbandry.kinds.milk import Milk
from service.husbandry.lactation import Level, kg_of_litres, shape
from service.husbandry.projection import Projected, project
from service.husbandry.units import litres_of_kg
from service.husbandry.wood import Peak
from service.husbandry.yield_expected import MOST

FEWEST_TESTS, FIRST_DAY, LONGEST_GAP = 3, 30, 75
"""
A yield is told from so many recorded days on, from that day after calving on, and with no longer time without
a record (75 days: the recording standard's; verified); the others are Byreline's own choice.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lactation:
    """
    ``litres`` in ``days`` days since ``calved_on``; ``whole``, give or take ``error``: by day 305, or by
    drying off. ``shape``: the peak (day and litres of it), or the level, where the records tell it.
    """

    calved_on: date
    days: int
    litres: Decimal
    whole: Decimal
    error: Decimal
    shape: Peak | Level | None


def whole_days(days: Sequence[DayMilk]) -> tuple[tuple[date, Decimal], ...]:
    """The *days* (oldest first) with the litres of each, made up where a usual milking was not told."""
    found = []
    for place, day in enumerate(days):
        before = days[max(place - MOST, 0) : place + 1]
        usual = usual_sessions(before)
        litres = whole_day(day, usual, shares(before, usual))
        found.append((day.on, day.litres if litres is None else litres))
    return tuple(found)


def lactation_so_far(animal: Animal, milkings: Sequence[Milk]) -> Lactation | None:
    """
    The lactation since her last calving; None where the calving is not known or too little was told.

    Args:
        animal: As she is now.
        milkings: Hers since then, in the order of telling.
    """
    calved = animal.calved_on
    if calved is None:
        return None
    days = [(on, litres) for on, litres in whole_days(daily(milkings)) if on > calved]
    tests = [(on, kg_of_litres(litres)) for on, litres in days]
    found = project(tests, calved, calvings=_calvings(animal), dried_on=_dried(animal, calved))
    if found is None or not _is_enough(found):
        return None
    return Lactation(
        calved_on=calved,
        days=found.to_date.days,
        litres=_litres(found.to_date.kg),
        whole=_litres(found.kg),
        error=_litres(found.error_kg),
        shape=shape([((on - calved).days, float(litres)) for on, litres in days]),
    )


def _calvings(animal: Animal) -> int | None:
    """Hers, this one counted; None of one that came as a grown cow."""
    return None if animal.told_status in (Status.MILKING, Status.DRY) else animal.calvings


def _dried(animal: Animal, calved: date) -> date | None:
    dried = animal.dried_on
    return dried if dried is not None and dried > calved else None


def _is_enough(found: Projected) -> bool:
    given = found.to_date
    return given.tests >= FEWEST_TESTS and given.days >= FIRST_DAY and given.longest <= LONGEST_GAP


def _litres(kg: Decimal) -> Decimal:
    return litres_of_kg(kg).quantize(Decimal(1), ROUND_HALF_UP)
