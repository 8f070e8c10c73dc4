"""Texts for the outbox, and what has become of them."""

from __future__ import annotations

from datetime import datetime
from typing import Any

import sqlalchemy as sa

from service.messages import OutboundText, Purpose
from service.records import outbox
from service.records.base import Store
from service.records.tables import TextIn, TextOut

REHEMA = "+255621234567"
ASHA = "+255622345678"


def reply(text: str, phone: str = REHEMA, **more: Any) -> OutboundText:
    return OutboundText(phone=phone, text=text, purpose=Purpose.REPLY, **more)


def reminder(text: str, phone: str = REHEMA, **more: Any) -> OutboundText:
    return OutboundText(phone=phone, text=text, purpose=Purpose.REMINDER, **more)


def alert(text: str, phone: str = REHEMA, **more: Any) -> OutboundText:
    return OutboundText(phone=phone, text=text, purpose=Purpose.ALERT, **more)


def put(store: Store, now: datetime, *texts: OutboundText) -> list[str]:
    """Add *texts* in one commit; their ids."""
    return store.write(lambda connection: [outbox.add(connection, text, now=now) for text in texts])


def keep(store: Store, id: str, now: datetime) -> str:
    """Keep a text that came, for others to answer."""
    row = {
        "id": id, "sender": REHEMA, "recipient": "15077", "text": "NEEMA 6",
        "sent_at": now, "arrived_at": now, "channel": "sms", "state": "handled",
    }  # fmt: skip
    store.write(lambda connection: connection.execute(sa.insert(TextIn), row))
    return id


def states(store: Store) -> dict[str, str]:
    """The state of each text, by what it says, in the order they were added."""
    rows = sa.select(TextOut.text, TextOut.state).order_by(TextOut.seq)
    return {row.text: row.state for row in store.read(lambda connection: connection.execute(rows).all())}


def column(store: Store, text: str, name: str) -> Any:
    """The value of the column *name* for the text that says *text*."""
    chosen = sa.select(TextOut.__table__.c[name]).where(TextOut.text == text)
    return store.read(lambda connection: connection.scalar(chosen))
