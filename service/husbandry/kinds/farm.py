"""What concerns the farm and not one animal: people to call, the rules it sets, work done."""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms, herd

OFF = "off"
"""In a farm's settings: what is not to come any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact(forms.Entry):
    """Whom to call."""

    KIND: ClassVar[str] = "contact"

    role: str = forms.choice("vet", "technician", "other", needed=True)
    name: str | None = forms.name(needed=False)
    phone: str = forms.phone()
    on: date = forms.day()

    def farm_after(self, farm: herd.Farm, told: herd.Told) -> herd.Farm:
        person = herd.Person(role=self.role, name=self.name, phone=self.phone)
        return replace(farm, people={**farm.people, self.role: person})


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting(forms.Entry):
    """
    A routine's interval in days, or the hour (0-23) of the farm's morning text.

    ``off``: what ``task`` names is not to come any more (``advice`` by itself).
    """

    KIND: ClassVar[str] = "setting"

    task: str | None = forms.words()
    every_days: Decimal | None = forms.quantity(1, 400)
    hour: Decimal | None = forms.quantity(0, 23)
    off: bool = forms.flag()
    on: date = forms.day()

    def farm_after(self, farm: herd.Farm, told: herd.Told) -> herd.Farm:
        settings = dict(farm.settings)
        if self.hour is not None:
            settings["hour"] = int(self.hour)
        if self.task is None:
            return replace(farm, settings=settings)
        if self.every_days is not None:
            settings[self.task] = int(self.every_days)
        if self.off or OFF in settings:
            others = tuple(task for task in settings.get(OFF, ()) if task != self.task)
            settings[OFF] = (*others, self.task) if self.off else others
        return replace(farm, settings=settings, asked_on={**farm.asked_on, self.task: self.on})


@dataclass(frozen=True, slots=True, kw_only=True)
class Done(forms.Entry):
    """
    Work done that needs no record of its own.

    As an instruction: ``numbers`` of the latest numbered list, or ``task`` and ``animals`` in words.
    As kept: ``task`` and ``animals`` (empty for the herd's).
    """

    KIND: ClassVar[str] = "done"

    numbers: tuple[int, ...] = forms.numbers()
    task: str | None = forms.words()
    animals: tuple[str, ...] = forms.animals(needed=False)
    on: date = forms.day()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return animal if self.task is None else herd.changed(animal, done={**animal.done, self.task: self.on})

    def farm_after(self, farm: herd.Farm, told: herd.Told) -> herd.Farm:
        """Told of no animal, or of all of them, it is the herd's."""
        if self.task is None or told.animals:
            return farm
        return replace(farm, done={**farm.done, self.task: self.on})
