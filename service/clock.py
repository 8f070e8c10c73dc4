"""The only reader of wall time. All else takes ``now``; a farm's day and hour follow from its zone."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import Protocol
from zoneinfo import ZoneInfo


class Clock(Protocol):
    """Whatever tells the time: the system's clock, or a virtual one."""

    def now(self) -> datetime:
        """This moment, aware, in UTC."""
        ...


class SystemClock:
    """The clock of the machine."""

    def now(self) -> datetime:
        return datetime.now(UTC)


def farm_time(now: datetime, zone: ZoneInfo) -> datetime:
    """*now* as the farm's clock on the wall shows it, aware."""
    return now.astimezone(zone)


def farm_date(now: datetime, zone: ZoneInfo) -> date:
    """The farm's calendar day at *now*."""
    return farm_time(now, zone).date()
