"""
What a sender wants done, carried out: undo, later, ask, language, stop, start, no answer.

One function each, listed in ``ORDERS``; each answers through ``telling.answers``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import timedelta
from typing import Any

from dialogs import help as topics
from dialogs import replies
from scheduler import digest
from service.flow.done import put_off
from service.flow.telling import Telling
from service.husbandry.forms import Entry
from service.husbandry.herd import Animal, Person, Told
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.instructions import (
    Ask,
    Language,
    Later,
    NoAnswer,
    Start,
    Stop,
    Undo,
)
from service.husbandry.kinds.milk import Milk
from service.husbandry.task import day_of
from service.records import farms, ledger, outbox
from service.records import plan as plans
from service.records.plan import Kept

LATEST_ENTRIES = 8
"""Entries shown to check against: about what three segments hold."""

MILK_DAYS = 7
"""Days of milk in an answer about it."""

# --- undo, language, stop and start ----------------------------------------------------------------


def _undo(telling: Telling, _: Undo) -> None:
    telling.undo()
    if not telling.undone:
        telling.say("undo.nothing")


def _language(telling: Telling, order: Language) -> None:
    farms.change(telling.conn, telling.caller.phone, language=order.to)
    telling.language = order.to
    telling.say("language.done")


def _stop(telling: Telling, _: Stop) -> None:
    farms.change(telling.conn, telling.caller.phone, state=farms.STOPPED)
    outbox.withdraw_unasked(telling.conn, telling.caller.phone)
    telling.say("stop.done")


def _start(telling: Telling, _: Start) -> None:
    farms.change(telling.conn, telling.caller.phone, state=farms.ACTIVE)
    telling.say("start.done")


# --- whom to call ----------------------------------------------------------------------------------


def _no_answer(telling: Telling, _: NoAnswer) -> None:
    """The next person of the same role as the one named last; the farm's own come before the others."""
    called = telling.talk.called
    everyone = [*telling.book.farm.people.values(), *telling.cooperative_people()]
    role = next((p.role for p in everyone if called and p.phone == called[-1]), "vet")
    following = next((p for p in everyone if p.role == role and p.phone not in called), None)
    if following is None or following.phone is None:
        telling.say("no_answer.none")
        return
    telling.talk = replace(telling.talk, called=(*called, following.phone))
    telling.say("no_answer.next", name=following.name or "", phone=following.phone)


# --- questions -------------------------------------------------------------------------------------


def _ask(telling: Telling, ask: Ask) -> None:
    ANSWERS[ask.topic](telling, ask)


def _help(telling: Telling, ask: Ask) -> None:
    telling.answers.append(topics.about(ask.about, telling.language))


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
        replies.answer_animal(animal, mine, telling.book.farm, telling.local, telling.language)
    )


def find_animal(telling: Telling, name: str | None) -> Animal | None:
    """The present animal that goes by *name*."""
    if name is None:
        return None
    wanted = name.casefold()
    present = (a for a in telling.book.farm.animals.values() if a.present)
    return next((a for a in present if wanted in {n.casefold() for n in a.names}), None)


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
    telling.answers.append(replies.answer_milk(name, shown, telling.language))


def _milkings(told: Iterable[Told]) -> list[Milk]:
    return [one.entry for one in told if isinstance(one.entry, Milk)]


def _entries(telling: Telling, _: Ask) -> None:
    latest = ledger.recent(telling.conn, telling.book.farm_id, limit=LATEST_ENTRIES)
    telling.answers.append(replies.answer_entries([t.entry for t in latest], telling.language))


def _call(telling: Telling, _: Ask) -> None:
    people = telling.people()
    _named(telling, people.values())
    telling.answers.append(replies.answer_call(people, telling.language))


def _named(telling: Telling, people: Iterable[Person]) -> None:
    phones = tuple(p.phone for p in people if p.phone is not None)
    telling.talk = replace(telling.talk, called=phones)


def _not_yet(telling: Telling, ask: Ask) -> None:
    telling.say(f"answer.not_kept.{ask.topic}")


ANSWERS: Mapping[str, Callable[[Telling, Ask], None]] = {
    "help": _help,
    "herd": _herd,
    "tasks": _tasks,
    "animal": _one_animal,
    "milk": _milk,
    "entries": _entries,
    "call": _call,
    "statement": _not_yet,
    "price": _not_yet,
    "dose": _not_yet,
    "mix": _not_yet,
}

ORDERS: Mapping[type[Entry], Callable[[Telling, Any], None]] = {
    Later: put_off,
    Undo: _undo,
    Language: _language,
    Stop: _stop,
    Start: _start,
    NoAnswer: _no_answer,
    Ask: _ask,
}

ALL = frozenset({*ORDERS, Done})
"""Every kind that is carried out; a ``done`` ends as a record of what its task stands for."""
