"""The state of one telling while it is worked on: what a farm's phone said by text or menu."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

import sqlalchemy as sa

from dialogs.reading import Problem
from dialogs.texts import render
from scheduler.planning import Cause
from service.flow.house import Account, House, whom_to_call
from service.flow.replan import at_new_hour, hour_of, replan
from service.husbandry.forms import Entry
from service.husbandry.herd import Person, Told
from service.husbandry.intervals import Intervals
from service.messages import Say
from service.records import farms, ledger
from service.records.conversations import Talk
from service.records.farms import Caller
from service.records.ledger import Book
from service.records.plan import Kept


@dataclass(slots=True, kw_only=True)
class Telling:
    """
    One text or finished menu of a farm's phone, inside its transaction.

    ``told_at`` is when it was sent, ``now`` when it came (both aware; a text can be late): what was told
    is dated by the one, planned and answered by the other. ``language`` is what it is answered in;
    ``answers`` gathers what orders say, ready to send; ``alerts`` are warnings that go out after the
    reply; ``questions`` what is still to be asked, the first of them now.
    """

    conn: sa.Connection
    house: House
    caller: Caller
    book: Book
    talk: Talk
    text_id: str
    told_at: datetime
    now: datetime
    account: Account
    language: str
    words: str = ""  # as sent
    recorded: tuple[Told, ...] = ()
    undone: tuple[Told, ...] = ()
    open: tuple[Kept, ...] = ()
    answers: list[str] = field(default_factory=list)
    alerts: tuple[str, ...] = ()
    questions: tuple[Problem, ...] = ()
    asked: list[Problem] = field(default_factory=list)  # by orders that wait for the answer
    raised: list[Problem] = field(default_factory=list)  # questions that go out as alerts, after the reply
    as_told: dict[Entry, Entry] = field(default_factory=dict)  # entry as recorded -> as she told it
    completed: set[int] = field(default_factory=set)  # entries told again with what they lacked
    follows: dict[int, tuple[Say, ...]] = field(default_factory=dict)  # entry id -> what its reply adds

    @property
    def local(self) -> datetime:
        return self.house.local(self.now)

    @property
    def shows_money(self) -> bool:
        """Whether a reply to this phone may speak of money that was told before, without being asked."""
        trusted = self.caller.role == farms.OWNER or "money" in self.caller.may
        return trusted and not self.caller.guarded

    @property
    def intervals(self) -> Intervals:
        """Those in force: the cooperative's own, the farm's over them."""
        return Intervals.of({**self.caller.intervals, **self.book.farm.settings})

    def follow(self, told: Told, *says: Say) -> None:
        """Have the reply say *says* of *told* besides."""
        self.follows[told.id] = (*self.follows.get(told.id, ()), *says)

    def say(self, key: str, **values: Any) -> None:
        """Answer with one of the fixed sentences."""
        self.answers.append(render(Say(key, values), self.language))

    def people(self) -> Mapping[str, Person]:
        """Role -> whom this farm can call."""
        return whom_to_call(self.book.farm, self.cooperative_people())

    def cooperative_people(self) -> Sequence[Person]:
        return farms.people_to_call(self.conn, self.caller.cooperative_id, self.caller.ward)

    def record(self, entries: Sequence[Entry]) -> None:
        """Keep *entries* and plan by them."""
        self._record(entries, ())

    def amend(self, entry_id: int, instead: Sequence[Entry]) -> None:
        """Keep *instead* in the place of one entry; of one that stands no more, beside what there is."""
        undone = ledger.undo_one(self.conn, self.book.farm_id, entry_id, text_id=self.text_id, now=self.now)
        self._taken_back(undone)
        self._record(instead, undone)

    def undo(self, why: str | None = None) -> None:
        """Take back the teller's latest telling, *why* where it was asked, and plan without it."""
        undone = ledger.undo(
            self.conn,
            self.book.farm_id,
            told_by=self.caller.phones,
            text_id=self.text_id,
            now=self.now,
            why=why,
        )
        self._taken_back(undone)
        if undone:
            self._turn((), undone, Cause.undone(self.local))

    def undo_text(self, of: str) -> None:
        """Take back what the text *of* told of the farm, and plan without it."""
        undone = ledger.undo_text(self.conn, self.book.farm_id, of, text_id=self.text_id, now=self.now)
        self._taken_back(undone)
        if undone:
            self._turn((), undone, Cause.undone(self.local))

    def _taken_back(self, undone: tuple[Told, ...]) -> None:
        self.undone += undone
        self.account.undone(self.book.farm_id, undone)

    def _record(self, entries: Sequence[Entry], undone: Sequence[Told]) -> None:
        told = ledger.append(
            self.conn,
            ledger.without(self.book, undone),
            entries,
            text_id=self.text_id,
            told_by=self.caller.phone,
            told_at=self.told_at,
        )
        self.recorded += told
        self.account.recorded(self.book.farm_id, told)
        self._turn(told, undone, Cause.recorded(told, self.local))

    def _turn(self, told: Sequence[Told], undone: Sequence[Told], cause: Cause) -> None:
        before = self.book.farm
        self.book = ledger.turned(self.conn, self.book, told, undone)
        if self.book.farm is before:
            return
        self.open = replan(
            self.conn,
            self.house,
            self.book,
            cause,
            self.account,
            intervals=self.caller.intervals,
            now=self.now,
        ).open
        if hour_of(before) != hour_of(self.book.farm):
            at_new_hour(self.conn, self.house, self.book, self.open, now=self.now)
