"""What each phone is being talked to about: open questions, latest numbered list, whom it may call."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

import sqlalchemy as sa

from service.records import tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Talk:
    """
    The state of the talk with one phone.

    ``questions`` are as ``dialogs.engine`` dumps them, the one asked last first; ``listed`` the task ids
    under each number; ``called`` the phone numbers named for calling, in order.
    """

    questions: tuple[Any, ...] = ()
    asked_at: datetime | None = None
    listed: tuple[tuple[int, ...], ...] = ()
    listed_at: datetime | None = None
    called: tuple[str, ...] = ()


NOTHING = Talk()

_COLUMNS = tables.Conversation.__table__.columns
_BY_PHONE = sa.select(*_COLUMNS).where(_COLUMNS.phone == sa.bindparam("of"))

BESIDE = tuple(
    sa.select(column).where(_COLUMNS.phone == sa.bindparam("of")).scalar_subquery().label(column.name)
    for column in _COLUMNS
    if column.name != "phone"
)
"""The talk with the phone *of*, as columns beside what another statement returns: null if there was none."""


def of(conn: sa.Connection, phone: str) -> Talk:
    """The talk with *phone*; an empty one if there was none."""
    row = conn.execute(_BY_PHONE, {"of": phone}).one_or_none()
    return NOTHING if row is None else talk_of(row)


def talk_of(row: sa.Row[Any]) -> Talk:
    """The talk in *row*; an empty one where its columns are null."""
    if row.questions is None:
        return NOTHING
    return Talk(
        questions=tuple(row.questions),
        asked_at=row.asked_at,
        listed=tuple(tuple(numbers) for numbers in row.listed),
        listed_at=row.listed_at,
        called=tuple(row.called),
    )


def keep(conn: sa.Connection, phone: str, talk: Talk) -> None:
    """Make *talk* the state of the talk with *phone*."""
    values = {
        "questions": list(talk.questions),
        "asked_at": talk.asked_at,
        "listed": [list(numbers) for numbers in talk.listed],
        "listed_at": talk.listed_at,
        "called": list(talk.called),
    }
    mine = tables.Conversation.phone == phone
    if conn.execute(sa.update(tables.Conversation).where(mine).values(**values)).rowcount == 0:
        conn.execute(sa.insert(tables.Conversation), {"phone": phone, **values})
