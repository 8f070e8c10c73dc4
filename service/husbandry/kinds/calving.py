"""A calving, with its calves."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms, herd
from service.husbandry.forms import Calf


@dataclass(frozen=True, slots=True, kw_only=True)
class Calving(forms.Entry):
    """A calf (or two) is born and its dam begins a new milking. Needs no service told before."""

    KIND: ClassVar[str] = "calving"

    animal: str = forms.animal()
    on: date = forms.day()
    calves: tuple[Calf, ...] = forms.calves()
    ease: str | None = forms.choice("easy", "helped", "hard")
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """The dam begins anew, whatever was told before."""
        return herd.not_in_calf(
            animal,
            calved_on=self.on,
            calvings=animal.calvings + 1,
            check=None,
            services=0,
            cycled_on=None,
            aborted_on=None,
            dried_on=None,
        )
