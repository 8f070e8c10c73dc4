"""
One step of a menu session: the screen that follows, and what its last answer recorded.

The screen of a session's latest step is kept, so that a step that is sent again gets the same screen and
changes nothing. What the menu tells goes the same way as a text: recorded, planned and answered in one
transaction; the reply is the closing screen.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

import sqlalchemy as sa

from dialogs import replies
from dialogs.engine import Turn
from dialogs.grammar.settle import doubt
from dialogs.screens import menu
from dialogs.screens.state import Caller as MenuCaller
from dialogs.screens.state import Join, State
from dialogs.screens.state import Turn as MenuTurn
from dialogs.texts import render
from dialogs.work import line
from service.flow import doubts, orders
from service.flow.house import Account, House
from service.flow.join import first_name
from service.flow.receive import phone_of
from service.flow.tell import send_alerts, tell
from service.flow.telling import Telling
from service.husbandry.forms import Entry
from service.husbandry.replay import herd_of
from service.messages import Listener, MenuInput, OutboundText, Purpose, Say, Screen
from service.records import conversations, farms, ledger, menus, outbox, texts
from service.records.base import Store
from service.sms import septets

MENU = "menu"
SCREEN = 182
"""GSM-7 characters of a screen (3GPP TS 23.038: 182 in 160 octets)."""

RECENT = 12
"""Entries looked at for the animals told of last."""


@dataclass(frozen=True, slots=True)
class Menu:
    """Leads the menu sessions of one house and store."""

    house: House
    store: Store
    listener: Listener

    def __call__(self, step: MenuInput, now: datetime) -> Screen:
        """
        The screen that *step* leads to, what it told being safe on disk.

        Raises:
            sqlalchemy.exc.SQLAlchemyError: It could not be made safe; nothing is changed.
        """
        account = Account(self.house.local(now))
        try:
            screen = self.store.write(lambda conn: _Step(conn, self.house, step, now, account).screen())
        except Exception:
            self.house.books.forget()
            raise
        for event in account.events:
            self.listener(event)
        return screen


class _Step:
    """One step of one session inside its transaction."""

    def __init__(
        self, conn: sa.Connection, house: House, step: MenuInput, now: datetime, account: Account
    ) -> None:
        self.conn, self.house, self.step, self.now, self.account = conn, house, step, now, account
        self.local = house.local(now)

    def screen(self) -> Screen:
        """The screen to show; of a step that came before, the one it got then."""
        phone = phone_of(self.step.sender, self.house.place.region)
        if phone is None:
            return Screen(render(Say("menu.no_phone"), "sw"), more=False)
        before = menus.of(self.conn, self.step.session)
        if before is not None and self.step.step <= before.step:
            return before.screen
        turn = self._turn(phone, before)
        latest = menus.Session(
            step=self.step.step, screen=Screen(turn.text, turn.more), state=turn.state.to_json()
        )
        menus.keep(
            self.conn, self.step.session, phone=phone, typed=self.step.typed, now=self.now, latest=latest
        )
        return latest.screen

    def _turn(self, phone: str, before: menus.Session | None) -> MenuTurn:
        if self.step.typed is not None:
            self.account.received(phone, self.step.typed, MENU)
        telling = self._telling(phone)
        caller = _stranger(self.local, self.house) if telling is None else _caller(telling)
        if before is None or self.step.typed is None:
            return menu.dial(caller)
        turn = menu.answer(State.from_json(before.state), self.step.typed, caller)
        if not turn.effects:
            return turn
        self._keep_input(phone, None if telling is None else telling.caller.farm_id)
        reply = self._join(phone, turn) if telling is None else self._tell(telling, turn)
        return menu.closing(self._short(phone, reply, caller.language), turn, caller)

    @property
    def _text_id(self) -> str:
        return f"{MENU}:{self.step.session}:{self.step.step}"

    def _keep_input(self, phone: str, farm_id: int | None) -> None:
        texts.take(
            self.conn,
            id=self._text_id,
            sender=self.step.sender,
            recipient="",
            text=self.step.typed or "",
            sent_at=self.now,
            arrived_at=self.now,
            channel=MENU,
            farm_id=farm_id,
        )

    def _telling(self, phone: str) -> Telling | None:
        caller = farms.caller(self.conn, phone)
        if caller is None:
            return None
        return Telling(
            conn=self.conn,
            house=self.house,
            caller=caller,
            book=self.house.books.of(self.conn, caller.farm_id, caller.version),
            talk=conversations.of(self.conn, phone),
            text_id=self._text_id,
            told_at=self.now,
            now=self.now,
            account=self.account,
            language=caller.language,
        )

    def _tell(self, telling: Telling, turn: MenuTurn) -> str:
        told = [effect for effect in turn.effects if isinstance(effect, Entry)]
        orders.show_list(telling)  # the numbers that were typed are those of the list on the screen
        reply = tell(
            telling,
            Turn(
                language=telling.language,
                entries=tuple(entry for entry in told if type(entry) not in orders.ALL),
                instructions=tuple(entry for entry in told if type(entry) in orders.ALL),
                answered=True,  # the menu has asked about what is doubtful
            ),
        )
        self.house.books.keep(telling.book)
        send_alerts(telling)
        return reply

    def _join(self, phone: str, turn: MenuTurn) -> str:
        join = next(effect for effect in turn.effects if isinstance(effect, Join))
        farms.join(
            self.conn,
            phone=phone,
            name=join.name,
            language=join.language,
            cooperative_id=farms.cooperative_of(self.conn, ""),
            now=self.now,
        )
        return render(Say("join.welcome", {"name": first_name(join.name)}), join.language)

    def _short(self, phone: str, reply: str, language: str) -> str:
        """*reply*, or where a screen cannot hold it, word that it comes by text."""
        if septets(reply) <= SCREEN:
            return reply
        answer = OutboundText(phone=phone, text=reply, purpose=Purpose.REPLY, in_reply_to=self._text_id)
        outbox.add(self.conn, answer, now=self.now)
        return render(Say("menu.sent_by_text"), language)


def _stranger(now: datetime, house: House) -> MenuCaller:
    return MenuCaller(
        language="sw", now=now, known=False, currency=house.place.currency, region=house.place.region
    )


def _caller(telling: Telling) -> MenuCaller:
    """What the menu has to know of the farm."""
    herd = herd_of(telling.book.farm, telling.local.date())

    def doubtful(entry: Entry) -> str | None:
        problem = doubt(entry, herd, now=telling.local) or doubts.told_before(telling, entry)
        return None if problem is None else replies.question(problem, telling.language)

    return MenuCaller(
        language=telling.caller.language,
        now=telling.local,
        herd=herd,
        recent=_recent(telling),
        tasks=_task_lines(telling),
        currency=telling.house.place.currency,
        region=telling.house.place.region,
        doubt=doubtful,
    )


def _task_lines(telling: Telling) -> tuple[str, ...]:
    """The lines of the list of tasks, as the list in a text has them."""
    says = (line(item, telling.local, weekday=False) for item in orders.listed_tasks(telling))
    return tuple(render(one, telling.language) for one in says)


def _recent(telling: Telling) -> tuple[str, ...]:
    """The animals told of last, each once, the latest first."""
    latest = ledger.recent(telling.conn, telling.book.farm_id, limit=RECENT)
    return tuple(dict.fromkeys(name for told in latest for name in told.entry.named))
