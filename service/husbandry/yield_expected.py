"""
What a cow should give on a day: her own recent level and the usual change of her stage of lactation.

Floats inside, as all is statistics; litres come in and go out as Decimal. Robust to a missed milking, a few
odd days, half-litre measures and one record a week: the level is the mean of the middle half of her last
records, each brought to the day in question. What is not normal for her, such as the first days after
calving or those of drying off, is neither judged nor learnt from.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise
from math import exp, log, sqrt
from statistics import median

from service.husbandry.daily_milk import DayMilk, is_whole, shares, usual_sessions, whole_day

MONTH = 30.4

DECLINE = -log(0.95) / MONTH
"""A day's usual fall after day 60: 5 % a month (Holstein 4.87, Red Dane 5.54, Jersey 4.19 %: open data of
Friggens et al. 2007; computed)."""

SETTLED_DAY, PEAK_DAY = 60, 40
"""Days after calving: the usual fall has set in; the usual peak (weeks 4-8; common practice, no source)."""

RISE = DECLINE / (1 / PEAK_DAY - 1 / SETTLED_DAY)
"""Wood's b that has its peak on day 40 and meets the usual fall on day 60: 0.20."""

FIRST_DAY = 10
"""Days after calving on which milk tells nothing yet: first milk, the calf; Byreline's own choice."""

DAY_TO_DAY = 0.07
"""SD of a cow's daily milk about its course, of one (mean 6.9 %, quartiles 5.1-8.4 %: open data of Friggens
et al. 2007; computed)."""

PRIOR_DAYS = 20
"""Days that the common day-to-day SD counts for against her own; Byreline's own choice."""

WINDOW_DAYS, MOST, FEWEST = 42, 14, 3
"""Her level is of the last 14 records of at most 42 days, and of three or more; Byreline's own choice."""

EFFICIENCY = 1.2
"""Variance of the mean of the middle half by that of the mean of all, for normal values."""

LEAST = 0.1
"""Litres that a record of none counts as where its logarithm is taken."""

SHARE_SD = 0.051 / 0.61
"""SD of a day made up from its morning, of one (share 0.609, SD 0.051: as above; computed)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """
    What is known of a cow's days beside her milk. For the herd's sum only ``left_out`` and ``anew`` matter.

    ``calved_on``: the calvings; records before the latest of a day do not count for it.
    ``drying_from``: the first day on which she is milked less, if told; else drying off takes a week.
    ``left_out``: days on which what is milked is not what she gives: a calf let in, milk spilt.
    ``anew``: days from which her level is another: another number of milkings, cows joining the sum.
    """

    calved_on: Collection[date] = ()
    drying_from: date | None = None
    dried_on: date | None = None
    left_out: Collection[date] = ()
    anew: Collection[date] = ()

    def day_of_milk(self, on: date) -> int | None:
        """Days since the latest calving by then; None: none is known."""
        calved = max((day for day in self.calved_on if day <= on), default=None)
        return None if calved is None else (on - calved).days

    def usual(self, on: date) -> float:
        """The logarithm of the usual yield of that day; of a calving not known, settled as most cows are."""
        day = self.day_of_milk(on)
        return usual_course(on.toordinal() if day is None else day)

    def counts(self, on: date) -> bool:
        """Whether the milk of that day is to be learnt from and judged."""
        since = self.day_of_milk(on)
        return on not in self.left_out and (since is None or since > FIRST_DAY) and not self.is_drying(on)

    def is_drying(self, on: date) -> bool:
        """Whether she is being dried off that day or is dry since; a later calving ends it."""
        if self.dried_on is None and self.drying_from is None:
            return False
        begins = self.drying_from or (self.dried_on or on) - timedelta(days=DRYING_DAYS)
        ended = any(begins < calved <= on for calved in self.calved_on)
        return begins <= on and not ended

    def level_since(self, on: date) -> date:
        """The first day whose records can tell of the level of that day."""
        starts = (day for day in (*self.calved_on, *self.anew) if day <= on)
        return max((on - timedelta(days=WINDOW_DAYS), *starts))


DRYING_DAYS = 7
"""Drying off takes five to seven days (common practice, no source); told on its last."""


@dataclass(frozen=True, slots=True)
class Seen:
    """
    A day that can be judged: the whole day's *litres*, and the SD of its measuring, in litres too.

    ``level``: the logarithm of its litres over the usual course of her lactation.
    ``milkings``: those usual by then; (): the day and those before it were told in one sum.
    """

    on: date
    litres: float
    level: float
    error: float
    milkings: frozenset[str]


@dataclass(frozen=True, slots=True)
class Expected:
    """The *litres* to expect on a day, and by how much one day is usually off, in percent (one SD)."""

    on: date
    litres: Decimal
    percent: Decimal
    records: int


def usual_course(day: int) -> float:
    """
    The logarithm of the usual yield *day* days after calving, from any one level.

    It rises to day 40 and then falls, from day 60 on by 5 % a month.
    """
    early = max(min(day, SETTLED_DAY), 1)
    return RISE * (log(early) - early / PEAK_DAY) - DECLINE * max(day - SETTLED_DAY, 0)


def seen(days: Sequence[DayMilk], course: Course) -> tuple[Seen, ...]:
    """
    The *days* (oldest first) that count, each made up to a whole day by what was usual by then.

    A day with more milkings than usual is left out until they are usual. Where the usual milkings change,
    the level begins anew (:func:`level`): milked once she gives less, and more of it in the morning.
    """
    found = []
    for place, day in enumerate(days):
        before = days[max(place - MOST, 0) : place + 1]
        usual = usual_sessions(before)
        litres = whole_day(day, usual, shares(before, usual))
        if litres is not None and course.counts(day.on):
            one, height = float(litres), log(max(float(litres), LEAST)) - course.usual(day.on)
            found.append(Seen(day.on, one, height, measuring_error(day, usual), usual))
    return tuple(found)


def measuring_error(day: DayMilk, usual: frozenset[str]) -> float:
    """SD of the measure of a day, in litres: what rounding leaves, and what a milking not told does."""
    rounding = sum(_step(value) ** 2 for _, value in day.milkings) / 12
    share = 0.0 if is_whole(day, usual) else SHARE_SD * float(day.litres)
    return sqrt(rounding + share**2)


def _step(litres: Decimal) -> float:
    """To what a milking was read, at least half a litre: farmers measure by the cup and the bottle."""
    return 0.5 if litres % 1 else 0.75


def own_spread(records: Sequence[Seen]) -> float:
    """
    SD of her daily milk about its course, of one: her own steps from record to record beside the common 7 %.

    The median of the steps, so that a fall or an odd day does not widen it.
    """
    if len(records) < 2:
        return DAY_TO_DAY
    steps = [abs(later.level - one.level) for one, later in pairwise(records)]
    own = 1.4826 * median(steps) / sqrt(2)
    return sqrt((PRIOR_DAYS * DAY_TO_DAY**2 + len(steps) * own**2) / (PRIOR_DAYS + len(steps)))


@dataclass(frozen=True, slots=True)
class Level:
    """The litres of a day by the records before it; *spread*: one day's SD, of one; *error*: the level's."""

    litres: float
    spread: float
    error: float
    records: int


def level(
    before: Sequence[Seen], course: Course, on: date, milkings: frozenset[str] = frozenset()
) -> Level | None:
    """
    What *on* should give by the records *before* it (oldest first); None of under three.

    Args:
        milkings: The usual ones of that day; other records than of those are set aside. (): any.
    """
    since = course.level_since(on)
    recent = [record for record in before[-2 * MOST :] if since <= record.on < on and record.litres > 0]
    used = _milked_alike(recent, milkings)[-MOST:]
    if len(used) < FEWEST:
        return None
    litres = exp(_middle([record.level for record in used]) + course.usual(on))
    spread = own_spread(used)
    measure = median(record.error for record in used) / litres
    error = sqrt((spread**2 + measure**2) * EFFICIENCY / len(used))
    return Level(litres, spread, error, len(used))


def _milked_alike(records: Sequence[Seen], milkings: frozenset[str]) -> Sequence[Seen]:
    """The last of *records* for as long as the usual *milkings* are the same."""
    for place in range(len(records) - 1, -1, -1):
        there = records[place].milkings
        if there and milkings and there != milkings:
            return records[place + 1 :]
        milkings = milkings or there
    return records


def _middle(values: Sequence[float]) -> float:
    """The mean of the middle half: a quarter is cut off at either end."""
    cut = len(values) // 4
    ordered = sorted(values)[cut : len(values) - cut]
    return sum(ordered) / len(ordered)


def expected(days: Sequence[DayMilk], course: Course, on: date) -> Expected | None:
    """
    What a cow (or the herd) should give *on* that day by the *days* before it.

    None where that day does not count (:meth:`Course.counts`) or fewer than three records before it do.
    """
    if not course.counts(on):
        return None
    found = level(seen([day for day in days if day.on < on], course), course, on)
    if found is None:
        return None
    percent = 100 * sqrt(found.spread**2 + found.error**2)
    return Expected(on, _rounded(found.litres, "0.1"), _rounded(percent, "1"), found.records)


def _rounded(value: float, step: str) -> Decimal:
    return Decimal(value).quantize(Decimal(step), ROUND_HALF_UP)
