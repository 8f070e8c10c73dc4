"""Days, milkings and moments to choose from, the likeliest first. All pure in ``now``."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

BEGINS = {"morning": time(3), "midday": time(11), "evening": time(15)}
"""When a milking session of today can first be meant; the reader's own bounds for an unnamed one."""

PARTS = {"morning": time(6), "midday": time(12), "evening": time(18), "night": time(21)}
"""The hour that a part of the day without an hour stands for."""


@dataclass(frozen=True, slots=True)
class Milking:
    """A session of one of the last two days; ``ago`` in days."""

    session: str
    ago: int


def milkings(now: datetime) -> tuple[Milking, ...]:
    """Today's begun sessions and yesterday's, the latest first, then the whole of each day."""
    begun = [session for session, first in BEGINS.items() if now.time() >= first]
    today = [Milking(session, 0) for session in reversed(begun)] or [Milking("morning", 0)]
    yesterday = [Milking(session, 1) for session in reversed(BEGINS)]
    return (*today, *yesterday, Milking("day", 0), Milking("day", 1))


@dataclass(frozen=True, slots=True)
class Moment:
    """A moment to choose: ``part`` None is now."""

    part: str | None
    ago: int
    at: datetime


def moments(now: datetime) -> tuple[Moment, ...]:
    """Now, then the parts of today that are over and those of yesterday, the latest first."""
    found = [Moment(None, 0, now.replace(second=0, microsecond=0))]
    for ago in (0, 1):
        on = now.date() - timedelta(days=ago)
        for part, hour in reversed(PARTS.items()):
            at = datetime.combine(on, hour, now.tzinfo)
            if at < now:
                found.append(Moment(part, ago, at))
    return tuple(found)


def months(now: datetime) -> tuple[date, ...]:
    """First days of the months that can be paid for: the last one first, then this, then earlier."""
    this = now.date().replace(day=1)
    last = (this - timedelta(days=1)).replace(day=1)
    before = (last - timedelta(days=1)).replace(day=1)
    return (last, this, before)
