"""
The outbox: every text that goes out, from the commit that decides on it to the gateway and beyond.

A sender leases texts, commits, sends, and commits what became of each. A lease that runs out (the sender
died) makes its text due again under the same id. While a text is leased its ``next_try_at`` is the end of
the lease, so "due" is one comparison on one index.

A phone's answers go in order: only the oldest one waiting is ever leased, and an answer that is due takes
an older one that failed before with it. Unasked texts go in order among themselves, and hold up no answer.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from uuid import uuid4

import sqlalchemy as sa

from service.messages import OutboundText, Purpose
from service.records.tables import TextOut

LEASE = timedelta(seconds=60)
"""Outlasts the sending of one batch through a gateway that answers nothing."""

TAKEN_WITHIN = timedelta(minutes=3)
"""A sender at work takes a text much sooner, unless thousands are due together."""

OUT = TextOut.__table__.c
ANSWER = sa.or_(OUT.purpose == Purpose.REPLY, OUT.in_reply_to.is_not(None))
_ADD = sa.insert(TextOut).inline()
_WAITING = OUT.state == sa.literal_column("'waiting'")  # as written in the partial indexes
_UNASKED_OF = sa.select(OUT.seq, OUT.task_ids).where(
    _WAITING, OUT.farm_id == sa.bindparam("farm"), sa.not_(ANSWER)
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """A text of the outbox that its holder may send now. Moments in UTC."""

    seq: int
    id: str
    phone: str
    text: str
    purpose: Purpose
    farm: int | None
    task_ids: tuple[int, ...]
    items: tuple[tuple[int, ...], ...]
    in_reply_to: str | None
    created_at: datetime
    attempts: int
    not_after: datetime | None

    @property
    def asked(self) -> bool:
        """Whether it answers a text of the phone; all other texts are unasked."""
        return self.purpose is Purpose.REPLY or self.in_reply_to is not None


def add(connection: sa.Connection, text: OutboundText, *, now: datetime) -> str:
    """Put *text* at the end of the outbox, due at once. Returns the id that the gateway will know it by."""
    name = uuid4().hex
    connection.execute(
        _ADD,
        {
            "id": name,
            "phone": text.phone,
            "text": text.text,
            "purpose": text.purpose.value,
            "farm_id": text.farm,
            "task_ids": list(text.task_ids),
            "items": [list(ids) for ids in text.items],
            "in_reply_to": text.in_reply_to,
            "created_at": now,
            "state": "waiting",
            "attempts": 0,
            "next_try_at": now,
            "not_after": text.not_after,
        },
    )
    return name


def next_try(connection: sa.Connection) -> datetime | None:
    """When the next text wants sending; None when none waits."""
    return connection.scalar(select_first())


def select_first() -> sa.Select[datetime | None]:
    return sa.select(OUT.next_try_at).where(_WAITING).order_by(OUT.next_try_at).limit(1)


def overdue(connection: sa.Connection, *, now: datetime) -> datetime | None:
    """
    Since when a text has been due that no sender took; None when every text was taken in time.

    So it shows from any process whether a scheduler is at work. A text that the gateway did not accept was
    taken, and is not overdue.
    """
    first = next_try(connection)
    return first if first is not None and first < now - TAKEN_WITHIN else None


def lease(connection: sa.Connection, *, now: datetime, limit: int) -> list[Waiting]:
    """
    The oldest texts that are due, at most one answer and one unasked text of a phone, for this holder alone.

    Returns:
        At most *limit* texts in the order they were added; empty when nothing is due.
    """
    rows = connection.execute(select_due(now, limit).with_for_update(skip_locked=True)).all()
    until = now + LEASE
    mine = OUT.seq.in_([row.seq for row in rows])
    if rows:
        connection.execute(sa.update(TextOut).where(mine).values(leased_until=until, next_try_at=until))
    return [_waiting(row) for row in rows]


def select_due(now: datetime, limit: int) -> sa.Select[Any]:
    """The rows to lease, oldest first."""
    free = sa.or_(OUT.leased_until.is_(None), OUT.leased_until <= now)
    heads = sa.union_all(_answers(now, limit), _unasked(now, limit))
    chosen = sa.select(TextOut.__table__).where(_WAITING, free, OUT.seq.in_(heads))
    return chosen.order_by(OUT.seq).limit(limit)


def _due(now: datetime, limit: int, which: sa.ColumnElement[bool]) -> sa.Subquery:
    """The *limit* texts of *which* that have been due longest: ``seq`` and ``phone``."""
    due = sa.select(OUT.seq, OUT.phone).where(_WAITING, OUT.next_try_at <= now, which)
    return due.order_by(OUT.next_try_at, OUT.seq).limit(limit).subquery()


def _answers(now: datetime, limit: int) -> sa.Select[int]:
    """Of each phone with an answer due, the oldest answer waiting, due or not."""
    phones = sa.select(_due(now, limit, ANSWER).c.phone)
    return sa.select(sa.func.min(OUT.seq)).where(_WAITING, ANSWER, OUT.phone.in_(phones)).group_by(OUT.phone)


def _unasked(now: datetime, limit: int) -> sa.Select[int]:
    """Of each phone with unasked texts due, the oldest of these."""
    due = _due(now, limit, sa.not_(ANSWER))
    return sa.select(sa.func.min(due.c.seq)).group_by(due.c.phone)


def _waiting(row: sa.Row[Any]) -> Waiting:
    return Waiting(
        seq=row.seq,
        id=row.id,
        phone=row.phone,
        text=row.text,
        purpose=Purpose(row.purpose),
        farm=row.farm_id,
        task_ids=tuple(row.task_ids),
        items=tuple(map(tuple, row.items)),
        in_reply_to=row.in_reply_to,
        created_at=row.created_at,
        attempts=row.attempts,
        not_after=row.not_after,
    )


def _settle(connection: sa.Connection, text: Waiting, **values: Any) -> None:
    """What became of a leased *text*; nothing where a receipt has told it already."""
    where = (OUT.seq == text.seq, _WAITING)
    connection.execute(sa.update(TextOut).where(*where).values(leased_until=None, **values))


def accepted(connection: sa.Connection, text: Waiting, *, now: datetime) -> None:
    """The gateway has *text*. If it failed before, the gateway is back: what else failed is due again."""
    _settle(connection, text, state="accepted", accepted_at=now, next_try_at=None, attempts=text.attempts + 1)
    if text.attempts:
        failed = (_WAITING, OUT.attempts > 0, OUT.leased_until.is_(None), OUT.next_try_at > now)
        connection.execute(sa.update(TextOut).where(*failed).values(next_try_at=now))


def refused(connection: sa.Connection, text: Waiting) -> None:
    """The gateway refused *text* for good."""
    _settle(connection, text, state="failed", next_try_at=None, attempts=text.attempts + 1)


def expire(connection: sa.Connection, text: Waiting) -> None:
    """*text* helps no more, and was not sent."""
    _settle(connection, text, state="expired", next_try_at=None)


def postpone(connection: sa.Connection, text: Waiting, *, until: datetime) -> None:
    """*text* was not tried: its hour is *until*."""
    _settle(connection, text, next_try_at=until)


def failed_attempt(connection: sa.Connection, text: Waiting, *, next_try: datetime) -> None:
    """*text* was tried in vain. Its phone's later ones of the same sort wait with it, in their order."""
    _settle(connection, text, next_try_at=next_try, attempts=text.attempts + 1)
    sort = ANSWER if text.asked else sa.not_(ANSWER)
    later = (_WAITING, OUT.phone == text.phone, OUT.seq > text.seq, sort, OUT.next_try_at < next_try)
    connection.execute(sa.update(TextOut).where(*later).values(next_try_at=next_try))


def withdraw_unasked(connection: sa.Connection, phone: str) -> None:
    """What waits unasked for *phone* is not sent (its holder has left the service)."""
    where = (_WAITING, OUT.phone == phone, sa.not_(ANSWER))
    _finish(connection, where, "expired")


def withdraw_reminders(connection: sa.Connection, farm: int, closed: Collection[int]) -> tuple[int, ...]:
    """
    Reminders of *farm* that wait and speak of tasks now *closed* are not sent.

    Returns:
        The other tasks they spoke of, which want a reminder again.
    """
    waiting = connection.execute(_UNASKED_OF, {"farm": farm}).all()
    stale = [row for row in waiting if not set(closed).isdisjoint(row.task_ids)]
    if stale:
        _finish(connection, (_WAITING, OUT.seq.in_([row.seq for row in stale])), "expired")
    return tuple(one for row in stale for one in row.task_ids if one not in closed)


def receipt(connection: sa.Connection, id: str, state: str) -> None:
    """
    What the network says became of the text *id*: ``delivered``, ``failed`` or ``expired``.

    A receipt may come before the answer to our own call, or twice; that a text was delivered is the last
    word. An id not known changes nothing.
    """
    before = ("waiting", "accepted") if state != "delivered" else ("waiting", "accepted", "failed", "expired")
    where = (OUT.id == id, OUT.state.in_(before))
    _finish(connection, where, state)


def _finish(connection: sa.Connection, where: tuple[sa.ColumnElement[bool], ...], state: str) -> None:
    ended = {"state": state, "next_try_at": None, "leased_until": None}
    connection.execute(sa.update(TextOut).where(*where).values(ended))
