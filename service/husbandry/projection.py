"""
What a lactation that still runs will have given by day 305, and how far that may be off.

To date by the test-interval method; the rest by the standard curve of her lactation, at the height at which
her tests lie on it. The height is followed from test to test (a local level: Kalman's filter of one number)
from what cows of her herd give, where that is known. In the manner of best prediction, with fewer parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from math import exp, log, sqrt

from service.husbandry.lactation import STANDARD_DAYS, Test, Yield, interval_yield

FIRST_CALVING = (0.0702, 0.001688)
LATER_CALVING = (0.1578, 0.003781)
"""Wood's b and c: the means of Red Dane and Holstein, first lactation, and second and third (fits to the open
data of Friggens et al. 2007; computed)."""

NOT_KNOWN = (0.1140, 0.002734)
"""Of a cow whose calvings are not told: half way between."""

COW_SD = 0.25
"""SD of cows of one herd in the height of their curves, of one; Byreline's own choice."""

TEST_SD = 0.09
"""SD of a test day about her curve, of one: 7 % day to day, and the measure; Byreline's own choice."""

DRIFT = 0.0002
"""What her height's variance grows by a day: 14 % SD in 100 days; Byreline's own choice."""

UNKNOWN = 1.0
"""Variance of her height before the first test where the herd's yield is not known."""

INTERVAL_SD = 0.0053
"""SD of the method's error over 305 days by the root of the days between tests, of one (1.4 % of weekly, 2.9
% of monthly tests: 90 real lactations of the same open data; computed)."""

FIRST_TEST = 5
"""Days after calving from which a test tells of the height of her curve: first milk before."""


@dataclass(frozen=True, slots=True)
class Projected:
    """
    Kilograms by day 305 (or by drying off): *kg*, give or take *error_kg* (one standard error), whole kg.

    ``to_date``: what of it she has given by the last test that counts.
    """

    kg: Decimal
    error_kg: Decimal
    to_date: Yield


def standard(day: int, calvings: int | None) -> float:
    """The standard curve's milk *day* days after calving, in any unit."""
    b, c = NOT_KNOWN if calvings is None else FIRST_CALVING if calvings == 1 else LATER_CALVING
    return exp(b * log(day) - c * day)


def project(
    tests: Iterable[Test],
    calved_on: date,
    *,
    calvings: int | None = None,
    herd_kg: Decimal | None = None,
    dried_on: date | None = None,
) -> Projected | None:
    """
    The projected yield to day 305; None where no test from day 5 on counts.

    Args:
        tests: Days and kilograms, in any order.
        calvings: Hers, this one counted.
        herd_kg: The usual 305-day yield of the herd's cows, where it is known.
        dried_on: After it nothing is projected.
    """
    known = sorted(tests)
    points = [((on - calved_on).days, float(kg)) for on, kg in known if kg > 0]
    points = [(day, kg) for day, kg in points if FIRST_TEST <= day <= STANDARD_DAYS]
    if dried_on is not None:
        return _ended(interval_yield(known, calved_on, dried_on=dried_on))
    to_date = interval_yield(known, calved_on, until=max(on for on, _ in known)) if known else None
    if to_date is None or not points:
        return None
    if to_date.days >= STANDARD_DAYS:
        return _ended(to_date)
    rest, rest_sd = _rest(points, to_date.days, calvings, _start(herd_kg, calvings))
    error = sqrt(_method_error(to_date) ** 2 + rest_sd**2)
    return Projected(_whole(float(to_date.kg) + rest), _whole(error), to_date)


def _ended(given: Yield | None) -> Projected | None:
    if given is None:
        return None
    return Projected(_whole(float(given.kg)), _whole(_method_error(given)), given)


def _method_error(given: Yield) -> float:
    """What the test-interval method may be off by: the fewer intervals, the more of their mean."""
    if not given.days:
        return 0.0
    between = given.days / given.tests
    return float(given.kg) * INTERVAL_SD * sqrt(between * STANDARD_DAYS / given.days)


def _start(herd_kg: Decimal | None, calvings: int | None) -> tuple[float, float]:
    """Mean and variance of the logarithm of her height before any test."""
    if herd_kg is None:
        return 0.0, UNKNOWN * 100
    usual = sum(standard(day, calvings) for day in range(1, STANDARD_DAYS + 1))
    return log(float(herd_kg) / usual), COW_SD**2


def _rest(
    points: Sequence[tuple[int, float]], day: int, calvings: int | None, start: tuple[float, float]
) -> tuple[float, float]:
    """Kilograms from the day after *day* to day 305, and their SD."""
    height, variance = _height(points, calvings, start)
    left = STANDARD_DAYS - day
    kg = exp(height) * sum(standard(later, calvings) for later in range(day + 1, STANDARD_DAYS + 1))
    return kg, kg * sqrt(variance + DRIFT * left / 3)  # of a drift, the mean over the days left


def _height(
    points: Sequence[tuple[int, float]], calvings: int | None, start: tuple[float, float]
) -> tuple[float, float]:
    """The logarithm of her height on the standard curve after the last test, and its variance."""
    height, variance = start
    before = points[0][0]
    for day, kg in points:
        variance += DRIFT * (day - before)
        gain = variance / (variance + TEST_SD**2)
        height += gain * (log(kg / standard(day, calvings)) - height)
        variance *= 1 - gain
        before = day
    return height, variance


def _whole(kg: float) -> Decimal:
    return Decimal(kg).quantize(Decimal(1), ROUND_HALF_UP)
