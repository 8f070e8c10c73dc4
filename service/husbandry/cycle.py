"""
Heat, service, pregnancy and calving as dates.

Days are farm-local, moments aware in the farm's zone; both ends of a window belong to it. Where a
number comes from is said beside it in ``intervals.py`` and in docs/trade/cycle.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal

from service.husbandry.breeds import gestation_days
from service.husbandry.herd import Animal, Served
from service.husbandry.intervals import DEFAULTS, Intervals

SAME_HEAT_DAYS = 4
"""A heat so soon after a service is the one served. Under 5 d: same heat; common practice, no source."""

BLOOD_OF_SERVICE_DAYS = 3
"""Blood so soon after a service is of the heat served (1-3 d after heat; village-vet manual, verified)."""

SHORTEST_CYCLE_DAYS = DEFAULTS.return_from_days
"""A heat this long after a service shows that the service did not hold (eXtension, verified)."""

MONTH_OF_PREGNANCY_DAYS = Decimal("30.4")
"""Days that "a month gone" stands for (365 / 12; the contract's number)."""

MONTHS_DOUBT_DAYS = 45
"""Months told by feel may be a month and a half off the service; more, and it was another service."""

GESTATION_BOUNDS_DAYS = (260, 305)
"""Services so long before a calving can be the calf's. Range seen 262-296 (Knott 1932, verified), widened."""


@dataclass(frozen=True, slots=True)
class Days:
    """A window of whole days, both inside it."""

    first: date
    last: date


@dataclass(frozen=True, slots=True)
class Hours:
    """A window of moments, both inside it, with the best one."""

    first: datetime
    best: datetime
    last: datetime


@dataclass(frozen=True, slots=True)
class Expected:
    """
    When she should calve; ``about``: it follows from a guess. ``conceived``: what it is counted from.

    ``latest``: of a bull that ran with her, the calving of the last day he can have served her; else ``on``.
    """

    on: date
    conceived: date
    about: bool
    latest: date


def _days(start: date, first: int, last: int) -> Days:
    return Days(start + timedelta(first), start + timedelta(last))


def serve_window(first_seen: datetime, intervals: Intervals = DEFAULTS) -> Hours:
    """When to have a cow served whose heat was *first_seen* then."""
    return Hours(
        first_seen + timedelta(hours=intervals.serve_from_hours),
        first_seen + timedelta(hours=intervals.serve_best_hours),
        first_seen + timedelta(hours=intervals.serve_until_hours),
    )


def return_window(on: date, intervals: Intervals = DEFAULTS) -> Days:
    """When the next heat is to be looked for after a heat or service *on* that day."""
    return _days(on, intervals.return_from_days, intervals.return_until_days)


def return_after_blood(on: date, intervals: Intervals = DEFAULTS) -> Days:
    """When the next heat is to be looked for after blood seen *on* that day."""
    return _days(on, intervals.blood_from_days, intervals.blood_until_days)


def return_when_empty(on: date, intervals: Intervals = DEFAULTS) -> Days:
    """When heat is to be looked for in a cow found empty *on* that day: from then on, one cycle long."""
    return _days(on, 0, intervals.empty_until_days)


def check_window(served_on: date, intervals: Intervals = DEFAULTS) -> Days:
    """When a cow served *served_on* is to be checked for calf."""
    return _days(served_on, intervals.check_from_days, intervals.check_until_days)


def recheck_window(checked_on: date, intervals: Intervals = DEFAULTS) -> Days:
    """When she is to be checked again after a check that was not sure."""
    return _days(checked_on, intervals.recheck_from_days, intervals.recheck_until_days)


def conceived_before(on: date, months: Decimal) -> date:
    """The day of conception of a cow found so many *months* gone *on* that day."""
    days = (months * MONTH_OF_PREGNANCY_DAYS).to_integral_value(ROUND_HALF_UP)
    return on - timedelta(int(days))


def expected_calving(animal: Animal, intervals: Intervals = DEFAULTS) -> Expected | None:
    """
    When *animal* should calve, from the service that stands or from what a check has told.

    None if she is neither served nor in calf since a known time. Gestation by breed: see breeds.py.
    """
    conceived, about = animal.conceived_on, animal.conceived_about
    last = conceived
    if conceived is None and animal.served is not None:
        conceived, about, last = animal.served.on, animal.served.about, animal.served.last_on
    if conceived is None or last is None:
        return None
    days = timedelta(gestation_days(animal.breed, untold=intervals.gestation_days))
    return Expected(conceived + days, conceived, about, last + days)


def dry_off_window(expected: Expected, intervals: Intervals = DEFAULTS) -> Days:
    """When milking is to end before the calving."""
    return _days(expected.on, -intervals.dry_off_from_days, -intervals.dry_off_until_days)


def steam_up_window(expected: Expected, intervals: Intervals = DEFAULTS) -> Days:
    """When she gets more meal before the calving."""
    return Days(expected.on - timedelta(intervals.steam_up_from_days), expected.latest)


def calving_window(expected: Expected, intervals: Intervals = DEFAULTS) -> Days:
    """When to watch for the calving; wider where its day is a guess. The day after its last is overdue."""
    slack = intervals.guess_days if expected.about else 0
    return Days(
        expected.on - timedelta(intervals.calving_from_days + slack),
        expected.latest + timedelta(intervals.calving_until_days + slack),
    )


def heat_after_calving(calved_on: date, intervals: Intervals = DEFAULTS) -> Days:
    """When she should be seen in heat again after calving."""
    return _days(calved_on, intervals.heat_after_calving_from_days, intervals.heat_after_calving_until_days)


def can_be_of(served: Served, calved_on: date) -> bool:
    """Whether a calf born *calved_on* can be of the service (or of the bull that ran with her) *served*."""
    shortest, longest = GESTATION_BOUNDS_DAYS
    return (calved_on - served.last_on).days <= longest and (calved_on - served.on).days >= shortest
