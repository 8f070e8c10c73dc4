"""What a pregnancy check found."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import cycle, forms, herd


@dataclass(frozen=True, slots=True, kw_only=True)
class PregnancyCheck(forms.Entry):
    """Pregnant, empty or unsure; ``months``: how far along, when told."""

    KIND: ClassVar[str] = "pregnancy_check"

    animal: str = forms.animal()
    on: date = forms.day()
    result: str = forms.choice("pregnant", "empty", "unsure", needed=True)
    months: Decimal | None = forms.quantity(0, 10)
    about: bool = forms.flag()

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        checked = herd.changed(animal, check=herd.Check(self.on, self.result))
        match self.result:
            case "pregnant":
                return self._in_calf(checked)
            case "empty":
                return herd.not_in_calf(checked)
        return checked

    def _in_calf(self, animal: herd.Animal) -> herd.Animal:
        """In calf since the service that held; where none can be meant, since what was felt tells."""
        held = animal.served or animal.lapsed
        guessed = held is not animal.served
        animal = herd.changed(animal, in_calf=True, heat=None, served=held, lapsed=None)
        if held is not None and held.running:
            return self._of_bull(animal, held)
        if held is not None and not self._contradicts(held):
            return herd.changed(animal, conceived_on=held.on, conceived_about=held.about or guessed)
        if self.months is None:
            return animal
        return herd.changed(
            animal, conceived_on=cycle.conceived_before(self.on, self.months), conceived_about=True
        )

    def _of_bull(self, animal: herd.Animal, ran: herd.Served) -> herd.Animal:
        """Only what is felt tells the day within the time that a bull ran with her."""
        if self.months is None:
            return animal
        felt = cycle.conceived_before(self.on, self.months)
        return herd.changed(animal, conceived_on=min(max(felt, ran.on), ran.last_on), conceived_about=True)

    def _contradicts(self, served: herd.Served) -> bool:
        if self.months is None:
            return False
        apart = cycle.conceived_before(self.on, self.months) - served.on
        return abs(apart.days) > cycle.MONTHS_DOUBT_DAYS
