"""
Space for a number of cattle: shed, cubicle, trough, water. Published guides, each the least or a range.

Sources: docs/trade/feeds.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

D = Decimal

SQM_A_SQ_FT = D("0.09290304")  # exactly, by the definition of the foot

LEAST_SQ_FT = D(60)
"""A cow's share of the shed of 12 x 10 ft that two cows need at least (common practice, no source)."""

SHED_SQM = (D(6), D(9))
"""Covered and open space together for a cow (common practice, no source)."""

CUBICLE_CM = (210, 120)
"""Length and width of the lying place of a grown cow, 7 x 4 ft (Kenyan zero-grazing plans; verified)."""

TROUGH_CM = (60, 75)
"""Length of trough for a cow (FAO, Farm structures in tropical climates; from memory; 600 mm for older
heifers in a South African text; verified)."""

WALK_M = 3
"""Width of the walk behind them (press guide; verified)."""

WATER_STORED_L = D(100)
"""Litres a cow a day when a tank is planned (published Ugandan example; verified)."""

TANK_DAYS = 10
"""Days that the tank of that example lasts (verified)."""

WATER_TROUGH_FOR = 5
"""Cows at one water trough: 5-6 (common practice, no source), the fewer."""

SHADE_SQM = (D("2.5"), D(3))
"""Least shade for an animal (FAO-derived text; verified)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """What a number of cattle need; lengths in metres, areas in square metres, water in litres."""

    cattle: int
    least_shed_sqm: Decimal
    shed_sqm: tuple[Decimal, Decimal]
    least_shed_ft: tuple[int, int] | None  # of two cows, as it is said
    trough_m: tuple[Decimal, Decimal]
    tank_l: Decimal
    water_troughs: int


def space(cattle: int) -> Space:
    """
    Space for *cattle* grown animals.

    Raises:
        ValueError: fewer than one.
    """
    if cattle < 1:
        raise ValueError("no cattle")
    low, high = TROUGH_CM
    return Space(
        cattle=cattle,
        least_shed_sqm=cattle * LEAST_SQ_FT * SQM_A_SQ_FT,
        shed_sqm=(cattle * SHED_SQM[0], cattle * SHED_SQM[1]),
        least_shed_ft=(12, 10) if cattle == 2 else None,
        trough_m=(D(cattle * low) / 100, D(cattle * high) / 100),
        tank_l=cattle * WATER_STORED_L * TANK_DAYS,
        water_troughs=int((D(cattle) / WATER_TROUGH_FOR).to_integral_value(ROUND_CEILING)),
    )
