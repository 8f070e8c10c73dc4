"""Quantities: Decimal only, money with its currency, milk in litres."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

MILK_KG_PER_LITRE = Decimal("1.03")
"""Density of raw milk, kg a litre. Source: Daudin et al. 1988, 86 samples, mean 1.0299 (rounded)."""

CURRENCY_DECIMALS = {"BIF": 0, "RWF": 0, "UGX": 0}
"""ISO 4217 minor units of the region's currencies that have other than two decimals."""


@dataclass(frozen=True, slots=True)
class Money:
    """A sum in one currency; *amount* is kept at that currency's decimals."""

    amount: Decimal
    currency: str

    @classmethod
    def of(cls, amount: Decimal | int | str, currency: str) -> Money:
        """A sum rounded (half up) to the currency's decimals."""
        step = Decimal(1).scaleb(-CURRENCY_DECIMALS.get(currency, 2))
        return cls(Decimal(amount).quantize(step, ROUND_HALF_UP), currency)


def litres_of_kg(kg: Decimal) -> Decimal:
    """Litres of *kg* kilograms of milk, rounded to 0.01 l."""
    return (kg / MILK_KG_PER_LITRE).quantize(Decimal("0.01"), ROUND_HALF_UP)


def number(value: Decimal) -> int | float:
    """A Decimal as the shortest JSON number that prints the same."""
    whole = value.to_integral_value()
    return int(whole) if whole == value else float(value)
