"""Feed, milk and money that change hands."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, as_values, day_values, is_strange, likely, subjects
from dialogs.grammar.health import count
from dialogs.grammar.items import Item
from dialogs.grammar.when import Day, session_of
from service.husbandry.forms import EVERY_ANIMAL, Deduction
from service.husbandry.kinds import Delivery, Expense, Feeding, MilkPay, MilkSale, OtherIncome
from service.husbandry.units import Money, litres_of_kg

_CENT = Decimal("0.01")


def feeding(clause: Clause, scene: Scene) -> list[Found]:
    who = subjects(clause, scene, [i for i in clause.items if is_strange(i) and _is_feed_name(clause, i)])
    if not who and not likely(clause, scene):
        who = [Subject(EVERY_ANIMAL)]
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
    for item in slots.sums(clause):
        if price is None and _is_price(clause, item):
            price = slots.money(item, scene)
        elif amount is None:
            amount = slots.money(item, scene)
    return price, amount


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
        if not _one_litre(clause, item):
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
                return clause.text.written(before.start, before.end)
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
    return not first.has("each", "per_litre", "price_word", "every", "feed", "everyone", "heat", "morning", "all_of_it")


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
            while rest and (rest[0].word in (*_BECAUSE, "of", "ya", "to", "ni", "it", "they", "ya kuwa") or rest[0].sort == "mark"):
                rest.pop(0)
            end = next((i for i, r in enumerate(rest) if r.sort in ("mark", "when")), len(rest))
            if rest[:end]:
                return clause.text.written(rest[0].start, rest[end - 1].end)
    return None


def milk_pay(clause: Clause, scene: Scene) -> list[Found]:
    deductions, used = _deductions(clause, scene)
    whole = [item for item in slots.sums(clause) if id(item) not in used]
    values: dict[str, Any] = {**_paid_month(clause, scene), **_measure_marked(clause)}
    values["amount"] = slots.money(whole[0], scene) if whole else None
    values["deductions"] = tuple(deductions)
    return [Found(MilkPay, values)]


def _measure_marked(clause: Clause) -> dict[str, Any]:
    for unit, field in (("l", "litres"), ("kg", "kg")):
        numbers = clause.numbers(unit)
        if numbers:
            return {field: numbers[0].value}
    return {}


def _paid_month(clause: Clause, scene: Scene) -> dict[str, Any]:
    """The month paid for, where one is named, and the day of payment."""
    month, day = None, None
    for item in clause.items:
        if item.sort != "when" or not isinstance(item.value, Day):
            continue
        if item.value.about:
            month = item.value.on.replace(day=1)
        else:
            day = item.value
    if clause.when.period is not None and clause.when.period.name == "month":
        month = scene.now.date().replace(day=1)
    return {"month": month, **as_values(day or Day(scene.now.date()))}


def _deductions(clause: Clause, scene: Scene) -> tuple[list[Deduction], set[int]]:
    items = clause.items
    start = next((i for i, item in enumerate(items) if item.has("deduct")), None)
    if start is None:
        return [], set()
    found, used = [], set()
    held: list[Item] = []
    for index in range(start + 1, len(items)):
        item = items[index]
        if slots.is_sum(item) or slots.is_bare_sum(item):
            after = [] if held else _what_after(items, index)
            what = clause.text.written((held or after)[0].start, (held or after)[-1].end) if held or after else ""
            found.append(Deduction(what or _plain_word(clause), slots.money(item, scene)))
            used.add(id(item))
            held = []
        elif _names_deduction(item) and (not held or held[-1].end == item.start):
            held.append(item)
    if not found:  # the sum stands before: "5000 deducted for feed"
        before = next((i for i in reversed(items[:start]) if slots.is_sum(i) or slots.is_bare_sum(i)), None)
        whole = [i for i in items if slots.is_sum(i) or slots.is_bare_sum(i)]
        if before is not None and len(whole) > 1:
            what = clause.text.written(held[0].start, held[-1].end) if held else _plain_word(clause)
            return [Deduction(what, slots.money(before, scene))], {id(before)}
    return found, used


def _plain_word(clause: Clause) -> str:
    item = next(item for item in clause.items if item.has("deduct"))
    return clause.text.written(item.start, item.end)


def _what_after(items: list[Item], index: int) -> list[Item]:
    taken: list[Item] = []
    for item in items[index + 1 :]:
        if _names_deduction(item):
            taken.append(item)
        elif item.word in ("for", "ya", "za", "kwa", "ajili", "of") and not taken:
            continue
        else:
            break
    return taken


def _names_deduction(item: Item) -> bool:
    if item.sort not in ("word", "cue"):
        return False
    return item.word not in ("for", "ya", "za", "kwa", "ajili", "of", "na", "and", "the", "ni", "they") and not item.has("deduct", "money_word")


def expense(clause: Clause, scene: Scene) -> list[Found]:
    what = _what(clause, ("buy", "spend", "pay"))
    return [Found(Expense, {**day_values(clause, scene), "what": what, **_sum(clause, scene)})]


def other_income(clause: Clause, scene: Scene) -> list[Found]:
    what = _what(clause, ("sell", "receive"))
    return [Found(OtherIncome, {**day_values(clause, scene), "what": what, **_sum(clause, scene)})]


def _sum(clause: Clause, scene: Scene) -> dict[str, Any]:
    amount = first_or_last(clause, scene)
    return {} if amount is None else {"amount": amount}


def first_or_last(clause: Clause, scene: Scene) -> Money | None:
    """The whole: units times a price where "each" or "@" says so, else the sum told."""
    sums = slots.sums(clause)
    counts = [
        i for i in clause.items
        if i.sort == "number" and i not in sums and i.unit in (None, "kg", "l") and i.value < slots.LEAST_SUM
    ]  # fmt: skip
    if len(sums) == 1 and len(counts) == 1 and (_is_each(clause, sums[0])):
        return Money.of(sums[0].value * counts[0].value, scene.place.currency)
    return slots.first_sum(clause, scene)


def _is_each(clause: Clause, item: Item) -> bool:
    at = clause.index(item)
    before = clause.items[at - 1] if at else None
    after = clause.items[at + 1] if at + 1 < len(clause.items) else None
    return (before is not None and before.word == "@") or (
        after is not None and (after.has("each", "per_litre") or after.word in ("per", "kila"))
    )


_NOT_WHAT = ("buy", "spend", "pay", "sell", "receive", "money_word", "everyone", "greeting", "price_word", "whole_sum", "got")
_EDGES = (
    "ya", "za", "wa", "la", "cha", "kwa", "ajili", "for", "the", "a", "an", "of", "on", "at", "na", "and", "some", "i", "we", "ni",
    "in", "from", "to", "have", "my", "our", "yangu", "leo", "was", "is", "were", "has", "been", "by", "it", "katika", "kwenye", "that",
)  # fmt: skip


def _what(clause: Clause, verbs: tuple[str, ...]) -> str | None:
    """What the money was for, as written: the words that are neither verb, sum nor time."""
    best: list[Item] = []
    run: list[Item] = []
    for item in [*clause.items, Item("mark", 0, 0, ".")]:
        speaks = item.sort in ("word", "cue", "tag", "animal") and not (item.sort == "cue" and item.has(*_NOT_WHAT))
        if speaks and item.word not in ("i", "we"):
            run.append(item)
            continue
        trimmed = _trim(run)
        if trimmed and (not best or _weight(trimmed) > _weight(best)):
            best = trimmed
        run = []
    return clause.text.written(best[0].start, best[-1].end) if best else None


def _trim(run: list[Item]) -> list[Item]:
    run = list(run)
    while run and run[0].word in _EDGES:
        run.pop(0)
    while run and run[-1].word in _EDGES:
        run.pop()
    return run


def _weight(run: list[Item]) -> int:
    return 2 * any(item.sort == "cue" for item in run) + 1
