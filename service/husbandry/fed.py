"""What the farm told of feed and milk in the last week, as one animal's day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from decimal import Decimal

from service.husbandry.daily_milk import DayMilk, daily
from service.husbandry.feeds import Feed, Named, Sort, named, parts
from service.husbandry.herd import Animal, Farm, Told
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.trade import Feeding
from service.husbandry.life import is_calf
from service.husbandry.ration import Fed

NOTHING = Decimal(0)

DAYS = 7
"""Days back from today, today among them, of which feed and milk are counted."""


def week_to(today: date) -> tuple[date, date]:
    """The first and last day that are counted."""
    return today - timedelta(days=DAYS - 1), today


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldFeed:
    """
    What one animal was fed a day, by what was told of the last week.

    The kilograms are means over the ``days`` of which feeding was told. ``loose``: words taken as a feed
    that they may not mean; ``unknown``: feeds without figures, ``unweighed``: feeds without kilograms, both
    left out.
    """

    fed: tuple[Fed, ...]
    days: int
    loose: tuple[tuple[str, Feed], ...]
    unknown: tuple[str, ...]
    unweighed: tuple[str, ...]


@dataclass(slots=True)
class _Gathered:
    """Sums over the days, feed by feed; dicts keep the order of telling."""

    kg: dict[str, Decimal] = field(default_factory=dict)
    feeds: dict[str, Feed] = field(default_factory=dict)
    loose: dict[str, Feed] = field(default_factory=dict)
    unknown: dict[str, None] = field(default_factory=dict)
    unweighed: dict[str, None] = field(default_factory=dict)

    def take(self, entry: Feeding, share: Decimal) -> None:
        """One record, of whose kilograms *share* are this animal's; a mixture in equal parts."""
        if not entry.feed or entry.kg is None:
            self.unweighed[entry.feed or ""] = None
            return
        meant = meanings(entry.feed)
        for word, one in meant:
            self._take_one(word, one, entry.kg * share / len(meant))

    def _take_one(self, word: str, meant: Named | None, kg: Decimal) -> None:
        if meant is None:
            self.unknown[word] = None
            return
        key = meant.feed.key
        self.feeds[key] = meant.feed
        self.kg[key] = self.kg.get(key, NOTHING) + kg
        if meant.loose:
            self.loose[word] = meant.feed


def told_feed(told: Iterable[Told], animal: Animal, farm: Farm, today: date) -> ToldFeed:
    """What *animal* got a day in the last seven days; what was told for several is shared evenly."""
    first, last = week_to(today)
    gathered, days = _Gathered(), set()
    for one in told:
        share = _share(one, animal, farm)
        if isinstance(one.entry, Feeding) and first <= one.entry.on <= last and share:
            days.add(one.entry.on)
            gathered.take(one.entry, share)
    return ToldFeed(
        fed=tuple(Fed(gathered.feeds[key], kg / len(days)) for key, kg in gathered.kg.items()),
        days=len(days),
        loose=tuple(gathered.loose.items()),
        unknown=tuple(gathered.unknown),
        unweighed=tuple(gathered.unweighed),
    )


def meanings(words: str) -> tuple[tuple[str, Named | None], ...]:
    """The feeds in *words*, each with what it means."""
    several = parts(words)
    if len(several) < 2:
        return ((words, named(words)),)
    return tuple((part, named(part)) for part in several)


def _share(one: Told, animal: Animal, farm: Farm) -> Decimal:
    """The part of what was told that is this animal's; of what was fed to all, calves have none."""
    if one.animals:
        return Decimal(1) / len(one.animals) if animal.id in one.animals else NOTHING
    fed = [a.id for a in farm.present if not is_calf(a, one.entry.happened_on)]
    return Decimal(1) / len(fed) if animal.id in fed else NOTHING


def litres_a_day(milkings: Iterable[Milk], today: date) -> Decimal | None:
    """
    The mean of a cow's days' milk in the last seven days; None: none was told.

    *milkings* are hers alone. A day of which fewer milkings were told than of the fullest is not whole and
    does not count.
    """
    first, last = week_to(today)
    days = _whole(daily(milk for milk in milkings if first <= milk.on <= last))
    return sum((day.litres for day in days), NOTHING) / len(days) if days else None


def _whole(days: Sequence[DayMilk]) -> list[DayMilk]:
    """Those told in one sum, or of as many milkings as the fullest."""
    fullest = max((len(day.milkings) for day in days if not day.in_one_sum), default=0)
    return [day for day in days if day.in_one_sum or len(day.milkings) == fullest]


def meal_and_milk(
    told: Iterable[Told], milkings: Iterable[Milk], animal: Animal, farm: Farm
) -> tuple[tuple[date, Decimal, Decimal], ...]:
    """
    The days of which both her concentrate and a whole day's milk were told: (day, kilograms, litres).

    *milkings* are hers alone. A day without a word on concentrate is not taken as one without concentrate.
    """
    kilos: dict[date, Decimal] = {}
    for one in told:
        if isinstance(one.entry, Feeding) and (kg := _concentrate(one.entry) * _share(one, animal, farm)):
            kilos[one.entry.on] = kilos.get(one.entry.on, NOTHING) + kg
    return tuple((day.on, kilos[day.on], day.litres) for day in _whole(daily(milkings)) if day.on in kilos)


def _concentrate(entry: Feeding) -> Decimal:
    """Kilograms of concentrate in what was fed."""
    if not entry.feed or entry.kg is None:
        return NOTHING
    meant = meanings(entry.feed)
    meals = [one for _, one in meant if one is not None and one.feed.sort is Sort.CONCENTRATE]
    return entry.kg * len(meals) / len(meant)
