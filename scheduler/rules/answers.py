"""Which record a task asks for: with it, the task is done."""

from __future__ import annotations

from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.body import Girth, Weight
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.health import (
    Deworming,
    Disinfection,
    Recovery,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death
from service.husbandry.kinds.one_day import DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.task import Task

ANSWERS: dict[str, tuple[type[Entry], ...]] = {
    "serve": (Service,),
    "illness_check": (Recovery, Treatment),
    "return_heat": (Heat, Service, PregnancyCheck),
    "pregnancy_check": (PregnancyCheck,),
    "dry_off": (DryingOff,),
    "steam_up": (Calving,),
    "calving": (Calving,),
    "calving_overdue": (Calving,),
    "heat_after_calving": (Heat, Service),
    "weaning": (Weaning,),
    "first_service": (Service,),
    "spray": (Spraying,),
    "disinfect": (Disinfection,),
    "deworm": (Deworming,),
    "vaccinate": (Vaccination,),
    "weigh": (Girth, Weight),
}
"""Tasks that are not here (``calf_feed``, the ends of holds) are answered by a plain ``done`` only."""

_ONLY_WHEN_DUE = frozenset({"return_heat"})
"""A watch for a return is not answered by what is told before its first day: that moves it."""


def answers(told: Told, task: Task) -> bool:
    """Whether *told* is what *task* asked for."""
    entry, key = told.entry, task.key
    if not _concerns(told, key.animal):
        return False
    if isinstance(entry, Done):
        return entry.task == key.task and entry.on >= task.since
    if not isinstance(entry, ANSWERS.get(key.task, ())):
        return False
    if isinstance(entry, Vaccination) and entry.disease != key.disease:
        return False
    first = task.due if key.task in _ONLY_WHEN_DUE else task.since
    return entry.happened_on >= first


def _concerns(told: Told, animal: int | None) -> bool:
    return animal is None or animal in told.animals or told.entry.named == (EVERY_ANIMAL,)


def left(told: Told, task: Task) -> bool:
    """Whether by *told* the animal of *task* has left the herd."""
    return isinstance(told.entry, Death | AnimalSale) and task.key.animal in told.animals
