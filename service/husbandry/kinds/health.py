"""What keeps a herd well or treats it: deworming, spraying, vaccination, disinfection, treatment, illness."""

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms, herd, holds, life
from service.husbandry.signs import DISEASES, ILLNESS_SIGNS

NOT_ILL = frozenset({"ticks", "sudden_death"})
"""Signs after which nobody asks how she is: ticks are washed off, and the dead do not recover."""

ONE_ILLNESS = timedelta(days=14)
"""What is told within so many days of the last sign is the same illness; Byreline's own choice."""


def _well(animal: herd.Animal, on: date, told: herd.Told) -> herd.Animal:
    """*animal* recovered, or in the vet's hands, *on* a day: how it is need not be asked."""
    if animal.ill_on is None or animal.ill_told_at is None:
        return animal
    if animal.ill_on == on and told.told_at < animal.ill_told_at:
        return animal  # told of as ill since, on that same day
    return herd.changed(animal, ill_since=None, ill_on=None, ill_told_at=None, ill_signs=())


def _held(
    animal: herd.Animal, entry: "Deworming | Spraying | Vaccination | Treatment", *asks: herd.What
) -> herd.Animal:
    """*animal* with the holds of a drug; *asks*: what is held until the label is told, if it is not."""
    product = getattr(entry, "product", None)
    dose = herd.Dose(
        kind=entry.KIND,
        on=entry.on,
        at=getattr(entry, "last_dose", None),
        product=None if product is None else product.casefold(),
        milk_days=entry.milk_hold_days,
        meat_days=entry.meat_hold_days,
        asks=asks,
        dry_cow=getattr(entry, "dry_cow", False),
    )
    return holds.given(animal, dose)


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
        # A dry cow's milk is weeks away; of one in milk nobody knows better than the label.
        asks: tuple[herd.What, ...] = ("milk",) if life.gives_milk(animal) else ()
        return herd.changed(_held(animal, self, *asks), dewormed_on=self.on)


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
        return _held(animal, self)

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
        held = _held(animal, self)
        return herd.changed(held, vaccinated={**animal.vaccinated, self.disease: self.on})

    def farm_after(self, farm: herd.Farm, told: herd.Told) -> herd.Farm:
        return replace(farm, vaccinated_since={self.disease: self.on, **farm.vaccinated_since})


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
    """
    A drug was given, by whomever; hold days as the label states them.

    ``last_dose``: its hour, where that is told; ``dry_cow``: put into the udder at drying off.
    """

    KIND: ClassVar[str] = "treatment"

    animals: tuple[str, ...] = forms.animals()
    on: date = forms.day()
    product: str | None = forms.words()
    reason: str | None = forms.words()
    milk_hold_days: Decimal | None = forms.quantity(0, 365)
    meat_hold_days: Decimal | None = forms.quantity(0, 365)
    last_dose: datetime | None = forms.some_moment()
    dry_cow: bool = forms.flag()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        held = _held(animal, self, "milk", "meat")
        return _well(held, self.on, told)


@dataclass(frozen=True, slots=True, kw_only=True)
class Recovery(forms.Entry):
    """An animal that was ill is well again, as the farmer sees it."""

    KIND: ClassVar[str] = "recovery"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return _well(animal, self.on, told)


@dataclass(frozen=True, slots=True, kw_only=True)
class Illness(forms.Entry):
    """Signs of illness as seen; never a diagnosis. ``worse``: said to be worse than when told of before."""

    KIND: ClassVar[str] = "illness"

    animal: str = forms.animal()
    on: date = forms.day()
    signs: tuple[str, ...] = forms.several(*ILLNESS_SIGNS, needed=True)
    worse: bool = forms.flag()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        if NOT_ILL.issuperset(self.signs):
            return animal
        same = animal.ill_on is not None and self.on - animal.ill_on <= ONE_ILLNESS
        today = animal.ill_on == self.on
        before = animal.ill_signs if today else ()
        last = animal.ill_told_at if today else None
        return herd.changed(
            animal,
            ill_since=animal.ill_since if same else self.on,
            ill_on=self.on,
            ill_told_at=max(told.told_at, last or told.told_at),
            ill_signs=tuple(dict.fromkeys((*before, *self.signs))),
        )
