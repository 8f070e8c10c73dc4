"""
What the next kilogram of concentrate is worth, and how much of it pays.

The response of milk to a kilogram more is common practice's until the farm's own records show it
(:func:`own_response`). Figures and sources: docs/trade/feeds.md.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

from service.husbandry.units import Money

D = Decimal

GRASS_ALONE_L = D(7)
"""Litres a day that good grass alone gives (KALRO scientist in an organic-farming magazine; verified)."""

LITRES_A_KG = D("1.5")
"""Litres for each further kilogram of dairy meal (the same; KALRO's abstract too, in kg; verified)."""

EARLY_LITRES_A_KG = D("2.0")
POOR_LITRES_A_KG = D("1.0")
"""Planning values in early lactation, and on poor roughage or late (common practice, no source). Up to two
litres while she is in good condition and below her ceiling (common practice, no source)."""

EARLY_DAYS, LATE_DAYS = 100, 200
"""Days in milk to which a lactation is early, and from which it is late (Byreline's own choice: thirds)."""


def kg_for(litres: Decimal) -> Decimal:
    """Kilograms of dairy meal for a cow that gives *litres* a day, in two feeds; none up to 7 l."""
    return max(litres - GRASS_ALONE_L, D(0)) / LITRES_A_KG


def expected_response(days_in_milk: int | None) -> Decimal:
    """Litres for one more kilogram at that stage; the middle where it is not known."""
    if days_in_milk is None:
        return LITRES_A_KG
    if days_in_milk < EARLY_DAYS:
        return EARLY_LITRES_A_KG
    return LITRES_A_KG if days_in_milk < LATE_DAYS else POOR_LITRES_A_KG


def margin(litres_a_kg: Decimal, milk: Money, meal: Money) -> Money:
    """
    What one more kilogram leaves: its milk at the price of a litre less its own price.

    Raises:
        ValueError: the prices are in two currencies.
    """
    _same_currency(milk, meal)
    return Money.of(litres_a_kg * milk.amount - meal.amount, milk.currency)


def break_even(milk: Money, meal: Money) -> Decimal:
    """
    Litres that a kilogram must give to pay for itself.

    Raises:
        ValueError: the prices are in two currencies, or milk has none.
    """
    _same_currency(milk, meal)
    if not milk.amount:
        raise ValueError("milk has no price")
    return meal.amount / milk.amount


def _same_currency(milk: Money, meal: Money) -> None:
    if milk.currency != meal.currency:
        raise ValueError(f"prices in {milk.currency} and {meal.currency}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """The next kilogram after *fed_kg*: whether it pays, and why no more is to be given if not."""

    worth: Money
    needs_l: Decimal  # litres that it must give to pay for itself
    response_l: Decimal  # litres that it can be expected to give
    at_most: bool  # she has all the concentrate that her stomach bears

    @property
    def pays(self) -> bool:
        return not self.at_most and self.worth.amount > 0


def next_kg(*, fed_kg: Decimal, most_kg: Decimal, response_l: Decimal, milk: Money, meal: Money) -> Step:
    """What one more kilogram on top of *fed_kg* is worth; over *most_kg* none is, whatever the prices."""
    return Step(
        worth=margin(response_l, milk, meal),
        needs_l=break_even(milk, meal),
        response_l=response_l,
        at_most=fed_kg + 1 > most_kg,
    )


# --- the farm's own response -----------------------------------------------------------------------

WEEK = timedelta(days=7)

ENOUGH_CHANGES = 8
"""Changes from week to week that a response is read from, at least; Byreline's own choice."""

REAL_CHANGE_KG = D("0.5")
"""A change of concentrate that counts as one; of ENOUGH_CHANGES at least half must be (our own choice)."""

SURE_ENOUGH = D("0.5")
"""The largest standard error, litres a kilogram, with which the farm's own response is told: a third of the
common one (Byreline's own choice)."""


BELIEVED_L = (D(0), D(3))
"""Litres a kilogram outside which something else than meal moved the milk (Byreline's own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """Litres for a kilogram more by the farm's own records, its standard error, from so many changes."""

    litres_a_kg: Decimal
    error: Decimal
    changes: int


@dataclass(frozen=True, slots=True)
class Week:
    """One cow's week: mean concentrate and mean milk a day."""

    begins: date
    kg: Decimal
    litres: Decimal


def weekly(days: Iterable[tuple[date, Decimal, Decimal]]) -> tuple[Week, ...]:
    """The weeks (from Monday) of one cow's days, each (day, concentrate kg, milk litres), oldest first."""
    weeks: dict[date, list[tuple[Decimal, Decimal]]] = {}
    for on, kg, litres in days:
        weeks.setdefault(on - timedelta(days=on.weekday()), []).append((kg, litres))
    return tuple(
        Week(
            begins,
            sum((kg for kg, _ in one), D(0)) / len(one),
            sum((litres for _, litres in one), D(0)) / len(one),
        )
        for begins, one in sorted(weeks.items())
    )


def own_response(cows: Iterable[Sequence[Week]]) -> Response | None:
    """
    The response read from changes of milk on changes of concentrate from week to week within each cow.

    Straight line by least squares; its constant takes up the usual fall of milk from week to week, and
    what differs between cows falls out. None: too few changes, too unsure to be told, or no response that
    meal can have.
    """
    pairs = [pair for weeks in cows for pair in _changes(weeks)]
    moved = [pair for pair in pairs if abs(pair[0]) >= REAL_CHANGE_KG]
    if len(pairs) < ENOUGH_CHANGES or len(moved) * 2 < ENOUGH_CHANGES:
        return None
    slope, error = line(pairs)
    if error > SURE_ENOUGH or not BELIEVED_L[0] <= slope <= BELIEVED_L[1]:
        return None
    return Response(litres_a_kg=slope, error=error, changes=len(pairs))


def _changes(weeks: Sequence[Week]) -> list[tuple[Decimal, Decimal]]:
    """(Change of concentrate, change of milk) between weeks that follow each other."""
    return [
        (late.kg - early.kg, late.litres - early.litres)
        for early, late in pairwise(weeks)
        if late.begins - early.begins == WEEK
    ]


def line(pairs: Sequence[tuple[Decimal, Decimal]]) -> tuple[Decimal, Decimal]:
    """
    Slope of y on x by least squares with a constant, and its standard error.

    Raises:
        ValueError: fewer than three pairs, or x never changes.
    """
    count = len(pairs)
    if count < 3:
        raise ValueError("a line with its error needs three pairs")
    mean_x, mean_y = (sum((pair[i] for pair in pairs), D(0)) / count for i in (0, 1))
    spread = sum(((x - mean_x) ** 2 for x, _ in pairs), D(0))
    if not spread:
        raise ValueError("x never changes")
    slope = sum(((x - mean_x) * (y - mean_y) for x, y in pairs), D(0)) / spread
    left = sum(((y - mean_y - slope * (x - mean_x)) ** 2 for x, y in pairs), D(0))
    return slope, (left / (count - 2) / spread).sqrt()
