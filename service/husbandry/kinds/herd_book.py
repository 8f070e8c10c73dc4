"""Who belongs to the herd: new animals, names, sales, deaths."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms, herd
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

    def enters(self, animal: int) -> herd.Animal:
        """The animal as it enters the book, under its new identity."""
        return herd.Animal(
            id=animal,
            name=self.name,
            names=(self.name,),
            sex=herd.Sex(self.sex),
            born=self.born,
            breed=self.breed,
            dam_name=self.dam,
            entered_on=self.on,
            bought=self.price is not None,
            told_status=herd.Status(self.status) if self.status is not None else None,
        )

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """As she is said to be on the day she enters goes over what was told of before."""
        animal = herd.changed(
            animal,
            born=animal.born or self.born,
            breed=animal.breed or self.breed,
            dam_name=animal.dam_name or self.dam,
        )
        match self.status:
            case "dry":
                return herd.changed(animal, dried_on=self.on)
            case "milking":
                return herd.changed(animal, dried_on=None)
            case "in_calf_heifer" if not animal.calvings and not animal.in_calf:
                return self._in_calf(animal)
        return animal

    def _in_calf(self, animal: herd.Animal) -> herd.Animal:
        """In calf since a service told of before, else since a time not known."""
        served = animal.served
        return herd.changed(
            animal,
            in_calf=True,
            heat=None,
            conceived_on=served.on if served is not None else None,
            conceived_about=served is not None and served.about,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Naming(forms.Entry):
    """A new name, or a name beside the old; the animal answers to both."""

    KIND: ClassVar[str] = "naming"

    animal: str = forms.animal()
    name: str = forms.name()
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        others = tuple(name for name in animal.names if name.casefold() != self.name.casefold())
        return herd.changed(animal, name=self.name, names=(self.name, *others))


@dataclass(frozen=True, slots=True, kw_only=True)
class AnimalSale(forms.Entry):
    """The animal was sold."""

    KIND: ClassVar[str] = "animal_sale"

    animal: str = forms.animal()
    amount: Money | None = forms.money()
    buyer: str | None = forms.words()
    credit: bool = forms.flag()
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(animal, left_on=self.on, left_why=herd.SOLD)


@dataclass(frozen=True, slots=True, kw_only=True)
class Death(forms.Entry):
    """The animal died, was slaughtered, lost or stolen."""

    KIND: ClassVar[str] = "death"

    animal: str = forms.animal()
    on: date = forms.day()
    reason: str | None = forms.words()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(animal, left_on=self.on, left_why=self.reason or herd.DIED)
