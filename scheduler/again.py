"""When a reminder that was not answered is given once more. Pure: dates in, a moment out."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from scheduler.planning import by_day, second_moment
from service.husbandry.intervals import DEFAULTS, Intervals
from service.husbandry.task import Task, day_of

AFTERBIRTH = "afterbirth"

REMINDERS = 2
"""A task is told of, and once more; then it rests among the tasks that can be asked for."""

MORNINGS = {"illness_check": 3}
"""Tasks asked about every morning, and on how many; then it rests too. Byreline's own choice."""

A_DAY = timedelta(days=1)
SOONEST = timedelta(days=2)
LATEST = timedelta(days=14)
OPEN_ENDED = timedelta(days=3)
"""The pause before the second telling: half of what is left of the window, within the first two of these;
of a window without an end, the third. Common practice, no source."""


def again_at(
    task: Task, reminders: int, now: datetime, hour: int, zone: ZoneInfo, intervals: Intervals = DEFAULTS
) -> datetime | None:
    """
    When a task told of for the *reminders*-th time at *now* (farm-local) is told of next.

    Returns:
        An aware moment at the farm's *hour*, inside the task's window; None: never.
    """
    if reminders >= MORNINGS.get(task.key.task, REMINDERS):
        return None
    if isinstance(task.due, datetime):
        return _at_its_second_moment(task, task.due.astimezone(zone), now, intervals)
    day = now.date() + (A_DAY if task.key.task in MORNINGS else _pause(task, now.date()))
    if task.until is not None and day > day_of(task.until):
        return None
    return datetime.combine(day, time(hour), zone)


def _at_its_second_moment(task: Task, due: datetime, now: datetime, intervals: Intervals) -> datetime | None:
    """An afterbirth asked about is the vet's some hours on; a serve window is told of once."""
    if task.key.task != AFTERBIRTH or not isinstance(task.until, datetime):
        return None
    return by_day(max(due + second_moment(task, intervals), now), task.until, now)


def _pause(task: Task, today: date) -> timedelta:
    if task.until is None:
        return OPEN_ENDED
    half = timedelta(days=(day_of(task.until) - today).days // 2)
    return min(max(half, SOONEST), LATEST)
