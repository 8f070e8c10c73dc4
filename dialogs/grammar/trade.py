"""Feed given, milk sold."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.buyers import buyer, on_credit, payer
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, day_values, is_strange, likely, subjects
from dialogs.grammar.health import count, of_group
from dialogs.grammar.items import Item
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.kinds import Feeding, MilkSale
from service.husbandry.units import Money, litres_of_kg

_CENT = Decimal("0.01")


def feeding(clause: Clause, scene: Scene) -> list[Found]:
    who = subjects(clause, scene, [i for i in clause.items if is_strange(i) and _is_feed_name(clause, i)])
    if not who:
        who = of_group(clause, scene) or ([] if likely(clause, scene) else [Subject(EVERY_ANIMAL)])
    base = Found(Feeding, day_values(clause, scene), who, [], likely(clause, scene))
    feeds, kilos = _feeds(clause), clause.numbers("kg")
    if len(feeds) == len(kilos) and len(feeds) > 1:
        return [_fed(clause, scene, base, feed, kg) for feed, kg in zip(feeds, kilos, strict=True)]
    if kilos and len(who) > 1 and len(kilos) == 1 and _the_same(clause):  # "Pendo 3 kg, Neema the same"
        first, *rest = (replace(base, subjects=[subject]) for subject in who)
        return [_fed(clause, scene, one, feeds[0] if feeds else _named_feed(clause), kilos[0]) for one in (
            first, *rest)]  # fmt: skip
    feed = f"{feeds[0]}" if len(feeds) == 1 else _all_feeds(clause) if feeds else _named_feed(clause)
    return [_fed(clause, scene, base, feed, kilos[0] if kilos else None)]


_SAME = ("same", "hivyo", "hivyohivyo", "hicho", "hichohicho", "likewise", "vilevile", "vile", "pia", "too",
         "also")  # fmt: skip


def _the_same(clause: Clause) -> bool:
    return any(item.word in _SAME for item in clause.items) and not clause.says("each")


def _is_feed_name(clause: Clause, item: Item) -> bool:
    at = clause.index(item)
    before = clause.items[at - 1] if at else None
    return before is not None and (before.sort == "number" or before.has("feed")) and not item.capital


def _fed(clause: Clause, scene: Scene, base: Found, feed: str | None, kg: Item | None) -> Found:
    amount = None if kg is None else slots.share(clause, kg.value, scene, count(base))
    return Found(Feeding, {**base.values, "feed": feed, "kg": amount}, base.subjects, [], base.options)


def _feeds(clause: Clause) -> list[str]:
    return [clause.text.written(i.start, i.end) for i in _named_feeds(clause)]


def _named_feeds(clause: Clause) -> list[Item]:
    """The feeds named; a mere "feed" at the head of one is none: "feed leo: hay kilo 40"."""
    named = [i for i in clause.items if i.sort == "cue" and i.has("feed")]
    return [i for i in named if i.word not in ("feed", "feeds", "chakula")] or named


def _all_feeds(clause: Clause) -> str:
    named = _named_feeds(clause)
    return clause.text.written(named[0].start, named[-1].end)


def _named_feed(clause: Clause) -> str | None:
    """A feed that the vocabulary has not: the word beside the kilograms."""
    for item in clause.items:
        if is_strange(item) and _is_feed_name(clause, item):
            return clause.text.written(item.start, item.end)
    return None


def _price_and_amount(clause: Clause, scene: Scene) -> tuple[Money | None, Money | None]:
    """A price "for one" or "a litre" is the price; a bare sum is the whole."""
    price: Money | None = None
    amount: Money | None = None
    per_litre = _litre_price(clause)
    if per_litre is not None:
        price = slots.money(per_litre, scene)
    for item in slots.sums(clause):
        if price is None and is_price(clause, item):
            price = slots.money(item, scene)
        elif amount is None:
            amount = slots.money(item, scene)
    return price, amount


LEAST_PRICE = 200
"""A number of "litres" from here on, told beside another, is the price of one."""


def _litre_price(clause: Clause) -> Item | None:
    """ "lita mbili na nusu, lita 1200": the second is what a litre costs."""
    litres = clause.numbers("l")
    return next((i for i in litres if len(litres) > 1 and i.value >= LEAST_PRICE), None)


_WHOLE_VALUE = ("worth", "value", "costing", "thamani", "for")


def is_price(clause: Clause, item: Item) -> bool:
    at = clause.index(item)
    before = clause.items[max(0, at - 3) : at]
    after = clause.items[at + 1 : at + 4]
    if before and before[-1].word == "@":
        return True
    if len(before) > 1 and before[-1].word == "kwa" and before[-2].has("unit.l"):
        return True  # "lita kwa 1200": the unit has no number of its own
    for near in after:
        if near.sort == "number" or near.sort == "mark":
            break
        if near.has("per_litre") or near.word in ("each", "kila", "apiece"):
            return True
    for near in reversed(before):
        if near.sort == "number" or near.has("whole_sum"):
            return False
        if near.has("per_litre") or (near.has("price_word") and near.word not in _WHOLE_VALUE):
            return True
    return False


def _litres(clause: Clause) -> Decimal | None:
    for item in clause.numbers("l"):
        if not _one_litre(clause, item) and item is not _litre_price(clause):
            return Decimal(item.value)
    for item in clause.numbers("kg"):
        return litres_of_kg(item.value)
    for item in clause.items:
        if item.sort == "number" and item.unit is None and not item.hint and item.value < slots.LEAST_SUM:
            return Decimal(item.value)
    return None


def _one_litre(clause: Clause, item: Item) -> bool:
    """The "lita 1" of "1200 kwa lita 1"."""
    return item.value == 1 and len(clause.numbers("l")) > 1


def milk_sale(clause: Clause, scene: Scene) -> list[Found]:
    """The sales of *clause*: one of each buyer."""
    return [_sold(part, scene) for part in _of_each_buyer(clause)]


def _of_each_buyer(clause: Clause) -> list[Clause]:
    """*clause* cut where another buyer and her own litres follow: "lita 3 kwa Asha na 2 kwa Juma"."""
    parts: list[list[Item]] = [[]]
    for item in clause.items:
        if item.sort == "mark" and parts[-1]:
            parts.append([])
        else:
            parts[-1].append(item)
    parts = [part for part in parts if part]
    if len(parts) > 1 and all(_took(part, parts[0]) for part in parts):
        verb = next(filter(_is_taking, parts[0]))
        return [replace(clause, items=_with_verb(part, verb)) for part in parts]
    if len(parts) < 2 or not all(_to_a_buyer(part) or _at_a_time(part) for part in parts):
        return [clause]
    sold = [item for item in parts[0] if item.has("sell", "credit")][:1]
    return [
        replace(clause, items=part if any(i is s for i in part for s in sold) else [*sold, *part])
        for part in parts
    ]


def _is_taking(item: Item) -> bool:
    return not item.denied and (item.has("take", "buy") or item.word in ("took", "taken"))


def _took(items: list[Item], first: list[Item]) -> bool:
    """Whether a name and her own litres are told, the verb here or in the *first* part: "Juma lita 3"."""
    numbers = [i for i in items if i.sort == "number"]
    verb = any(map(_is_taking, first)) and is_strange(first[0])
    litres = len(numbers) == 1 and numbers[0].unit in (None, "l") and numbers[0].value < slots.LEAST_SUM
    return verb and litres and is_strange(items[0])


def _with_verb(items: list[Item], verb: Item) -> list[Item]:
    return items if any(map(_is_taking, items)) else [items[0], verb, *items[1:]]


def _at_a_time(items: list[Item]) -> bool:
    """ "lita 4 jioni": litres sold at a time of their own, and no sum."""
    numbers = [i for i in items if i.sort == "number"]
    plain = all(i.sort in ("number", "when") or i.has("sell", "milk") for i in items)
    return len(numbers) == 1 and numbers[0].unit == "l" and plain and any(i.sort == "when" for i in items)


def _to_a_buyer(items: list[Item]) -> bool:
    """Whether one number of litres and a buyer after "to" or "kwa" are told."""
    litres = [i for i in items if i.sort == "number" and i.unit in (None, "l") and i.value < slots.LEAST_SUM]
    to = next((at for at, item in enumerate(items) if item.word in ("to", "kwa")), None)
    return len(litres) == 1 and to is not None and to + 1 < len(items) and items[to + 1].sort != "number"


def _paid(clause: Clause) -> bool:
    """ "Juma lita 2 amelipa": who bought has paid."""
    return any(
        i.has("pay") and not i.denied and i.prefix in ("ame", "ka", "wame", "ali") for i in clause.items
    )


def _sold(clause: Clause, scene: Scene) -> Found:
    credit = on_credit(clause)
    price, amount = _price_and_amount(clause, scene)
    litres = _litres(clause)
    who = buyer(clause)
    values: dict[str, Any] = {
        **day_values(clause, scene), "litres": litres, "price": price, "amount": amount,
        "buyer": who if who is not None or not (credit or _paid(clause)) else payer(clause), "credit": credit,
    }  # fmt: skip
    values.update(third(litres, price, amount))
    return Found(MilkSale, values)


def third(litres: Decimal | None, price: Money | None, amount: Money | None) -> dict[str, Any]:
    """Of litres, price of one and the whole: the one that the other two give."""
    if litres is not None and price is not None and amount is None:
        return {"amount": Money.of(litres * price.amount, price.currency)}
    if litres and amount is not None and price is None:
        return {"price": Money.of(amount.amount / litres, amount.currency)}
    if litres is None and price is not None and amount is not None and price.amount:
        return {"litres": (amount.amount / price.amount).quantize(_CENT).normalize()}
    return {}
