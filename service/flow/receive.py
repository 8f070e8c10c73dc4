"""
A text arrives: the whole way from the gateway's door to the reply in the outbox, in one transaction.

The text is taken once by its id; what it tells is recorded and planned; the reply is laid in the
outbox; only then, and after the commit, is it acknowledged. Should our own code fail on it, all that is
taken back, and in a second transaction the text is kept for staff and its sender told so.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import sqlalchemy as sa

from dialogs import engine, secret
from dialogs.questions import load_questions
from dialogs.texts import render
from dialogs.turn import Scene
from service.faults import describe
from service.flow import pin, reports
from service.flow.house import Account, House
from service.flow.join import Stranger, welcome
from service.flow.tell import send_alerts, tell
from service.flow.telling import Telling
from service.husbandry.replay import herd_of
from service.messages import InboundText, Kept, Listener, OutboundText, Purpose, Say
from service.phones import phone_of
from service.records import conversations, farms, outbox, texts
from service.records.base import Store
from service.records.conversations import Talk
from service.records.farms import Caller

log = logging.getLogger(__name__)

TRUSTED_DELAY = timedelta(days=7)
"""A text sent longer ago than this is taken as sent on arrival (the contract)."""

SMS = "sms"


@dataclass(frozen=True, slots=True)
class Receiver:
    """Takes texts in for one house and store."""

    house: House
    store: Store
    listener: Listener

    def __call__(self, text: InboundText, arrived_at: datetime) -> Kept:
        """
        Keep *text* with all that follows from it.

        Raises:
            sqlalchemy.exc.SQLAlchemyError: It could not be made safe; the gateway must try again.
        """
        account = Account(self.house.local(arrived_at))
        try:
            kept = self.store.write(lambda conn: self._receive(conn, text, arrived_at, account))
        except sa.exc.SQLAlchemyError:
            self.house.books.forget()
            raise
        except Exception as error:  # noqa: BLE001 - whatever it was, the text must not be lost
            self.house.books.forget()
            log.error("text %s could not be handled: %s", text.id, describe(error))
            account.events.clear()
            kept = self.store.write(lambda conn: self._keep_failed(conn, text, arrived_at, account))
        for event in account.events:
            self.listener(event)
        return kept

    def _receive(
        self, conn: sa.Connection, text: InboundText, arrived_at: datetime, account: Account
    ) -> Kept:
        phone = phone_of(text.sender, self.house.place.region)
        caller = None if phone is None else farms.caller(conn, phone)
        shown = _masked(conn, text, caller)
        talk = _take(conn, text, shown, arrived_at, _state(phone, caller), caller)
        if talk is None:
            return Kept.KEPT_BEFORE
        account.received(phone or text.sender, shown, SMS)
        if phone is None or self._reported(conn, text, phone, caller, talk, arrived_at, account):
            return Kept.KEPT
        if caller is None:
            reply, farm_id = self._stranger(conn, text, phone, arrived_at)
            _answer(conn, text, phone, reply, farm_id, arrived_at)
        else:
            self._farmer(conn, text, caller, talk, arrived_at, account)
        return Kept.KEPT

    def _reported(
        self,
        conn: sa.Connection,
        text: InboundText,
        phone: str,
        own: Caller | None,
        talk: Talk,
        arrived_at: datetime,
        account: Account,
    ) -> bool:
        """Whether the text was about a farm that has named this phone as its technician's."""
        if own is not None and not own.reports:
            return False
        if own is None:
            talk = conversations.of(conn, phone)
        now, place = self.house.local(arrived_at), self.house.place
        meant = reports.addressed(conn, phone, text.text, talk, own, now=now, place=place)
        if meant is None:
            return False
        if isinstance(meant, Say):
            language = reports.language_of(text.text, "sw" if own is None else own.language, now, place)
            _answer(conn, text, phone, render(meant, language), None, arrived_at)
            return True
        texts.belongs(conn, text.id, meant.caller.farm_id)
        told = replace(text, text=meant.text, sent_at=meant.sent_at or text.sent_at)
        self._farmer(conn, told, meant.caller, talk, arrived_at, account)
        return True

    def _stranger(
        self, conn: sa.Connection, text: InboundText, phone: str, arrived_at: datetime
    ) -> tuple[str, int | None]:
        stranger = Stranger(
            phone=phone,
            text=text.text,
            recipient=text.recipient,
            now=self.house.local(arrived_at),
            place=self.house.place,
        )
        return welcome(conn, stranger)

    def _farmer(
        self,
        conn: sa.Connection,
        text: InboundText,
        caller: Caller,
        talk: Talk,
        arrived_at: datetime,
        account: Account,
    ) -> None:
        sent_at = told_at(text.sent_at, arrived_at)
        local = self.house.local(sent_at)
        book = self.house.books.of(conn, caller.farm_id, caller.version)
        waiting = reports.questions_of(talk, caller)
        asked = load_questions(waiting, asked_at=talk.asked_at, now=sent_at)
        scene = Scene(
            herd=herd_of(book.farm, local.date()),
            now=local,
            language=caller.language,
            place=self.house.place_of(conn, caller),
        )
        turn = engine.step(text.text, asked, scene)
        telling = Telling(
            conn=conn,
            house=self.house,
            caller=caller,
            book=book,
            talk=talk,
            text_id=text.id,
            told_at=sent_at,
            now=arrived_at,
            account=account,
            language=caller.language,
            words=text.text,
        )
        reply = tell(telling, turn)
        self.house.books.keep(telling.book)
        _answer(conn, text, caller.phone, reply, caller.farm_id, arrived_at)
        send_alerts(telling)

    def _keep_failed(
        self, conn: sa.Connection, text: InboundText, arrived_at: datetime, account: Account
    ) -> Kept:
        """Keep a text that our code failed on, for staff, and say so to its sender."""
        phone = phone_of(text.sender, self.house.place.region)
        caller = None if phone is None else farms.caller(conn, phone)
        shown = _masked(conn, text, caller)
        if _take(conn, text, shown, arrived_at, texts.FAILED, caller) is None:
            return Kept.KEPT_BEFORE
        account.received(phone or text.sender, shown, SMS)
        if phone is not None:
            language, farm_id = ("sw", None) if caller is None else (caller.language, caller.farm_id)
            _answer(conn, text, phone, render(Say("apology.failed"), language), farm_id, arrived_at)
        return Kept.KEPT


def _state(phone: str | None, caller: Caller | None) -> str:
    """What becomes of a text that is handled without a fault."""
    if caller is not None:
        return texts.HANDLED
    return texts.UNANSWERABLE if phone is None else texts.STRANGER


def _masked(conn: sa.Connection, text: InboundText, caller: Caller | None) -> str:
    """The text as it is kept: a farm's secret number stands nowhere."""
    alone = caller is not None and caller.guarded and secret.code_alone(text.text) is not None
    asked = alone and caller is not None and pin.is_asked(conversations.of(conn, caller.phone))
    return secret.masked(text.text, asked=asked)


def _take(
    conn: sa.Connection,
    text: InboundText,
    shown: str,
    arrived_at: datetime,
    state: str,
    caller: Caller | None,
) -> Talk | None:
    return texts.take(
        conn,
        id=text.id,
        sender=text.sender,
        recipient=text.recipient,
        text=shown,
        sent_at=text.sent_at,
        arrived_at=arrived_at,
        channel=SMS,
        state=state,
        farm_id=None if caller is None else caller.farm_id,
        phone=None if caller is None else caller.phone,
    )


def _answer(
    conn: sa.Connection,
    text: InboundText,
    phone: str,
    reply: str,
    farm_id: int | None,
    now: datetime,
) -> None:
    """Lay the reply to *text* in the outbox."""
    answer = OutboundText(phone=phone, text=reply, purpose=Purpose.REPLY, farm=farm_id, in_reply_to=text.id)
    outbox.add(conn, answer, now=now)


def told_at(sent_at: datetime, arrived_at: datetime) -> datetime:
    """When a text counts as told: as sent, if that can be, else as it arrived (the contract)."""
    return sent_at if arrived_at - TRUSTED_DELAY < sent_at <= arrived_at else arrived_at
