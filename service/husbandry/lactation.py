"""
The yield of a lactation from the days on which milk was recorded, and the shape of it.

The yield: the test-interval method of the recording standard (ICAR Guidelines, Section 2, Procedure 2;
Sargent et al. 1968). Records before the calving and after drying off do not count. Kilograms as Decimal;
a litre of milk weighs 1.03 kg. The shape: Wood's curve through the weeks' means, where there is a peak.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise
from math import exp, log
from statistics import fmean

from service.husbandry.units import MILK_KG_PER_LITRE
from service.husbandry.wood import Peak, Wood, fit, peak

STANDARD_DAYS = 305
"""Days of a lactation as the standard compares them."""

Test = tuple[date, Decimal]
"""A day's milk: the day, and the kilograms of it all."""


def kg_of_litres(litres: Decimal) -> Decimal:
    """Kilograms of *litres* of milk, rounded to 0.01 kg."""
    return (litres * MILK_KG_PER_LITRE).quantize(Decimal("0.01"), ROUND_HALF_UP)


# --- yield -----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Yield:
    """
    The *kg* (to 0.1) that were credited for *days* from calving on, by so many *tests*.

    ``longest``: days of the longest interval without a test; over some 75 the standard holds no more.
    """

    kg: Decimal
    days: int
    tests: int
    longest: int


def interval_yield(
    tests: Iterable[Test], calved_on: date, *, dried_on: date | None = None, until: date | None = None
) -> Yield | None:
    """
    What a cow gave from *calved_on* to day 305, to *dried_on* or to *until*, whichever comes first.

    Days between two tests are credited with the mean of both, those before the first with the first, those
    after the last with the last. Tests of one day count with their mean. Where day 305 lies between two tests
    it is credited by the straight line between them (the method of ICAR ends on a test or with the last
    interval; this is Byreline's own choice).

    Args:
        tests: In any order.
        until: Tests after that day are not known yet.

    Returns:
        None where no test counts.
    """
    last_day = min(day for day in (dried_on, until, date.max) if day is not None)
    by_day = _by_day(((on, kg) for on, kg in tests if on <= last_day), calved_on)
    end = min(STANDARD_DAYS, (last_day - calved_on).days)
    inside = {day: kg for day, kg in by_day.items() if day <= end}
    if not inside:
        return None
    points = _bounded(by_day, inside, end)
    credited = ((kg + after) / 2 * (later - day) for (day, kg), (later, after) in pairwise(points))
    total = sum(credited, Decimal(0))
    longest = max(later - day for (day, _), (later, _) in pairwise(points))
    return Yield(total.quantize(Decimal("0.1"), ROUND_HALF_UP), end, len(inside), longest)


def _by_day(tests: Iterable[Test], calved_on: date) -> Mapping[int, Decimal]:
    """Day after calving -> kilograms, the mean of its tests; in order."""
    found: dict[int, list[Decimal]] = {}
    for on, kg in tests:
        if on >= calved_on:
            found.setdefault((on - calved_on).days, []).append(kg)
    return {day: sum(found[day], Decimal(0)) / len(found[day]) for day in sorted(found)}


def _bounded(
    tests: Mapping[int, Decimal], inside: Mapping[int, Decimal], end: int
) -> Sequence[tuple[int, Decimal]]:
    """The tests *inside* the lactation with what stands at the calving and at its *end*."""
    first, last = min(inside), max(inside)
    after = next((day for day in tests if day > end), None)
    closing = inside[last]
    if after is not None:
        closing += (tests[after] - inside[last]) * (end - last) / (after - last)
    return [(0, inside[first]), *inside.items(), (end, closing)]


# --- shape -----------------------------------------------------------------------------------------

WEEK = 7

EARLY, LATE = 35, 120
"""A curve is drawn where records reach from at least week 5 to at least day 120; Byreline's own choice."""

SETTLED = 60
"""Days after calving from which the decline is measured, as in the published figures it is held against."""


@dataclass(frozen=True, slots=True)
class Level:
    """A lactation without a peak to tell of: the mean *milk* of a day over its records."""

    milk: float


def weekly(points: Iterable[tuple[int, float]]) -> Sequence[tuple[float, float]]:
    """The mean day and milk of each week; days in a row err together, so they tell hardly more."""
    weeks: dict[int, list[tuple[int, float]]] = {}
    for day, milk in points:
        weeks.setdefault(day // WEEK, []).append((day, milk))
    return [(fmean(d for d, _ in weeks[w]), fmean(m for _, m in weeks[w])) for w in sorted(weeks)]


def curve(points: Iterable[tuple[int, float]]) -> Wood | None:
    """Wood's curve through the weeks' means of (day after calving, milk); None of too few records."""
    means = [(day, milk) for day, milk in weekly(points) if 0 < day <= STANDARD_DAYS]
    if not means or means[0][0] > EARLY or means[-1][0] < LATE:
        return None
    return fit(means)


def shape(points: Sequence[tuple[int, float]]) -> Peak | Level | None:
    """The peak of (day after calving, milk), or that it is level, without a peak. None of too few records."""
    fitted = curve(points)
    if fitted is None:
        return None
    return peak(fitted) or Level(fmean(milk for _, milk in weekly(points)))


def monthly_change(points: Iterable[tuple[int, float]]) -> float | None:
    """
    The change of milk a month from day 60 on, of one (usual: -0.05); the slope of the weeks' logarithms.

    None of under three weeks, or of weeks that reach over less than 60 days.
    """
    late = [(day, log(milk)) for day, milk in weekly(points) if day >= SETTLED and milk > 0]
    if len(late) < 3 or late[-1][0] - late[0][0] < SETTLED:
        return None
    middle, mean = fmean(day for day, _ in late), fmean(value for _, value in late)
    slope = sum((day - middle) * (value - mean) for day, value in late)
    return exp(30.4 * slope / sum((day - middle) ** 2 for day, _ in late)) - 1
