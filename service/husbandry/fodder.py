"""
Whether the fodder kept lasts through the dry season: days of feed, the last day, what is short.

Figures and sources: docs/trade/feeds.md.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from service.husbandry.feeds import BY_KEY, HAY, LOADS, SILAGE, Feed
from service.husbandry.needs import USUAL_KG

D = Decimal

ROUGHAGE_PART = D("0.025")
"""Roughage dry matter a grown animal eats in a day, of its weight, where little else is fed: between the
2-2.5 % of dry cattle (texts; from memory) and the 3 % of a milking cow (verified)."""

LOST = D("0.1")
"""Of what is stored, spoilt or trodden underfoot before it is eaten (common practice, no source)."""

DRY_FROM, DRY_UNTIL = (6, 1), (12, 15)
"""(Month, day) from which cattle live on what is kept, and on which there is grass again: one rainy season,
end of November to May, and some weeks until it has grown (Southern Highlands; common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Stock:
    """Fodder kept: so many *loads* (a key of ``feeds.LOADS``) of *each_kg* kilograms as kept."""

    feed: Feed
    count: Decimal
    load: str = "kg"
    each_kg: Decimal | None = None

    @property
    def kg_each(self) -> Decimal:
        return LOADS[self.load].kg if self.each_kg is None else self.each_kg

    @property
    def dm_kg(self) -> Decimal:
        return self.feed.dm_kg(self.count * self.kg_each)


_ONE = re.compile(r"(\S+) ([a-z]+)(?: of (\S+))? ([a-z_]+)")


def written(stocks: Iterable[Stock]) -> str:
    """*stocks* in words that :func:`stocks_of` reads: ``40 bale hay, 10 bale of 12 hay, 2 tonne silage``."""
    rows = []
    for stock in stocks:
        each = "" if stock.each_kg is None else f" of {stock.each_kg:f}"
        rows.append(f"{stock.count:f} {stock.load}{each} {stock.feed.key}")
    return ", ".join(rows)


def stocks_of(words: str | None) -> tuple[Stock, ...]:
    """The stocks that :func:`written` has put into *words*; what is none is passed over."""
    found = (_ONE.fullmatch(row.strip()) for row in (words or "").split(","))
    return tuple(
        Stock(BY_KEY[row[4]], D(row[1]), row[2], None if row[3] is None else D(row[3]))
        for row in found
        if row is not None and row[4] in BY_KEY and row[2] in LOADS
    )


def dm_a_day(weights: Iterable[Decimal | None]) -> Decimal:
    """Roughage dry matter that grown cattle of such weights eat together in a day; None: not known."""
    return sum((USUAL_KG if kg is None else kg for kg in weights), D(0)) * ROUGHAGE_PART


def season(today: date) -> tuple[date, date]:
    """The first and last day of the dry season that *today* is in, or of the next one (last day included)."""
    last = date(today.year, *DRY_UNTIL) - timedelta(days=1)
    year = today.year if today <= last else today.year + 1
    first = date(year, *DRY_FROM)
    return max(first, today), date(year, *DRY_UNTIL) - timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """
    How long fodder lasts: whole *days* from *first*, to *until* (included; None: not one day).

    ``short_days`` and ``short_dm_kg`` (as kept, with its loss) are missing to *wanted_until*; ``spare_days``
    are over. ``feeds``: for how many of the cattle it would last.
    """

    first: date
    wanted_until: date
    days: int
    until: date | None
    short_days: int
    short_dm_kg: Decimal
    feeds: int

    @property
    def is_enough(self) -> bool:
        return self.short_days == 0


def lasting(
    stocks: Sequence[Stock], cattle: int, dm_a_day_kg: Decimal, first: date, wanted_until: date
) -> Lasting:
    """
    How long *stocks* feed *cattle* that eat *dm_a_day_kg* together, from *first*.

    Raises:
        ValueError: no cattle, or nothing eaten.
    """
    if cattle < 1 or dm_a_day_kg <= 0:
        raise ValueError("fodder lasts for ever where nobody eats it")
    kept = sum((stock.dm_kg for stock in stocks), D(0)) * (1 - LOST)
    days = int((kept / dm_a_day_kg).to_integral_value(ROUND_FLOOR))
    wanted = (wanted_until - first).days + 1
    short = max(wanted - days, 0)
    missing = max(dm_a_day_kg * wanted - kept, D(0)) / (1 - LOST)
    for_all = dm_a_day_kg / cattle * max(wanted, 1)
    return Lasting(
        first=first,
        wanted_until=wanted_until,
        days=days,
        until=first + timedelta(days=days - 1) if days else None,
        short_days=short,
        short_dm_kg=missing if short else D(0),
        feeds=min(int((kept / for_all).to_integral_value(ROUND_FLOOR)), cattle),
    )


def loads_for(dm_kg: Decimal, feed: Feed = HAY, load: str = "bale", each_kg: Decimal | None = None) -> int:
    """Whole loads of *feed* that hold at least *dm_kg*."""
    one = feed.dm_kg(LOADS[load].kg if each_kg is None else each_kg)
    return int((dm_kg / one).to_integral_value(ROUND_CEILING))


def silage_for(dm_kg: Decimal) -> Decimal:
    """Kilograms of maize silage that hold *dm_kg*."""
    return SILAGE.as_fed(dm_kg)
