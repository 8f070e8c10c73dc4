"""Measures of the body: girth, weight, condition."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms, herd


@dataclass(frozen=True, slots=True, kw_only=True)
class Girth(forms.Entry):
    """Round the chest behind the forelegs, centimetres."""

    KIND: ClassVar[str] = "girth"

    animal: str = forms.animal()
    on: date = forms.day()
    cm: Decimal = forms.quantity(60, 230, needed=True)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(animal, weighed_on=self.on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight(forms.Entry):
    """Live weight, kilograms."""

    KIND: ClassVar[str] = "weight"

    animal: str = forms.animal()
    on: date = forms.day()
    kg: Decimal = forms.quantity(15, 1200, needed=True)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(animal, weighed_on=self.on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition(forms.Entry):
    """Body condition, 1 (starved) to 5 (fat), quarters allowed."""

    KIND: ClassVar[str] = "condition"

    animal: str = forms.animal()
    on: date = forms.day()
    score: Decimal = forms.quantity(1, 5, needed=True)
    about: bool = forms.flag()
