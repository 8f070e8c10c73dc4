"""Reminders: the full text of one thing to do, with its dates, whom to call, and its caution."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, time, timedelta
from typing import Any

from dialogs import hours, texts
from dialogs.outcome import due_on, example_name
from dialogs.phrases import disease, who
from dialogs.work import Item, first_sale, holds_on, line
from service.husbandry.herd import Animal, Farm, Person
from service.husbandry.life import is_cow
from service.husbandry.task import Task
from service.husbandry.triage import triage
from service.husbandry.vaccines import CALENDAR
from service.messages import Say, say

OVERDUE = timedelta(days=14)
"""The overdue call comes so long after the expected calving (the contract)."""

FOR_THE_VET = timedelta(hours=10)
"""An afterbirth first asked about so long ago is the vet's; short of twelve, as the night moves texts."""

CALF_FEED_STEPS = ((60, "first"), (200, "second"))
"""Age in days below which a step of calf feeding is told; from the last on it is the third."""

MANY = {"pregnancy_check", "dry_off", "steam_up", "calving", "calving_overdue", "illness_check"}
"""Work with another text for several animals."""


def own_text(item: Item, farm: Farm, people: Mapping[str, Person], now: datetime) -> tuple[Say, ...]:
    """Ways of saying it, the fullest first; each one segment."""
    key = f"task.{_variant(item, now)}"
    if not texts.has(key):
        return (line(item, now, weekday=True),)
    return (Say(key, _values(item, farm, people, now)),)


def _variant(item: Item, now: datetime) -> str:
    work, animals = item.work, item.animals
    if holds_on(item):
        return f"{work}_unknown"
    if work == "afterbirth":
        return "afterbirth_vet" if _since(item, now) >= FOR_THE_VET else work
    if work == "return_heat":
        alone = len(animals) == 1 and animals[0].served is not None
        return "return_heat" if alone else "return_heat_unserved"
    if work == "pregnancy_check" and len(animals) == 1 and not _served_on_a_day(animals[0]):
        return "pregnancy_check_many"
    if work in MANY and len(animals) > 1:
        return f"{work}_many"
    if work == "calving" and not is_cow(animals[0]):
        return "calving_heifer"
    if work == "vaccinate" and item.disease is not None:
        return _vaccine(item.disease)
    return f"calf_feed_{_step(item)}" if work == "calf_feed" else work


def _vaccine(disease: str) -> str:
    """The disease's own text, where it has one, else that of live vaccines or of all."""
    if texts.has(f"task.vaccinate_{disease}"):
        return f"vaccinate_{disease}"
    return "vaccinate_live" if CALENDAR[disease].live else "vaccinate"


def _served_on_a_day(animal: Animal) -> bool:
    return animal.served is not None and not animal.served.running


def _since(item: Item, now: datetime) -> timedelta:
    """How long the first of its tasks has been due."""
    due = item.tasks[0].task.due
    first = due if isinstance(due, datetime) else datetime.combine(due, time(), now.tzinfo)
    return now - first


def _step(item: Item) -> str:
    born = [animal.born for animal in item.animals if animal.born is not None]
    age = (item.first - max(born)).days if born else 0
    return next((step for below, step in CALF_FEED_STEPS if age < below), "third")


def _values(item: Item, farm: Farm, people: Mapping[str, Person], now: datetime) -> dict[str, Any]:
    """Everything that any of the texts may name."""
    on = max(item.first, now.date())
    first = item.animals[0] if item.animals else None
    values: dict[str, Any] = {
        "names": item.names,
        "name": first.name if first else example_name(farm),
        "first_name": first.name if first else "",
        "on": on,
        "milking": first_sale(item),
        "window": (item.first, item.last or item.first),
        "until": item.last or item.first,
        "disease": disease(item.disease or ""),
        "who": who(people, _role(item.work)),
    }
    return values | (_dates(item, first, now) if first else {})


def _role(work: str) -> str:
    return "technician" if work in {"serve", "return_heat"} else "vet"


def _dates(item: Item, animal: Animal, now: datetime) -> dict[str, Any]:
    if animal.ill_on is not None and item.work == "illness_check":
        sign = triage(animal.ill_signs, animal, animal.ill_on).sign
        return {"what": say(f"sign.{sign}"), "first": animal.ill_on}
    on = max(item.first, now.date())
    due = due_on(animal) or item.first
    values: dict[str, Any] = {"due": due, "days": (now.date() - due).days}
    if item.work == "calving_overdue":
        due = due_on(animal) or item.first - OVERDUE
        values = {"due": due, "days": max((on - due).days, 0)}
    elif animal.served is not None:
        values |= {"served": animal.served.on}
        values |= {"days": (on - animal.served.on).days} if item.work == "pregnancy_check" else {}
    window = _serve(item.tasks[0].task)
    return values | ({"hours": hours.told(window, now)} if window is not None else {})


def _serve(task: Task) -> tuple[datetime, datetime] | None:
    return hours.serve_window(task) if task.key.task == "serve" else None
