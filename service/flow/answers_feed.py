"""Questions on feeding and room, answered from what the farm told."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from dialogs import answers_feed
from dialogs.answers_feed import Asked, Worth
from dialogs.answers_money import is_feed
from service.flow.finding import find_present
from service.flow.telling import Telling
from service.husbandry import concentrate, fed, fodder
from service.husbandry.concentrate import Response
from service.husbandry.dairy_accounts import last_price
from service.husbandry.fed import ToldFeed, told_feed
from service.husbandry.feeds import LOADS, Sort, named
from service.husbandry.herd import Animal, Sex, Told
from service.husbandry.kinds.instructions import Ask
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.trade import Expense, Feeding, MilkSale
from service.husbandry.life import gives_milk, is_calf, is_cow
from service.husbandry.needs import GAIN_KG, USUAL_KG, Body, need
from service.husbandry.ration import check, most_concentrate, supply
from service.husbandry.units import Money
from service.records import ledger

PRICE_LASTS = timedelta(days=92)
"""A price older than a quarter says little of today's (as where a sale names none)."""

RESPONSE_DAYS = timedelta(days=365)
"""How far back the farm's own response of milk to meal is looked for."""

MEAL_PRICE = (Decimal(100), Decimal(5_000))
"""Shillings (TZS) between which a kilogram of meal costs, widely; common practice, no source."""


def _told(telling: Telling, kind: str, back: timedelta) -> tuple[Told, ...]:
    today = telling.local.date()
    return ledger.on_days(telling.conn, telling.book.farm_id, kind, today - back, today)


def _milk_of(animal: Animal, told: tuple[Told, ...]) -> list[Milk]:
    return [one.entry for one in told if isinstance(one.entry, Milk) and animal.id in one.animals]


# --- ration ----------------------------------------------------------------------------------------


def ration(telling: Telling, ask: Ask) -> None:
    """Is she fed enough? Of her that was named, or of the farm's only grown animal."""
    animal = find_present(telling.book.farm, ask.animal) or _only_one(telling)
    lacks, body, weighed = _body(telling, animal)
    if animal is None or body is None:
        text = answers_feed.answer_ration_lacks(lacks, telling.book.farm, animal, telling.language)
    else:
        told = _fed(telling, animal)
        asked = Asked(
            animal=animal, body=body, weighed=weighed, told=told, ration=check(need(body), told.fed)
        )
        text = answers_feed.answer_ration(asked, ask.water_litres, telling.language)
    telling.answers.append(text)


def _only_one(telling: Telling) -> Animal | None:
    today = telling.local.date()
    grown = [a for a in telling.book.farm.present if not is_calf(a, today)]
    return grown[0] if len(grown) == 1 else None


def _body(telling: Telling, animal: Animal | None) -> tuple[str, Body | None, bool]:
    """What is lacking (else nothing), her body, and whether her weight is a measured one."""
    today = telling.local.date()
    if animal is None:
        return "which", None, False
    if is_calf(animal, today):
        return "calf", None, False
    kg = animal.weight_kg or (USUAL_KG if is_cow(animal) else None)
    if kg is None:
        return "weigh", None, False
    litres = fed.litres_a_day(_milk_of(animal, _told(telling, Milk.KIND, timedelta(days=fed.DAYS))), today)
    if litres is None and gives_milk(animal):
        return "milk", None, False
    growing = animal.sex is not Sex.MALE and not is_cow(animal)
    body = Body(
        kg=kg,
        litres=litres or Decimal(0),
        days_in_calf=_days_in_calf(animal, today),
        gain_kg=GAIN_KG if growing else Decimal(0),
    )
    return "", body, animal.weight_kg is not None


def _days_in_calf(animal: Animal, today: date) -> int:
    if not animal.in_calf or animal.conceived_on is None:
        return 0
    return max((today - animal.conceived_on).days, 0)


def _fed(telling: Telling, animal: Animal) -> ToldFeed:
    told = _told(telling, Feeding.KIND, timedelta(days=fed.DAYS))
    return told_feed(told, animal, telling.book.farm, telling.local.date())


# --- what more meal is worth -----------------------------------------------------------------------


def feed_worth(telling: Telling, ask: Ask) -> None:
    """What the next kilogram of meal is worth at the prices told last."""
    milk = last_price([one.entry for one in _told(telling, MilkSale.KIND, PRICE_LASTS)], None)
    meal, by_bag_kg = (ask.price, None) if ask.price is not None else _meal_price(telling)
    if milk is None or not milk.price.amount:
        text = answers_feed.answer_worth_lacks("no_milk_price", telling.language)
    elif meal is None or meal.currency != milk.price.currency:
        text = answers_feed.answer_worth_lacks("no_meal_price", telling.language)
    else:
        found = _worth(telling, find_present(telling.book.farm, ask.animal), milk.price, meal, by_bag_kg)
        text = answers_feed.answer_worth(found, telling.language)
    telling.answers.append(text)


def _worth(
    telling: Telling, animal: Animal | None, milk: Money, meal: Money, by_bag_kg: Decimal | None
) -> Worth:
    own = _own_response(telling)
    today = telling.local.date()
    calved = None if animal is None or animal.calved_on is None else (today - animal.calved_on).days
    response = concentrate.expected_response(calved) if own is None else own.litres_a_kg
    fed_kg = Decimal(0) if animal is None else supply(_fed(telling, animal).fed).concentrate_kg
    kg = (None if animal is None else animal.weight_kg) or USUAL_KG
    most_kg = most_concentrate(need(Body(kg=kg, litres=Decimal(1))))
    return Worth(
        step=concentrate.next_kg(fed_kg=fed_kg, most_kg=most_kg, response_l=response, milk=milk, meal=meal),
        milk=milk,
        meal=meal,
        by_bag_kg=by_bag_kg,
        own=own,
        animal=animal,
        fed_kg=fed_kg,
        most_kg=most_kg,
    )


def _meal_price(telling: Telling) -> tuple[Money | None, Decimal | None]:
    """The latest price of a kilogram of meal, and the weight of the bag it was taken for if none was told."""
    bought = [one.entry for one in _told(telling, Expense.KIND, PRICE_LASTS)]
    for entry in reversed([one for one in bought if isinstance(one, Expense) and _is_meal(one)]):
        kg = entry.kg or LOADS["bag"].kg
        each = Money.of(entry.amount.amount / kg, entry.amount.currency)
        if each.currency != "TZS" or MEAL_PRICE[0] <= each.amount <= MEAL_PRICE[1]:
            return each, None if entry.kg else kg
    return None, None


def _is_meal(entry: Expense) -> bool:
    if not entry.what or not is_feed(entry.what):
        return False
    meant = named(entry.what)
    return meant is not None and meant.feed.sort is Sort.CONCENTRATE


def _own_response(telling: Telling) -> Response | None:
    """The farm's own litres for a kilogram, where its records show it."""
    told, milk = (_told(telling, kind, RESPONSE_DAYS) for kind in (Feeding.KIND, Milk.KIND))
    farm = telling.book.farm
    days = (fed.meal_and_milk(told, _milk_of(cow, milk), cow, farm) for cow in farm.animals.values())
    return concentrate.own_response(concentrate.weekly(one) for one in days)


# --- fodder and room -------------------------------------------------------------------------------


def fodder_lasts(telling: Telling, ask: Ask) -> None:
    """How long what is kept feeds the cattle told, else the farm's grown ones."""
    weights = _weights(telling, ask.animals_count)
    text = answers_feed.answer_fodder(
        fodder.stocks_of(ask.about),
        len(weights),
        fodder.dm_a_day(weights),
        ask.price,
        telling.local.date(),
        ask.until,
        telling.language,
    )
    telling.answers.append(text)


def _weights(telling: Telling, count: Decimal | None) -> list[Decimal | None]:
    """The weight of each that eats, None where it is not known; of a count other than the herd's, of all."""
    today = telling.local.date()
    grown = [a.weight_kg for a in telling.book.farm.present if not is_calf(a, today)]
    return grown if count is None or count == len(grown) else [None] * int(count)


def space(telling: Telling, ask: Ask) -> None:
    """Room for the cattle told, else for the farm's grown ones."""
    count = int(ask.animals_count) if ask.animals_count is not None else len(_weights(telling, None))
    telling.answers.append(answers_feed.answer_space(count, telling.language))
