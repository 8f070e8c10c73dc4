"""
How much concentrate goes into how much water: tick wash and the shed's disinfectant, by the label's rate.

Arithmetic alone; the rate is what the farmer reads out. Figures: docs/trade/doses.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from service.husbandry.dose import to_mark

ML_A_LITRE = Decimal(1000)

WASH_LITRES = (Decimal(5), Decimal(10))
"""Wash for one grown animal by hand spray where the label does not say: about 5 l by one source
(verified), 10-20 l for soaking by others (from memory); they disagree, so both ends are told."""

STRONGEST_WASH = Decimal(10)
STRONGEST = Decimal(100)
"""Millilitres a litre above which a rate was misread: labels of washes say 1-2 (press), of disinfectants
down to 1 : 10. Byreline's own choice."""


@dataclass(frozen=True, slots=True)
class Mix:
    """Concentrate for so many litres of mixture: *ml* to the nearest mark of what measures it."""

    ml: Decimal
    litres: Decimal


@dataclass(frozen=True, slots=True)
class Washing:
    """For some animals together: the least and the most, and how often a tank is filled for each."""

    least: Mix
    most: Mix
    fills: tuple[int, int] | None


def strength(
    *, rate_ml: Decimal | None = None, in_litres: Decimal | None = None, part: Decimal | None = None
) -> Decimal | None:
    """Millilitres a litre of mixture: *rate_ml* in *in_litres*, or one part in *part*; None: not told."""
    if rate_ml and in_litres:
        return rate_ml / in_litres
    return ML_A_LITRE / part if part else None


def fill(ml_a_litre: Decimal, litres: Decimal) -> Mix:
    """What goes into a tank of *litres*, which is then filled up with water."""
    return Mix(to_mark(ml_a_litre * litres), litres)


def wash(
    ml_a_litre: Decimal,
    animals: Decimal,
    *,
    litres_each: Decimal | None = None,
    tank_litres: Decimal | None = None,
) -> Washing:
    """The wash of so many *animals*, by the label's *litres_each* or from 5 to 10 l each."""
    low, high = WASH_LITRES if litres_each is None else (litres_each, litres_each)
    least, most = (fill(ml_a_litre, animals * each) for each in (low, high))
    return Washing(least, most, None if tank_litres is None else _fills(least, most, tank_litres))


def _fills(least: Mix, most: Mix, tank_litres: Decimal) -> tuple[int, int]:
    few, many = (int((mix.litres / tank_litres).to_integral_value(ROUND_CEILING)) for mix in (least, most))
    return few, many


def is_likely(ml_a_litre: Decimal, *, on_cattle: bool) -> bool:
    """Whether a label can say so strong a mixture."""
    return ml_a_litre <= (STRONGEST_WASH if on_cattle else STRONGEST)
