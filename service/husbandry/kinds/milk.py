"""Milk of one milking or day, and why it is less."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms
from service.husbandry.signs import MILK_REASONS, SESSIONS


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


@dataclass(frozen=True, slots=True, kw_only=True)
class MilkReason(forms.Entry):
    """Why one cow (``*``: the herd) gave less milk on a day, as the farmer sees it."""

    KIND: ClassVar[str] = "milk_reason"
    PLANS: ClassVar[bool] = False

    animal: str = forms.animal()
    on: date = forms.day()
    reason: str = forms.choice(*MILK_REASONS, needed=True)
    about: bool = forms.flag()
