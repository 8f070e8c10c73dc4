"""A telling that goes in the place of one before: "FIX NEEMA MILK 7", "Neema lita 7 si 6"."""

from __future__ import annotations

from collections.abc import Sequence

from dialogs.grammar.items import Item

_INSTEAD = ("badala", "instead")
_NOT = ("si", "sio", "siyo", "not", "wala", "never")
_FROM = ("kutoka", "ilikuwa", "yalikuwa", "from", "was")
_TO = ("kuwa", "iwe", "yawe", "hadi", "to", "should", "ni", "is")
_CHANGE = ("badilisha", "badili", "change", "rekebisha", "correct", "sahihisha")
"""Orders that also change a name, a language or a rule; with an animal and a number they mend a telling."""


def mended(items: Sequence[Item]) -> list[Item] | None:
    """
    What is told anew, without the order to mend and without what it was before.

    None where the text mends nothing; [] where the order stands alone.
    """
    spoken = [item for item in items if not item.has("greeting")]
    if any(item.sort == "mark" and item.word == "?" for item in spoken):
        return None
    ordered = _is_order(spoken)
    if not ordered and not _told_against(spoken):
        return None
    left = [item for item in spoken if not (ordered and item.has("fix")) and not _is_change(item)]
    while left and (left[0].sort == "mark" or left[0].word in _OF):
        left.pop(0)
    return _without_old(left)


_OF = ("ya", "za", "la", "kwa", "the", "of", "that", "hii", "hiyo")


def _is_change(item: Item) -> bool:
    return item.sort == "cue" and item.has("set_word", "fix") and item.word in _CHANGE


def _is_order(items: Sequence[Item]) -> bool:
    first = next((item for item in items if item.sort != "mark"), None)
    if first is None or any(item.has("every", "remind", "rename", "language") for item in items):
        return False
    animal, number = _has(items, "animal"), _has(items, "number")
    if first.has("fix"):
        return not first.corrected and (not first.has("set_word") or animal or number or len(items) == 1)
    return first.word in _CHANGE and first.has("set_word") and animal and number


def _has(items: Sequence[Item], sort: str) -> bool:
    return any(item.sort == sort for item in items)


def _told_against(items: Sequence[Item]) -> bool:
    """ "Neema lita 7 si 6": a number, a "not", and the number that it was."""
    for index, item in enumerate(items[1:-1], 1):
        against = item.word in (*_NOT, *_INSTEAD) and item.sort in ("cue", "word")
        if against and items[index - 1].sort == "number" and _old_after(items, index) is not None:
            return True
    return False


def _old_after(items: Sequence[Item], at: int) -> int | None:
    """The place of the old number or animal after a "not" or "instead of" at *at*."""
    for index in range(at + 1, min(at + 3, len(items))):
        if items[index].sort in ("number", "animal"):
            return index
        if items[index].word not in ("ya", "of", "la", "was", "ilikuwa", "lita", "yalikuwa"):
            return None
    return None


def _without_old(items: list[Item]) -> list[Item]:
    """*items* without what they put right: "si 6", "badala ya 6", "kutoka 6 kuwa 7"."""
    out: list[Item] = []
    index = 0
    while index < len(items):
        item = items[index]
        if item.word in (*_NOT, *_INSTEAD) and item.sort in ("cue", "word"):
            old = _old_after(items, index)
            if old is not None:
                index = old + 1
                continue
        if item.word in _FROM and _old_and_new(items, index):
            index += 2
            continue
        if item.sort == "number" and index + 2 < len(items) and items[index + 1].word in _TO and (
                items[index + 2].sort == "number"):  # fmt: skip
            index += 2  # "6 iwe 7"
            continue
        out.append(item)
        index += 1
    return out


def _old_and_new(items: Sequence[Item], at: int) -> bool:
    numbers = [item for item in items[at + 1 :] if item.sort == "number"]
    return at + 1 < len(items) and items[at + 1].sort == "number" and len(numbers) > 1
