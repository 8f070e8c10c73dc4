"""A calving, with its calves."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms
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
