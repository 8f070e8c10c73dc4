"""A service, by straw or bull."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms, herd
from service.husbandry.units import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Service(forms.Entry):
    """The cow was inseminated (``ai``) or covered (``bull``)."""

    KIND: ClassVar[str] = "service"

    animal: str = forms.animal()
    on: date = forms.day()
    method: str | None = forms.choice("ai", "bull")
    sire: str | None = forms.words()
    technician: str | None = forms.words()
    cost: Money | None = forms.money()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """The last service counts: it answers the heat, and what was found before it is over."""
        return herd.changed(
            animal,
            served=herd.Served(self.on, self.about, self.method, self.sire, self.technician),
            services=animal.services + 1,
            cycled_on=self.on,
            heat=None,
            lapsed=None,
            check=None,
            in_calf=False,
            conceived_on=None,
            conceived_about=False,
        )
