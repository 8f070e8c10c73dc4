"""
The milk that a herd made on each day, from what was told of its cows and of all in one sum.

Nothing is counted twice: a milking told cow by cow and in one sum is the larger of the two, since the one
can be a part of the other, and so is a day told in one sum beside its milkings. Litres as Decimal.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from service.husbandry.daily_milk import WHOLE_DAY, DayMilk, daily
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.herd import Told
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import AnimalSale, Death
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.one_day import DryingOff

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class DayMade:
    """What one day gave: *litres* of the whole herd, and of each cow (by id) told of by name."""

    litres: Decimal
    cows: Mapping[int, Decimal]


def made(told: Iterable[Told]) -> dict[date, DayMade]:
    """Day -> what was told as milked on it, from standing entries in any order and of any kinds."""
    by_cow: dict[int, list[Milk]] = defaultdict(list)
    herd: dict[date, dict[str, Decimal]] = defaultdict(dict)
    for one in sorted(told, key=lambda one: one.id):
        entry = one.entry
        if isinstance(entry, Milk) and (entry.animal == EVERY_ANIMAL or not one.animals):
            herd[entry.on][entry.session] = entry.litres
        elif isinstance(entry, Milk):
            by_cow[one.animals[0]].append(entry)
    cows: dict[date, dict[int, DayMilk]] = defaultdict(dict)
    for cow, entries in by_cow.items():
        for day in daily(entries):
            cows[day.on][cow] = day
    return {on: _made(cows.get(on, {}), herd.get(on, {})) for on in sorted({*cows, *herd})}


def nobody_milked(told: Iterable[Told]) -> Callable[[date], bool]:
    """
    Whether on a day every cow whose milk was ever told by name was dry, or gone.

    By the dryings-off, calvings, sales and deaths among *told*; of a herd told in sums alone nobody knows.
    """
    milked: set[int] = set()
    turns: dict[int, list[tuple[date, bool]]] = defaultdict(list)
    for one in told:
        if isinstance(one.entry, Milk):
            milked.update(one.animals)
        elif isinstance(one.entry, (*_ENDS, Calving)) and one.animals:
            turns[one.animals[0]].append((one.entry.happened_on, isinstance(one.entry, _ENDS)))

    def is_out(cow: int, day: date) -> bool:
        before = [turn for turn in turns[cow] if turn[0] <= day]
        return bool(before) and max(before)[1]

    return lambda day: bool(milked) and all(is_out(cow, day) for cow in milked)


_ENDS = (DryingOff, AnimalSale, Death)
"""What ends a cow's milking here."""


def _made(cows: Mapping[int, DayMilk], herd: Mapping[str, Decimal]) -> DayMade:
    parts: dict[str, Decimal] = defaultdict(Decimal)
    for day in cows.values():
        for session, litres in day.milkings:
            parts[session] += litres
    milkings = {*parts, *herd} - {WHOLE_DAY}
    by_milking = sum((max(parts.get(one, NOTHING), herd.get(one, NOTHING)) for one in milkings), NOTHING)
    by_cow = sum((day.litres for day in cows.values()), NOTHING)
    litres = max(by_milking, by_cow, herd.get(WHOLE_DAY, NOTHING))
    return DayMade(litres, {cow: day.litres for cow, day in cows.items()})
