"""Heat seen, or the blood that shows it has passed."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import ClassVar

from service.husbandry import cycle, forms, herd
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

    def after(self, animal: herd.Animal, told: herd.Told) -> herd.Animal:
        """A cow found in calf stays so; what belongs to a heat already known changes nothing more."""
        if animal.in_calf:
            return animal
        animal = herd.changed(animal, cycled_on=self.happened_on)
        if self._is_of(animal.served) or self._goes_on(animal.heat):
            return animal
        seen = herd.changed(animal, heat=herd.Heat(self.first_seen, self.bleeding), check=None)
        if animal.served is not None and self._days_since(animal.served) >= cycle.SHORTEST_CYCLE_DAYS:
            return herd.changed(seen, served=None, lapsed=animal.served)
        return seen

    def _days_since(self, served: herd.Served) -> int:
        return (self.happened_on - served.last_on).days

    def _is_of(self, served: herd.Served | None) -> bool:
        """Whether this is the heat that was served, or its blood; while a bull runs with her, any heat is."""
        same = cycle.BLOOD_OF_SERVICE_DAYS if self.bleeding else cycle.SAME_HEAT_DAYS
        return served is not None and self._days_since(served) <= same

    def _goes_on(self, heat: herd.Heat | None) -> bool:
        """Whether signs are told again of a heat that can still be served: its first sign counts."""
        if heat is None or heat.bleeding or self.bleeding:
            return False
        return self.first_seen <= cycle.serve_window(heat.first_seen).last
