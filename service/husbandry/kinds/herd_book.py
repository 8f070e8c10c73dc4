"""Who belongs to the herd: new animals, names, sales, deaths."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms
from service.husbandry.units import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class NewAnimal(forms.Entry):
    """An animal enters the herd book as it is on that day; ``price`` where it was bought."""

    KIND: ClassVar[str] = "new_animal"

    name: str = forms.name()
    sex: str = forms.choice("female", "male", needed=True)
    born: date | None = forms.some_day()
    breed: str | None = forms.words()
    status: str | None = forms.choice("calf", "heifer", "in_calf_heifer", "milking", "dry", "bull", "steer")
    dam: str | None = forms.words()
    price: Money | None = forms.money()
    on: date = forms.day()
    about: bool = forms.flag()

    @property
    def named(self) -> tuple[str, ...]:
        return (self.name,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Naming(forms.Entry):
    """A new name, or a name beside the old; the animal answers to both."""

    KIND: ClassVar[str] = "naming"

    animal: str = forms.animal()
    name: str = forms.name()
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class AnimalSale(forms.Entry):
    """The animal was sold."""

    KIND: ClassVar[str] = "animal_sale"

    animal: str = forms.animal()
    amount: Money | None = forms.money()
    buyer: str | None = forms.words()
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class Death(forms.Entry):
    """The animal died, was slaughtered, lost or stolen."""

    KIND: ClassVar[str] = "death"

    animal: str = forms.animal()
    on: date = forms.day()
    reason: str | None = forms.words()
    about: bool = forms.flag()
