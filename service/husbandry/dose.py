"""
How many millilitres the label's rate comes to for one animal: arithmetic, never advice.

The rate is the one the farmer reads out; Byreline knows no drug. Figures: docs/trade/doses.md.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from service.husbandry.girth import error_kg
from service.husbandry.herd import Animal
from service.husbandry.life import is_calf

MARKS = ((Decimal(2), Decimal("0.1")), (Decimal(20), Decimal("0.5")))
"""Up to so many millilitres a syringe or drench bottle is read to such a mark, above them to COARSEST.
No mark is coarser than a tenth or so of the amount, as near as a tape weighs; Byreline's own choice."""

COARSEST = Decimal(1)

WEIGHT_LASTS = timedelta(days=30)
CALF_WEIGHT_LASTS = timedelta(days=14)
"""How long a weight serves for a dose; common practice, no source."""

MOST_ML_A_KG = Decimal(1)
"""A drench of more than this for each kilogram was misread; Byreline's own choice."""

EARLY_PREGNANCY = timedelta(days=61)
"""Two months from a service, in which some worm medicines harm the unborn; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Dose:
    """
    What a rate comes to, millilitres.

    ``exact`` by the arithmetic, ``ml`` to the nearest mark within the label's highest; ``low`` and
    ``high`` for the lightest and heaviest that she may be (both ``ml`` where she was on a scale).
    """

    exact: Decimal
    ml: Decimal
    low: Decimal
    high: Decimal
    capped: bool


def to_mark(ml: Decimal, highest_ml: Decimal | None = None) -> Decimal:
    """*ml* to the nearest mark, half up; never above *highest_ml*."""
    step = next((step for limit, step in MARKS if ml <= limit), COARSEST)
    nearest = _by(ml, step, ROUND_HALF_UP)
    if highest_ml is None or nearest <= highest_ml:
        return nearest
    return highest_ml if ml >= highest_ml else _by(ml, step, ROUND_FLOOR)


def _by(ml: Decimal, step: Decimal, rounding: str) -> Decimal:
    return (ml / step).to_integral_value(rounding) * step


def dose(
    kg: Decimal,
    rate_ml: Decimal,
    per_kg: Decimal,
    *,
    highest_ml: Decimal | None = None,
    tape: bool = False,
) -> Dose:
    """
    The dose of an animal of *kg* at *rate_ml* for every *per_kg* kilograms.

    Args:
        kg: Live weight.
        rate_ml: Millilitres, as the label says.
        per_kg: Kilograms they are for; above 0.
        highest_ml: The most that the label allows one animal; None: not told.
        tape: The weight is a tape's, and off by as much as a tape is.
    """
    exact = kg * rate_ml / per_kg
    off = error_kg(kg) * rate_ml / per_kg if tape else Decimal(0)
    low, ml, high = (to_mark(one, highest_ml) for one in (exact - off, exact, exact + off))
    return Dose(exact, ml, low, high, capped=highest_ml is not None and exact > highest_ml)


def is_likely(rate_ml: Decimal, per_kg: Decimal) -> bool:
    """Whether a label can say so: a drench is at most a millilitre for each kilogram."""
    return 0 < rate_ml <= MOST_ML_A_KG * per_kg


def recent_weight(animal: Animal, today: date) -> Decimal | None:
    """Her weight in kilograms, if it was found lately enough to dose by."""
    if animal.weight_kg is None or animal.weighed_on is None:
        return None
    lasts = CALF_WEIGHT_LASTS if is_calf(animal, today) else WEIGHT_LASTS
    return animal.weight_kg if today - animal.weighed_on <= lasts else None


def may_be_in_early_calf(animal: Animal, today: date) -> bool:
    """Whether she was served so lately that a worm medicine may harm what she carries."""
    return animal.served is not None and today - animal.served.on <= EARLY_PREGNANCY
