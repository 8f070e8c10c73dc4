"""
Falls of milk that are more than chance, of one cow and of the whole herd.

A fall is found on the second of two records that both lie well under what was to be expected, or on one
that lies very far under it. What the thresholds cost in false alarms and what they find:
docs/trade/milk.md (tests/bench/falls.py).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from math import sqrt

from service.husbandry.daily_milk import DayMilk
from service.husbandry.yield_expected import Course, Level, Seen, level, seen


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """From when on a fall is told of: parts of what was to be expected."""

    two: float  # the mean of two records, each counted as at most `most`
    each: float  # each of the two
    one: float  # a record by itself
    chances: float  # ... and as many standard errors, of two as of one
    most: float = 0.35


DAILY = Rule(two=0.17, each=0.135, one=0.55, chances=2.2)
"""Of daily records: under one false alarm a cow-year, of falls by 25 % nine in ten found; by simulation."""

WEEKLY = Rule(two=0.15, each=0.11, one=0.40, chances=1.5)
"""Of records further apart: there are fewer to give a false alarm, so each may count for more."""

WEEKLY_FROM = timedelta(days=4)
"""Two records so far apart are no daily ones; Byreline's own choice."""

PAIR_DAYS = 14
"""Two records further apart than this do not bear each other out; Byreline's own choice."""

SETTLES_DAYS = 21
"""A fall that lasts so long is her level from then on; Byreline's own choice."""


@dataclass(frozen=True, slots=True)
class Fall:
    """
    Milk under what was to be expected, from the record of ``since`` on; told of on ``found_on``.

    ``litres`` and ``expected`` are those of ``found_on`` (whole day); ``percent`` is how much less it is.
    """

    since: date
    found_on: date
    litres: Decimal
    expected: Decimal
    percent: int


@dataclass(frozen=True, slots=True)
class _Judged:
    record: Seen
    by: Level

    @property
    def short(self) -> float:
        return 1 - self.record.litres / self.by.litres

    @property
    def chance(self) -> float:
        """SD of this record about what was to be expected but for the error of the level."""
        return sqrt(self.by.spread**2 + (self.record.error / self.by.litres) ** 2)


def falls(
    days: Sequence[DayMilk], course: Course, rule: Rule = DAILY, weekly: Rule = WEEKLY
) -> tuple[Fall, ...]:
    """
    Every fall in *days* (oldest first, of one cow or of the herd's sum), oldest first.

    A fall is told of once: it lasts until a record is back within ``each`` of what was to be expected before
    it began, or has lasted three weeks. Its records do not change what is expected after it.

    Args:
        rule: For records of days close together.
        weekly: For a record four days or more after the last one.
    """
    return tuple(_falls(seen(days, course), course, (rule, weekly)))


def _falls(records: Sequence[Seen], course: Course, rules: tuple[Rule, Rule]) -> Iterator[Fall]:
    normal: list[Seen] = []  # what she gave while no fall lasted
    place = 0
    while place < len(records):
        record = records[place]
        rule = rules[place > 0 and record.on - records[place - 1].on >= WEEKLY_FROM]
        fall = _found(record, normal, course, rule)
        if fall is None:
            normal.append(record)
            place += 1
            continue
        yield fall
        normal = [one for one in normal if one.on < fall.since]
        end = _end(records, place + 1, fall.since, normal, course, rule.each)
        if end < len(records) and _has_lasted(fall.since, records[end]):
            normal = list(records[place:end])  # this is her level now
        place = end


def _found(record: Seen, before: Sequence[Seen], course: Course, rule: Rule) -> Fall | None:
    """The fall that *record* shows, by itself or with the last one *before* it."""
    pair = _judged_pair(before, record, course)
    if pair is not None and _is_short_twice(*pair, rule):
        return _fall(pair[0].record.on, pair[1])
    now = _judged(before, record, course)
    if now is not None and _is_short_once(now, rule):
        return _fall(record.on, now)
    return None


def _judged(before: Sequence[Seen], record: Seen, course: Course) -> _Judged | None:
    by = level(before, course, record.on, record.milkings)
    return None if by is None else _Judged(record, by)


def _judged_pair(before: Sequence[Seen], record: Seen, course: Course) -> tuple[_Judged, _Judged] | None:
    if not before or record.on - before[-1].on > timedelta(days=PAIR_DAYS):
        return None
    first, second = _judged(before[:-1], before[-1], course), _judged(before[:-1], record, course)
    return None if first is None or second is None else (first, second)


def _is_short_twice(first: _Judged, second: _Judged, rule: Rule) -> bool:
    if min(first.short, second.short) < rule.each:
        return False
    mean = (min(first.short, rule.most) + min(second.short, rule.most)) / 2
    error = sqrt((first.chance**2 + second.chance**2) / 4 + second.by.error**2)
    return mean >= max(rule.two, rule.chances * error)


def _is_short_once(now: _Judged, rule: Rule) -> bool:
    error = sqrt(now.chance**2 + now.by.error**2)
    return now.short >= max(rule.one, rule.chances * error)


def _fall(since: date, now: _Judged) -> Fall:
    litres, usual = _tenths(now.record.litres), _tenths(now.by.litres)
    return Fall(since, now.record.on, litres, usual, round(100 * now.short))


def _tenths(litres: float) -> Decimal:
    return Decimal(litres).quantize(Decimal("0.1"), ROUND_HALF_UP)


def _end(
    records: Sequence[Seen], place: int, since: date, normal: Sequence[Seen], course: Course, back: float
) -> int:
    """From *place* on, that of the first record after the fall: *back* to the usual, or too late."""
    while place < len(records) and not _has_lasted(since, records[place]):
        now = _judged(normal, records[place], course)
        if now is None or now.short < back:
            break
        place += 1
    return place


def _has_lasted(since: date, record: Seen) -> bool:
    return record.on - since > timedelta(days=SETTLES_DAYS)
