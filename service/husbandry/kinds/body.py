"""Measures of the body: girth, weight, condition."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms, girth, herd


def _weighed(animal: herd.Animal, on: date, kg: Decimal | None, way: str) -> herd.Animal:
    """*animal* with the weight found *on* that day; the time before is another day's."""
    before = animal.weighed_before if animal.weighed_on == on else animal.weighed_on
    return herd.changed(animal, weighed_on=on, weighed_before=before, weight_kg=kg, weight_from=way)


@dataclass(frozen=True, slots=True, kw_only=True)
class Girth(forms.Entry):
    """Round the chest behind the forelegs, centimetres."""

    KIND: ClassVar[str] = "girth"

    animal: str = forms.animal()
    on: date = forms.day()
    cm: Decimal = forms.quantity(60, 230, needed=True)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        found = girth.weight_of(animal, self.cm, self.on)
        return _weighed(animal, self.on, None if found is None else found.kg, self.KIND)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight(forms.Entry):
    """Live weight, kilograms."""

    KIND: ClassVar[str] = "weight"

    animal: str = forms.animal()
    on: date = forms.day()
    kg: Decimal = forms.quantity(15, 1200, needed=True)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return _weighed(animal, self.on, self.kg, self.KIND)


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition(forms.Entry):
    """Body condition, 1 (starved) to 5 (fat), quarters allowed."""

    KIND: ClassVar[str] = "condition"

    animal: str = forms.animal()
    on: date = forms.day()
    score: Decimal = forms.quantity(1, 5, needed=True)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        scored = herd.changed(animal, condition=self.score, condition_on=self.on)
        if animal.condition_on in (None, self.on):
            return scored
        return herd.changed(
            scored, condition_before=animal.condition, condition_before_on=animal.condition_on
        )
