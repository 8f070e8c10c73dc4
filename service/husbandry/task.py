"""Tasks: what a herd should have open, as values. ``due`` and ``until`` are both inside the window."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

Point = date | datetime
"""A farm-local day, or an aware moment in the farm's zone."""


def day_of(point: Point) -> date:
    """The day of a day or moment."""
    return point.date() if isinstance(point, datetime) else point


def iso(point: Point) -> str:
    """A day, or a moment to the minute with its offset, in ISO 8601."""
    return point.isoformat(timespec="minutes") if isinstance(point, datetime) else point.isoformat()


def point_of(text: str) -> Point:
    """The inverse of :func:`iso`."""
    return datetime.fromisoformat(text) if "T" in text else date.fromisoformat(text)


class Why(StrEnum):
    """Why an open task was dropped."""

    DONE = "done"  # the record it asked for came in
    REPLACED = "replaced"  # news moved it, or made it pointless
    UNDONE = "undone"  # the telling it came from was taken back
    GONE = "gone"  # its animal left the herd
    EXPIRED = "expired"  # its window is over


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """What there can be only one open task of."""

    task: str
    animal: int | None = None  # None: the herd's
    disease: str | None = None  # of `vaccinate` only


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do, with its window. ``until`` None: open until done or replaced."""

    key: Key
    due: Point
    until: Point | None
    since: date
    """A `done` told of this task counts if told on this day or later (the day of what it follows from)."""
    about: bool = False
    """The date it follows from is a guess."""
