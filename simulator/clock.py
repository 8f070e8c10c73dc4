"""The clock of a play: it stands still until it is moved."""

from __future__ import annotations

from datetime import UTC, datetime


class VirtualClock:
    """A :class:`service.clock.Clock` that is set by hand, and only forward."""

    def __init__(self, moment: datetime) -> None:
        self._now = moment.astimezone(UTC)

    def now(self) -> datetime:
        """The moment it was last set to, in UTC."""
        return self._now

    def set(self, moment: datetime) -> None:
        """
        Move to *moment*; an earlier one than now leaves the clock where it is.

        Raises:
            ValueError: *moment* is naive.
        """
        if moment.tzinfo is None:
            raise ValueError("naive datetime")
        self._now = max(self._now, moment.astimezone(UTC))
