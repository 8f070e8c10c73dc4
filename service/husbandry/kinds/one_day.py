"""Events that are no more than an animal and a day: abortion, drying off, weaning."""

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from service.husbandry import forms, herd


@dataclass(frozen=True, slots=True, kw_only=True)
class Abortion(forms.Entry):
    """The pregnancy was lost."""

    KIND: ClassVar[str] = "abortion"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.not_in_calf(animal, check=None, aborted_on=self.on)


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingOff(forms.Entry):
    """The cow is milked no more before her calving."""

    KIND: ClassVar[str] = "drying_off"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(animal, dried_on=self.on)


@dataclass(frozen=True, slots=True, kw_only=True)
class Weaning(forms.Entry):
    """The calf gets no more milk."""

    KIND: ClassVar[str] = "weaning"

    animal: str = forms.animal()
    on: date = forms.day()
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        return herd.changed(animal, weaned_on=self.on)
