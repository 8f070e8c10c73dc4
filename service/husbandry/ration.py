"""
A simple check of what an animal is fed against what it needs: arithmetic on what the farm told.

Pure functions; figures and sources: docs/trade/feeds.md. What is short is told as a part of the need and
as kilograms of a named feed that hold as much.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from service.husbandry.feeds import DAIRY_MEAL, NAPIER, SUNFLOWER_CAKE, Feed, Sort
from service.husbandry.needs import Need

NOTHING = Decimal(0)

MOST_CONCENTRATE_KG = Decimal(8)
MOST_CONCENTRATE_PART = Decimal("0.6")
"""Concentrate a day over which her stomach is at risk: about 8 kg, or 50-60 % of her dry matter (texts; from
memory). The lower of both counts, of the range its end."""

ENOUGH = Decimal("0.95")
"""The part of a need from which it counts as met: the tables are no nearer than that (Byreline's own
choice)."""

MORE_THAN_SHE_EATS = Decimal("1.3")
"""So many times what an animal can be expected to eat was not eaten by one (Byreline's own choice)."""


@dataclass(frozen=True, slots=True)
class Fed:
    """So many kilograms of a feed in a day, as fed."""

    feed: Feed
    kg: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """What is in a day's feed."""

    dm_kg: Decimal
    me_mj: Decimal
    cp_g: Decimal
    minerals_g: Decimal
    concentrate_kg: Decimal
    concentrate_dm_kg: Decimal


def supply(fed: Iterable[Fed]) -> Supply:
    """The sum of what *fed* holds; a mineral lick is no feed but for its minerals."""
    eaten = [one for one in fed if one.feed.sort is not Sort.MINERAL]
    meals = [one for one in eaten if one.feed.sort is Sort.CONCENTRATE]
    licks = [one.kg for one in fed if one.feed.sort is Sort.MINERAL]
    return Supply(
        dm_kg=sum((one.feed.dm_kg(one.kg) for one in eaten), NOTHING),
        me_mj=sum((one.feed.me_mj(one.kg) for one in eaten), NOTHING),
        cp_g=sum((one.feed.cp_g(one.kg) for one in eaten), NOTHING),
        minerals_g=sum(licks, NOTHING) * 1000,
        concentrate_kg=sum((one.kg for one in meals), NOTHING),
        concentrate_dm_kg=sum((one.feed.dm_kg(one.kg) for one in meals), NOTHING),
    )


def filling(need: Need, fed: Sequence[Fed], roughage: Feed = NAPIER) -> Fed:
    """The *roughage* that fills her where none was told: what she can eat beside the rest."""
    room = max(need.dm_kg - supply(fed).dm_kg, NOTHING)
    return Fed(roughage, roughage.as_fed(room))


def kg_for_energy(short_mj: Decimal, feed: Feed) -> Decimal:
    """Kilograms of *feed* as fed that hold *short_mj*; never below none."""
    return max(short_mj, NOTHING) / feed.me_mj(Decimal(1))


def kg_for_protein(short_g: Decimal, feed: Feed) -> Decimal:
    """Kilograms of *feed* as fed that hold *short_g* of crude protein; never below none."""
    return max(short_g, NOTHING) / feed.cp_g(Decimal(1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Short:
    """By what part of the need it falls short, and the *feed* in *kg* as fed that holds as much."""

    part: Decimal
    feed: Feed
    kg: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Ration:
    """
    What a check found.

    ``energy``, ``protein``: None where there is enough; the kilograms of protein feed come on top of those
    for energy, whose own protein counts. ``minerals_g``: grams of lick that are short of the least.
    ``filled``: the roughage taken as eaten because none was told. ``too_much_told``: more than one animal
    can eat. ``most_kg``: kilograms of concentrate a day that she should not pass; ``over``: what is fed
    passes it; ``over_if_added``: with what is short it would.
    """

    need: Need
    supply: Supply
    energy: Short | None
    protein: Short | None
    minerals_g: Decimal
    filled: Fed | None
    too_much_told: bool
    most_kg: Decimal
    over: bool
    over_if_added: bool

    @property
    def enough(self) -> bool:
        return self.energy is None and self.protein is None


def check(need: Need, fed: Sequence[Fed]) -> Ration:
    """What *fed* in a day is against *need*; where no roughage is in it she is taken to eat her fill."""
    roughage = any(one.feed.is_roughage for one in fed)
    filled = None if roughage else filling(need, fed)
    found = supply([*fed, *([filled] if filled else [])])
    energy = _energy(need, found)
    protein = _protein(need, found, energy)
    added = sum((short.kg for short in (energy, protein) if short is not None), NOTHING)
    most_kg = most_concentrate(need)
    return Ration(
        need=need,
        supply=found,
        energy=energy,
        protein=protein,
        minerals_g=max(need.minerals_g[0] - found.minerals_g, NOTHING),
        filled=filled,
        too_much_told=found.dm_kg > need.dm_kg * MORE_THAN_SHE_EATS,
        most_kg=most_kg,
        over=found.concentrate_kg > most_kg,
        over_if_added=found.concentrate_kg + added > most_kg,
    )


def most_concentrate(need: Need) -> Decimal:
    """Kilograms of concentrate a day that an animal of that need should not pass."""
    by_part = DAIRY_MEAL.as_fed(need.dm_kg * MOST_CONCENTRATE_PART)
    return min(MOST_CONCENTRATE_KG, by_part)


def _energy(need: Need, found: Supply) -> Short | None:
    if found.me_mj >= need.me_mj * ENOUGH:
        return None
    gap = need.me_mj - found.me_mj
    return Short(part=gap / need.me_mj, feed=DAIRY_MEAL, kg=kg_for_energy(gap, DAIRY_MEAL))


def _protein(need: Need, found: Supply, energy: Short | None) -> Short | None:
    if found.cp_g >= need.cp_g * ENOUGH:
        return None
    added = NOTHING if energy is None else energy.feed.cp_g(energy.kg)
    gap = need.cp_g - found.cp_g
    kg = kg_for_protein(gap - added, SUNFLOWER_CAKE)
    return Short(part=gap / need.cp_g, feed=SUNFLOWER_CAKE, kg=kg)


def water_short(need: Need, drunk_l: Decimal) -> Decimal:
    """Litres of water a day that are short of the least she needs; never below none."""
    return max(need.water_l[0] - drunk_l, NOTHING)
