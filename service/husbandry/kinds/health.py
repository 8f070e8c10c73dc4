"""What keeps a herd well or treats it: deworming, spraying, vaccination, disinfection, treatment, illness."""

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms, herd, holds
from service.husbandry.signs import DISEASES, ILLNESS_SIGNS


def _held(animal: herd.Animal, on: date, milk_days: Decimal | None, meat_days: Decimal | None) -> herd.Animal:
    """*animal* with the holds of a drug given *on* a day; the one that ends last stands."""
    if not milk_days and not meat_days:
        return animal
    return herd.changed(
        animal,
        milk_held_until=holds.latest(animal.milk_held_until, on, milk_days),
        meat_held_until=holds.latest(animal.meat_held_until, on, meat_days),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Deworming(forms.Entry):
    """Worm medicine given; ``amount_ml`` for all animals named together. Hold days: None unknown, 0 none."""

    KIND: ClassVar[str] = "deworming"

    animals: tuple[str, ...] = forms.animals(needed=False)
    on: date = forms.day()
    product: str | None = forms.words()
    amount_ml: Decimal | None = forms.quantity(0, 20000)
    milk_hold_days: Decimal | None = forms.quantity(0, 365)
    meat_hold_days: Decimal | None = forms.quantity(0, 365)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(
            _held(animal, self.on, self.milk_hold_days, self.meat_hold_days), dewormed_on=self.on
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Spraying(forms.Entry):
    """Tick wash by sprayer, hand or dip."""

    KIND: ClassVar[str] = "spraying"

    animals: tuple[str, ...] = forms.animals(needed=False)
    on: date = forms.day()
    product: str | None = forms.words()
    milk_hold_days: Decimal | None = forms.quantity(0, 365)
    meat_hold_days: Decimal | None = forms.quantity(0, 365)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return _held(animal, self.on, self.milk_hold_days, self.meat_hold_days)

    def farm_after(self, farm: herd.Farm, told: herd.Told) -> herd.Farm:
        return replace(farm, sprayed_on=self.on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Vaccination(forms.Entry):
    """Vaccinated against one disease."""

    KIND: ClassVar[str] = "vaccination"

    animals: tuple[str, ...] = forms.animals()
    on: date = forms.day()
    disease: str = forms.choice(*DISEASES, needed=True)
    milk_hold_days: Decimal | None = forms.quantity(0, 365)
    meat_hold_days: Decimal | None = forms.quantity(0, 365)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        held = _held(animal, self.on, self.milk_hold_days, self.meat_hold_days)
        return herd.changed(held, vaccinated={**animal.vaccinated, self.disease: self.on})


@dataclass(frozen=True, slots=True, kw_only=True)
class Disinfection(forms.Entry):
    """The shed was disinfected."""

    KIND: ClassVar[str] = "disinfection"

    on: date = forms.day()
    product: str | None = forms.words()
    about: bool = forms.flag()

    def farm_after(self, farm: herd.Farm, told: herd.Told) -> herd.Farm:
        return replace(farm, disinfected_on=self.on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Treatment(forms.Entry):
    """A drug was given, by whomever; hold days as the label states them."""

    KIND: ClassVar[str] = "treatment"

    animals: tuple[str, ...] = forms.animals()
    on: date = forms.day()
    product: str | None = forms.words()
    reason: str | None = forms.words()
    milk_hold_days: Decimal | None = forms.quantity(0, 365)
    meat_hold_days: Decimal | None = forms.quantity(0, 365)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return _held(animal, self.on, self.milk_hold_days, self.meat_hold_days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Illness(forms.Entry):
    """Signs of illness as seen; never a diagnosis."""

    KIND: ClassVar[str] = "illness"

    animal: str = forms.animal()
    on: date = forms.day()
    signs: tuple[str, ...] = forms.several(*ILLNESS_SIGNS, needed=True)
    about: bool = forms.flag()
