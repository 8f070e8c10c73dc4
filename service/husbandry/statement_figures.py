"""
The figures of a farm's month or year that add up: litres of milk, and sums in one currency.

Pure values; :mod:`service.husbandry.statement` makes them from entries. Formulas: docs/trade/money.md.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from decimal import Decimal
from typing import Any, Self

NOTHING = Decimal(0)

FEED, SERVED, ANIMAL, LOAN, SAVINGS = "feed", "service", "animal", "loan", "savings"

APART = frozenset({ANIMAL, LOAN, SAVINGS})
"""What is spent or taken in and is neither a cost nor an income of the milk."""

Sums = Mapping[str, Decimal]


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """Figures that add up over months: field by field, of mappings key by key."""

    def __add__(self, other: Self) -> Self:
        names = [each.name for each in fields(self)]
        return replace(self, **{name: _plus(getattr(self, name), getattr(other, name)) for name in names})


def _plus(one: Any, other: Any) -> Any:
    if not isinstance(one, Mapping):
        return one + other
    both = {**one, **other}
    return {key: one[key] + other[key] if key in one and key in other else both[key] for key in both}


@dataclass(frozen=True, slots=True, kw_only=True)
class CowFigures(Added):
    """One cow's: her milk, what it earned at the farm's average price, the feed told for her by its price."""

    litres: Decimal = NOTHING
    earned: Decimal = NOTHING
    fed: Decimal = NOTHING
    unpriced_kg: Decimal = NOTHING  # feed told for her of which no price a kilogram is known
    days: int = 0  # on which milk of hers was told

    @property
    def margin(self) -> Decimal:
        return self.earned - self.fed


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures(Added):
    """What adds up over months: litres of milk, and sums in the statement's currency."""

    made: Decimal = NOTHING
    calves: Decimal = NOTHING  # of it given to calves, where told
    sold: Decimal = NOTHING
    delivered: Decimal = NOTHING  # taken by the centre: told, or more where it paid for more
    turned_back: Decimal = NOTHING
    unpriced: Decimal = NOTHING  # sold or delivered with no price known: in no sum

    sales: Decimal = NOTHING  # sums told
    sales_at_last: Decimal = NOTHING  # of sales without one, at the last price
    pay: Decimal = NOTHING  # the centre's, before what it kept back
    awaited: Decimal = NOTHING  # of deliveries of months not paid for, at the last price
    awaited_litres: Decimal = NOTHING
    kept_back: Decimal = NOTHING  # by the centre of its pay; it is in ``spent`` too
    priced: Decimal = NOTHING  # the milk's income of which the litres are known ...
    priced_litres: Decimal = NOTHING  # ... and these

    income: Sums = field(default_factory=dict)  # other than of milk, by sort
    spent: Sums = field(default_factory=dict)  # by sort, with what the centre kept back

    days: int = 0  # on which milk was told
    missing: int = 0  # of the days of the farm's recording, those of which none was
    cows: Mapping[int, CowFigures] = field(default_factory=dict)

    @property
    def milk_income(self) -> Decimal:
        return self.sales + self.sales_at_last + self.pay + self.awaited

    @property
    def other_income(self) -> Decimal:
        """Of the business: manure, a bull's fee, whatever else is no animal and no loan."""
        return sum((sum_ for sort, sum_ in self.income.items() if sort not in APART), NOTHING)

    @property
    def costs(self) -> Mapping[str, Decimal]:
        """The costs of the business by sort, the largest first."""
        own = ((sort, sum_) for sort, sum_ in self.spent.items() if sort not in APART and sum_)
        return dict(sorted(own, key=lambda cost: (-cost[1], cost[0])))

    @property
    def cost(self) -> Decimal:
        return sum(self.costs.values(), NOTHING)

    @property
    def put_aside(self) -> Decimal:
        """Paid back of loans and saved: no cost, and not in the hand either."""
        return self.spent.get(LOAN, NOTHING) + self.spent.get(SAVINGS, NOTHING)

    @property
    def left(self) -> Decimal:
        """What remains in the hand of milk and other income: after costs, loans paid back, savings."""
        return self.milk_income + self.other_income - self.cost - self.put_aside

    @property
    def over_feed(self) -> Decimal:
        """Margin over feed bought."""
        return self.milk_income - self.spent.get(FEED, NOTHING)

    @property
    def average_price(self) -> Decimal | None:
        """Of a litre sold or delivered; None: no price is known."""
        return self.priced / self.priced_litres if self.priced_litres else None

    @property
    def litre_cost(self) -> Decimal | None:
        """Costs for one litre made; None: no milk was told."""
        return self.cost / self.made if self.made else None

    @property
    def gone(self) -> Decimal:
        """Litres sold, delivered, or told as the calves'."""
        return self.sold + self.delivered + self.calves

    @property
    def unsold(self) -> Decimal:
        """Litres made and neither sold, delivered nor the calves': drunk, spilt, turned back. At least 0."""
        return max(self.made - self.gone, NOTHING)

    @property
    def not_written(self) -> Decimal:
        """Litres sold and delivered beyond those told as milked."""
        return max(self.gone - self.made, NOTHING)

    @property
    def unshared_feed(self) -> Decimal:
        """Feed bought that is not told as fed to any one cow; at least 0."""
        return max(self.spent.get(FEED, NOTHING) - sum((c.fed for c in self.cows.values()), NOTHING), NOTHING)

    @property
    def is_empty(self) -> bool:
        milk = self.made or self.gone or self.turned_back
        return not (milk or self.milk_income or self.income or self.spent)
