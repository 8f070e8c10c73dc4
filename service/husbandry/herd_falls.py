"""
A fall of milk of the whole herd: one alarm about feed, water or weather in place of one for each cow.

Each cow is held against her own expected yield; the herd is down where more than half of those recorded are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from statistics import median

from service.husbandry.daily_milk import DayMilk
from service.husbandry.milk_falls import PAIR_DAYS, Fall, falls
from service.husbandry.yield_expected import Course, level, seen

COW_DOWN = 0.08
"""A cow this far under what she should give is down, of one: a fall that is nothing by itself."""

HERD_TWO, HERD_ONE = 0.12, 0.25
"""How far under it the middle cow must be on two records, or on one; Byreline's own choice, by simulation."""

GOES_ON_DAYS = 7
"""A herd's fall is over when most cows were not down for so long; Byreline's own choice."""

BEYOND = 0.18
"""A cow so much further down than the middle one is told of beside the herd."""


@dataclass(frozen=True, slots=True)
class Milked:
    """A cow's days (oldest first) and what is known of them."""

    days: Sequence[DayMilk]
    course: Course


@dataclass(frozen=True, slots=True)
class HerdFall:
    """
    A fall of most cows, from the records of ``since`` to those of ``last`` (the latest known); told of once.

    ``percent``: of the middle cow on ``found_on``. ``cows``: those down that day, of ``recorded``.
    """

    since: date
    found_on: date
    last: date
    percent: int
    cows: tuple[str, ...]
    recorded: int


@dataclass(frozen=True, slots=True)
class Alarms:
    """The falls of the herd, and of cows by name apart from those, each oldest first."""

    herd: tuple[HerdFall, ...]
    cows: Mapping[str, tuple[Fall, ...]]


def alarms(herd: Mapping[str, Milked]) -> Alarms:
    """
    Every fall of the *herd* (cows by name) and of each cow; the herd's is not told of each cow too.

    Two cows are the fewest that make a herd.
    """
    together = herd_falls(herd)
    own = {name: falls(one.days, one.course) for name, one in herd.items()}
    apart = {
        name: tuple(fall for fall in found if not any(_is_the_herds(fall, whole) for whole in together))
        for name, found in own.items()
    }
    return Alarms(together, {name: found for name, found in apart.items() if found})


def _is_the_herds(fall: Fall, herd: HerdFall) -> bool:
    begins_with_it = fall.since <= herd.last and fall.found_on >= herd.since
    return begins_with_it and fall.percent < herd.percent + 100 * BEYOND


def herd_falls(herd: Mapping[str, Milked]) -> tuple[HerdFall, ...]:
    """
    The falls of most of the cows in *herd*, by name, oldest first.

    One that begins within a week of the last day of another is the same, gone on.
    """
    short: dict[date, dict[str, float]] = {}
    for name, one in herd.items():
        for on, part in _shortfalls(one):
            short.setdefault(on, {})[name] = part
    found: list[HerdFall] = []
    for fall in _runs([(on, short[on]) for on in sorted(short) if len(short[on]) > 1]):
        if found and fall.since - found[-1].last <= timedelta(days=GOES_ON_DAYS):
            found[-1] = replace(found[-1], last=fall.last)
        else:
            found.append(fall)
    return tuple(found)


def _shortfalls(one: Milked) -> Iterator[tuple[date, float]]:
    """How far each day that counts is under what was to be expected by the days before, of one."""
    records = seen(one.days, one.course)
    for place, record in enumerate(records):
        by = level(records[:place], one.course, record.on, record.milkings)
        if by is not None:
            yield record.on, 1 - record.litres / by.litres


def _runs(days: Sequence[tuple[date, Mapping[str, float]]]) -> Iterator[HerdFall]:
    """The falls among the *days* of the herd: each run of days on which it is down, once it is far enough."""
    for run in _down_in_a_row(days):
        found = next((place for place in range(len(run)) if _is_fall(run[: place + 1])), None)
        if found is not None:
            on, short = run[found]
            cows = tuple(sorted(name for name, part in short.items() if part >= COW_DOWN))
            percent = round(100 * median(short.values()))
            yield HerdFall(run[0][0], on, run[-1][0], percent, cows, len(short))


def _down_in_a_row(
    days: Sequence[tuple[date, Mapping[str, float]]],
) -> Iterator[Sequence[tuple[date, Mapping[str, float]]]]:
    run: list[tuple[date, Mapping[str, float]]] = []
    for on, short in days:
        if run and (not _is_down(short) or on - run[-1][0] > timedelta(days=PAIR_DAYS)):
            yield run
            run = []
        if _is_down(short):
            run.append((on, short))
    if run:
        yield run


def _is_down(short: Mapping[str, float]) -> bool:
    return 2 * sum(part >= COW_DOWN for part in short.values()) > len(short)


def _is_fall(run: Sequence[tuple[date, Mapping[str, float]]]) -> bool:
    """Whether the last day of *run* makes it a fall: by itself, or with the one before."""
    last = median(run[-1][1].values())
    if last >= HERD_ONE:
        return True
    return len(run) > 1 and min(last, median(run[-2][1].values())) >= HERD_TWO
