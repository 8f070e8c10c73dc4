"""Who bought: named as buyer, as the one who paid a debt, or who has still to pay."""

from __future__ import annotations

from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, day_values, is_strange
from dialogs.grammar.heads_pay import TITLES
from dialogs.grammar.items import Item
from dialogs.grammar.when import collect
from service.husbandry.kinds import Payment


def on_credit(clause: Clause) -> bool:
    """Whether the buyer has still to pay; the day on which she will is not the day of the sale."""
    own = clause.cues("credit")
    for cue in own:
        at = clause.index(cue)
        paid_on = [i for i in clause.items[at + 1 : at + 3] if i.sort == "when" or i.has("future")]
        if paid_on and _still_to_come(clause, cue):
            clause.items = [i for i in clause.items if not any(i is other for other in paid_on)]
            clause.when = collect(clause.items)
    return bool(own)


def _still_to_come(clause: Clause, cue: Item) -> bool:
    written = clause.text.written(cue.start, cue.end).lower().split()
    return any(word.startswith(("ata", "wata", "nita", "tuta")) or word in ("will", "to") for word in written)


def payment(clause: Clause, scene: Scene) -> list[Found]:
    """A debt paid by the one named before the deed, or after "na", "kwa", "from" or "ya"."""
    if any(item.sort == "mark" and item.word == "?" for item in scene.text.items):
        return []
    values: dict[str, Any] = {
        **day_values(clause, scene), "buyer": payer(clause), "amount": slots.first_sum(clause, scene),
    }  # fmt: skip
    return [Found(Payment, values)]


def payer(clause: Clause) -> str | None:
    """The one who paid, or has to: named before the deed, or after "na", "kwa", "from"."""
    items = clause.items
    paid = next((i for i, item in enumerate(items) if item.has(*_PAYING)), 0)
    mixed = not clause.text.raw.isupper() and not clause.text.raw.islower()
    before = [i for i, item in enumerate(items[:paid]) if _may_pay(item, mixed)]
    if before:
        first, last = before[0], before[0]
        while last + 1 in before:
            last += 1
        return clause.text.written(items[first].start, items[last].end)
    for index, item in enumerate(items):
        if item.word in ("na", "kwa", "from", "by", "kutoka", "ya", "la", "wa") or item.has("debt", "pay"):
            named = slots.name_after(clause, index)
            if named is not None and not named[1][0].has("debt", "pay", "money_word"):
                return named[0]
    return None


_PAYING = ("pay", "receive", "milk_pay", "fewer", "said_verb", "done", "debt", "credit")


def _may_pay(item: Item, mixed: bool) -> bool:
    """Whether an item names a payer; where a text uses capitals, a name bears one."""
    named = is_strange(item) or item.sort == "animal"
    return item.word in TITLES or item.has("buyer_word") or (named and (item.capital or not mixed))


def _takes_part(item: Item) -> bool:
    """Whether a verb is said of a buyer: she buys, takes, has still to pay, has paid."""
    if item.has("buy", "take", "credit") or item.word in ("took", "taken", "paid"):
        return True
    return item.has("pay") and item.prefix.startswith(("ame", "ka", "wame", "ali"))


def buyer(clause: Clause) -> str | None:
    """Who bought: after "to", "kwa" or a word for a buyer, or the one who did the buying."""
    items = clause.items
    for index, item in enumerate(items):
        if _takes_part(item) and (not item.prefix or item.prefix[:1] in "akw"):
            before = items[index - 1] if index else None
            if before is not None and (is_strange(before) or before.has("buyer_word", "technician")):
                titled = index >= 2 and items[index - 2].word in TITLES
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
        to_one = item.prefix[:2] in ("ni", "tu") and item.prefix.endswith(("m", "mu", "wa"))
        if item.has("sell", "give", "credit") and to_one:
            titled = index + 1 < len(items) and items[index + 1].word in TITLES
            named = slots.name_after(clause, index + titled)
            if titled and named is not None:
                return clause.text.written(items[index + 1].start, named[1][-1].end)
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
