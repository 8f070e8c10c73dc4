"""When a text may go out, when it is tried again, and when it is given up. Pure: moments in, moments out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from scheduler.planning import NIGHT_BEGINS, NIGHT_ENDS
from service.clock import farm_time
from service.records.outbox import Waiting


def after_quiet(now: datetime, zone: ZoneInfo) -> datetime:
    """*now*, or in the quiet hours the moment they end."""
    local = farm_time(now, zone)
    if NIGHT_ENDS <= local.time() < NIGHT_BEGINS:
        return now
    morning = local.date() + timedelta(days=1 if local.time() >= NIGHT_BEGINS else 0)
    return datetime.combine(morning, NIGHT_ENDS, zone)


@dataclass(frozen=True, slots=True, kw_only=True)
class RetryPolicy:
    """
    How patient the sender is.

    The pause doubles from ``first`` to ``longest``. An answer is given up after ``answers_for``: a day
    later the farmer has asked again. An unasked text is tried until it helps no more, and one that does
    not say when that is for ``others_for``.
    """

    first: timedelta = timedelta(seconds=10)
    longest: timedelta = timedelta(minutes=30)
    answers_for: timedelta = timedelta(days=1)
    others_for: timedelta = timedelta(days=7)

    def when(self, text: Waiting, now: datetime, zone: ZoneInfo) -> datetime | None:
        """When *text*, which is due, may go: *now*, later, or (None) never."""
        opens = now if text.asked else after_quiet(now, zone)
        return opens if opens <= self._last(text) else None

    def again(self, text: Waiting, now: datetime) -> datetime | None:
        """When *text*, tried in vain at *now*, is tried again; None: never. The last try is at its limit."""
        last = self._last(text)
        return min(now + self._pause(text.attempts), last) if now < last else None

    def _last(self, text: Waiting) -> datetime:
        """The last moment at which *text* may be sent."""
        patience = text.created_at + (self.answers_for if text.asked else self.others_for)
        if text.not_after is None:
            return patience
        return min(text.not_after, patience) if text.asked else text.not_after

    def _pause(self, attempts: int) -> timedelta:
        """The pause after one more failure, *attempts* having failed before."""
        doublings = min(attempts, 20)  # by then any pause is the longest; keeps the power small
        return min(self.first * (1 << doublings), self.longest)
