"""A calving, with its calves."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import ClassVar

from service.husbandry import forms, herd, holds
from service.husbandry.forms import Calf


@dataclass(frozen=True, slots=True, kw_only=True)
class Calving(forms.Entry):
    """
    A calf (or two) is born and its dam begins a new milking. Needs no service told before.

    ``at``: the hour, where the day is told with one or is today.
    """

    KIND: ClassVar[str] = "calving"

    animal: str = forms.animal()
    on: date = forms.day()
    at: datetime | None = forms.some_moment()
    calves: tuple[Calf, ...] = forms.calves()
    ease: str | None = forms.choice("easy", "helped", "hard")
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """The dam begins anew, whatever was told before."""
        return herd.not_in_calf(
            holds.at_calving(animal, self.on),
            calved_on=self.on,
            calved_at=self.at,
            calvings=animal.calvings + 1,
            check=None,
            services=0,
            cycled_on=None,
            aborted_on=None,
            dried_on=None,
        )
