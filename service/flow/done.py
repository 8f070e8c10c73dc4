"""
Work said to be done or put off, by its number in the list shown or in words.

A "done" becomes the record that its task stands for; where that wants one more thing, it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from typing import Any

from dialogs.grammar import checks
from dialogs.reading import Code, Problem
from service.flow.replan import hour_of
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.forms import Entry
from service.husbandry.herd import Animal
from service.husbandry.kinds.body import Weight
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.health import Deworming, Disinfection, Spraying, Vaccination
from service.husbandry.kinds.instructions import Later
from service.husbandry.kinds.one_day import DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.task import Key, Task
from service.records import plan as plans
from service.records.plan import Kept

STANDS_FOR: Mapping[str, Callable[[tuple[str, ...], date], Iterable[Entry]]] = {
    "spray": lambda animals, on: [Spraying(on=on)],
    "disinfect": lambda animals, on: [Disinfection(on=on)],
    "deworm": lambda animals, on: [Deworming(animals=animals, on=on)],
    "dry_off": lambda animals, on: [DryingOff(animal=name, on=on) for name in animals],
    "weaning": lambda animals, on: [Weaning(animal=name, on=on) for name in animals],
}
"""Tasks that are done with nothing more to say, and the records they stand for."""

ASKS_FOR: Mapping[str, tuple[type[Entry], str]] = {
    "serve": (Service, "method"),
    "pregnancy_check": (PregnancyCheck, "result"),
    "vaccinate": (Vaccination, "on"),
    "weigh": (Weight, "kg"),
}
"""Tasks whose record wants one more thing: its kind, and what is asked."""


def finish(telling: Telling, done: Done) -> tuple[list[Entry], list[Problem]]:
    """
    What a "done" stands for: records that can be kept, and questions for what is still missing.

    Answers with a sentence of its own where no task fits.
    """
    tasks = _numbered(telling, done.numbers) if done.numbers else _in_words(telling, done)
    if not tasks:
        telling.say("done.which")
        return [], []
    records: list[Entry] = []
    questions: list[Problem] = []
    for key, animals in _grouped(telling, tasks).items():
        if key.task in ASKS_FOR:
            questions += [_ask_for(telling, key, name) for name in animals]
        elif key.task in STANDS_FOR:
            records += STANDS_FOR[key.task](animals, done.on)
        else:
            records.append(Done(task=key.task, animals=animals, on=done.on))
    return records, questions


def _numbered(telling: Telling, numbers: tuple[int, ...]) -> list[Task]:
    return [kept.task for kept in _of_list(telling, numbers)]


def _of_list(telling: Telling, numbers: tuple[int, ...]) -> list[Kept]:
    """The tasks under *numbers* of the list shown last that are still open."""
    listed = telling.talk.listed
    ids = {task_id for n in numbers if 0 < n <= len(listed) for task_id in listed[n - 1]}
    return [kept for kept in plans.open_tasks(telling.conn, telling.book.farm_id) if kept.id in ids]


def _in_words(telling: Telling, done: Done) -> list[Task]:
    names = {name.casefold() for name in done.animals} - {forms.EVERY_ANIMAL}
    return [
        kept.task
        for kept in plans.open_tasks(telling.conn, telling.book.farm_id)
        if kept.task.key.task == done.task and (not names or names & _names(telling, kept.task.key))
    ]


def _animal(telling: Telling, key: Key) -> Animal | None:
    return None if key.animal is None else telling.book.farm.animals[key.animal]


def _names(telling: Telling, key: Key) -> set[str]:
    animal = _animal(telling, key)
    return set() if animal is None else {name.casefold() for name in animal.names}


def _grouped(telling: Telling, tasks: Iterable[Task]) -> dict[Key, tuple[str, ...]]:
    """Tasks of one sort together, with the names of their animals; the key is without the animal."""
    groups: dict[Key, tuple[str, ...]] = {}
    for task in tasks:
        animal = _animal(telling, task.key)
        sort = replace(task.key, animal=None)
        groups[sort] = (*groups.get(sort, ()), *(() if animal is None else (animal.name,)))
    return groups


def _ask_for(telling: Telling, key: Key, name: str) -> Problem:
    kind, wanted = ASKS_FOR[key.task]
    values: dict[str, Any] = {} if wanted == "on" else {"on": telling.local.date()}
    values["animals" if kind is Vaccination else "animal"] = (name,) if kind is Vaccination else name
    if key.disease is not None:
        values["disease"] = key.disease
    return checks.problem(Code.MISSING, kind, values, field=wanted)


def put_off(telling: Telling, later: Later) -> None:
    kept = _of_list(telling, later.numbers)
    if not kept:
        telling.say("done.which")
        return
    tomorrow = telling.local.date() + timedelta(days=1)
    at = datetime.combine(tomorrow, time(hour_of(telling.book.farm)), telling.house.zone)
    for one in kept:
        plans.remind_again(telling.conn, one.id, at, told=False)
    telling.say("later.done", day=tomorrow)
