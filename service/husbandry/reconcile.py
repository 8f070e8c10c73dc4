"""
What the farm handed in at the centre against what the centre has listed and paid for.

Like is compared with like: litres with litres, kilograms with kilograms. Where one side was told in the
other unit it is converted for the comparison alone, at 1.03 kg a litre, and the outcome says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from service.husbandry.units import MILK_KG_PER_LITRE, litres_of_kg

LITRES, KG = "litres", "kg"
NOTHING = Decimal(0)

ROUNDING = Decimal("0.05")
"""By how much two weighings or measurings of one day's milk may differ by being written down: half of the
0.1 that scales and measuring cans show. Computed."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """Milk in the unit it was told in."""

    amount: Decimal
    unit: str  # litres, kg

    def in_unit(self, unit: str) -> Decimal:
        """The amount in *unit*, rounded to 0.01 where it is converted."""
        if unit == self.unit:
            return self.amount
        if unit == LITRES:
            return litres_of_kg(self.amount)
        return (self.amount * MILK_KG_PER_LITRE).quantize(Decimal("0.01"), ROUND_HALF_UP)


def quantity(litres: Decimal | None, kg: Decimal | None) -> Quantity | None:
    """What was told, in litres or kilograms; None: neither was."""
    if litres is not None:
        return Quantity(litres, LITRES)
    return None if kg is None else Quantity(kg, KG)


Days = Mapping[date, Decimal]
"""Milk of each day, all in one unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reconciled:
    """
    Delivered against listed and paid, all in ``unit``.

    ``paid`` None: the centre has not said for how much it paid. Without a list of days, ``missing`` and
    the rest that need one are empty and ``has_list`` is false.
    """

    unit: str = LITRES
    delivered: Decimal
    days: int  # on which something was handed in
    paid: Decimal | None
    has_list: bool
    missing: tuple[date, ...] = ()  # handed in, not on the list
    less: Days = field(default_factory=dict)  # by how much the list has less than was handed in
    more: Days = field(default_factory=dict)  # ... and more; also days of which the farm told nothing
    converted: bool = False  # one side was told in the other unit

    @property
    def short(self) -> Decimal:
        """By how much less was paid for than was handed in; below 0: more. 0 where it is not known."""
        return NOTHING if self.paid is None else self.delivered - self.paid

    @property
    def agrees(self) -> bool:
        """Whether the difference is no more than the rounding of each day."""
        return self.paid is not None and abs(self.short) <= ROUNDING * max(self.days, 1)


def reconcile(
    delivered: Days, listed: Days, paid: Decimal | None, *, unit: str = LITRES, converted: bool = False
) -> Reconciled:
    """
    Compare a month day by day.

    Args:
        delivered: Day -> what the farm told as handed in and not turned back.
        listed: Day -> what the centre's list has; empty: there is no list.
        paid: For how much the centre paid.
        unit: litres, kg: of all of them.
        converted: Whether some of it was told in the other unit.
    """
    missing = [day for day, amount in delivered.items() if amount and not listed.get(day, NOTHING)]
    gaps = {day: listed.get(day, NOTHING) - delivered.get(day, NOTHING) for day in {*delivered, *listed}}
    apart = {day: gap for day, gap in sorted(gaps.items()) if abs(gap) > ROUNDING and day not in missing}
    return Reconciled(
        unit=unit,
        delivered=sum(delivered.values(), NOTHING),
        days=sum(1 for amount in delivered.values() if amount),
        paid=paid,
        has_list=bool(listed),
        missing=tuple(sorted(missing)) if listed else (),
        less={day: -gap for day, gap in apart.items() if gap < 0} if listed else {},
        more={day: gap for day, gap in apart.items() if gap > 0} if listed else {},
        converted=converted,
    )


Handed = Iterable[tuple[date, Quantity]]
"""Milk of days, in the unit of each telling; several of one day are its sum."""


def compare(delivered: Handed, listed: Handed, paid: Quantity | None) -> Reconciled:
    """:func:`reconcile` of quantities in any unit: in that of the payment, else of the list, else as told."""
    handed, list_ = tuple(delivered), tuple(listed)
    said = [*([paid] if paid is not None else []), *(q for _, q in list_), *(q for _, q in handed)]
    unit = said[0].unit if said else LITRES
    return reconcile(
        by_day(handed, unit),
        by_day(list_, unit),
        None if paid is None else paid.in_unit(unit),
        unit=unit,
        converted=any(one.unit != unit for one in said),
    )


def by_day(handed: Handed, unit: str) -> Days:
    """The sum of each day in *unit*."""
    days: dict[date, Decimal] = {}
    for on, told in handed:
        days[on] = days.get(on, NOTHING) + told.in_unit(unit)
    return days
