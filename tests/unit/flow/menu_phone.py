"""A farm's phone that dials the menu of a real service, for the menu's tests."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

import sqlalchemy as sa

from dialogs.grammar.place import Place
from dialogs.screens.state import State
from service.flow.house import House
from service.flow.menu import Menu
from service.flow.receive import Receiver
from service.messages import Event, InboundText, MenuInput, Screen
from service.records import farms, menus, tables
from service.records.base import Store
from service.records.ledger import Books
from tests.unit.husbandry.book import PHONE, at

NOW = at("2026-03-02 18:00")

SORTS = ("1", "3", "2", "5")
"""Choices of what a new animal is: in milk, a heifer, dry, a calf."""


@dataclass
class Phone:
    """The owner's phone of a farm of its own, and all that happened since."""

    store: Store
    language: str = "sw"
    number: str = PHONE
    events: list[Event] = field(default_factory=list)
    texts: int = 0
    sessions: int = 0
    joins: bool = True

    def __post_init__(self) -> None:
        house = House(Books(), Place(region="TZ", currency="TZS"), ZoneInfo("Africa/Dar_es_Salaam"))
        self.menu = Menu(house, self.store, self.events.append)
        self.receiver = Receiver(house, self.store, self.events.append)
        if self.joins:
            self.store.write(self._join)

    def _join(self, conn: sa.Connection) -> None:
        farms.ensure_cooperative(conn)
        home = farms.cooperative_of(conn, "")
        farms.join(
            conn, phone=self.number, name="Rehema", language=self.language, cooperative_id=home, now=NOW
        )

    def text(self, words: str, *, sender: str | None = None, now: datetime = NOW) -> str:
        """Send a text; the reply to it."""
        self.texts += 1
        number = sender or self.number
        told = InboundText(id=f"t{self.texts}", sender=number, recipient="1", text=words, sent_at=now)
        self.receiver(told, now)
        return self.sent(number)[-1]

    def enter(self, *names: str) -> None:
        """Animals of several sorts in turn, the first in milk."""
        for number, name in enumerate(names):
            self.session("7", "1", name, SORTS[number % len(SORTS)], "2", "0")

    def session(self, *typed: str) -> Session:
        """A new session, dialled and answered with *typed*."""
        self.sessions += 1
        session = Session(self, f"s{self.sessions}")
        for one in (None, *typed):
            session.type(one)
        return session

    def sent(self, number: str | None = None) -> list[str]:
        """The texts to *number*, in order."""
        rows = sa.select(tables.TextOut.text).where(tables.TextOut.phone == (number or self.number))
        found = self.store.read(lambda conn: conn.execute(rows.order_by(tables.TextOut.seq)).scalars().all())
        return list(found)

    def told(self) -> list[dict[str, Any]]:
        """Every entry that stands, the first told first."""
        rows = sa.select(tables.Entry.payload).where(tables.Entry.undone_at.is_(None))
        found = self.store.read(lambda conn: conn.execute(rows.order_by(tables.Entry.id)).scalars().all())
        return list(found)

    def everything_kept(self) -> str:
        """All that the database and the log hold, as one text."""
        with_all = [
            str(row)
            for table in tables.Base.metadata.sorted_tables
            for row in self.store.read(lambda conn, of=table: conn.execute(sa.select(of)).all())
        ]
        return "\n".join([*with_all, *map(str, self.events)])


@dataclass
class Session:
    """One menu session of a phone."""

    phone: Phone
    id: str
    screens: list[Screen] = field(default_factory=list)

    def type(self, typed: str | None) -> str:
        """Type one answer (None: dial); the text of the screen that follows."""
        self.screens.append(self.again(typed, len(self.screens)))
        return self.screens[-1].text

    def again(self, typed: str | None, step: int) -> Screen:
        """The same step once more."""
        return self.phone.menu(
            MenuInput(session=self.id, step=step, sender=self.phone.number, typed=typed), NOW
        )

    @property
    def text(self) -> str:
        return self.screens[-1].text

    @property
    def state(self) -> State:
        kept = self.phone.store.read(lambda conn: menus.of(conn, self.id))
        assert kept is not None
        return State.from_json(kept.state)
