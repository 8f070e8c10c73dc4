"""A clock that stands still until it is moved."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta


class SetClock:
    """Shows *now* (aware) until told otherwise; may go back."""

    def __init__(self, now: datetime = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)) -> None:
        self._now = now

    def now(self) -> datetime:
        return self._now

    def set(self, now: datetime) -> None:
        self._now = now

    def move(self, by: timedelta) -> None:
        self._now += by
