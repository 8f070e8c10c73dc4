"""Every text that came in, and every input to the menu."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any

import sqlalchemy as sa

from service.records import conversations, tables
from service.records.base import insert_new
from service.records.conversations import Talk

HANDLED, FAILED, STRANGER, UNANSWERABLE = "handled", "failed", "stranger", "unanswerable"

STRANGERS_KEPT = timedelta(days=30)
"""How long the text of an unknown phone is kept (the invitation says so)."""


@lru_cache
def _take(dialect: str) -> Any:
    return insert_new(dialect, tables.TextIn).returning(*conversations.BESIDE)


def take(
    conn: sa.Connection,
    *,
    id: str,
    sender: str,
    recipient: str,
    text: str,
    sent_at: datetime,
    arrived_at: datetime,
    channel: str,
    state: str = HANDLED,
    farm_id: int | None = None,
    phone: str | None = None,
) -> Talk | None:
    """
    Keep a text that came, and whose it is.

    Returns:
        What *phone* is being talked to about, read in the same round trip and after the farm was locked;
        None where the text's id was kept before, and nothing is changed.
    """
    values = {
        "id": id,
        "sender": sender,
        "recipient": recipient,
        "text": text,
        "sent_at": sent_at,
        "arrived_at": arrived_at,
        "channel": channel,
        "state": state,
        "farm_id": farm_id,
        "of": phone,
    }
    row = conn.execute(_take(conn.dialect.name), values).first()
    return None if row is None else conversations.talk_of(row)


def belongs(conn: sa.Connection, id: str, farm_id: int) -> None:
    """The text *id*, of a phone that is not the farm's, was about that farm: it is kept with it."""
    conn.execute(
        sa.update(tables.TextIn).where(tables.TextIn.id == id).values(farm_id=farm_id, state=HANDLED)
    )


def _of_strangers() -> sa.ColumnElement[bool]:
    # The first half is what the partial index holds, written out so that SQLite can tell.
    unhandled = tables.TextIn.state != sa.literal_column("'handled'")
    return sa.and_(unhandled, tables.TextIn.state == STRANGER)


def wipe_strangers(conn: sa.Connection, now: datetime) -> None:
    """Remove what unknown phones texted longer than 30 days ago, and what was sent to them."""
    old = sa.select(tables.TextIn.id).where(_of_strangers(), tables.TextIn.arrived_at <= now - STRANGERS_KEPT)
    conn.execute(sa.delete(tables.TextOut).where(tables.TextOut.in_reply_to.in_(old)))
    conn.execute(
        sa.delete(tables.TextIn).where(_of_strangers(), tables.TextIn.arrived_at <= now - STRANGERS_KEPT)
    )


def next_wipe(conn: sa.Connection) -> datetime | None:
    """When the oldest text of an unknown phone is to be removed."""
    oldest = conn.execute(
        sa.select(tables.TextIn.arrived_at).where(_of_strangers()).order_by(tables.TextIn.arrived_at).limit(1)
    ).scalar_one_or_none()
    return None if oldest is None else oldest + STRANGERS_KEPT
