"""
Quantities told only to compare: what it was before, or what it is not.

"dropped from 9 to 6", "badala ya 8 katoa 5", "6 kuliko 8 jana", "alitoa 9 sasa 6", "zimeshuka hadi 3": what
she gives now is the telling; the other number is none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dialogs.grammar.items import Item
from dialogs.grammar.when import Part

_FROM = ("from", "kutoka", "toka", "tokea")
_TO = ("to", "hadi", "mpaka", "kufikia", "kufika", "until")
_AGAINST = (
    "badala",
    "instead",
    "than",
    "kuliko",
    "compared",
    "kulinganisha",
    "ikilinganishwa",
    "versus",
    "vs",
)
_WAS = ("ilikuwa", "yalikuwa", "zilikuwa", "alikuwa", "was", "were")
_NOW = ("sasa", "now")
_PADDING = (
    "ya", "of", "na", "with", "to", "la", "za", "lita", "gave", "give", "gives", "giving", "anatoa", "katoa",
    "ametoa", "only", "tu", "ni", "is", "she", "yeye", "the", "a", "was", "ilikuwa", "alitoa", "alikuwa", ",",
    "about", "kama", "at", "it", "ilivyokuwa",
)  # fmt: skip
_UNITS = (None, "l", "kg", "cm")
_CHANGED = ("fix", "set_word", "every", "remind")


def without_what_it_was(items: list[Item]) -> list[Item]:
    """*items* without the numbers that what is told is only compared with."""
    if any(item.has(*_CHANGED) for item in items):
        return items
    out = list(items)
    for step in _STEPS:
        index = 0
        while index < len(out):
            index = step(out, index)
    return out


def without_their_sum(items: list[Item]) -> list[Item]:
    """ "Neema 6 Tausi 5 jumla 11": the sum of the cows' litres is no cow's; a wrong sum is doubted."""
    totals = [n for n, item in enumerate(items) if item.has("all_of_it", "whole_sum") and not item.denied]
    if not totals:
        return items
    if any(item.has("everyone", "sell", "deliver", "pay", "buy") for item in items[: totals[0] + 1]):
        return items
    if len(totals) == 1:
        return _without_sum(items)
    out: list[Item] = []
    begin = 0
    for at in totals:  # each cow's own: "Neema asubuhi 6 jioni 5 jumla 11, Tausi asubuhi 4 jioni 3 jumla 7"
        total = _next_quantity(items, at + 1, _PADDING)
        if total is not None and total >= begin:
            out += _without_sum(items[begin : total + 1])
            begin = total + 1
    return out + items[begin:]


def _without_sum(items: list[Item]) -> list[Item]:
    """*items* without the total in them and its number."""
    at = next(n for n, item in enumerate(items) if item.has("all_of_it", "whole_sum") and not item.denied)
    heads = 0 < at < len(items) - 1 and items[at + 1].word == ":" and _is_quantity(items[at - 1])
    total = at - 1 if heads else _next_quantity(items, at + 1, _PADDING)  # "lita 11 jumla: Tausi 5 ..."
    own = [n for n, item in enumerate(items) if _is_quantity(item) and n != total and _beside_a_cow(items, n)]
    if total is None or len(own) < 2:
        return items
    if items[total].value != sum(items[n].value for n in own):
        items[total].doubtful = True
        return items
    return [*items[: min(at, total)], *items[max(at, total) + 1 :]]


def _beside_a_cow(items: Sequence[Item], at: int) -> bool:
    if any(item.sort == "animal" for item in items[max(0, at - 3) : at]):
        return True
    near = items[max(0, at - 2) : at + 2]
    milking = any(item.sort == "when" and isinstance(item.value, Part) for item in near)
    return milking and any(item.sort == "animal" for item in items[:at])  # "Neema asubuhi 6 jioni 5 jumla 11"


def _is_quantity(item: Item) -> bool:
    return item.sort == "number" and item.unit in _UNITS and item.hint in ("", "fraction")


def _next_quantity(items: Sequence[Item], at: int, words: tuple[str, ...]) -> int | None:
    """The next quantity from *at* on, with nothing before it but *words*, times and units."""
    for index in range(at, min(at + 5, len(items))):
        item = items[index]
        if _is_quantity(item):
            return index
        if item.word not in words and item.sort != "when" and item.starts("unit.") is None:
            return None
    return None


def _from_to(items: list[Item], at: int) -> int:
    """ "from 9 to 6", "kutoka lita 9 hadi 6"; without the "from" where a verb tells of a fall."""
    first = _next_quantity(items, at + 1, ()) if items[at].word in _FROM else None
    if first is None or first + 2 >= len(items):
        return at + 1
    to = next((i for i in range(first + 1, min(first + 4, len(items))) if items[i].word in _TO), None)
    second = None if to is None else _next_quantity(items, to + 1, _PADDING)
    if to is None or second is None:
        return at + 1
    items[second].unit = items[second].unit or items[first].unit
    _drop(items, at, to)
    return at


def _drop(items: list[Item], first: int, last: int) -> None:
    """Takes *first* to *last* out; a verb of rising or falling before them then tells what is given."""
    verb = next((i for i in reversed(range(first)) if items[i].sort == "cue"), None)
    if verb is not None and _moved(items[verb]):
        items[verb] = _gives(items[verb])
    del items[first : last + 1]


def _moved(item: Item) -> bool:
    return item.has("fewer", "grown") or item.starts("sign.") == "milk_drop"


def _gives(item: Item) -> Item:
    return replace(item, concepts=("milk", "yield"), denied=False)


def _against(items: list[Item], at: int) -> int:
    """ "badala ya lita 8", "than 8 yesterday"; what mends a number before it is read elsewhere."""
    item = items[at]
    if item.word not in _AGAINST or item.sort not in ("word", "cue"):
        return at + 1
    old = _next_quantity(items, at + 1, _PADDING)
    if old is None:
        return at + 1
    replaced = item.word in ("badala", "instead")
    if replaced and (at and items[at - 1].sort == "number"):
        return at + 1
    end = old + 1
    if not replaced and end < len(items) and items[end].sort == "when":
        end += 1
    others = [i for n, i in enumerate(items) if _is_quantity(i) and not at <= n < end]
    if not others:
        return at + 1
    del items[at:end]
    return at


def _was_then(items: list[Item], at: int) -> int:
    """ "6, jana ilikuwa 8": what it was that day stands beside what it is."""
    told = items[at].sort == "when" and at and at + 2 < len(items) and any(
        _is_quantity(i) for i in items[:at])  # fmt: skip
    if told and items[at + 1].word in _WAS and _is_quantity(items[at + 2]):
        del items[at : at + 3]
        return at
    return at + 1


def _now_after(items: list[Item], at: int) -> int:
    """ "alitoa 9 sasa 6", "was giving 9, now 6": what she gave once, without a time, is past."""
    if not (items[at].sort == "when" and items[at].word in _NOW):
        return at + 1
    new = _next_quantity(items, at + 1, _PADDING)
    old = next((n for n in range(at - 1, max(-1, at - 3), -1) if _is_quantity(items[n])), None)
    if new is None or old is None or any(item.sort == "when" for item in items[:old]):
        return at + 1
    del items[old:at]
    return old + 1


def _left_over(items: list[Item], at: int) -> int:
    """ "nimeuza yote isipokuwa lita 2": what was kept is not what was sold."""
    if not items[at].has("except") or any(item.sort == "animal" for item in items):
        return at + 1
    number = _next_quantity(items, at + 1, _PADDING)
    if number is None or not any(item.has("sell", "deliver") for item in items[:at]):
        return at + 1
    del items[at : number + 1]
    return at


_USUALLY = ("kawaida", "usually", "normally", "huwa", "hutoa", "wastani", "average", "averages")


def _usual(items: list[Item], at: int) -> int:
    """ "kawaida hutoa 8, leo 6": what she gives as a rule is no milking."""
    if items[at].word not in _USUALLY:
        return at + 1
    number = next((n for n in range(at + 1, min(at + 6, len(items))) if _is_quantity(items[n])), None)
    between = items[at + 1 : number]
    if number is None or any(i.sort == "when" and i.word not in _NOW for i in between):
        return at + 1
    items[at : number + 1] = [i for i in between if i.sort == "animal"]
    return at


def _by_so_much(items: list[Item], at: int) -> int:
    """ "ameongeza lita 2", "up 2 litres": by how much it changed, and not what she gave."""
    item = items[at]
    changed = _moved(item) or item.word in ("up", "ongezeko", "extra") or item.word.endswith("ongeza")
    number = _next_quantity(items, at + 1, ("la", "ya", "kwa", "by", "za")) if changed else None
    if number is None or any(i.has("feed", "weight", "sell", "deliver") for i in items) or not any(
            i.sort == "animal" for i in items):  # fmt: skip
        return at + 1
    if any(_is_quantity(i) for n, i in enumerate(items) if n != number):
        del items[at : number + 1]
        return at
    items[number].doubtful = True
    return number + 1


_LESS = ("pungufu", "less", "fewer", "zaidi", "more")


def _so_much_less(items: list[Item], at: int) -> int:
    """ "half a litre less, she gave 4": by how much it changed."""
    if items[at].sort != "number" or items[at].unit != "l" or at + 1 == len(items):
        return at + 1
    follows = items[at + 2].word if at + 2 < len(items) else ""
    more = items[at + 1].word in _LESS and follows not in ("than", "kuliko", "ya")
    others = [i for n, i in enumerate(items) if n != at and _is_quantity(i)]
    if not more or not any(i.sort == "animal" for i in items):
        return at + 1
    if not others:
        items[at].doubtful = True
        return at + 1
    del items[at : at + 2]
    return at


def _not_so_much(items: list[Item], at: int) -> int:
    """ "hajafika lita 6": what she did not reach."""
    denied = (
        items[at].denied and items[at].sort in ("cue", "word") and items[at].has("said_verb", "yield", "got")
    )
    if denied and at + 1 < len(items) and _is_quantity(items[at + 1]):
        items[at + 1].doubtful = True
    return at + 1


def _sunk_to(items: list[Item], at: int) -> int:
    """ "lita zimeshuka hadi 3", "milk fell to 3 litres": three litres are given."""
    if items[at].sort != "cue" or not _moved(items[at]) or at + 2 >= len(items) or items[at].denied:
        return at + 1
    to = next((n for n in (at + 1, at + 2) if items[n].word in (*_TO, "ni", "now")), None)
    number = None if to is None else _next_quantity(items, to + 1, _PADDING)
    spoken = items[max(0, at - 4) : (number or at) + 1]
    if to is None or number is None or any(i.has("weight", "price_word", "heat", "degrees") for i in spoken):
        return at + 1
    if items[number].unit in ("cm",) or (items[number].unit is None and not _of_milk(items, at)):
        return at + 1
    items[number].unit = items[number].unit or "l"
    items[at] = _gives(items[at])
    del items[to]
    return at + 1


def _of_milk(items: Sequence[Item], at: int) -> bool:
    near = items[max(0, at - 4) : at + 1]
    return any(
        i.has("milk", "unit.l") or i.starts("sign.") == "milk_drop" or i.sort == "animal" for i in near
    )


def _equals(items: list[Item], at: int) -> int:
    """ "Neema 6+5=11": what the milkings come to."""
    if items[at].word != "=" or at < 3 or at + 1 >= len(items) or not _is_quantity(items[at + 1]):
        return at + 1
    own, back = [items[at - 1]], at - 2
    while back >= 1 and items[back].word in ("+", "na", "and", "plus") and _is_quantity(items[back - 1]):
        own.append(items[back - 1])
        back -= 2
    if len(own) < 2 or not all(map(_is_quantity, own)) or items[at + 1].value != sum(i.value for i in own):
        return at + 1
    del items[at : at + 2]
    return at


def _fell_to(items: list[Item], at: int) -> int:
    """ "lita 7 asubuhi lakini jioni kashuka lita 4": what each milking gave; the second is no difference."""
    number = _next_quantity(items, at + 1, _PADDING) if items[at].word.endswith("shuka") else None
    before = next((n for n in reversed(range(at)) if items[n].sort == "number"), None)
    if number is None or before is None or not items[at].has("fewer"):
        return at + 1
    if items[number].value >= items[before].value:
        return at + 1
    parts = [item.value.name for item in items[:at] if item.sort == "when" and isinstance(item.value, Part)]
    if _is_quantity(items[before]) and len(set(parts)) > 1 and items[at - 1].sort == "when":
        items[at] = _gives(items[at])
    return at + 1


_STEPS = (
    _fell_to, _equals, _from_to, _against, _left_over, _usual, _was_then, _now_after, _sunk_to, _by_so_much,
    _so_much_less, _not_so_much,
)  # fmt: skip
