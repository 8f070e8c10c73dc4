"""
When a topic of advice first matters to a farm, so that it comes by itself. Pure.

A calving is told of the day before its watch begins, or a little earlier where that day has a text of its
own. Of other work the text that answers a telling has said what must be done at once; the topic follows.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from scheduler.planning import NOON_HOUR
from service.husbandry.herd import Animal, Farm
from service.husbandry.kinds.farm import OFF
from service.husbandry.kinds.health import Treatment
from service.husbandry.life import gives_milk
from service.husbandry.task import Task, day_of

TASK = "advice"
"""What the setting that turns it off calls it."""

SETTLED_DAYS = 28
"""A farm that has just joined has enough to read: only a calving is told of sooner; Byreline's own choice."""

APART_DAYS = 3
"""Days from one topic to the next, a calving's excepted; Byreline's own choice."""

LATE = timedelta(hours=2)
"""After its hour by more than this (an outage) advice waits for another day; Byreline's own choice."""

EARLIER_DAYS = 2
"""By how much a calving's topic may be sooner than the day before; Byreline's own choice."""

FOLLOWS_DAYS = {
    "milk_hold": (1, 3),
    "vaccination": (1, 2),
    "serving": (1, 3),
    "calf": (5, 14),
    "ticks": (1, 6),
    "worms": (1, 14),
}
"""Topic -> the first and last day after what was told on which it helps; Byreline's own choice."""


@dataclass(frozen=True, slots=True)
class Matter:
    """A topic that matters from the day *first* to the day *last*. ``name``: of the animal, if of one."""

    topic: str
    first: date
    last: date
    name: str | None = None

    def days_after(self, day: date) -> Iterator[date]:
        """The days on which it could still come later than *day*."""
        return (day + timedelta(ahead) for ahead in range(1, (self.last - day).days + 1))

    @property
    def waits(self) -> bool:
        """Whether it can wait until a farm has settled, and for the topic before it."""
        return self.topic != "calving"


def matters(farm: Farm, tasks: Iterable[Task], hour: int) -> tuple[Matter, ...]:
    """
    What matters or will, the most urgent first; nothing on a farm that has asked for quiet.

    Args:
        tasks: The farm's open ones.
        hour: The farm's (0-23); an evening one tells of the next day.
    """
    if TASK in farm.settings.get(OFF, ()):
        return ()
    eve = timedelta(2 if hour >= NOON_HOUR else 1)
    soon = (_calving(farm, task, eve) for task in tasks if task.key.task == "calving")
    return (*sorted(soon, key=lambda one: one.first), *_told_of(farm))


def _calving(farm: Farm, task: Task, eve: timedelta) -> Matter:
    last = day_of(task.due) - eve
    name = None if task.key.animal is None else farm.animals[task.key.animal].name
    return Matter("calving", last - timedelta(EARLIER_DAYS), last, name)


def _told_of(farm: Farm) -> Iterator[Matter]:
    for topic, (first, last) in FOLLOWS_DAYS.items():
        told = (day for animal in farm.present for day in _DAYS_OF[topic](animal))
        latest = farm.sprayed_on if topic == "ticks" else max(told, default=None)
        if latest is not None:
            yield Matter(topic, latest + timedelta(first), latest + timedelta(last))


def _held(animal: Animal) -> Iterator[date]:
    """Days of treatments for which her milk is held, or may be."""
    if gives_milk(animal):
        yield from (d.on for d in animal.doses if d.kind == Treatment.KIND and d.milk_days != 0)


def _born_here(animal: Animal) -> Iterator[date]:
    if animal.born is not None and animal.dam is not None and animal.born == animal.entered_on:
        yield animal.born


def _vaccinated(animal: Animal) -> Iterator[date]:
    yield from animal.vaccinated.values()


def _dewormed(animal: Animal) -> Iterator[date]:
    if animal.dewormed_on is not None:
        yield animal.dewormed_on


def _unserved(animal: Animal) -> Iterator[date]:
    """The day of a heat after which no service was told."""
    if animal.heat is not None:
        yield animal.heat.first_seen.date()


def _of_the_herd(animal: Animal) -> Iterator[date]:
    """Spraying is told of the herd, not of one animal."""
    yield from ()


_DAYS_OF: Mapping[str, Callable[[Animal], Iterator[date]]] = {
    "milk_hold": _held,
    "calf": _born_here,
    "vaccination": _vaccinated,
    "ticks": _of_the_herd,
    "worms": _dewormed,
    "serving": _unserved,
}
"""Topic -> the days of an animal that it follows."""


def chosen(
    those: Sequence[Matter], today: date, busy: Collection[date], *, settled: bool, rested: bool
) -> Matter | None:
    """
    What is to come today; None: nothing.

    Args:
        those: What has not come before.
        busy: Days on which the farm gets a reminder.
        settled: Whether the farm joined long enough ago.
        rested: Whether the topic before came long enough ago.
    """
    if today in busy:
        return None
    timely = (one for one in those if one.first <= today <= one.last)
    return next((one for one in timely if _now(one, today, busy, calm=settled and rested)), None)


def _now(one: Matter, today: date, busy: Collection[date], *, calm: bool) -> bool:
    """Whether *one* is for today: a calving's on its latest free day, others on their first."""
    return calm if one.waits else all(day in busy for day in one.days_after(today))


def next_look(those: Iterable[Matter], after: datetime, hour: int) -> datetime | None:
    """The next of the farm's hours on which one of *those* may come; *after*: in the farm's zone."""
    return min((at for one in those if (at := _hour_of(one, after, hour)) is not None), default=None)


def _hour_of(one: Matter, after: datetime, hour: int) -> datetime | None:
    day = max(one.first, after.date())
    if datetime.combine(day, time(hour), after.tzinfo) <= after:
        day += timedelta(1)
    return datetime.combine(day, time(hour), after.tzinfo) if day <= one.last else None
