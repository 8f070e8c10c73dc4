"""The hours in which a cow on heat is best served, as they are told to a farmer."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, time, timedelta

from service.husbandry.task import Task
from service.messages import Say, say

EARLIEST, LATEST = time(5), time(20)
"""Between these an inseminator can be had; the same hours in which a serve reminder is sent."""

HOUR = timedelta(hours=1)


def serve_window(task: Task | None) -> tuple[datetime, datetime] | None:
    """The window of an open serve task; None where there is none."""
    if task is not None and isinstance(task.due, datetime) and isinstance(task.until, datetime):
        return task.due, task.until
    return None


def _daylight(first: datetime, last: datetime) -> Iterator[tuple[datetime, datetime]]:
    """The parts of *first*..*last* in which someone can come, day by day."""
    on = first.date()
    while on <= last.date():
        begin = datetime.combine(on, EARLIEST, first.tzinfo)
        end = datetime.combine(on, LATEST, first.tzinfo)
        begin, end = max(begin, first), min(end, last)
        if begin < end:
            yield begin, end
        on += timedelta(days=1)


def _floor(at: datetime, minutes: int) -> datetime:
    """*at* at the last full *minutes* of its hour."""
    return at.replace(minute=at.minute // minutes * minutes, second=0, microsecond=0)


def _to_the_hour(first: datetime, last: datetime) -> tuple[datetime, datetime]:
    """Full hours inside *first*..*last*, as one speaks; where none lie inside, half hours about them."""
    floor = _floor(first, 60)
    begin, end = first if floor == first else floor + HOUR, _floor(last, 60)
    if begin < end:
        return begin, end
    begin = _floor(first, 30)
    return begin, max(_floor(last, 30), begin + HOUR / 2)


def good_hours(window: tuple[datetime, datetime], now: datetime) -> tuple[datetime, datetime]:
    """The longest part of *window* from *now* on in which someone can come, on full hours."""
    first, last = max(window[0], now), window[1]
    by_day = list(_daylight(first, last)) if first < last else []
    if not by_day:
        return window
    begin, end = max(by_day, key=lambda part: part[1] - part[0])
    return (begin, end) if begin == now else _to_the_hour(begin, end)


def told(window: tuple[datetime, datetime], now: datetime) -> Say:
    """``leo saa 7 mchana hadi saa 2 usiku``: names the weekday where it is not today."""
    first, last = good_hours(window, now)
    if first == now:
        floor = _floor(last, 60)
        return say("time.now_to", last=floor if floor > now else _floor(last, 30) + HOUR / 2)
    if first.date() == now.date():
        return say("time.today", part=(first, last))
    return say("time.on", on=first.date(), part=(first, last))


def moment(at: datetime, now: datetime) -> Say:
    """A moment past, to the quarter hour, with its day unless that is today."""
    at = _floor(at, 15)
    days = (now.date() - at.date()).days
    if days == 0:
        return say("clock", at=at)
    if days == 1:
        return say("time.yesterday", part=at)
    return say("time.day", on=at.date(), part=at)
