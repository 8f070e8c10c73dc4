"""A farm told entry by entry, without a database: names are resolved to animals as the ledger does it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from zoneinfo import ZoneInfo

from scheduler.planning import Plan, plan
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Animal, Farm, Told
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import Naming, NewAnimal
from service.husbandry.replay import replay, working_names
from service.husbandry.task import Point

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
PHONE = "+255621234567"


def at(text: str) -> datetime:
    """A moment of the farm: ``2026-03-01 06:30``."""
    return datetime.fromisoformat(text).replace(tzinfo=ZONE)


def day(text: str) -> date:
    return date.fromisoformat(text)


class Book:
    """What a farm has told so far."""

    def __init__(self, *entries: Entry) -> None:
        self.told: list[Told] = []
        self.ids: dict[str, int] = {}
        for entry in entries:
            self.tell(entry)

    def tell(self, entry: Entry) -> Told:
        animals = tuple(self._known(entry, name) for name in entry.named if name != EVERY_ANIMAL)
        calves: tuple[int, ...] = ()
        if isinstance(entry, Naming):
            self.ids[entry.name] = animals[0]
        if isinstance(entry, Calving):
            alive = [calf for calf in entry.calves if calf.alive]
            present = [a.name for a in self.farm.animals.values() if a.present]
            calves = tuple(self._new(name) for name in working_names(entry.animal, alive, present))
        told = Told(
            id=len(self.told) + 1,
            entry=entry,
            animals=animals,
            calves=calves,
            told_at=at("2026-03-02 06:00"),
            told_by=PHONE,
        )
        self.told.append(told)
        return told

    def _known(self, entry: Entry, name: str) -> int:
        return self._new(name) if isinstance(entry, NewAnimal) else self.ids[name]

    def _new(self, name: str) -> int:
        self.ids[name] = max(self.ids.values(), default=0) + 1
        return self.ids[name]

    @property
    def farm(self) -> Farm:
        return replay(self.told)

    def animal(self, name: str) -> Animal:
        return self.farm.animals[self.ids[name]]

    def plan(self, now: str) -> Plan:
        return plan(self.farm, at(now))

    def tasks(self, now: str, animal: str | None = None) -> Mapping[str, tuple[str, str | None]]:
        """What is open *now* (of one *animal*, or of the herd): task -> (due, until), as ISO text."""
        key = None if animal is None else self.ids[animal]
        return {
            task.key.task if task.key.disease is None else f"{task.key.task} {task.key.disease}": (
                _iso(task.due),
                None if task.until is None else _iso(task.until),
            )
            for task in self.plan(now).tasks
            if task.key.animal == key
        }


def _iso(point: Point) -> str:
    return point.strftime("%Y-%m-%d %H:%M") if isinstance(point, datetime) else point.isoformat()
