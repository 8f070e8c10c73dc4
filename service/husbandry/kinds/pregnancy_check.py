"""What a pregnancy check found."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms


@dataclass(frozen=True, slots=True, kw_only=True)
class PregnancyCheck(forms.Entry):
    """Pregnant, empty or unsure; ``months``: how far along, when told."""

    KIND: ClassVar[str] = "pregnancy_check"

    animal: str = forms.animal()
    on: date = forms.day()
    result: str = forms.choice("pregnant", "empty", "unsure", needed=True)
    months: Decimal | None = forms.quantity(0, 10)
    about: bool = forms.flag()
