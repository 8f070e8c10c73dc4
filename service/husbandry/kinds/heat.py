"""Heat seen, or the blood that shows it has passed."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import ClassVar

from service.husbandry import forms
from service.husbandry.signs import HEAT_SIGNS


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat(forms.Entry):
    """Signs of heat, from the moment the first was seen; ``bleeding``: the heat is over."""

    KIND: ClassVar[str] = "heat"

    animal: str = forms.animal()
    first_seen: datetime = forms.moment()
    bleeding: bool = forms.flag()
    signs: tuple[str, ...] = forms.several(*HEAT_SIGNS)

    @property
    def happened_on(self) -> date:
        return self.first_seen.date()
