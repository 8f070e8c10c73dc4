"""Events that are no more than an animal and a day: abortion, drying off, weaning."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms


@dataclass(frozen=True, slots=True, kw_only=True)
class Abortion(forms.Entry):
    """The pregnancy was lost."""

    KIND: ClassVar[str] = "abortion"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingOff(forms.Entry):
    """The cow is milked no more before her calving."""

    KIND: ClassVar[str] = "drying_off"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class Weaning(forms.Entry):
    """The calf gets no more milk."""

    KIND: ClassVar[str] = "weaning"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()
