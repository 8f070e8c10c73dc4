"""One place puts the real things together: ``build(settings, clock=..., gateway=...) -> Runtime``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

import sqlalchemy as sa

from dialogs.grammar.place import Place
from scheduler import sender
from scheduler.tick import Ticker
from service.clock import Clock, SystemClock
from service.flow.house import House
from service.flow.menu import Menu
from service.flow.receive import Receiver
from service.gateways.choose import gateway_of
from service.gateways.interface import Gateway
from service.messages import InboundText, Kept, Listener, MenuInput, Screen
from service.records import farms, migrate, outbox
from service.records.base import Store, open_engine
from service.records.ledger import Books
from service.settings import Settings


def ignore(_: object) -> None:
    """A listener to whom nothing matters."""


@dataclass(frozen=True, slots=True)
class Runtime:
    """The service, ready for use: what its doors and its heartbeat call."""

    settings: Settings
    clock: Clock
    store: Store
    gateway: Gateway
    listener: Listener
    receiver: Receiver
    menus: Menu
    ticker: Ticker

    def sms(self, text: InboundText) -> Kept:
        """Take in a text; returns once it and what follows from it are safe on disk."""
        return self.receiver(text, self.clock.now())

    def menu(self, step: MenuInput) -> Screen:
        """The screen that follows on a menu input."""
        return self.menus(step, self.clock.now())

    def receipt(self, id: str, state: str) -> None:
        """What the network says became of one of our texts; unknown ids are let pass."""
        self.store.write(lambda conn: outbox.receipt(conn, id, state))

    def health(self) -> Mapping[str, str]:
        """Part -> ``ok`` or what is wrong with it."""
        try:
            late = self.store.read(lambda conn: outbox.overdue(conn, now=self.clock.now()))
        except sa.exc.SQLAlchemyError as error:
            return {"database": f"The database does not answer ({type(error).__name__})."}
        sender = "ok" if late is None else "Nobody has sent what was due for minutes."
        return {"database": "ok", "gateway": self.gateway.health(), "scheduler": sender}

    def heartbeat(self) -> None:
        """Plan, remind and send what is due now."""
        self.ticker.tick(self.clock.now())
        sender.drain(self.store, self.gateway, self.clock, self.settings.zone, self.listener)

    def next_due(self) -> datetime | None:
        """The earliest moment at which :meth:`heartbeat` has something to do; may be past."""
        moments = (self.ticker.next_due(), self.store.read(outbox.next_try))
        return min((moment for moment in moments if moment is not None), default=None)

    def register_farm(self, phone: str, name: str, language: str) -> None:
        """A farm whose owner has answered the questions of joining, without a word being sent."""
        now = self.clock.now()
        self.store.write(
            lambda conn: farms.join(
                conn,
                phone=phone,
                name=name,
                language=language,
                cooperative_id=farms.cooperative_of(conn, ""),
                now=now,
            )
        )

    def close(self) -> None:
        """Let go of the database."""
        self.store.close()


def build(
    settings: Settings,
    *,
    clock: Clock | None = None,
    gateway: Gateway | None = None,
    listener: Listener = ignore,
) -> Runtime:
    """
    The service on its database, brought up to date; the system's clock and the gateway of the settings
    unless others are given.

    Raises:
        sqlalchemy.exc.SQLAlchemyError: The database cannot be used.
    """
    engine = open_engine(settings.database_url)
    migrate.upgrade(engine)
    store = Store(engine)
    store.write(farms.ensure_cooperative)
    house = House(Books(), Place(region=settings.region, currency=settings.currency), settings.zone)
    return Runtime(
        settings=settings,
        clock=clock or SystemClock(),
        store=store,
        gateway=gateway or gateway_of(settings),
        listener=listener,
        receiver=Receiver(house, store, listener),
        menus=Menu(house, store, listener),
        ticker=Ticker(house, store, listener),
    )
