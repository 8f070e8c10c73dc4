"""
Answers on feeding: is it enough, does more meal pay, does the fodder last, how much room cattle need.

Arithmetic on what the farm told and on tables; each answer says so and what it took for granted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from dialogs import texts
from dialogs.outcome import example_name
from dialogs.values import WORDS_ROOM
from service.husbandry import fodder
from service.husbandry.concentrate import Response, Step
from service.husbandry.fed import DAYS, ToldFeed
from service.husbandry.feeds import HAY, LOADS, Feed
from service.husbandry.herd import Animal, Farm
from service.husbandry.needs import Body
from service.husbandry.ration import Fed, Ration, Short, water_short
from service.husbandry.space import space
from service.husbandry.units import Money
from service.messages import Say, say

ROOM = texts.THREE_SEGMENTS

HALF = Decimal("0.5")


def halves(kg: Decimal) -> Decimal:
    """*kg* to the nearest half: no farmer weighs meal more exactly; never told as none."""
    return max((kg / HALF).to_integral_value(ROUND_HALF_UP) * HALF, HALF)


def whole(value: Decimal) -> Decimal:
    return value.quantize(Decimal(1), ROUND_HALF_UP)


def feed_name(feed: Feed) -> Say:
    return say(f"feedname.{feed.key}")


def _fitting(says: Sequence[Say], language: str) -> str:
    """As many of *says* as fit three segments, from the first; the last is kept."""
    shown = list(says)
    while len(shown) > 2 and not texts.fits(texts.compose(*shown, language=language, room=ROOM), ROOM):
        shown.pop(-2)
    return texts.compose(*shown, language=language, room=ROOM)


# --- is it enough ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A ration asked for: whose, by what weight and milk, and what was found."""

    animal: Animal
    body: Body
    weighed: bool
    told: ToldFeed
    ration: Ration


def answer_ration(asked: Asked, water_l: Decimal | None, language: str) -> str:
    """
    What she is fed against what she needs: energy, protein, minerals and water, and the caution on meal.

    Args:
        asked: What was found.
        water_l: Litres she drinks in a day; None: not told.
        language: sw, en.
    """
    head = say("ration.head", name=asked.animal.name, what=_weight(asked), deed=_yield(asked.body))
    says = [head, *_eaten(asked), *_short(asked.ration), *_care(asked.ration)]
    says += [*_water(asked.ration, water_l), *_taken_as(asked.told), say("ration.end")]
    return _fitting(says, language)


def answer_ration_lacks(key: str, farm: Farm, animal: Animal | None, language: str) -> str:
    """What must be known first: ``which``, ``weigh``, ``milk``, ``calf``."""
    name = example_name(farm) if animal is None else animal.name
    return texts.render(say(f"ration.{key}", name=name), language)


def _weight(asked: Asked) -> Say:
    return say("ration.kg" if asked.weighed else "ration.kg_guess", kg=whole(asked.body.kg))


def _yield(body: Body) -> Say:
    if body.gain_kg:
        return say("ration.growing")
    if not body.litres:
        return say("ration.dry")
    return say("ration.litres", litres=body.litres.quantize(Decimal("0.1")))


def _eaten(asked: Asked) -> list[Say]:
    says = []
    if asked.told.fed:
        says.append(say("ration.told", count=asked.told.days, days=DAYS, what=fed_list(asked.told.fed)))
    if asked.ration.filled is not None:
        says.append(
            say("ration.filled", kg=whole(asked.ration.filled.kg), feed=feed_name(asked.ration.filled.feed))
        )
    return says


MOST_FEEDS = 3
"""Feeds that are told one by one; the lesser are left out of the list, not of the count."""


def fed_list(fed: Sequence[Fed]) -> Say:
    """The feeds with their kilograms, the heaviest first."""
    heaviest = sorted(fed, key=lambda one: one.kg, reverse=True)[:MOST_FEEDS]
    shown = [say("ration.one", feed=feed_name(one.feed), kg=_kilos(one.kg)) for one in heaviest]
    return _joined(shown)


def _kilos(kg: Decimal) -> Decimal:
    return whole(kg) if kg >= 10 else kg.quantize(Decimal("0.1") if kg >= 1 else Decimal("0.01"))


def _joined(says: Sequence[Say]) -> Say:
    return says[0] if len(says) == 1 else say("and_also", first=says[0], what=_joined(says[1:]))


def _short(ration: Ration) -> list[Say]:
    if ration.too_much_told:
        return [say("ration.too_much")]
    return [_of("energy", ration.energy), _of(_protein(ration), ration.protein)]


def _protein(ration: Ration) -> str:
    """The way in which short protein is told, beside what is told of energy."""
    if ration.energy is None or ration.protein is None:
        return "protein"
    return "protein_with_it" if ration.protein.kg < HALF / 2 else "protein_too"


def _of(what: str, short: Short | None) -> Say:
    if short is None:
        return say(f"ration.{what}_enough")
    return say(
        f"ration.{what}", count=int(whole(short.part * 100)), feed=feed_name(short.feed), kg=halves(short.kg)
    )


def _care(ration: Ration) -> list[Say]:
    if ration.over:
        return [say("ration.over", kg=_kilos(ration.supply.concentrate_kg), high=whole(ration.most_kg))]
    if ration.over_if_added and not ration.too_much_told:
        return [say("ration.over_if", high=whole(ration.most_kg))]
    return [] if ration.enough else [say("ration.slowly")]


def _water(ration: Ration, water_l: Decimal | None) -> list[Say]:
    low, high = (whole(litres / 5) * 5 for litres in ration.need.water_l)
    water = say("ration.water", litres=low) if low == high else say("ration.water_range", low=low, high=high)
    says = [water]
    if water_l is not None and (missing := water_short(ration.need, water_l)) >= 1:
        says = [say("ration.water_short", litres=whole(missing))]
    if ration.minerals_g:
        low, high = ration.need.minerals_g
        says.append(say("ration.minerals", low=low, high=high))
    return says


def _taken_as(told: ToldFeed) -> list[Say]:
    says = [
        say("ration.loose", words=word[:WORDS_ROOM], feed=feed_name(feed)) for word, feed in told.loose[:2]
    ]
    left = [word for word in (*told.unknown, *told.unweighed) if word]
    return says + [say("ration.unknown", words=word[:WORDS_ROOM]) for word in left[:2]]


# --- what more meal is worth -----------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What the next kilogram is worth: prices, whose (None: any cow's), and by what it was counted."""

    step: Step
    milk: Money
    meal: Money
    by_bag_kg: Decimal | None  # the price of meal is a bag's, taken to weigh so much
    own: Response | None
    animal: Animal | None
    fed_kg: Decimal
    most_kg: Decimal


def answer_worth(found: Worth, language: str) -> str:
    """What one more kilogram of meal brings and leaves, what it must bring, and how sure that is."""
    step = found.step
    says = [_response(found), say("worth.yield", amount=_milk_money(found), price=found.milk)]
    if step.at_most and found.animal is not None:
        full = say(
            "worth.at_most", name=found.animal.name, kg=_kilos(found.fed_kg), high=whole(found.most_kg)
        )
        return _fitting([full, say("worth.end")], language)
    says.append(_leaves(found))
    says.append(say("worth.needs", litres=step.needs_l.quantize(Decimal("0.1"))))
    if found.by_bag_kg is not None:
        says.append(say("worth.bag", kg=found.by_bag_kg))
    if step.pays:
        says.append(say("worth.stop"))
    return _fitting([*says, say("worth.end")], language)


def _response(found: Worth) -> Say:
    litres = found.step.response_l.quantize(Decimal("0.1"))
    if found.own is None:
        return say("worth.common", litres=litres)
    return say(
        "worth.own", litres=litres, each=found.own.error.quantize(Decimal("0.1")), count=found.own.changes
    )


def _milk_money(found: Worth) -> Money:
    return Money.of(found.step.response_l * found.milk.amount, found.milk.currency)


def _leaves(found: Worth) -> Say:
    worth = found.step.worth
    if found.step.pays:
        return say("worth.pays", price=found.meal, amount=worth)
    return say("worth.loses", price=found.meal, amount=Money.of(-worth.amount, worth.currency))


def answer_worth_lacks(key: str, language: str) -> str:
    """Which price must be known first: ``no_milk_price``, ``no_meal_price``."""
    return texts.render(say(f"worth.{key}"), language)


# --- does the fodder last --------------------------------------------------------------------------


def answer_fodder(
    stocks: Sequence[fodder.Stock],
    cattle: int,
    eaten_kg: Decimal,
    bale: Money | None,
    today: date,
    until: date | None,
    language: str,
) -> str:
    """
    How long what is kept lasts, what is short to the new grass, and what the ways out come to.

    Args:
        stocks: What is kept; none: the answer says how to ask.
        cattle: How many eat of it; none: the same.
        eaten_kg: Dry matter that they eat together in a day.
        bale: The price of a bale of hay; None: not told.
        today: Farm-local.
        until: The day to which it should last; None: to the new grass.
        language: sw, en.
    """
    if not stocks or cattle < 1:
        return texts.render(say("fodder.how"), language)
    first, last = fodder.season(today)
    if until is not None:
        first, last = (first if first <= until else today), until
    found = fodder.lasting(stocks, cattle, eaten_kg, first, last)
    taken = [say("fodder.season")] if until is None and not found.is_enough else []
    assumed = _assumed(stocks, eaten_kg / cattle)
    return _fitting([_lasts(found, cattle), *taken, *_ways(found, cattle, bale), assumed], language)


def _lasts(found: fodder.Lasting, cattle: int) -> Say:
    if found.until is None:
        return say("fodder.none", count=cattle)
    if found.is_enough:
        return say("fodder.enough", count=cattle, on=found.first, until=found.wanted_until)
    values = {"count": cattle, "on": found.first, "until": found.until, "days": found.short_days}
    return Say("fodder.short", {**values, "due": found.wanted_until})


def _ways(found: fodder.Lasting, cattle: int, bale: Money | None) -> list[Say]:
    if found.is_enough:
        return []
    bales = fodder.loads_for(found.short_dm_kg)
    says = [
        _bought(bales, bale),
        say("fodder.silage", kg=whole(fodder.silage_for(found.short_dm_kg) / 10) * 10),
    ]
    if 0 < found.feeds < cattle:
        says.append(say("fodder.fewer", count=found.feeds))
    return says


def _bought(bales: int, bale: Money | None) -> Say:
    if bale is None:
        return say("fodder.buy", count=bales)
    return say("fodder.buy_for", count=bales, amount=Money.of(bales * bale.amount, bale.currency))


def _assumed(stocks: Sequence[fodder.Stock], each_dm_kg: Decimal) -> Say:
    bale = next((stock.kg_each for stock in stocks if stock.load == "bale"), LOADS["bale"].kg)
    fresh = HAY.as_fed(each_dm_kg)
    return say("fodder.assumed", kg=whole(fresh), each=bale)


# --- room ------------------------------------------------------------------------------------------


def answer_space(count: int, language: str) -> str:
    """Shed, lying place, trough and water for so many grown cattle; none: how to ask."""
    if count < 1:
        return texts.render(say("space.how"), language)
    found = space(count)
    low, high = found.shed_sqm
    shed = say("space.shed", count=count, kg=_tenth(found.least_shed_sqm), low=low, high=high)
    trough_low, trough_high = (_tenth(metres) for metres in found.trough_m)
    says = [
        shed,
        *([say("space.two")] if found.least_shed_ft is not None else []),
        say("space.lying"),
        say("space.trough", low=trough_low, high=trough_high),
        say("space.water", few=found.water_troughs, litres=found.tank_l),
        say("space.end"),
    ]
    return _fitting(says, language)


def _tenth(value: Decimal) -> Decimal:
    return value.quantize(Decimal("0.1"), ROUND_HALF_UP)
