"""A farm that has told something, as the replies and the reminders see it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta

from dialogs.outcome import Outcome
from dialogs.work import Due
from scheduler.planning import plan
from service.husbandry.forms import Entry
from service.husbandry.herd import Person
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.task import day_of
from tests.unit.husbandry.book import Book, at, day

LONG = ("W" * 12, "M" * 12, "Q" * 12)
VET = Person(role="vet", name="Mushi", phone="+255754123456")
INSEMINATOR = Person(role="technician", name="Juma", phone="+255621000111")
FAR_VET = Person(role="vet", name="Abdulrahmani Mwakasege", phone="+260971234567")
FAR_INSEMINATOR = Person(role="technician", name="Abdulrahmani Mwakasege", phone="+260971234567")


class Farmhouse:
    """A farm of three milking cows; every telling makes an outcome."""

    def __init__(
        self,
        *names: str,
        people: Mapping[str, Person] | None = None,
        now: str = "2026-03-02 07:00",
        status: str = "milking",
    ) -> None:
        names = names or ("Neema", "Zawadi", "Tausi")
        self.book = Book(*(new(name, status=status) for name in names))
        self.people = people or {}
        self.now = at(now)

    def at(self, now: str) -> Farmhouse:
        self.now = at(now)
        return self

    def tell(self, *entries: Entry) -> Outcome:
        recorded = tuple(self.book.tell(entry) for entry in entries)
        return self.outcome(recorded=recorded)

    def outcome(self, **more: object) -> Outcome:
        farm = self.book.farm
        tasks = plan(farm, self.now).tasks
        return Outcome(farm=farm, tasks=tasks, people=self.people, now=self.now, **more)  # type: ignore[arg-type]

    def due(self, *works: str, days: int = 1) -> list[Due]:
        """The tasks of the named works (all, without a name) due within *days*, numbered from 1."""
        farm = self.book.farm
        tasks = enumerate(plan(farm, self.now).tasks, 1)
        last = self.now.date() + timedelta(days=days)
        return [
            Due(number, task, farm.animals.get(task.key.animal or 0))
            for number, task in tasks
            if (not works or task.key.task in works) and day_of(task.due) <= last
        ]


def new(name: str, status: str = "milking", sex: str = "female", born: str | None = None) -> NewAnimal:
    on = day("2025-06-01")
    return NewAnimal(name=name, sex=sex, status=status, on=on, born=day(born) if born else None)


def moment(text: str) -> datetime:
    return at(text)
