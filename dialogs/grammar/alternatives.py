"""What a text tells as one of two: "Neema au Tausi", "lita 5 au 6", "jana au juzi"."""

from __future__ import annotations

from dataclasses import replace

from dialogs.grammar.items import Item

_OR = ("au", "ama", "or")
_OR_UP_TO = (*_OR, "hadi", "mpaka")
_ASKED = ("ask_mix", "fewer", "fix", "set_word")
_YOUNG = ("calf", "heifer", "bull_animal", "cow", "cattle")


def either_animal(items: list[Item]) -> list[Item]:
    """*items* in which "Neema au Tausi" is one animal that may be either, or a strange name."""
    one = _one_of_them(items)
    words = _OR if one is None else (*_OR, "na", "and", ",")
    items = [item for item in items if item is not one or item.sort != "number"]
    out: list[Item] = []
    index = 0
    while index < len(items):
        joined = out and items[index].word in words and index + 1 < len(items)
        if joined and _is_one(out[-1]) and _is_one(items[index + 1]) and "animal" in (
                out[-1].sort, items[index + 1].sort):  # fmt: skip
            out[-1] = _either(out[-1], items[index + 1])
            index += 2
            continue
        out.append(items[index])
        index += 1
    return out


def _one_of_them(items: list[Item]) -> Item | None:
    """ "Neema na Tausi, mmoja ana mimba", "one of Neema and Tausi": one is told of, and not which."""
    if sum(item.sort == "animal" for item in items) < 2:
        return None
    for index, item in enumerate(items):
        before = items[index - 1] if index else None
        opens = before is None or before.sort in ("mark", "animal")
        one = item.sort == "number" and item.word in ("mmoja", "one") and not item.digits
        follows = items[index + 1] if index + 1 < len(items) else None
        counts = follows is not None and (follows.has(*_YOUNG) or follows.sort == "number")
        if (
            item.has("one_of")
            or (item.word == "kati" and follows is not None)
            or (one and opens and not counts)
        ):
            return item
    return None


def _is_one(item: Item) -> bool:
    strange = item.sort == "tag" or (item.sort == "word" and not item.known and len(item.word) > 2)
    return item.sort == "animal" or strange or (item.sort == "cue" and item.has(*_YOUNG))


def _either(first: Item, second: Item) -> Item:
    """One item for both: a strange name of the two, or an animal that may be either."""
    for item in (first, second):
        if item.sort in ("word", "tag"):
            return item
    fits = tuple(known for item in (first, second) for known in _animals(item))
    return Item("animal", first.start, second.end, first.word, fits=fits, capital=first.capital)


def _animals(item: Item) -> tuple:  # type: ignore[type-arg]
    return (item.value,) if item.value is not None else item.fits


def either_number(items: list[Item]) -> list[Item]:
    """*items* in which a quantity told as one of two ("lita 5 au 6") is one number, marked doubtful."""
    if not any(item.sort == "animal" for item in items) or any(item.has(*_ASKED) for item in items):
        return items
    out = list(items)
    for index in range(len(out) - 3, -1, -1):
        if index + 3 > len(out):
            continue
        first, word, second = out[index : index + 3]
        between = (
            index > 0 and out[index - 1].word in ("between", "kati", "baina") and word.word in ("and", "na")
        )
        units = {first.unit, second.unit} - {None} if first.sort == second.sort == "number" else None
        if units is not None and len(units) <= 1 and (word.word in _OR_UP_TO or between):
            first.doubtful = True
            first.unit = first.unit or second.unit
            del out[index + 1 : index + 3]
    return out


def without_either_sex(items: list[Item]) -> list[Item]:
    """ "amezaa dume au jike": neither is told."""
    out: list[Item] = []
    index = 0
    while index < len(items):
        trio = items[index : index + 3]
        sexes = len(trio) == 3 and trio[1].word in _OR and all(i.has("female", "male") for i in trio[::2])
        if sexes:
            out.append(replace(trio[0], concepts=("calf",), prefix=""))
            index += 3
            continue
        out.append(items[index])
        index += 1
    return out
