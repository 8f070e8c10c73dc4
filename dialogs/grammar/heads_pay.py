"""Money that words of its own tell: a debt paid, milk taken on credit, the pay of a month named."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

from dialogs.grammar.items import Item
from dialogs.grammar.said import PEOPLE

_DID = re.compile(r"(?:a|wa)(?:me|li)|ka")
"""Subject and tense of what somebody else did."""

_OTHER_TRADE = (
    "sell", "buy", "take", "centre", "deduct", "feed", "product", "drug", "vet", "technician",
    "ai", "serve", "spray", "deworm", "vaccinate", "treat", "manure",
)  # fmt: skip
_FOR_SOMETHING = ("cost_noun", "goods", "cattle", "calf", "unit.l", "shed", "bull", "price_word")


def paid_what_was_owed(items: Sequence[Item], told: set[str]) -> bool:
    """Somebody else paid, and her debt or nothing else is told that it could be for."""
    payer = _only_a_payer(items)
    other = told - {"milk_pay", "technician", "vet"} if payer else told
    if not any(item.sort == "number" for item in items) or not other.isdisjoint(_OTHER_TRADE):
        return False
    owed = "debt" in told
    if not owed and any(item.unit in ("l", "kg") for item in items):
        return False
    if owed and any(_brings_down(item) for item in items):
        return True
    if not any(_paid_by_others(items, index, owed=owed) for index in range(len(items))):
        return False
    return owed or payer


def _brings_down(item: Item) -> bool:
    """ "amepunguza deni", "ameleta deni lake", "cleared her debt"."""
    told = item.has("fewer", "said_verb", "done") and _DID.match(item.prefix) is not None
    return told or item.word in ("cleared", "settled", "finished", "brought", "reduced")


def _paid_by_others(items: Sequence[Item], at: int, *, owed: bool) -> bool:
    """Whether the paying is said of somebody else: amelipa, wamelipa, nimelipwa, "Asha paid"."""
    item = items[at]
    if item.denied or item.sort != "cue" or not item.has("pay", "receive", "milk_pay"):
        return False
    if "lipwa" in item.word or item.word in ("received", "nimepokea", "tumepokea"):
        return owed and item.prefix[:2] in ("ni", "tu", "")
    if item.prefix:
        return item.prefix.startswith(("ame", "ka", "wame", "ali", "wali")) and item.has("pay", "milk_pay")
    before = items[at - 1] if at else None
    named = before is not None and before.sort in ("word", "cue", "animal") and before.word not in _OURSELVES
    return named and item.word in ("paid", "payed", "pays")


_OURSELVES = ("i", "we", "have", "was", "ive", "been")


def _only_a_payer(items: Sequence[Item]) -> bool:
    """Whether the payer is named by one or two words that open the text, and only money and time follow."""
    first = next((i for i, item in enumerate(items) if item.has("pay", "milk_pay")), 0)
    named = [i for i in items[:first] if i.sort not in ("when", "mark")]
    rest = [i for i in items[first + 1 :] if i.sort not in ("number", "when", "mark")]
    plain = all(i.word in TITLES or (i.sort == "word" and not i.known) for i in named)
    return 0 < len(named) <= 2 and plain and all(i.has("money_word", "milk") or i.word in _FOR for i in rest)


_FOR = ("for", "the", "za", "ya", "kwa", "back", "me", "of", "all")
TITLES = (
    "mama", "baba", "mzee", "bwana", "mr", "mrs", "bibi", "dada", "kaka", "jirani", "neighbour", "shangazi",
    "mjomba", "babu",
    "mwalimu", "teacher", "mchungaji", "pastor", "sister", "brother",
)  # fmt: skip


def paid_to_somebody(items: Sequence[Item], told: set[str]) -> bool:
    """ "mfanyakazi amelipwa 20000": another was paid, by the farm."""
    passive = any("lipwa" in i.word and i.prefix.startswith(("ame", "wame", "ali", "wali")) for i in items)
    return passive and any(i.sort == "number" for i in items) and told.isdisjoint(("centre", "milk", "debt"))


def sold_to_a_buyer_named(items: Sequence[Item], told: set[str]) -> bool:
    """ "Juma owes me for 5 litres", "lita 3 kwa Juma, deni", "Juma paid 6000 for 5 litres"."""
    litres = any(item.sort == "number" and item.unit == "l" for item in items)
    other = not told.isdisjoint(("buy", "centre", "feed", "product", "drug", "sell", "take", "wish"))
    if not litres or other or any(item.sort == "animal" for item in items):
        return False
    return "credit" in told or any(_paid_by_others(items, at, owed=False) for at in range(len(items)))


def taken_on_credit(items: Sequence[Item], told: set[str]) -> bool:
    """ "MAMA ASHA 1 MKOPO", "Juma 2 deni 2400": a person, bare litres, and that they are owed."""
    if "credit" not in told or not items:
        return False
    numbers = [i for i in items if i.sort == "number"]
    litres = [i for i in numbers if i.unit in (None, "l") and not i.hint and i.value < _MOST_LITRES]
    sums = [i for i in numbers if i.unit in (None, "money") and i.value >= _LEAST_OWED]
    if len(litres) != 1 or len(numbers) - len(sums) != 1 or len(sums) > 1:
        return False
    first = next(at for at, item in enumerate(items) if item.sort == "number")
    who = [i for i in items[:first] if i.sort not in ("when", "mark")]
    rest = [i for i in items[first:] if i.sort not in ("number", "when", "mark")]
    return _is_a_buyer(who) and all(i.has("credit", "money_word", "milk") or i.word in _FOR for i in rest)


def _is_a_buyer(named: Sequence[Item]) -> bool:
    """A title, a noun for a person or place, a name that is no animal's; after a title any name."""
    if not named or len(named) > _LONGEST_NAME:
        return False
    titled = (
        named[0].word in TITLES or named[0].word in PEOPLE or named[0].has("buyer_word", "vet", "technician")
    )
    if titled and len(named) > 1:
        return all(i.sort in ("word", "animal") for i in named[1:])
    return titled or all(i.sort == "word" and not i.known and len(i.word) > 2 for i in named)


_MOST_LITRES, _LEAST_OWED, _LONGEST_NAME = 100, 100, 3


def handed_in(items: Sequence[Item], told: set[str]) -> bool:
    """ "asubuhi 5 jioni 4 kituoni": bare litres beside the centre, and nothing but times."""
    counted = [i for i in items if i.sort == "number"]
    plain = all(i.unit in (None, "l", "kg") and not i.hint and i.value < _MOST_LITRES for i in counted)
    english = any(i.word == "delivered" for i in items)
    several = english and any(i.value > _MOST_CALVES for i in counted)  # "delivered 12" is no calving
    handed = "centre" in told or ("deliver" in told and (several or any(i.sort == "when" for i in items)))
    if not handed or not counted or not plain:
        return False
    return all(
        i.sort in ("number", "when", "mark") or i.has("centre", "milk", "deliver") or i.word in _AT
        for i in items
    )


_MOST_CALVES = 3
_AT = ("at", "to", "the", "na", "and", "kwa", "ya", "in", "pale", "yangu", "my", "lita")


def kept_back(items: Sequence[Item], told: set[str]) -> bool:
    """ "makato chakula 12000 dawa 5000": what the centre kept back of its pay."""
    named = any(i.word in ("makato", "deductions", "deduction") for i in items)
    sums = any(i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_OWED for i in items)
    named = named or {"centre", "deduct"} <= told
    return named and sums and not any(i.sort == "animal" for i in items) and told.isdisjoint(("buy", "sell"))


def priced_feed(items: Sequence[Item], told: set[str]) -> bool:
    """ "pumba 12000, chumvi 3000": feed and its price, and nothing else, is what was spent."""
    sums = [
        i for i in items if i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_PAY / 2
    ]
    if "feed" not in told or len(sums) != 1:
        return False
    return all(
        i.sort in ("number", "when") or i.has("feed", "money_word", "price_word", "unit.kg") or i.word in _FOR
        for i in items
    )


def earned(items: Sequence[Item], told: set[str]) -> bool:
    """ "nimepata 20000 ya samadi", "got 20000 for manure"."""
    sums = [
        i for i in items if i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_PAY / 2
    ]
    got = any(i.has("got", "receive") and not i.denied for i in items if i.sort == "cue")
    return got and len(sums) == 1 and "manure" in told and told.isdisjoint(("buy", "pay", "spend", "wish"))


def sold_to_named(items: Sequence[Item], told: set[str]) -> bool:
    """ "sold 3 to Asha": a bare number of litres and a buyer; an animal sold is named."""
    numbers = [i for i in items if i.sort == "number"]
    plain = (
        len(numbers) == 1
        and numbers[0].unit is None
        and not numbers[0].hint
        and numbers[0].value < _MOST_LITRES
    )
    if not plain or "sell" not in told or any(i.sort in ("animal", "tag") for i in items):
        return False
    to = next((at for at, i in enumerate(items) if i.word in ("to", "kwa")), None)
    named = to is not None and to + 1 < len(items) and _is_a_buyer(items[to + 1 : to + 2])
    return named and all(i.has("sell", "when.less") for i in items if i.sort == "cue")


def no_record(items: Sequence[Item], told: set[str]) -> bool:
    """Milk given away or used at home: "nimempa jirani lita 1 bure", "nimetumia lita 2 nyumbani"."""
    litres = any(i.sort == "number" and i.unit == "l" for i in items)
    money = any(i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_OWED for i in items)
    free = any(i.word in ("bure", "free") for i in items) and not told.isdisjoint(("give", "got", "take"))
    used = "spend" in told and any(i.word in _AT_HOME for i in items)
    return litres and not money and (free or used) and not any(i.sort == "animal" for i in items)


_AT_HOME = ("nyumbani", "home", "nyumba", "house", "familia", "family", "kwangu")


def priced_drug(items: Sequence[Item], told: set[str]) -> bool:
    """ "dawa ya Neema 15000", "medicine 15000 for Neema": what a drug cost, and no verb that it was given."""
    sums = [
        i for i in items if i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_PAY / 2
    ]
    drugs = [i for i in items if i.sort == "cue" and i.has("drug", "treat") and not i.denied]
    nouns = bool(drugs) and all(i.word in _DRUG_NOUNS and i.end - i.start == 1 for i in drugs)
    other = any(i.prefix or i.sort in ("mark",) for i in items)
    cues = all(i.has("drug", "treat", "money_word", "vet") for i in items if i.sort == "cue")
    return nouns and len(sums) == 1 and cues and not other


_DRUG_NOUNS = (
    "dawa",
    "madawa",
    "matibabu",
    "tiba",
    "medicine",
    "treatment",
    "drugs",
    "drug",
    "sindano",
    "injection",
)


def paid_for_a_drug(items: Sequence[Item], told: set[str]) -> bool:
    """ "nimelipa sindano ya kimeta 5000": what was paid for a jab is told, and no animal that had it."""
    sums = [
        i for i in items if i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_PAY / 2
    ]
    paid = any(i.has("pay", "spend") and not i.denied and i.prefix[:2] in ("ni", "tu", "") for i in items)
    cattle = any(i.sort == "animal" or i.has("everyone", "cattle", "cow", "calf", "heifer") for i in items)
    other = ("deduct", "centre", "milk_pay", "hold", "credit", "debt", "serve", "ai", "unit.l")
    needle = not told.isdisjoint(("treat", "drug", "vaccinate", "deworm", "product"))
    return bool(sums) and paid and needle and not cattle and told.isdisjoint(other)


def month_paid(items: Sequence[Item], told: set[str]) -> bool:
    """ "180000 ya mwezi wa kwanza", "malipo ya Februari 352 lita 316800": the pay of a month named."""
    paid = list(itertools.takewhile(lambda i: not i.has("deduct") or i.prefix.startswith("ni"), items))
    sums = [i for i in paid if i.sort == "number" and i.unit in (None, "money") and i.value >= _LEAST_PAY]
    months = [i for i in paid if (i.sort == "when" and _is_month(i)) or i.has("span.month")]
    if not sums or not months or any(_paid_by_us(i) for i in paid):
        return False
    rest = [i for i in paid if i.sort not in ("number", "when", "mark") and i.word not in _OF_MONTH]
    if not rest:
        return len(sums) == 1 and sums[0].value > _NO_YEAR
    meant = {concept for i in paid if i.sort == "cue" and not i.denied for concept in i.concepts}
    received = not meant.isdisjoint(("pay", "receive", "got"))
    handed_in = any(i.has("deliver") and not i.has("receive") for i in paid)
    return received and not handed_in and meant.issubset(_OF_PAY) and all(i.sort == "cue" for i in rest)


def _is_month(item: Item) -> bool:
    return bool(getattr(item.value, "about", False)) or getattr(item.value, "name", "") == "month"


def _paid_by_us(item: Item) -> bool:
    """ "nimelipa": paid by the farm and not to it."""
    return item.prefix[:2] in ("ni", "tu") and item.has("pay") and "lipwa" not in item.word


_OF_MONTH = ("ya", "za", "for", "of", "kwa", "the", "sh", "tsh", "shilingi", "ni", "is", "my", "yangu")
_OF_PAY = frozenset({
    "pay", "receive", "got", "milk", "milk_pay", "money_word", "unit.l", "unit.kg", "centre", "spend", "give",
    "whole_sum", "all_of_it", "statement", "yield", "greeting", "task.statement", "task.milk_record",
    "span.month", "said_verb", "deliver",
})  # fmt: skip
"""Meanings that may stand beside a month's pay."""

_LEAST_PAY = 1000
"""Shillings that a month's milk brings at least."""

_NO_YEAR = 2100
"""A bare number beside a month is its year up to here."""
