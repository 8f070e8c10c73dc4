"""
What a farm should have open now, how that differs from what it has, and when to remind.

All pure: *now* is an aware moment in the farm's zone, and the plan depends on nothing but the farm's
state, the intervals and that moment.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from scheduler.rules import HERD_RULES, RULES, Offer
from scheduler.rules.answers import answers, left
from scheduler.rules.offer import changes_at, ends, standing_of, zone_of
from service.husbandry.herd import Farm, Told
from service.husbandry.intervals import DEFAULTS, Intervals
from service.husbandry.task import Key, Point, Task, Why

_Offers = dict[Key, list[Offer]]


@dataclass(frozen=True, slots=True)
class Plan:
    """
    The tasks a farm should have open, soonest first, at most one for each key.

    ``changes_at``: the next farm-local moment at which that changes by time alone; None: it never does.
    """

    tasks: tuple[Task, ...]
    changes_at: datetime | None


def plan(farm: Farm, now: datetime, intervals: Intervals = DEFAULTS) -> Plan:
    """The plan of *farm* at *now*; what the farm has set for itself goes over *intervals*."""
    offers = _offers(farm, intervals.told(farm.settings))
    standing = {key: standing_of(some, now) for key, some in offers.items()}
    changes = (changes_at(some, standing[key], now) for key, some in offers.items())
    tasks = sorted((task for task in standing.values() if task is not None), key=_order)
    return Plan(tuple(tasks), min((at for at in changes if at is not None), default=None))


def _offers(farm: Farm, intervals: Intervals) -> _Offers:
    """What the rules hold for right and nobody has told done, by key, first choice first."""
    offers: _Offers = {}
    for offer in _all_offers(farm, intervals):
        key = offer.task.key
        done = farm.done if key.animal is None else farm.animals[key.animal].done
        told = done.get(key.task)
        if told is None or told < offer.task.since:
            offers.setdefault(key, []).append(offer)
    return offers


def _all_offers(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    for animal in farm.present:
        for rule in RULES:
            yield from rule(animal, intervals)
    for herd_rule in HERD_RULES:
        yield from herd_rule(farm, intervals)


def _order(task: Task) -> tuple[str, str, int, str]:
    return task.due.isoformat(), task.key.task, task.key.animal or 0, task.key.disease or ""


@dataclass(frozen=True, slots=True)
class Open:
    """A task as it is stored open."""

    id: int
    task: Task


@dataclass(frozen=True, slots=True)
class Difference:
    """What turns the open tasks into the wanted ones: drops, each with its reason, then additions."""

    drop: tuple[tuple[int, Why], ...]
    add: tuple[Task, ...]


@dataclass(frozen=True, slots=True)
class Cause:
    """What has happened at *now*: entries told, a telling taken back, or only time passing."""

    now: datetime
    told: tuple[Told, ...] = ()
    taken_back: bool = False

    @classmethod
    def recorded(cls, told: Sequence[Told], now: datetime) -> Cause:
        return cls(now, told=tuple(told))

    @classmethod
    def undone(cls, now: datetime) -> Cause:
        return cls(now, taken_back=True)

    @classmethod
    def clock(cls, now: datetime) -> Cause:
        return cls(now)


def difference(open_tasks: Sequence[Open], wanted: Sequence[Task], cause: Cause) -> Difference:
    """
    The changes that make *open_tasks* the *wanted* ones; equal windows are left alone.

    Applied in any order it yields exactly *wanted*, one task for each key.
    """
    new = {task.key: task for task in wanted}
    drop = []
    for kept in open_tasks:
        task = new.get(kept.task.key)
        if task is not None and (task.due, task.until) == (kept.task.due, kept.task.until):
            del new[kept.task.key]
        else:
            drop.append((kept.id, _why(kept.task, cause)))
    return Difference(tuple(drop), tuple(new.values()))


def _why(task: Task, cause: Cause) -> Why:
    if any(left(told, task) for told in cause.told):
        return Why.GONE
    if any(answers(told, task) for told in cause.told):
        return Why.DONE
    if cause.taken_back:
        return Why.UNDONE
    if task.until is not None and ends(task.until, zone_of(cause.now)) <= cause.now:
        return Why.EXPIRED
    return Why.REPLACED


NIGHT_BEGINS, NIGHT_ENDS = time(20, 30), time(5)
"""No unasked text goes out from the one to the other (the contract)."""

BEFORE_NIGHT = time(20)
"""When a serve reminder whose time falls in the night goes at the latest (the contract)."""

TIME_TO_ACT = timedelta(hours=3)
"""What a reminder at the end of the night must leave of a serve window: to call, to come, to serve."""

NOT_TWICE_WITHIN = timedelta(hours=1)
"""A reminder sooner after the answer to the heat only repeats it; common practice, no source."""

NOON_HOUR = 13
"""A farm's hour from here on is the evening's: it gives the next day's tasks."""


def remind_at(
    task: Task, now: datetime, hour: int, zone: tzinfo, intervals: Intervals = DEFAULTS
) -> datetime | None:
    """
    When the reminder of *task* should go, not before *now* (both in *zone*); None: it is too late for one.

    *hour* (0-23) is the farm's for what is due on a day; ``serve`` has moments of its own.
    """
    now = now.astimezone(zone)
    if isinstance(task.due, datetime) and isinstance(task.until, datetime):
        return _at_moment(task, task.due.astimezone(zone), task.until, now, intervals)
    return _day_at(task.due, task.until, now, hour, zone)


def _day_at(due: date, until: Point | None, now: datetime, hour: int, zone: tzinfo) -> datetime | None:
    day = due - timedelta(days=1) if hour >= NOON_HOUR else due
    at = datetime.combine(day, time(hour), zone)
    if at <= now:
        at = datetime.combine(now.date(), time(hour), zone)
        if at <= now:
            at = datetime.combine(now.date() + timedelta(days=1), time(hour), zone)
    return at if until is None or at < ends(until, zone) else None


def second_moment(task: Task, intervals: Intervals = DEFAULTS) -> timedelta:
    """
    How long after its first moment a task with hours is to be told of, where the first has passed.

    To serve: when it is best. The afterbirth: when it is the vet's.
    """
    if task.key.task == "afterbirth":
        return timedelta(hours=intervals.afterbirth_vet_hours - intervals.afterbirth_asked_hours)
    return timedelta(hours=intervals.serve_best_hours - intervals.serve_from_hours)


def _at_moment(
    task: Task, due: datetime, until: datetime, now: datetime, intervals: Intervals
) -> datetime | None:
    second = due + second_moment(task, intervals)
    # Told of it while the window is open, the answer itself has said all: not the same again at once.
    for moment, soonest in ((due, now), (second, now + NOT_TWICE_WITHIN)):
        if moment >= soonest:
            return by_day(moment, until, now)
    return None


def by_day(moment: datetime, until: datetime, now: datetime) -> datetime | None:
    """*moment* itself, or if it falls in the night, the end or else the evening of it."""
    if NIGHT_ENDS <= moment.time() < NIGHT_BEGINS:
        return moment
    evening = moment.date() if moment.time() >= NIGHT_BEGINS else moment.date() - timedelta(days=1)
    dawn_at = datetime.combine(evening + timedelta(days=1), NIGHT_ENDS, moment.tzinfo)
    if dawn_at >= now and until - dawn_at >= TIME_TO_ACT:
        return dawn_at
    dusk_at = datetime.combine(evening, BEFORE_NIGHT, moment.tzinfo)
    if dusk_at >= now:
        return dusk_at
    return dawn_at if now <= dawn_at < until else None


__all__ = ["Cause", "Difference", "Open", "Plan", "difference", "plan", "remind_at"]
