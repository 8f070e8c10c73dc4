"""A bull's daughters beside the other cows of the farms they stand on: what his semen has brought."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Stable:
    """
    One farm in one season: average milk of each cow, litres a day, of a bull's daughters and of the rest.

    Only cows fed and milked alike are compared, and of about the same lactation; the caller sees to that.
    """

    daughters: tuple[Decimal, ...]
    herd_mates: tuple[Decimal, ...]

    @property
    def weight(self) -> Decimal:
        """n1 n2 / (n1 + n2): what a difference of two means is worth, counted in daughters."""
        ours, theirs = Decimal(len(self.daughters)), Decimal(len(self.herd_mates))
        return ours * theirs / (ours + theirs)

    @property
    def difference(self) -> Decimal:
        return _mean(self.daughters) - _mean(self.herd_mates)


@dataclass(frozen=True, slots=True)
class Comparison:
    """How many litres a day the daughters give above their herd-mates, and what that is worth."""

    litres: Decimal
    effective_daughters: Decimal


def compared(stables: Iterable[Stable]) -> Comparison | None:
    """
    The weighted mean of the differences within each farm; None: nowhere stand both.

    Contemporary comparison (Robertson & Rendel 1954, J Agric Sci 44:184; from memory): a farm's feeding
    touches daughters and herd-mates alike, so only differences within farms are summed.
    """
    both = [one for one in stables if one.daughters and one.herd_mates]
    if not both:
        return None
    weight = sum((one.weight for one in both), Decimal(0))
    total = sum((one.weight * one.difference for one in both), Decimal(0))
    return Comparison(total / weight, weight)


def _mean(values: Sequence[Decimal]) -> Decimal:
    return sum(values, Decimal(0)) / len(values)
