"""
Which falls of milk are news: shown by the latest record, and not by what was known before it.

Looking closely takes every milking of weeks; :func:`may_have_fallen` tells from the last few of one cow
whether that is worth it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from statistics import median

from service.husbandry.daily_milk import WHOLE_DAY, daily
from service.husbandry.herd import Told
from service.husbandry.herd_falls import Alarms, HerdFall, Milked, alarms
from service.husbandry.kinds.milk import Milk
from service.husbandry.milk_falls import Fall, falls
from service.husbandry.yield_expected import FEWEST, Course

SHORT, SHORT_TWICE, VERY_SHORT = 0.08, 0.11, 0.22
"""
Parts under her middle day at which to look closely: each of two records, their mean, or one by itself.
Of the simulated days (tests/bench/falls.py) one in twenty is; none of the falls by 25 % is passed over.
"""

BEFORE = 14
"""Earlier days whose middle a new one is held against first: as many as tell the level."""

Milking = tuple[date, str, float]
"""Day, session, litres."""


def may_have_fallen(milkings: Iterable[Milking]) -> bool:
    """
    Whether the latest day of *milkings* (newest first, of one cow) can be part of a fall.

    Cheap, and far oftener yes than a fall is found; no only where none can be.
    """
    short, before = shortfalls(milkings)
    return short >= VERY_SHORT or (min(short, before) >= SHORT and short + before >= 2 * SHORT_TWICE)


def shortfalls(milkings: Iterable[Milking]) -> tuple[float, float]:
    """
    How far the latest day of *milkings* (newest first), and the one before, are under the middle of others.

    Parts of one. Nothing of fewer than three earlier days; all of it where they were told in another way
    than the latest, so that only a close look can tell.
    """
    days: dict[date, dict[str, float]] = {}
    for on, session, litres in milkings:
        days.setdefault(on, {}).setdefault(session, litres)
    latest, *earlier = days.values() or [{}]
    alike = (_alike(day, latest) for day in earlier)
    known = [litres for litres in alike if litres is not None]
    if len(known) < FEWEST:
        return (1.0, 1.0) if len(earlier) >= FEWEST else (0.0, 0.0)
    usual = median(known[1 : BEFORE + 1])
    if usual <= 0:
        return 0.0, 0.0
    day_before = _alike(earlier[0], latest)
    return 1 - sum(latest.values()) / usual, 1.0 if day_before is None else 1 - day_before / usual


def _alike(day: Mapping[str, float], latest: Mapping[str, float]) -> float | None:
    """The litres of *day* at the milkings that are told of the *latest*; None where they are not told."""
    if WHOLE_DAY in day or WHOLE_DAY in latest:
        return sum(day.values())
    return sum(day[session] for session in latest) if day.keys() >= latest.keys() else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Alarm:
    """
    A fall to be told of: of one cow (*animal*), or of the herd (None).

    ``litres``, ``usual``: of ``found_on``, whole day; of a herd told cow by cow None, and *cows* of
    *recorded* are down by ``percent``, the middle one's.
    """

    animal: int | None
    since: date
    found_on: date
    percent: int
    litres: Decimal | None = None
    usual: Decimal | None = None
    cows: int = 0
    recorded: int = 0


def fresh(
    milk: Sequence[Told],
    before: Sequence[Told],
    courses: Mapping[int | None, Course],
    whose: Collection[int],
) -> tuple[Alarm, ...]:
    """
    The falls that the latest record of a cow, or of the herd's sum, shows and that *before* did not.

    Args:
        milk: The standing milkings of the days looked at, in the order of telling.
        before: Those that stood before what was just told.
        courses: Of each animal that may be judged; of None, the herd's sum.
        whose: The animals of which was just told.

    Returns:
        The herd's before those of cows, of these the deepest first.
    """
    told = _by_animal(milk, courses)
    last = {key: max(one.on for one in entries) for key, entries in told.items()}
    newest = max(last.values(), default=None)
    of_cows = {key for key, on in last.items() if on == newest and key is not None}
    low = {key for key in of_cows if shortfalls(_newest_first(told[key]))[0] >= SHORT}
    if 2 * len(low) <= len(of_cows) or len(of_cows) == 1:  # a herd is down where most of its cows are
        told = {key: entries for key, entries in told.items() if key in {*whose, None}}
    now = _looked_at(told, courses)
    herds = [fall for fall in now.herd if fall.found_on == newest]
    cows = {key: known[-1] for key, known in now.cows.items() if known[-1].found_on == last[_key(key)]}
    if not herds and not cows:
        return ()
    then = _looked_at(_by_animal(before, {key: courses[key] for key in told}), courses)
    news = [_cows(_key(key), cows[key]) for key in cows if not _known(cows[key], then.cows.get(key, ()))]
    return (
        *(_herds(fall) for fall in herds if not _known(fall, then.herd)),
        *sorted(news, key=lambda alarm: (alarm.animal is not None, -alarm.percent)),
    )


_SUM = "*"


def _key(name: str) -> int | None:
    """The animal's id by the name under which the falls are found; None: the herd's sum."""
    return None if name == _SUM else int(name)


def _by_animal(milk: Sequence[Told], courses: Mapping[int | None, Course]) -> dict[int | None, list[Milk]]:
    """The milkings of each animal that has a course, and of None, those told in one sum."""
    told: dict[int | None, list[Milk]] = {}
    for one in milk:
        key = one.animals[0] if one.animals else None
        if isinstance(one.entry, Milk) and key in courses:
            told.setdefault(key, []).append(one.entry)
    return told


def _newest_first(entries: Sequence[Milk]) -> list[Milking]:
    last = sorted(enumerate(entries), key=lambda at: (at[1].on, at[0]), reverse=True)
    return [(entry.on, entry.session, float(entry.litres)) for _, entry in last[: 2 * BEFORE + 4]]


def _looked_at(told: Mapping[int | None, Sequence[Milk]], courses: Mapping[int | None, Course]) -> Alarms:
    herd = {
        str(key): Milked(daily(entries), courses[key]) for key, entries in told.items() if key is not None
    }
    found = alarms(herd)
    summed = falls(daily(told[None]), courses[None]) if None in told else ()
    return Alarms(found.herd, {**found.cows, _SUM: summed} if summed else found.cows)


def _known(fall: Fall | HerdFall, before: Sequence[Fall] | Sequence[HerdFall]) -> bool:
    """Whether it was found before, maybe on an earlier day."""
    return any(one.found_on >= fall.since for one in before)


def _herds(fall: HerdFall) -> Alarm:
    return Alarm(
        animal=None,
        since=fall.since,
        found_on=fall.found_on,
        percent=fall.percent,
        cows=len(fall.cows),
        recorded=fall.recorded,
    )


def _cows(key: int | None, fall: Fall) -> Alarm:
    return Alarm(
        animal=key,
        since=fall.since,
        found_on=fall.found_on,
        percent=fall.percent,
        litres=fall.litres,
        usual=fall.expected,
    )
