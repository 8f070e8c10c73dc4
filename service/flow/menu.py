"""
One step of a menu session: the screen that follows, and what its last answer recorded.

The screen of a session's latest step is kept, so that a step that is sent again gets the same screen and
changes nothing. What the menu tells goes the same way as a text: recorded, planned and answered in one
transaction; the reply is the closing screen, and what the reply asks is answered there as by text.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

import sqlalchemy as sa

from dialogs import engine, secret
from dialogs.questions import load_questions
from dialogs.reading import Problem
from dialogs.screens import followup, menu
from dialogs.screens.layout import BACK, HASH, MORE, STAR
from dialogs.screens.state import At, Join, State
from dialogs.screens.state import Caller as MenuCaller
from dialogs.screens.state import Turn as MenuTurn
from dialogs.screens.words import word
from dialogs.texts import render
from dialogs.turn import Scene, Turn
from service.flow import orders, reports
from service.flow.house import Account, House
from service.flow.join import Stranger, first_name, welcome
from service.flow.menu_caller import caller as caller_of
from service.flow.menu_caller import stranger
from service.flow.tell import send_alerts, tell
from service.flow.telling import Telling
from service.husbandry.forms import Entry
from service.husbandry.replay import herd_of
from service.messages import Listener, MenuInput, Say, Screen
from service.phones import phone_of
from service.records import conversations, farms, menus, texts
from service.records.base import Store

MENU = "menu"

KEYS = frozenset({BACK, HASH, MORE, STAR})


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
        self.typed = " ".join((step.typed or "").split())
        self.shown = step.typed  # as it may be kept

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
        menus.keep(self.conn, self.step.session, phone=phone, typed=self.shown, now=self.now, latest=latest)
        return latest.screen

    def _turn(self, phone: str, before: menus.Session | None) -> MenuTurn:
        telling = self._telling(phone)
        asked = () if telling is None else _asked(telling)
        state = State() if before is None else State.from_json(before.state)
        if self.step.typed is not None:
            self.shown = _masked(self.step.typed, state, asked)
            self.account.received(phone, self.shown, MENU)
        listed = state.at in (At.TASKS, At.TASK)
        if telling is None:
            caller = stranger(self.conn, phone, self.local, self.house)
        else:
            caller = caller_of(telling, listed=listed)
        if before is None or self.step.typed is None:
            return menu.dial(caller)
        if state.at == At.QUESTION and telling is not None:
            return self._answer(telling, state, asked, caller)
        turn = menu.answer(state, self.step.typed, caller)
        if turn.state.at == At.TASKS and not listed and telling is not None:
            orders.show_list(telling)  # from now on these are the numbers that count
            conversations.keep(self.conn, phone, telling.talk)
        if not turn.effects:
            return turn
        self._keep_input(phone, None if telling is None else telling.caller.farm_id)
        if telling is None:
            return menu.closing(self._join(phone, turn), turn, caller)
        told = [effect for effect in turn.effects if isinstance(effect, Entry)]
        said = engine.told(told, asked, _scene(telling), amends=turn.amends)
        return self._tell(telling, said, turn, caller)

    def _answer(
        self, telling: Telling, state: State, asked: tuple[Problem, ...], caller: MenuCaller
    ) -> MenuTurn:
        """What was typed, as the answer to the question on the screen; the question again if it is none."""
        here = MenuTurn(text="", more=True, state=state)
        said = followup.said(self.typed, asked[0]) if asked else None
        if said is None:
            return replace(here, text=word("left", caller.language), more=False, state=State(at=At.OVER))
        turn = engine.step(said, asked, _scene(telling))
        if not turn.answered:
            again = followup.again(asked[0], caller.language, word("wrong.read", caller.language))
            return replace(here, text=again)
        self._keep_input(telling.caller.phone, telling.caller.farm_id)
        return self._tell(telling, turn, replace(here, state=replace(state, at=At.AFTER)), caller)

    def _tell(self, telling: Telling, said: Turn, turn: MenuTurn, caller: MenuCaller) -> MenuTurn:
        """The screen after *said* was done, as after a text that says it."""
        reply = tell(telling, said)
        self.house.books.keep(telling.book)
        send_alerts(telling)
        caller = replace(caller, language=telling.language)  # it may just have been changed
        question = next((one for one in telling.questions if one.draft is not None), None)
        return menu.closing(reply, turn, caller, question)

    @property
    def _text_id(self) -> str:
        return f"{MENU}:{self.step.session}:{self.step.step}"

    def _keep_input(self, phone: str, farm_id: int | None) -> None:
        texts.take(
            self.conn,
            id=self._text_id,
            sender=self.step.sender,
            recipient="",
            text=self.shown or "",
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

    def _join(self, phone: str, turn: MenuTurn) -> str:
        join = next(effect for effect in turn.effects if isinstance(effect, Join))
        if join.name is None:  # a yes to the owner who asks for help, as by text
            yes = {"sw": "NDIYO", "en": "YES"}[join.language]
            helper = Stranger(phone=phone, text=yes, recipient="", now=self.local, place=self.house.place)
            return welcome(self.conn, helper)[0]
        farms.join(
            self.conn,
            phone=phone,
            name=join.name,
            language=join.language,
            cooperative_id=farms.cooperative_of(self.conn, ""),
            now=self.now,
        )
        return render(Say("join.welcome", {"name": first_name(join.name)}), join.language)


def _scene(telling: Telling) -> Scene:
    """What is told and answered is read against."""
    return Scene(
        herd=herd_of(telling.book.farm, telling.local.date()),
        now=telling.local,
        language=telling.language,
        place=telling.house.place_of(telling.conn, telling.caller),
    )


def _asked(telling: Telling) -> tuple[Problem, ...]:
    """The questions that this phone has not answered yet, the last one first."""
    waiting = reports.questions_of(telling.talk, telling.caller)
    return load_questions(waiting, asked_at=telling.talk.asked_at, now=telling.now)


def _masked(typed: str, state: State, asked: tuple[Problem, ...]) -> str:
    """What was typed as it may be kept: a secret number stands nowhere."""
    answers = state.at == At.QUESTION and bool(asked) and secret.is_asked(asked[0])
    if (answers or (state.at == At.ASK and state.question == "secret")) and typed.strip() not in KEYS:
        return secret.MASK
    return secret.masked(typed)
