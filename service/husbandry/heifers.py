"""
The weight at which a heifer can first be served, by her breed.

60 % of a grown cow's weight (dairy industry targets of New Zealand, verified) comes to about these
weights on East African smallholdings (extension leaflets, from memory; docs/trade/weight.md).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from service.husbandry.breeds import parents

KG = {
    "friesian": (270, 300),
    "ayrshire": (240, 260),
    "guernsey": (230, 250),
    "jersey": (200, 220),
    "brown swiss": (270, 300),
    "zebu": (180, 200),
    "boran": (230, 250),
    "sahiwal": (230, 250),
}
"""
Lowest and usual weight at first service, kilograms. No leaflet names Brown Swiss, Boran and Sahiwal:
by their grown weights they are taken as Friesian and as crosses; Byreline's own choice.
"""

CROSS_KG = (230, 250)
"""Of crosses with zebu, and where the breed or one of the parents' is not known."""

LOCAL = frozenset(("zebu", "boran", "sahiwal", None))


class Reached(StrEnum):
    """Where a heifer stands against the weight for her first service."""

    NOT_YET = "not_yet"
    NEARLY = "nearly"  # within what the tape may be off
    REACHED = "reached"


@dataclass(frozen=True, slots=True)
class Target:
    """Kilograms at first service: not before *low*, usually by *high*."""

    low: Decimal
    high: Decimal


def target(breed: str | None) -> Target:
    """The weight at first service of the *breed* told; a cross of two dairy breeds takes the mean."""
    known = parents(breed)
    pure = [name for name in known if name is not None]
    if len(known) == 1:
        low, high = KG[pure[0]]
    elif not known or LOCAL.intersection(known):
        low, high = CROSS_KG
    else:
        return Target(_mean([KG[name][0] for name in pure]), _mean([KG[name][1] for name in pure]))
    return Target(Decimal(low), Decimal(high))


def _mean(those: list[int]) -> Decimal:
    return (Decimal(sum(those)) / len(those)).quantize(Decimal(1), ROUND_HALF_UP)


def reached(kg: Decimal, error_kg: Decimal, wanted: Target) -> Reached:
    """Where a heifer of *kg*, give or take *error_kg* (0: off a scale), stands against *wanted*."""
    if kg >= wanted.low:
        return Reached.REACHED
    return Reached.NEARLY if kg + error_kg >= wanted.low else Reached.NOT_YET
