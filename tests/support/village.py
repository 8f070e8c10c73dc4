"""Several phones that text one service, and what each is sent."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

import sqlalchemy as sa

from service.bootstrap import Runtime, build
from service.flow.export import export
from service.messages import Event, InboundText, Kept
from service.records import tables
from service.settings import Settings
from tests.support.clocks import SetClock

OWNER, HELPER, TECHNICIAN, NEIGHBOUR = "+255621234567", "+255712345678", "+255766666666", "+255622345678"
MORNING = datetime(2026, 3, 2, 4, 0, tzinfo=UTC)  # 07:00 on the farm


class Village:
    """One service; ``tell`` texts it from a phone and gives the reply."""

    def __init__(self, url: str) -> None:
        self.clock = SetClock(MORNING)
        self.events: list[Event] = []
        settings = Settings.from_env({"BYRELINE_DATABASE_URL": url})
        self.runtime: Runtime = build(settings, clock=self.clock, listener=self.events.append)
        self.runtime.register_farm(OWNER, "Rehema", "en")
        self.number = 0
        self.tell(OWNER, "New cow Neema, milking. New cow Tausi, milking")

    def tell(self, phone: str, text: str, *, id: str | None = None) -> str:
        self.number += 1
        self.clock.move(timedelta(seconds=1))
        sent = InboundText(
            id=id or f"t{self.number}", sender=phone, recipient="15000", text=text, sent_at=self.clock.now()
        )
        self.kept = self.runtime.sms(sent)
        replies = sa.select(tables.TextOut.text).where(
            tables.TextOut.in_reply_to == sent.id, tables.TextOut.purpose == "reply"
        )
        return str(self.rows(replies)[-1].text)

    def again(self, phone: str, text: str, id: str) -> Kept:
        self.tell(phone, text, id=id)
        return self.kept

    def rows(self, statement: sa.Select[Any]) -> Sequence[sa.Row[Any]]:
        return self.runtime.store.read(lambda conn: conn.execute(statement).all())

    def notices(self, phone: str) -> list[str]:
        """What was sent to *phone* without being asked, the oldest first."""
        sent = sa.select(tables.TextOut.text).where(
            tables.TextOut.phone == phone, tables.TextOut.purpose == "notice"
        )
        return [row.text for row in self.rows(sent.order_by(tables.TextOut.seq))]

    def milk(self) -> list[tuple[str, float, str]]:
        """Animal, litres and session of the milkings that stand, in the order of telling."""
        told = sa.select(tables.Entry.payload).where(
            tables.Entry.kind == "milk", tables.Entry.undone_at.is_(None)
        )
        rows = [row.payload for row in self.rows(told.order_by(tables.Entry.id))]
        return [(row["animal"], row["litres"], row["session"]) for row in rows]

    def standing(self, kind: str) -> list[dict[str, Any]]:
        told = sa.select(tables.Entry.payload).where(
            tables.Entry.kind == kind, tables.Entry.undone_at.is_(None)
        )
        return [row.payload for row in self.rows(told.order_by(tables.Entry.id))]

    def with_helper(self) -> Village:
        self.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
        self.tell(HELPER, "YES")
        return self

    def exported(self, phone: str = OWNER) -> list[dict[str, Any]]:
        zone = self.runtime.settings.zone
        return self.runtime.store.read(
            lambda conn: list(export(conn, phone=phone, now=self.clock.now(), zone=zone))
        )

    def close(self) -> None:
        self.runtime.close()
