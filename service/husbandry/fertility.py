"""
How a cow breeds: days open, services, the time from calf to calf against a year.

Definitions as in the texts; each figure has its source beside it (docs/trade/cycle.md has the others).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

from service.husbandry.breeds import gestation_days
from service.husbandry.cycle import SAME_HEAT_DAYS, expected_calving
from service.husbandry.herd import Animal, Told
from service.husbandry.intervals import DEFAULTS, Intervals
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.service import Service
from service.husbandry.life import is_cow

YEAR = 365
"""Days from calf to calf that are aimed at; up to 400 is good (common practice, no source)."""

REPEATS_FROM = 3
"""Services without a calf from which a cow is called a repeat breeder (standard definition; from memory)."""


def days_open(calved_on: date, conceived_on: date) -> int:
    """Days from a calving to the service that held."""
    return (conceived_on - calved_on).days


def calving_interval(calved: Collection[date]) -> int | None:
    """Days between the last two of the calvings; None of fewer."""
    last = sorted(calved)[-2:]
    return (last[1] - last[0]).days if len(last) == 2 else None


def conceive_by(calved_on: date, gestation: int, interval: int = YEAR) -> date:
    """The last day on which a service that holds gives the next calf *interval* days after the last."""
    return calved_on + timedelta(days=interval - gestation)


def heats_served(days: Iterable[date]) -> int:
    """Services on these days, those of one heat counted once (under five days apart; common practice)."""
    ordered = sorted(set(days))
    apart = sum((later - one).days > SAME_HEAT_DAYS for one, later in pairwise(ordered))
    return apart + 1 if ordered else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fertility:
    """
    Of one cow, or of a heifer that was served.

    ``open_days``: from the calving to conception, or so far; None: no calving is known. ``conceive_by``: for
    a calf a year; None once she is in calf. ``services``: of heats since the calving. ``interval``: between
    her last two calvings; ``next_interval``: to the calf that she carries. ``repeats``: a repeat breeder.
    """

    open_days: int | None
    conceive_by: date | None
    services: int
    interval: int | None
    next_interval: int | None
    repeats: bool


def fertility(
    animal: Animal, told: Sequence[Told], today: date, intervals: Intervals = DEFAULTS
) -> Fertility | None:
    """
    What her records say of her breeding *today*; None of one that was neither served nor has calved.

    Args:
        animal: As she is now.
        told: The farm's standing entries that plan.
    """
    hers = [one.entry for one in told if animal.id in one.animals]
    calved = {entry.on for entry in hers if isinstance(entry, Calving)}
    since = animal.calved_on or date.min
    services = heats_served(e.on for e in hers if isinstance(e, Service) and since < e.on <= today)
    if not services and not is_cow(animal):
        return None
    gestation = gestation_days(animal.breed, untold=intervals.gestation_days)
    return Fertility(
        open_days=_open_days(animal, today),
        conceive_by=None
        if animal.in_calf or animal.calved_on is None
        else conceive_by(animal.calved_on, gestation),
        services=services,
        interval=calving_interval(calved),
        next_interval=_next_interval(animal, intervals),
        repeats=not animal.in_calf and services - (animal.served is not None) >= REPEATS_FROM,
    )


def _open_days(animal: Animal, today: date) -> int | None:
    """In calf since a day not known: none."""
    until = animal.conceived_on if animal.in_calf else today
    if animal.calved_on is None or until is None or until < animal.calved_on:
        return None
    return days_open(animal.calved_on, until)


def _next_interval(animal: Animal, intervals: Intervals) -> int | None:
    expected = expected_calving(animal, intervals) if animal.in_calf else None
    if expected is None or animal.calved_on is None or expected.on <= animal.calved_on:
        return None
    return (expected.on - animal.calved_on).days
