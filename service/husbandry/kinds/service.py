"""A service, by straw or bull."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms
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
