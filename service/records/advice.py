"""Advice by topic: a cooperative's own wording, when a farm is next looked at, and what has come to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime

import sqlalchemy as sa

from service.records import tables
from service.records.outbox import ANSWER
from service.records.tables import Advice, AdviceSent, TextOut


def own(conn: sa.Connection, cooperative_id: int, language: str) -> Mapping[str, str]:
    """Topic -> the cooperative's own wording."""
    rows = conn.execute(
        sa.select(Advice.topic, Advice.text).where(
            Advice.cooperative_id == cooperative_id, Advice.language == language
        )
    )
    return {row.topic: row.text for row in rows}


def put_own(conn: sa.Connection, cooperative_id: int, worded: Sequence[Mapping[str, str]]) -> None:
    """Make *worded* (topic, language, text) the cooperative's own wording; other topics are as shipped."""
    conn.execute(sa.delete(Advice).where(Advice.cooperative_id == cooperative_id))
    if worded:
        conn.execute(sa.insert(Advice), [{**one, "cooperative_id": cooperative_id} for one in worded])


def sent(conn: sa.Connection, farm_id: int) -> Mapping[str, date]:
    """Topic -> the day on which it came to the farm by itself."""
    rows = conn.execute(sa.select(AdviceSent.topic, AdviceSent.on).where(AdviceSent.farm_id == farm_id))
    return {row.topic: row.on for row in rows}


def note_sent(conn: sa.Connection, farm_id: int, topic: str, on: date) -> None:
    """The topic has come to the farm, and will not again."""
    conn.execute(sa.insert(AdviceSent), {"farm_id": farm_id, "topic": topic, "on": on})


def joined_at(conn: sa.Connection, farm_id: int) -> datetime:
    """When the farm joined."""
    return conn.execute(sa.select(tables.Farm.created_at).where(tables.Farm.id == farm_id)).scalar_one()


def had_a_text(conn: sa.Connection, phone: str, since: datetime) -> bool:
    """Whether an unasked text was laid out for the phone *since* then."""
    unasked = sa.select(TextOut.seq).where(
        TextOut.phone == phone, TextOut.created_at >= since, sa.not_(ANSWER)
    )
    return conn.execute(unasked.limit(1)).first() is not None


def look_at(conn: sa.Connection, farm_id: int, at: datetime | None) -> None:
    """Keep when a topic may next come to the farm; None: none is in sight."""
    conn.execute(sa.update(tables.Farm).where(tables.Farm.id == farm_id).values(advise_at=at))


def farms_to_advise(conn: sa.Connection, now: datetime, *, limit: int) -> tuple[int, ...]:
    """Farms to which a topic may come by *now*, longest due first."""
    due = (
        sa.select(tables.Farm.id)
        .where(tables.Farm.advise_at.is_not(None), tables.Farm.advise_at <= now)
        .order_by(tables.Farm.advise_at)
        .limit(limit)
    )
    return tuple(conn.execute(due).scalars())


def next_look(conn: sa.Connection) -> datetime | None:
    """When a topic may next come to any farm."""
    return conn.execute(
        sa.select(tables.Farm.advise_at)
        .where(tables.Farm.advise_at.is_not(None))
        .order_by(tables.Farm.advise_at)
        .limit(1)
    ).scalar_one_or_none()
