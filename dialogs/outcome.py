"""What a telling came to, as the reply sees it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from service.husbandry.cycle import expected_calving
from service.husbandry.herd import Animal, Farm, Person, Sex, Told
from service.husbandry.life import gives_milk as gives_milk
from service.husbandry.task import Key, Task, day_of
from service.messages import Say

EXAMPLE = "Neema"
"""A cow's name for examples, where the farm has none to take."""


def example_name(farm: Farm) -> str:
    """The name of one of the farm's cows, for examples."""
    animals = (animal for animal in farm.present if animal.sex is not Sex.MALE)
    return next((animal.name for animal in animals), EXAMPLE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """
    Entries recorded and taken back by one text, and the farm after them.

    ``tasks``: all open tasks of the farm. ``people``: role -> whom to call, the farm's own before the
    cooperative's; may be empty. ``follows``: entry id -> what other entries make of it (a price, a debt).
    ``now``: when the text came, in the farm's zone. ``shaky``: it was read with some doubt; ``unread``: the
    part of it that came to nothing, as written.
    """

    recorded: tuple[Told, ...] = ()
    undone: tuple[Told, ...] = ()
    farm: Farm
    tasks: tuple[Task, ...] = ()
    people: Mapping[str, Person] = field(default_factory=dict)
    follows: Mapping[int, tuple[Say, ...]] = field(default_factory=dict)
    shaky: bool = False
    unread: str = ""
    now: datetime

    @property
    def today(self) -> date:
        return self.now.date()

    def animal(self, told: Told) -> Animal | None:
        """The one animal of *told*; None where the farm does not have it."""
        return self.farm.animals.get(told.animals[0]) if told.animals else None

    def animals(self, told: Told) -> tuple[Animal, ...]:
        """All animals of *told*; those present where it is about all."""
        return self.farm.of(told)

    def task(self, name: str, animal: Animal | None = None, disease: str | None = None) -> Task | None:
        """The open task *name* of *animal* (None: the herd's)."""
        key = Key(task=name, animal=None if animal is None else animal.id, disease=disease)
        return next((task for task in self.tasks if task.key == key), None)

    def window(self, name: str, animal: Animal) -> tuple[date, date] | None:
        """First and last day of the open task *name*, from today on."""
        task = self.task(name, animal)
        if task is None or task.until is None:
            return None
        return max(day_of(task.due), self.today), day_of(task.until)


def due_on(animal: Animal) -> date | None:
    """The day on which *animal* is expected to calve; None where nothing tells it."""
    expected = expected_calving(animal)
    return None if expected is None else expected.on
