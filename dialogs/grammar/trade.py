"""Feed given, milk sold, milk handed in."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, as_values, day_values, is_strange, likely, subjects
from dialogs.grammar.health import count, of_group
from dialogs.grammar.items import Item
from dialogs.grammar.when import session_of
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.kinds import Delivery, Feeding, MilkSale
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
    feed = f"{feeds[0]}" if len(feeds) == 1 else _all_feeds(clause) if feeds else _named_feed(clause)
    return [_fed(clause, scene, base, feed, kilos[0] if kilos else None)]


def _is_feed_name(clause: Clause, item: Item) -> bool:
    at = clause.index(item)
    before = clause.items[at - 1] if at else None
    return before is not None and (before.sort == "number" or before.has("feed")) and not item.capital


def _fed(clause: Clause, scene: Scene, base: Found, feed: str | None, kg: Item | None) -> Found:
    amount = None if kg is None else slots.share(clause, kg.value, scene, count(base))
    return Found(Feeding, {**base.values, "feed": feed, "kg": amount}, base.subjects, [], base.options)


def _feeds(clause: Clause) -> list[str]:
    return [clause.text.written(i.start, i.end) for i in clause.items if i.sort == "cue" and i.has("feed")]


def _all_feeds(clause: Clause) -> str:
    named = [i for i in clause.items if i.sort == "cue" and i.has("feed")]
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
        if price is None and _is_price(clause, item):
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


def _is_price(clause: Clause, item: Item) -> bool:
    at = clause.index(item)
    before = clause.items[max(0, at - 3) : at]
    after = clause.items[at + 1 : at + 4]
    if before and before[-1].word == "@":
        return True
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
    price, amount = _price_and_amount(clause, scene)
    litres = _litres(clause)
    values: dict[str, Any] = {
        **day_values(clause, scene), "litres": litres, "price": price, "amount": amount,
        "buyer": buyer(clause),
    }  # fmt: skip
    values.update(third(litres, price, amount))
    return [Found(MilkSale, values)]


def third(litres: Decimal | None, price: Money | None, amount: Money | None) -> dict[str, Any]:
    """Of litres, price of one and the whole: the one that the other two give."""
    if litres is not None and price is not None and amount is None:
        return {"amount": Money.of(litres * price.amount, price.currency)}
    if litres and amount is not None and price is None:
        return {"price": Money.of(amount.amount / litres, amount.currency)}
    if litres is None and price is not None and amount is not None and price.amount:
        return {"litres": (amount.amount / price.amount).quantize(_CENT).normalize()}
    return {}


def buyer(clause: Clause) -> str | None:
    """Who bought: after "to", "kwa" or a word for a buyer, or the one who did the buying."""
    items = clause.items
    for index, item in enumerate(items):
        if item.has("buy") and (not item.prefix or item.prefix[:1] in "akw"):
            before = items[index - 1] if index else None
            if before is not None and (is_strange(before) or before.has("buyer_word", "technician")):
                titled = index >= 2 and items[index - 2].word in (
                    "mama",
                    "baba",
                    "bwana",
                    "mr",
                    "mrs",
                    "mzee",
                )
                return clause.text.written(items[index - 2].start if titled else before.start, before.end)
            named = slots.name_after(clause, index)
            if before is None and named is not None and named[1][0].sort == "word":
                return named[0]
    for index, item in enumerate(items):
        if item.word in ("to", "kwa", "buyer", "mnunuzi", "mteja") or item.has("buyer_word"):
            told = slots.phrase_after(clause, index)
            if told is None or not _may_buy(told[1]):
                continue
            return told[0]
    for index, item in enumerate(items):
        if item.has("sell") and item.prefix[:2] in ("ni", "tu") and item.prefix.endswith(("m", "mu", "wa")):
            named = slots.name_after(clause, index)
            if named is not None and named[1][0].sort == "word":
                return named[0]
    return None


def _may_buy(items: list[Item]) -> bool:
    first = items[0]
    if first.sort == "animal" and first.other is None and first.value is not None and len(items) == 1:
        return False
    return not first.has(
        "each", "per_litre", "price_word", "every", "feed", "everyone", "heat", "morning", "all_of_it"
    )


def delivery(clause: Clause, scene: Scene) -> list[Found]:
    rejected = any(item.has("reject") for item in clause.items if item.sort == "cue")
    values: dict[str, Any] = day_values(clause, scene)
    session = None
    if clause.when.part is not None or clause.when.clock is not None:
        day, session = session_of(clause.when, scene.now)
        values = as_values(day)
    values.update(_measure(clause), session=session, rejected=rejected)
    values["reason"] = _why_rejected(clause) if rejected else None
    return [Found(Delivery, values)]


def _measure(clause: Clause) -> dict[str, Any]:
    """Litres or kilograms, as told."""
    for unit, field in (("l", "litres"), ("kg", "kg")):
        numbers = clause.numbers(unit)
        if numbers:
            return {field: numbers[0].value}
    for item in clause.items:
        if item.sort == "number" and item.unit is None and not item.hint and item.value < 1000:
            return {"litres": item.value}
    return {}


_BECAUSE = ("kwa", "sababu", "because", "for", "kwani", "due", "since", "reason", "was", "were")


def _why_rejected(clause: Clause) -> str | None:
    at = next(i for i, item in enumerate(clause.items) if item.has("reject"))
    for index in range(at + 1, len(clause.items)):
        item = clause.items[index]
        if item.word in _BECAUSE or (item.sort == "mark" and index > at):
            rest = [i for i in clause.items[index + 1 :] if i.sort != "number"]
            while rest and (
                rest[0].word in (*_BECAUSE, "of", "ya", "to", "ni", "it", "they", "ya kuwa")
                or rest[0].sort == "mark"
            ):
                rest.pop(0)
            end = next((i for i, r in enumerate(rest) if r.sort in ("mark", "when")), len(rest))
            if rest[:end]:
                return clause.text.written(rest[0].start, rest[end - 1].end)
    rest = clause.items[at + 1 :]
    if len(rest) == 1 and rest[0].sort in ("word", "cue"):  # "3 rejected watery"
        return clause.text.written(rest[0].start, rest[0].end)
    return None
