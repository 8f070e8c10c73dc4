"""Money told: what the centre paid for milk, what was spent, what else was earned."""

from __future__ import annotations

import itertools
import re
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, as_values, day_values
from dialogs.grammar.health import treatment
from dialogs.grammar.items import Item
from dialogs.grammar.trade import is_price
from dialogs.grammar.when import Day
from service.husbandry.forms import Deduction
from service.husbandry.kinds import Expense, MilkPay, OtherIncome
from service.husbandry.units import Money


def milk_pay(clause: Clause, scene: Scene) -> list[Found]:
    deductions, used = _deductions(clause, scene)
    litres = _litres_after_kwa(clause)
    whole = [
        item
        for item in slots.sums(clause)
        if id(item) not in used and item is not litres and not _of_a_litre(clause, item)
    ]
    measure = _measure_marked(clause) or ({} if litres is None else {"litres": litres.value})
    values: dict[str, Any] = {**_paid_month(clause, scene), **measure}
    values["amount"] = slots.money(whole[0], scene) if whole else None
    values["deductions"] = tuple(deductions)
    return [Found(MilkPay, values)]


LEAST_PAID, MOST_PAID = 500, 4000
"""Shillings between which a centre pays a litre, widely; common practice, no source."""


def _of_a_litre(clause: Clause, item: Item) -> bool:
    """ "kituo kimelipa 900 kwa lita": what it paid for one, which is not the month's pay."""
    return item.value <= MOST_PAID and is_price(clause, item)


def _litres_after_kwa(clause: Clause) -> Item | None:
    """The 300 of "285500 kwa lita 300", which as a price of one would be none, and as litres makes one."""
    items = clause.items
    sums = [item.value for item in items if slots.is_bare_sum(item) or slots.is_sum(item)]
    for before, item in itertools.pairwise(items):
        if before.has("per_litre") and item.sort == "number" and item.unit is None and item.value and sums:
            paid = max(sums) / item.value
            if LEAST_PAID <= paid <= MOST_PAID and not item.hint:
                return item
    return None


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


_PAID = re.compile(r"lipwa|lipa$|^paid$|pokea$")


def _says_paid(clause: Clause, item: Item) -> bool:
    return any(_PAID.search(token.word) for token in clause.text.tokens[item.start : item.end])


def _deductions(clause: Clause, scene: Scene) -> tuple[list[Deduction], set[int]]:
    items = clause.items
    start = next((i for i, item in enumerate(items) if item.has("deduct")), None)
    if start is None:
        return [], set()
    found: list[Deduction] = []
    used: set[int] = set()
    held: list[Item] = []
    taken: set[int] = set()
    for index in range(start + 1, len(items)):
        item = items[index]
        if id(item) in taken:
            continue
        if found and item.has("pay", "receive", "milk_pay") and _says_paid(clause, item):
            break  # "makato 20000 chakula, nimelipwa 180000"
        if slots.is_sum(item) or slots.is_bare_sum(item):
            after = [] if held else _what_after(items, index)
            taken.update(id(other) for other in after)
            what = (
                clause.text.written((held or after)[0].start, (held or after)[-1].end)
                if held or after
                else ""
            )
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
    return item.word not in (
        "for",
        "ya",
        "za",
        "kwa",
        "ajili",
        "of",
        "na",
        "and",
        "the",
        "ni",
        "they",
    ) and not item.has("deduct", "money_word")


def expense(clause: Clause, scene: Scene) -> list[Found]:
    what = _what(clause, ("buy", "spend", "pay"))
    weighed = {**_weight(clause), **_sum(clause, scene)}
    spent = Found(Expense, {**day_values(clause, scene), "what": what, **weighed})
    return [spent, *treatment(clause, scene)] if _was_treated(clause) else [spent]


def _was_treated(clause: Clause) -> bool:
    """Whether a cow's treatment is told beside its cost: "daktari kamtibu Neema nimelipa 20000"."""
    told = any(
        item.has("treat") and (item.prefix.startswith(("ame", "ka", "ali", "wame")) or item.word == "treated")
        for item in clause.items
        if item.sort == "cue" and not item.denied
    )
    return told and any(item.sort == "animal" for item in clause.items)


def _weight(clause: Clause) -> dict[str, Any]:
    """The kilograms bought, where they are the only count told: "2 bags of 50 kg" may be either."""
    sums = slots.sums(clause)
    counts = [i for i in clause.items if i.sort == "number" and i not in sums]
    return {"kg": counts[0].value} if len(counts) == 1 and counts[0].unit == "kg" else {}


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


_NOT_WHAT = (
    "buy",
    "spend",
    "pay",
    "sell",
    "receive",
    "money_word",
    "everyone",
    "greeting",
    "price_word",
    "whole_sum",
    "got",
)
_EDGES = (
    "ya",
    "za",
    "wa",
    "la",
    "cha",
    "kwa",
    "ajili",
    "for",
    "the",
    "a",
    "an",
    "of",
    "on",
    "at",
    "na",
    "and",
    "some",
    "i",
    "we",
    "ni",
    "in",
    "from",
    "to",
    "have",
    "my",
    "our",
    "yangu",
    "leo",
    "was",
    "is",
    "were",
    "has",
    "been",
    "by",
    "it",
    "katika",
    "kwenye",
    "that",
)


def _what(clause: Clause, verbs: tuple[str, ...]) -> str | None:
    """What the money was for, as written: the words that are neither verb, sum nor time."""
    best: list[Item] = []
    run: list[Item] = []
    for item in [*clause.items, Item("mark", 0, 0, ".")]:
        speaks = item.sort in ("word", "cue", "tag", "animal") and not (
            item.sort == "cue" and item.has(*_NOT_WHAT)
        )
        if speaks and item.word not in ("i", "we"):
            run.append(item)
            continue
        trimmed = _trim(run)
        if trimmed and (not best or _telling(trimmed) > _telling(best)):
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


def _telling(run: list[Item]) -> int:
    return 2 * any(item.sort == "cue" for item in run) + 1
