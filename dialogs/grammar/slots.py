"""What several kinds take from a clause: sums, people, products, days of holding back, each's share."""

from __future__ import annotations

import re
from decimal import ROUND_CEILING, Decimal

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Scene, is_strange
from dialogs.grammar.items import Item
from service.husbandry.units import Money

LEAST_SUM = 100
"""A bare number below this is no sum of money (in shillings)."""

_SKIP = (
    "ya",
    "wa",
    "ni",
    "is",
    "the",
    "mr",
    "mrs",
    "la",
    "za",
    "a",
    "an",
    "no",
    "namba",
    "number",
    "name",
    "jina",
    "code",
    "cha",
    "our",
    "my",
    "yetu",
    "wetu",
    "yangu",
    "wangu",
    "lake",
    "yake",
    "moja",
    "bwana",
    "of",
    "sir",
    "mzee",
    ":",
    "-",
)


def is_sum(item: Item) -> bool:
    """Whether a number is money by what stands with it."""
    return item.sort == "number" and (
        item.unit == "money" or (item.unit is None and item.hint in ("k", "money"))
    )


def is_bare_sum(item: Item) -> bool:
    return item.sort == "number" and item.unit is None and item.value >= LEAST_SUM


def sums(clause: Clause) -> list[Item]:
    """Numbers that are money: marked so, or large and without a unit."""
    return [item for item in clause.items if is_sum(item) or is_bare_sum(item)]


def money(item: Item, scene: Scene) -> Money:
    return Money.of(item.value, scene.place.currency)


def first_sum(clause: Clause, scene: Scene) -> Money | None:
    """The sum told: one marked as money before a bare number."""
    found = sums(clause)
    if not found:
        return None
    return money(next((item for item in found if is_sum(item)), found[0]), scene)


def name_after(clause: Clause, at: int) -> tuple[str, list[Item]] | None:
    """The name that begins after item *at*, up to two words, as written, and its items."""
    items = clause.items
    index = at + 1
    while index < len(items) and (
        items[index].word in _SKIP or items[index].has("named", "phone", "bull", "vet", "technician")
    ):
        index += 1
    is_code = _is_code(clause, index)
    if index >= len(items) or not (is_code or _may_name(items[index])):
        return None
    end = index + 1
    if (
        items[index].sort == "word"
        and end < len(items)
        and items[end].sort == "word"
        and is_strange(items[end])
        and (items[end].capital or clause.text.raw.islower())
        and items[end].end == items[end].start + 1
    ):
        end += 1
    if is_code:
        end = index + 3
        items[index + 2].unit = "code"  # no sum
    taken = items[index:end]
    return clause.text.written(taken[0].start, taken[-1].end).strip("'"), list(taken)


def _is_code(clause: Clause, at: int) -> bool:
    """Whether the letters at *at* are tied to a number by a hyphen without a space: "IG-101"."""
    parts = clause.items[at : at + 3]
    if len(parts) < 3 or parts[1].word != "-" or parts[2].sort not in ("number", "tag"):
        return False
    written = clause.text.written(parts[0].start, parts[2].end)
    return len(parts[0].word) <= _CODE_LETTERS and " " not in written


_CODE_LETTERS = 4
"""Letters before the hyphen of a straw's code at most; "Neema-6" is her milk."""


def _may_name(item: Item) -> bool:
    return is_strange(item) or item.sort == "animal" or (
        item.capital and item.sort in ("word", "cue") and item.word not in ("Ng",) and not item.has("ai")
    )  # fmt: skip


def phrase_after(clause: Clause, at: int) -> tuple[str, list[Item]] | None:
    """Words after item *at* up to a number, a time or a mark, as written ("the hotel in town")."""
    items = clause.items
    start = at + 1
    while start < len(items) and items[start].word in (
        "the",
        "a",
        "an",
        "ya",
        "wa",
        "ni",
        "za",
        "la",
        "my",
        "our",
    ):
        start += 1
    end = start
    while end < len(items) and _goes_on(items[end]):
        end += 1
    while end > start and items[end - 1].word in (
        "kwa",
        "at",
        "for",
        "na",
        "and",
        "ya",
        "wa",
        "of",
        "sh",
        "in",
        "on",
    ):
        end -= 1
    if end == start:
        return None
    return clause.text.written(items[start].start, items[end - 1].end).strip("' "), list(items[start:end])


_DID = re.compile(r"(?:a|wa)(?:me|na|li)|ka")
"""Subject and tense of what somebody else did: "Asha kachukua"."""


def _goes_on(item: Item) -> bool:
    if item.sort == "cue" and _DID.fullmatch(item.prefix) and item.has("take", "buy", "receive"):
        return False
    if item.sort in ("mark", "number", "when", "date", "clock", "phone"):
        return False
    if item.word in ("kwa", "at", "for", "by", "from", "to", "lita", "litre", "litres"):
        return False
    return not item.has(
        "price_word",
        "money_word",
        "per_litre",
        "whole_sum",
        "sell",
        "buy",
        "pay",
        "unit.l",
        "unit.kg",
        "deduct",
        "hold",
        "milk",
        "everyone",
        "each",
        "treat",
        "give",
        "when.on",
        "when.since",
        "centre_paid",
        "spend",
        "except",
        "credit",
        "debt",
    )


def share(clause: Clause, amount: Decimal, scene: Scene, count: int | None) -> Decimal:
    """*amount* for all the animals together: "each" multiplies it by their number."""
    if not (clause.says("each") or _of_every_one(clause)):
        return amount
    number = len(scene.names.herd) if count is None else count
    return amount * max(1, number)


def _of_every_one(clause: Clause) -> bool:
    """ "kila ng'ombe anayekamuliwa": the group's own words say that each had so much."""
    groups = clause.cues("everyone", "milking_all", "calves_all", "heifers_all")
    return any(clause.text.tokens[item.start].word in ("kila", "every", "each") for item in groups)


def days(item: Item) -> Decimal:
    """A length of time in days, hours rounded up."""
    value: Decimal = item.value
    if item.unit == "hour":
        return (value / 24).to_integral_value(ROUND_CEILING)
    return value * {"week": 7, "month": 30, "day": 1}.get(item.unit or "day", 1)


_MILK_WORDS = ("hold", "milk")


def holds(clause: Clause) -> dict[str, Decimal]:
    """``milk_hold_days`` and ``meat_hold_days`` as told; 0 where the label says none."""
    found: dict[str, Decimal] = {}
    items = clause.items
    if clause.says("no_hold"):
        return {"milk_hold_days": Decimal(0)}
    if not clause.says("hold", "meat", "milk", "label"):
        return found
    items = _without_none(items, found)
    lengths = [i for i, item in enumerate(items) if item.sort == "number" and _is_length(items, i)]
    held: list[str | None] = []
    for number, index in enumerate(lengths):
        floor = lengths[number - 1] if number else -1
        held.append(_held(items[floor + 1 : index][::-1]))
    for number, index in enumerate(lengths):
        ceiling = lengths[number + 1] if number + 1 < len(lengths) else len(items)
        what = held[number] or _held(items[index + 1 : ceiling])
        if held[number] is None and ceiling < len(items) and held[number + 1] is not None:
            continue  # "penicillin siku 3, maziwa yasiuzwe siku 5": the words are the next length's
        if what == "both":
            found.setdefault("milk_hold_days", days(items[index]))
            found.setdefault("meat_hold_days", days(items[index]))
        elif what is not None:
            found.setdefault(f"{what}_hold_days", days(items[index]))
    if not lengths and not found:
        for index, item in enumerate(items):
            if (
                item.has("hold", "meat")
                and any(b.has("label_none") for b in items[max(0, index - 2) : index])
            ) or (item.has("hold") and any(b.has("label_none") for b in items[index + 1 : index + 2])):
                found["meat_hold_days" if item.has("meat") else "milk_hold_days"] = Decimal(0)
    return found


_NONE = ("none", "nil", "zero", "hakuna", "hamna", "sifuri", "nothing")


def _without_none(items: list[Item], found: dict[str, Decimal]) -> list[Item]:
    """Takes "milk none" and "maziwa hakuna" out of *items* into *found*: the label says that none is held."""
    left = list(items)
    for index in range(len(left) - 2, -1, -1):
        item, follows = left[index : index + 2]
        ends = index + 2 == len(left) or left[index + 2].sort == "mark" or left[index + 2].has("meat", "milk")
        if item.has("milk", "meat") and follows.word in _NONE and ends and follows.unit is None:
            found["meat_hold_days" if item.has("meat") else "milk_hold_days"] = Decimal(0)
            del left[index : index + 2]
    return left


def _is_length(items: list[Item], index: int) -> bool:
    item = items[index]
    if item.unit in ("day", "hour", "week", "month"):
        return True
    near = items[max(0, index - 2) : index] + items[index + 1 : index + 2]
    return item.unit is None and item.hint == "" and any(o.has("hold", "meat") for o in near)


def _held(items: list[Item]) -> str | None:
    meat = next((i for i, item in enumerate(items) if item.has("meat")), None)
    milk = next(
        (
            i
            for i, item in enumerate(items)
            if item.has("milk", "milk_word") or "maziwa" in item.word or "milk" in item.word
        ),
        None,
    )
    if meat is not None and milk is not None and abs(meat - milk) <= 2:
        return "both"
    hold = next((i for i, item in enumerate(items) if item.has("hold", "label")), None)
    if (
        meat is not None
        and (hold is None or meat <= hold or (hold is not None and milk is None))
        and (milk is None or meat < milk)
    ):
        return "meat"
    return "milk" if hold is not None or milk is not None else None


_PRODUCT_INTRO = ("with", "kwa", "using", "ya", "of", "aina")


def product(clause: Clause, scene: Scene, used: list[Item]) -> str | None:
    """The drug or wash named, as written."""
    items = clause.items
    for index, item in enumerate(items):
        if item.has("product") and item.sort == "cue" and not item.denied:
            end = index + 1
            while end < len(items) and (items[end].has("product") or _model(items[end])):
                end += 1
            used.extend(items[index:end])
            return clause.text.written(item.start, items[end - 1].end)
    for index, item in enumerate(items):
        before = items[index - 1] if index else None
        if (
            before is None
            or not is_strange(item)
            or not (
                before.word in _PRODUCT_INTRO
                or before.has("drug", "treat", "deworm", "spray", "disinfect", "named")
            )
        ):
            continue
        if scene.names.open and item.capital and before.sort == "cue" and not before.has("drug", "named"):
            continue
        if before.word in ("kwa", "ya", "of") and not _drug_before(items, index):
            continue
        if before.has("treat", "deworm", "spray") and not any(
            i.sort == "animal" or i.has("everyone") for i in items
        ):
            continue
        end = index + 1
        while (
            end < len(items) and (is_strange(items[end]) or _model(items[end])) and items[end].sort != "tag"
        ):
            end += 1
        used.extend(items[index:end])
        return clause.text.written(item.start, items[end - 1].end)
    return None


def _model(item: Item) -> bool:
    """The strength in a product's name ("OTC 20%")."""
    return item.sort == "mark" and item.word == "%"


def _drug_before(items: list[Item], index: int) -> bool:
    return any(
        i.has("drug", "treat", "deworm", "spray", "disinfect", "vaccinate", "clean") for i in items[:index]
    )
