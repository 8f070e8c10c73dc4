"""
One pass over what has come due: plans that time alone changes, reminders, advice, old texts of strangers.

Everything due is found by an index, so a pass costs what is due and not what is kept. Each farm is a
transaction of its own; a farm that fails is logged and does not keep the others waiting.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

import sqlalchemy as sa

from dialogs import how_is_it
from dialogs.phrases import called
from dialogs.questions import dump_questions, load_questions
from scheduler import digest
from scheduler.again import MORNINGS, again_at
from scheduler.planning import Cause
from scheduler.retry import after_quiet
from service.faults import describe
from service.flow.advise import advise
from service.flow.house import Account, House, whom_to_call
from service.flow.orders import as_due
from service.flow.replan import hour_of, replan
from service.husbandry.herd import Animal, Farm
from service.husbandry.intervals import Intervals
from service.messages import Listener, OutboundText, Purpose
from service.records import advice, conversations, farms, outbox, texts
from service.records import plan as plans
from service.records.base import Store
from service.records.conversations import Talk
from service.records.farms import Caller
from service.records.plan import Kept

log = logging.getLogger(__name__)

BATCH = 200
"""Farms looked at before the clock is read again."""

LISTS_A_DAY = 2
"""Most texts a farm's day-level reminders take in a day (the contract)."""

SERVE = "serve"

_ForFarm = Callable[[sa.Connection, int, datetime, Account], None]


@dataclass(frozen=True, slots=True)
class Ticker:
    """Does what is due for one house and store."""

    house: House
    store: Store
    listener: Listener

    def tick(self, now: datetime) -> None:
        """Do all that is due at *now* (aware)."""
        for farm_id in self.store.read(lambda conn: plans.farms_to_replan(conn, now, limit=BATCH)):
            self._for(farm_id, now, self._replan)
        if after_quiet(now, self.house.zone) == now:
            for farm_id in self.store.read(lambda conn: plans.farms_due(conn, now, limit=BATCH)):
                self._for(farm_id, now, self._remind)
            for farm_id in self.store.read(lambda conn: advice.farms_to_advise(conn, now, limit=BATCH)):
                self._for(farm_id, now, self._advise)
        wipe = self.store.read(texts.next_wipe)
        if wipe is not None and wipe <= now:
            self.store.write(lambda conn: texts.wipe_strangers(conn, now))

    def next_due(self) -> datetime | None:
        """The earliest moment at which :meth:`tick` has something to do."""
        by_day = (self.store.read(plans.next_reminder), self.store.read(advice.next_look))
        awake = (after_quiet(at, self.house.zone) for at in by_day if at is not None)
        moments = (self.store.read(plans.next_replan), self.store.read(texts.next_wipe), *awake)
        return min((moment for moment in moments if moment is not None), default=None)

    def _for(self, farm_id: int, now: datetime, do: _ForFarm) -> None:
        account = Account(self.house.local(now))
        try:
            self.store.write(lambda conn: do(conn, farm_id, now, account))
        except Exception as error:  # noqa: BLE001 - whatever it was, the other farms must not wait
            self.house.books.forget()
            log.error("farm %s could not be looked after: %s", farm_id, describe(error))
            return
        for event in account.events:
            self.listener(event)

    def _replan(self, conn: sa.Connection, farm_id: int, now: datetime, account: Account) -> None:
        owner = farms.owner(conn, farm_id)
        if owner is None:
            plans.replan_at(conn, farm_id, None)
            return
        book = self.house.books.of(conn, farm_id, owner.version)
        replan(conn, self.house, book, Cause.clock(account.at), account, intervals=owner.intervals, now=now)

    def _advise(self, conn: sa.Connection, farm_id: int, now: datetime, account: Account) -> None:
        owner = farms.owner(conn, farm_id)
        if owner is None or owner.state == farms.STOPPED:
            advice.look_at(conn, farm_id, None)
            return
        book = self.house.books.of(conn, farm_id, owner.version)
        advise(conn, self.house, owner, book.farm, now)

    def _remind(self, conn: sa.Connection, farm_id: int, now: datetime, account: Account) -> None:
        owner = farms.owner(conn, farm_id)
        due = plans.due_tasks(conn, farm_id, now)
        if owner is None or owner.state == farms.STOPPED:
            # What falls due meanwhile is not made up for later: it rests in the list of tasks.
            for kept in due:
                plans.remind_again(conn, kept.id, None, told=False)
            return
        book = self.house.books.of(conn, farm_id, owner.version)
        reminding = _Reminding(conn, self.house, owner, book.farm, now)
        at_hours = [kept for kept in due if isinstance(kept.task.due, datetime)]
        reminding.serve([kept for kept in at_hours if kept.task.key.task == SERVE])
        reminding.one_by_one([kept for kept in at_hours if kept.task.key.task != SERVE])
        reminding.others([kept for kept in due if kept not in at_hours])


class _Reminding:
    """The reminders of one farm in one pass."""

    def __init__(self, conn: sa.Connection, house: House, owner: Caller, farm: Farm, now: datetime) -> None:
        self.conn, self.house, self.owner, self.farm = conn, house, owner, farm
        self.now, self.local = now, house.local(now)
        self.hour, self.intervals = hour_of(farm), Intervals.of({**owner.intervals, **farm.settings})
        listed = farms.people_to_call(conn, owner.cooperative_id, owner.ward)
        self.people = whom_to_call(farm, listed)

    def serve(self, due: Sequence[Kept]) -> None:
        """A serve window has its own hour, and its own text."""
        if not due:
            return
        text = digest.serve_text(
            [as_due(kept, self.farm.animals) for kept in due],
            self.farm,
            self.people,
            self.local,
            self.owner.language,
        )
        self._send([text], {kept.id: kept for kept in due}, numbered=len(due) > 1)

    def one_by_one(self, due: Sequence[Kept]) -> None:
        """What else has hours of its own: a text for each."""
        for kept in due:
            text = digest.own(
                as_due(kept, self.farm.animals), self.farm, self.people, self.local, self.owner.language
            )
            self._send([text], {kept.id: kept}, numbered=False)

    def others(self, due: Sequence[Kept]) -> None:
        """Day-level reminders come together, in at most two texts a day; the rest waits a day."""
        if not due:
            return
        first = plans.reminded(self.conn, self.owner.farm_id, self.local.date())
        made = digest.digest(
            [as_due(kept, self.farm.animals) for kept in due],
            self.farm,
            self.people,
            self.local,
            self.owner.language,
            texts=LISTS_A_DAY if first else 0,
        )
        for task_id in made.left:
            plans.remind_again(self.conn, task_id, self._tomorrow(), told=False)
        self._send(made.texts, {kept.id: kept for kept in due}, numbered=True)

    def _send(self, made: Sequence[digest.Text], due: dict[int, Kept], *, numbered: bool) -> None:
        """Lay the texts in the outbox, *numbered* ones as one list, and see to their repetition."""
        for text in made:
            ids = tuple(task_id for item in text.items for task_id in item)
            outbox.add(
                self.conn,
                OutboundText(
                    phone=self.owner.phone,
                    text=text.text,
                    purpose=Purpose.REMINDER,
                    farm=self.owner.farm_id,
                    task_ids=ids,
                    items=text.items,
                    not_after=self._window_end(due[task_id] for task_id in ids),
                ),
                now=self.now,
            )
            for task_id in ids:
                kept = due[task_id]
                again = again_at(
                    kept.task,
                    kept.reminders + 1,
                    self.local,
                    self.hour,
                    self.house.zone,
                    self.intervals,
                )
                plans.remind_again(self.conn, task_id, again, told=True)
        talk = conversations.of(self.conn, self.owner.phone)
        after = self._talk_after(made, due, talk, numbered=numbered)
        if after != talk:
            conversations.keep(self.conn, self.owner.phone, after)

    def _talk_after(
        self, made: Sequence[digest.Text], due: dict[int, Kept], talk: Talk, *, numbered: bool
    ) -> Talk:
        """The talk once *made* is read: the numbers that count, whom it names, what it asks."""
        items = tuple(item for text in made for item in text.items)
        if items and numbered:  # others leave the morning's numbers alone
            talk = replace(talk, listed=items, listed_at=self.now)
        named = called(" ".join(text.text for text in made), self.people)
        if named:
            talk = replace(talk, called=named)
        asked = [how_is_it.question(ill) for text in made if (ill := self._ill_of(text, due)) is not None]
        if not asked:
            return talk
        before = load_questions(talk.questions, asked_at=talk.asked_at, now=self.now)
        earlier = (one for one in before if not how_is_it.is_asked(one))
        return replace(talk, questions=dump_questions((*asked, *earlier)), asked_at=self.now)

    def _ill_of(self, text: digest.Text, due: dict[int, Kept]) -> Animal | None:
        """The one animal whose illness *text* asks about by number."""
        ids = [task_id for item in text.items for task_id in item]
        key = due[ids[0]].task.key
        if len(ids) > 1 or key.task != how_is_it.TASK or key.animal is None:
            return None
        return self.farm.animals[key.animal]

    def _window_end(self, due: Iterable[Kept]) -> datetime | None:
        """When the last of them helps no more; None where one is open."""
        ends = [self._helps_until(kept) for kept in due]
        known = [self._moment(end) for end in ends if end is not None]
        return max(known) if len(known) == len(ends) else None

    def _helps_until(self, kept: Kept) -> date | datetime | None:
        """Until when a reminder is worth sending: one of every morning until the next."""
        return self.local.date() if kept.task.key.task in MORNINGS else kept.task.until

    def _moment(self, end: date | datetime) -> datetime:
        if isinstance(end, datetime):
            return end
        return datetime.combine(end + timedelta(days=1), time(), self.house.zone)

    def _tomorrow(self) -> datetime:
        return datetime.combine(self.local.date() + timedelta(days=1), time(self.hour), self.house.zone)
