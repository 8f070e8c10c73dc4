"""Milk of one milking or day."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms
from service.husbandry.signs import SESSIONS


@dataclass(frozen=True, slots=True, kw_only=True)
class Milk(forms.Entry):
    """What one cow (``*``: the whole herd, in one sum) gave at one milking or in a day."""

    KIND: ClassVar[str] = "milk"
    PLANS: ClassVar[bool] = False

    animal: str = forms.animal()
    litres: Decimal = forms.quantity(0, 50, usual=25, needed=True)
    session: str = forms.choice(*SESSIONS, needed=True)
    on: date = forms.day()
    about: bool = forms.flag()
