"""
Live weight from the girth of the chest, by published equations, each inside the data it was built on.

Girth in centimetres, weight in kilograms, as Decimal. Sources and what is known of each equation:
docs/trade/weight.md. Where an equation whose figures were read in its paper fits the animal, that one
decides; nothing is extrapolated.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from service.husbandry.breeds import parents
from service.husbandry.herd import Animal, Sex, Status
from service.husbandry.life import status
from service.husbandry.months import younger_than

TAPE_ERROR = Decimal("0.11")
"""How far a tape is off on smallholders' crossbred cows (Lukuyu et al. 2016: 26 kg, 11 %; verified)."""

YOUNG_MONTHS = 36
"""Zebu up to this age are measured by the equation of heifers of one to three years (Odadi 2018)."""

ZEBU = frozenset(("zebu", "boran", "sahiwal"))
"""Breeds that are measured as zebu where no other is in them."""

D = Decimal


def _kashoma(cm: Decimal) -> Decimal:
    return D("4.55") * cm - 409


def _odadi(cm: Decimal) -> Decimal:
    return D("3.37") * cm - 265


def _francis(cm: Decimal) -> Decimal:
    return D("73.11") - D("1.958") * cm + D("0.01899") * cm**2 + D("0.0000216") * cm**3


def _lesosky(cm: Decimal) -> Decimal:
    return (D("0.95") + D("0.022") * cm) ** (1 / D("0.262"))


@dataclass(frozen=True, slots=True)
class Equation:
    """
    Kilograms of centimetres, from *low* to *high* cm of girth.

    ``residual_kg``: the error that its paper gives (0: none is given).
    """

    source: str
    verified: bool
    low: int
    high: int
    residual_kg: Decimal
    kg: Callable[[Decimal], Decimal]

    def fits(self, cm: Decimal) -> bool:
        return self.low <= cm <= self.high


KASHOMA = Equation("Kashoma et al. 2011, LRRD 23(4)", True, 128, 175, D("17.9"), _kashoma)
"""300 Tanzania shorthorn zebu of 170-390 kg: 4.55 x 128 - 409 = 173, 4.55 x 175 - 409 = 387."""

ODADI = Equation("Odadi 2018, LRRD 30(1)", True, 110, 160, D("12.8"), _odadi)
"""Zebu heifers of 1-3 years, northern Kenya; mean 131 cm, 176 kg. Below 110 cm a line is no guide."""

FRANCIS = Equation("Francis, Sibanda & Kristensen 2002, Zimbabwe Vet J 33:15", True, 75, 200, D(0), _francis)
"""494 cattle of Zimbabwe, Friesian, Red Dane and crosses among them; range: common practice, no source."""

LESOSKY = Equation("Lesosky et al. 2012, Trop Anim Health Prod", False, 75, 110, D(0), _lesosky)
"""East African shorthorn zebu, calves too; figures from memory, so only where no other equation reaches."""

_YOUNG_ZEBU = (ODADI, KASHOMA, LESOSKY)
_GROWN_ZEBU = (KASHOMA, ODADI, LESOSKY)


@dataclass(frozen=True, slots=True)
class Estimate:
    """A live weight as a tape tells it: *kg*, give or take *error_kg*, both whole kilograms."""

    kg: Decimal
    error_kg: Decimal


def is_zebu(breed: str | None) -> bool:
    """Whether the breed told is zebu through and through; a cross is none."""
    known = parents(breed)
    return bool(known) and ZEBU.issuperset(known)


def equations(breed: str | None, *, young: bool) -> Sequence[Equation]:
    """The equations for an animal of that *breed* (as told), the one that decides where it fits first."""
    if not is_zebu(breed):
        return (FRANCIS,)
    return _YOUNG_ZEBU if young else _GROWN_ZEBU


def estimate(cm: Decimal, breed: str | None, *, young: bool) -> Estimate | None:
    """
    The live weight at *cm* centimetres of girth; None outside every equation's range.

    Args:
        cm: Round the chest, right behind the forelegs.
        breed: As told; None or not known: as a cross.
        young: Under three years and not yet calved.
    """
    equation = next((one for one in equations(breed, young=young) if one.fits(cm)), None)
    if equation is None:
        return None
    kg = equation.kg(cm)
    return Estimate(kg.quantize(D(1), ROUND_HALF_UP), error_kg(kg, equation.residual_kg))


def error_kg(kg: Decimal, residual_kg: Decimal | int = 0) -> Decimal:
    """How far a tape's *kg* may be off: 11 %, or what the equation's paper gives if that is more."""
    return max(kg * TAPE_ERROR, D(residual_kg)).quantize(D(1), ROUND_CEILING)


def weight_of(animal: Animal, cm: Decimal, on: date) -> Estimate | None:
    """The live weight of *animal* by its girth *on* that day."""
    return estimate(cm, animal.breed, young=is_young(animal, on))


def is_young(animal: Animal, on: date) -> bool:
    """Whether it is measured as young stock: no cow, and not known to be three years old."""
    now = status(animal, on)
    if now in (Status.CALF, Status.HEIFER, Status.IN_CALF_HEIFER):
        return animal.born is None or younger_than(animal.born, YOUNG_MONTHS, on)
    return animal.sex is Sex.MALE and animal.born is not None and younger_than(animal.born, YOUNG_MONTHS, on)
