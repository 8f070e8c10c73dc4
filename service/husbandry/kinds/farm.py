"""What concerns the farm and not one animal: people to call, the rules it sets, work done."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact(forms.Entry):
    """Whom to call."""

    KIND: ClassVar[str] = "contact"

    role: str = forms.choice("vet", "technician", "other", needed=True)
    name: str | None = forms.name(needed=False)
    phone: str = forms.phone()
    on: date = forms.day()


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting(forms.Entry):
    """A routine's interval in days, or the hour (0-23) of the farm's morning text."""

    KIND: ClassVar[str] = "setting"

    task: str | None = forms.words()
    every_days: Decimal | None = forms.quantity(1, 400)
    hour: Decimal | None = forms.quantity(0, 23)
    on: date = forms.day()


@dataclass(frozen=True, slots=True, kw_only=True)
class Done(forms.Entry):
    """
    Work done that needs no record of its own.

    As an instruction: ``numbers`` of the latest numbered list, or ``task`` and ``animals`` in words.
    As kept: ``task`` and ``animals`` (empty for the herd's).
    """

    KIND: ClassVar[str] = "done"

    numbers: tuple[int, ...] = forms.numbers()
    task: str | None = forms.words()
    animals: tuple[str, ...] = forms.animals(needed=False)
    on: date = forms.day()
