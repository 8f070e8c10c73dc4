"""A service, by straw or bull."""

from dataclasses import dataclass, replace
from datetime import date
from typing import ClassVar

from service.husbandry import forms, herd
from service.husbandry.units import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Service(forms.Entry):
    """
    The cow was inseminated (``ai``) or covered (``bull``).

    ``running``: a bull goes with her from that day on, until a :class:`BullLeft` ends it.
    """

    KIND: ClassVar[str] = "service"

    animal: str = forms.animal()
    on: date = forms.day()
    method: str | None = forms.choice("ai", "bull")
    sire: str | None = forms.words()
    technician: str | None = forms.words()
    cost: Money | None = forms.money()
    running: bool = forms.flag()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """The last service counts: it answers the heat, and what was found before it is over."""
        return herd.changed(
            animal,
            served=herd.Served(
                self.on, self.about, self.method, self.sire, self.technician, running=self.running
            ),
            services=animal.services + 1,
            cycled_on=self.on,
            heat=None,
            lapsed=None,
            check=None,
            in_calf=False,
            conceived_on=None,
            conceived_about=False,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class BullLeft(forms.Entry):
    """A bull that ran with the cows named (none named: with all) is with them no more."""

    KIND: ClassVar[str] = "bull_left"

    animals: tuple[str, ...] = forms.animals(needed=False)
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """Ends the span of the bull that ran with her, if one did."""
        served = animal.served
        if served is None or not served.running or served.until is not None:
            return animal
        return herd.changed(animal, served=replace(served, until=self.on))
