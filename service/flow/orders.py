"""
What a sender wants done, carried out: undo, later, ask, language, stop, start, no answer.

One function each, listed in ``ORDERS``; each answers through ``telling.answers``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from dialogs import help as topics
from dialogs import replies
from scheduler import digest
from service.flow import (
    answers_dose,
    answers_feed,
    calls,
    campaigns,
    centre,
    credit,
    holds,
    people,
    pin,
    prices,
    reports,
    statements,
)
from service.flow.done import put_off
from service.flow.finding import find_present
from service.flow.semen import choose as choose_semen
from service.flow.telling import Telling
from service.husbandry.fertility import fertility
from service.husbandry.forms import Entry
from service.husbandry.herd import Animal, Told
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.instructions import (
    Ask,
    Contest,
    Fix,
    Helper,
    Language,
    Later,
    NoAnswer,
    Pin,
    Start,
    Stop,
    Undo,
    Willing,
)
from service.husbandry.kinds.milk import Milk
from service.husbandry.lactation_so_far import Lactation, lactation_so_far
from service.husbandry.task import day_of
from service.records import advice, farms, ledger, outbox
from service.records import plan as plans
from service.records.plan import Kept

LATEST_ENTRIES = 8
"""Entries shown to check against: about what three segments hold."""

MILK_DAYS = 7
"""Days of milk in an answer about it."""

# --- undo, language, stop and start ----------------------------------------------------------------


def _undo(telling: Telling, order: Undo) -> None:
    """Take back the latest telling; where that lifts a hold on milk, she is asked why first."""
    if order.why is None:
        latest = ledger.latest_telling(telling.conn, telling.book.farm_id, telling.caller.phones)
        asked = holds.why_lift(telling, latest)
        if asked is not None:
            telling.asked.append(asked)
            return
    telling.undo(order.why)
    if not telling.undone:
        telling.say("undo.nothing")
    elif ledger.replaced_by(telling.conn, telling.undone[0]):
        what = replies.summary(telling.undone[0].entry, telling.language, today=telling.local.date())
        telling.say("undo.of_a_fix", what=what)


def _language(telling: Telling, order: Language) -> None:
    farms.change(telling.conn, telling.caller.phone, language=order.to)
    telling.language = order.to
    telling.say("language.done")


def _stop(telling: Telling, _: Stop) -> None:
    if telling.caller.role == farms.REPORTER:
        reports.stop(telling)
        return
    farms.change(telling.conn, telling.caller.phone, state=farms.STOPPED)
    outbox.withdraw_unasked(telling.conn, telling.caller.phone)
    telling.say("stop.done")


def _start(telling: Telling, _: Start) -> None:
    farms.change(telling.conn, telling.caller.phone, state=farms.ACTIVE)
    telling.say("start.done")


# --- questions -------------------------------------------------------------------------------------


def _ask(telling: Telling, ask: Ask) -> None:
    ANSWERS[ask.topic](telling, ask)


def _help(telling: Telling, ask: Ask) -> None:
    own = advice.own(telling.conn, telling.caller.cooperative_id, telling.language)
    whom = telling.people()
    text = topics.about(ask.about, telling.language, whom, intervals=telling.intervals, own=own)
    telling.answers.append(text)
    named = replies.called(text, whom)
    if named:  # whoever texts that nobody answered means them
        telling.talk = replace(telling.talk, called=named)


def _herd(telling: Telling, _: Ask) -> None:
    telling.answers.append(replies.answer_herd(telling.book.farm, telling.local.date(), telling.language))


AHEAD = {"today": 0, "week": 7, "month": 31}
"""How many days ahead a list of tasks looks; one that names no period looks a week ahead."""


def listed_tasks(telling: Telling, period: str = "week") -> tuple[digest.Item, ...]:
    """The farm's open tasks that begin within *period*, as the numbered items of a list."""
    last = telling.local.date() + timedelta(days=AHEAD[period])
    kept = telling.open or plans.open_tasks(telling.conn, telling.book.farm_id)
    due = [as_due(one, telling.book.farm.animals) for one in kept if day_of(one.task.due) <= last]
    return digest.items(due, telling.local)


def show_list(telling: Telling, period: str = "week") -> tuple[digest.Item, ...]:
    """The list of tasks, which from now on is the one whose numbers count."""
    items = listed_tasks(telling, period)
    if items:
        listed = tuple(tuple(due.id for due in item.tasks) for item in items)
        telling.talk = replace(telling.talk, listed=listed, listed_at=telling.now)
    return items


def _tasks(telling: Telling, ask: Ask) -> None:
    items = show_list(telling, ask.period or "week")
    telling.answers.append(replies.answer_tasks(items, telling.local, telling.language))


def as_due(kept: Kept, animals: Mapping[int, Animal]) -> digest.Due:
    """A stored task as the digest wants it."""
    key = kept.task.key
    return digest.Due(id=kept.id, task=kept.task, animal=None if key.animal is None else animals[key.animal])


def _one_animal(telling: Telling, ask: Ask) -> None:
    animal = find_animal(telling, ask.animal)
    if animal is None:
        telling.say("answer.nothing")
        return
    tasks = [kept.task for kept in plans.open_tasks(telling.conn, telling.book.farm_id)]
    mine = [task for task in tasks if task.key.animal == animal.id]
    telling.answers.append(
        replies.answer_animal(
            animal,
            mine,
            telling.book.farm,
            telling.local,
            telling.language,
            breeding=fertility(animal, telling.book.told, telling.local.date(), telling.intervals),
        )
    )


def find_animal(telling: Telling, name: str | None) -> Animal | None:
    """The present animal that goes by *name*."""
    return find_present(telling.book.farm, name)


def _milk(telling: Telling, ask: Ask) -> None:
    today = telling.local.date()
    first = today - timedelta(days=MILK_DAYS - 1)
    told = ledger.on_days(telling.conn, telling.book.farm_id, Milk.KIND, first, today)
    animal = find_animal(telling, ask.animal)
    rows = [entry for entry in _milkings(told) if animal is None or entry.animal in animal.names]
    if not rows:
        telling.say("answer.nothing")
        return
    name = None if animal is None else animal.name
    shown = [(entry.on, entry.session, entry.litres) for entry in rows]
    since = None if animal is None else _lactation(telling, animal, today)
    telling.answers.append(replies.answer_milk(name, shown, telling.language, lactation=since))


def _lactation(telling: Telling, animal: Animal, today: date) -> Lactation | None:
    """Hers since her last calving."""
    if animal.calved_on is None:
        return None
    told = ledger.on_days(telling.conn, telling.book.farm_id, Milk.KIND, animal.calved_on, today)
    hers = sorted((one for one in told if animal.id in one.animals), key=lambda one: one.id)
    return lactation_so_far(animal, _milkings(hers))


def _milkings(told: Iterable[Told]) -> list[Milk]:
    return [one.entry for one in told if isinstance(one.entry, Milk)]


def _entries(telling: Telling, _: Ask) -> None:
    latest = ledger.recent(telling.conn, telling.book.farm_id, limit=LATEST_ENTRIES)
    entries = [people.discreet(telling, told) for told in latest]
    tellers = people.tellers(telling, latest)
    telling.answers.append(replies.answer_entries(entries, telling.language, tellers))


def _nothing(telling: Telling, _: Entry) -> None:
    telling.say("answer.nothing")


ANSWERS: Mapping[str, Callable[[Telling, Ask], None]] = {
    "help": _help,
    "herd": _herd,
    "tasks": _tasks,
    "animal": _one_animal,
    "milk": _milk,
    "entries": _entries,
    "call": calls.call,
    "statement": statements.answer,
    "price": prices.prices,
    "dose": answers_dose.dose,
    "mix": answers_dose.mix,
    "owed": credit.owed,
    "pay": centre.pay,
    "people": people.who_tells,
    "ration": answers_feed.ration,
    "feed_worth": answers_feed.feed_worth,
    "fodder": answers_feed.fodder_lasts,
    "space": answers_feed.space,
    "semen": choose_semen,
}

ORDERS: Mapping[type[Entry], Callable[[Telling, Any], None]] = {
    Later: put_off,
    Undo: _undo,
    Language: _language,
    Stop: _stop,
    Start: _start,
    NoAnswer: calls.no_answer,
    Ask: _ask,
    Fix: lambda telling, order: None,  # done with the entries that it came with
    Contest: reports.contest,
    Helper: people.helper,
    Pin: pin.order,
    Willing: campaigns.answered,
}

ALL = frozenset({*ORDERS, Done})
"""Every kind that is carried out; a ``done`` ends as a record of what its task stands for."""
