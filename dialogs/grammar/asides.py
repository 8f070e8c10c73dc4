"""
What stands beside a telling: a request to the service, a question answered at once, a person's illness,
"the same" in the place of a number.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime

from dialogs.grammar.items import Item
from dialogs.grammar.when import Part, When, session_of

_PLEASE = (
    "tafadhali", "please", "pls", "plz", "kindly", "naomba", "tunaomba", "tafadhari", "call", "need", "needs",
    "want", "wants", "request", "requesting", "nahitaji", "anahitaji", "order", "waiting", "book",
)  # fmt: skip
_SERVICE = ("ai", "technician")
_CALLED = re.compile(r"(?:m|ni|tu)?(?:tuma|tumie|tumieni|leteni|lete|niletee|tuletee|send|come|njoo|njooni)")


def without_asides(items: list[Item]) -> list[Item]:
    """*items* with such asides taken out, and "the same" as the number it stands for."""
    for step in _STEPS:
        items = step(items)
    return items


def _without_requests(items: list[Item]) -> list[Item]:
    """ "ana joto, tafadhali AI", "on heat, please AI": asked for, and not done."""
    out: list[Item] = []
    for index, item in enumerate(items):
        before = items[index - 1] if index else None
        named = item.sort == "cue" and item.has(*_SERVICE) and not item.prefix
        asked = before is not None and _asks(before)
        goes_on = bool(out) and out[-1].word == "ai" and out[-1].sort == "word" and item.word == "service"
        if goes_on or (named and asked and not _is_dated(items, index)):
            out.append(replace(item, sort="word", concepts=(), known=True))
        else:
            out.append(item)
    return out


def _asks(item: Item) -> bool:
    return item.word in _PLEASE or _CALLED.fullmatch(item.word) is not None


def _is_dated(items: Sequence[Item], at: int) -> bool:
    """Whether a day, a straw or a name follows: "please AI Neema yesterday" is told badly, but told."""
    return any(i.sort == "when" or i.has("straw", "done") for i in items[at + 1 : at + 4])


def _without_own_question(items: list[Item]) -> list[Item]:
    """ "zawadi calve? no she is fine, gave 6": a question that the sender answers; she is still named."""
    at = next((n for n, i in enumerate(items) if i.sort == "mark" and i.word == "?"), None)
    if at is None or at + 2 >= len(items) or items[at + 1].word not in ("no", "hapana"):
        return items
    if not any(item.sort == "number" for item in items[at + 2 :]):
        return items
    return [*(item for item in items[:at] if item.sort == "animal"), *items[at + 2 :]]


_ONLY = ("tu", "only", "just")
_WAS = ("alikuwa", "was", "walikuwa", "alikua")


def _without_what_was_merely(items: list[Item]) -> list[Item]:
    """ "hajafa, alikuwa amelala tu", "not dead, was just lying down": no sign of illness."""
    alive = any(item.has("die") and item.denied for item in items)
    alive = alive or any(a.word in ("not", "isnt", "hajafa", "hakufa") for a in items)
    out = list(items)
    for index, item in enumerate(items):
        near = items[max(0, index - 2) : index + 2]
        only = item.end - item.start > 1 or any(other.word in _ONLY for other in near)  # "amelala tu" is one
        was = any(other.word in _WAS for other in items[max(0, index - 3) : index])
        if alive and was and only and item.starts("sign.") == "down":
            out[index] = replace(item, sort="word", concepts=(), known=True)
    return out


_PERSONS = frozenset({
    "msaidizi", "mke", "mume", "mama", "baba", "kaka", "dada", "bibi", "babu", "mfanyakazi", "kijana",
    "helper", "wife", "husband", "brother", "sister", "worker", "mother", "father", "herdsman", "mchungaji",
})  # fmt: skip
_OURS = ("wangu", "yangu", "wetu", "yetu", "my", "our", "mimi", "the")


def _without_ill_people(items: list[Item]) -> list[Item]:
    """ "..., msaidizi wangu alikuwa mgonjwa leo": a person's illness beside what is told."""
    parts: list[list[Item]] = [[]]
    for item in items:
        if item.sort == "mark":
            parts.append([item])
        else:
            parts[-1].append(item)
    kept = [part for part in parts if not _of_an_ill_person(part)]
    told = any(item.sort == "number" for part in kept for item in part)
    return [item for part in kept for item in part] if told and len(kept) < len(parts) else items


def _of_an_ill_person(part: Sequence[Item]) -> bool:
    if any(item.sort in ("animal", "number") or item.has("cow", "calf", "cattle") for item in part):
        return False
    person = any(item.word in _PERSONS for item in part) and any(item.word in _OURS for item in part)
    return person and any(item.has("unwell") or item.starts("sign.") for item in part)


_SAME = ("same", "ditto", "likewise")
_PADDING = ("the", "amount", "as", "kama", "na", "pia", "from", "for", "is", "gave", "kwa")


def _with_the_same(items: list[Item]) -> list[Item]:
    """ "tausi 4.5, pendo ditto", "zawadi same kama neema lita 6": the number that is meant."""
    out = list(items)
    for index, item in enumerate(items):
        if item.word not in _SAME or item.sort not in ("word", "cue") or not _beside_a_name(items, index):
            continue
        numbers = [n for n, other in enumerate(items) if _is_litres(other)]
        before = [n for n in numbers if n < index]
        meant = before[-1:] or [n for n in numbers if n > index][:1]
        if not meant or any(i.sort == "number" and n not in numbers for n, i in enumerate(items)):
            return items
        if before and any(i.sort == "animal" for i in items[before[-1] : index]) is False and (
                not _names_after(items, index)):  # fmt: skip
            return items
        if before and not any(i.sort == "animal" for i in items[before[-1] : index]):
            return _moved_behind(items, index, items[meant[0]])
        out[index] = replace(items[meant[0]], start=item.start, end=item.end, ditto=True)
        for at in range(index + 1, min(index + 3, len(items))):
            if not before and items[at].word in ("kama", "as", "na"):
                out[at] = Item("mark", items[at].start, items[at].end, ",")
    return out


def _moved_behind(items: Sequence[Item], at: int, number: Item) -> list[Item]:
    """ "Neema 6 same as Tausi": her number stands behind her name."""
    name = next(n for n in range(at + 1, len(items)) if items[n].sort == "animal")
    behind = replace(number, start=items[name].end, end=items[name].end, ditto=True)
    return [*items[:at], items[name], behind, *items[name + 1 :]]


def _is_litres(item: Item) -> bool:
    return item.sort == "number" and item.unit in (None, "l") and item.hint in ("", "fraction")


def _names_after(items: Sequence[Item], at: int) -> bool:
    return any(i.sort == "animal" for i in items[at + 1 : at + 3])


def _beside_a_name(items: Sequence[Item], at: int) -> bool:
    """Whether a name stands right beside, with no number of its own."""
    beside = [*items[max(0, at - 2) : at], *items[at + 1 : at + 3]]
    return any(i.sort == "animal" for i in beside) and all(
        i.sort in ("animal", "mark") or i.word in (*_PADDING, "and") or i.sort in ("when", "number")
        for i in beside
    )


def _with_nothing_given(items: list[Item]) -> list[Item]:
    """ "didnt give anything this evening, 0": a nought told in words and then in figures."""
    noughts = [item for item in items if item.sort == "number" and item.value == 0]
    others = [item for item in items if item.sort == "number" and item.value != 0]
    if len(noughts) > 1 and not others:
        items = [item for item in items if item.sort != "number" or item is noughts[-1]]
    given = any(item.has("yield", "got") for item in items)
    refused = given and any(item.has("negation") for item in items)
    if not noughts or others or not refused or sum(item.sort == "animal" for item in items) != 1:
        return items
    return [item for item in items if not item.has("negation")]


def _with_shared_units(items: list[Item]) -> list[Item]:
    """ "Kito and Sumu 55 and 61 kg": the unit of the last number is the first one's too."""
    out = list(items)
    if sum(item.sort == "animal" for item in items) != 2:
        return out
    for index in range(2, len(items) - 2):
        first, word, last = items[index : index + 3]
        pair = first.sort == last.sort == "number" and word.word in ("and", "na", "&")
        if pair and first.unit is None and not first.hint and last.unit in ("kg", "cm", "l"):
            out[index] = replace(first, unit=last.unit)
    return out


def _without_names_to_come(items: list[Item]) -> list[Item]:
    """ "add my cow Lulu, milking, and her calf will get name later": nothing told of the calf."""
    ends = [n for n, item in enumerate(items) if item.sort == "mark"]
    at = ends[-1] if ends else len(items)
    last = items[at:]
    waits = any(i.has("named") for i in last) and any(i.has("later") or i.word == "later" for i in last)
    entered = any(i.has("new") for i in items[:at])
    plain = not any(i.sort in ("animal", "number") for i in last)
    return items[:at] if waits and entered and plain else items


def milked_now(items: list[Item], now: datetime) -> list[Item]:
    """ "six in the morning and three now": what was milked now is of the part of the day it now is."""
    session = session_of(When(), now)[1]
    parts = [item for item in items if item.sort == "when" and isinstance(item.value, Part)]
    out: list[Item] = []
    for index, item in enumerate(items):
        out.append(item)
        counted = index and items[index - 1].sort == "number"
        if item.word in ("now", "sasa") and item.sort == "when" and parts and counted:
            out.append(replace(item, value=Part(session)))
    return out


_STEPS: tuple[Callable[[list[Item]], list[Item]], ...] = (
    _without_requests, _without_own_question, _without_what_was_merely, _without_ill_people, _with_the_same,
    _with_nothing_given, _with_shared_units, _without_names_to_come,
)  # fmt: skip
