"""Items made ready for reading: numbers bound to their units, names told from words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from dialogs.grammar.heads_herd import LEAST_ANIMAL_PRICE
from dialogs.grammar.items import Item, Text
from dialogs.grammar.when import Clock, Part
from dialogs.grammar.words import VOCABULARY

_SPANS = ("hour", "day", "week", "month", "year")
_JOINS = ("na", "and", ",", "&", "+", "n", "pamoja na")


def unit_of(item: Item) -> str | None:
    """The unit that a cue is: l, kg, cm, ml, money, day, week, month, year, hour."""
    if item.sort != "cue":
        return None
    unit = item.starts("unit.")
    if unit is not None:
        return unit
    if item.has("age"):  # "5 years old"
        return next((span for span in _SPANS if item.word.startswith((span, span[:2] + "rs"))), None)
    if item.has("money_word"):
        return "money"
    span = item.starts("span.")
    return span if span in _SPANS else None


def bind_units(items: Sequence[Item]) -> list[Item]:
    """Joins each number with the unit before it ("lita 6") or else after it ("6 lita", "6l")."""
    out: list[Item] = []
    index = 0
    priced = any(item.sort == "number" and item.value >= LEAST_SUM for item in items)
    while index < len(items):
        item = _one_litre(items[index], items, index) if not priced else items[index]
        if item.sort != "number":
            out.append(item)
            index += 1
            continue
        if item.hint in ("money",):
            item.unit = "money"
        before = unit_of(out[-1]) if out else None
        if before is not None and _may_bind(out[-1], item):
            item.unit, item.start = before, out.pop().start
        elif item.hint == "part" and _half_more(out, item):
            index += 1
            continue
        elif index + 1 < len(items):
            index += _bind_after(items, index, item)
        out.append(item)
        index += 1
    return out


LEAST_SUM = 100
"""From here on a number may be what a litre costs."""


def _one_litre(item: Item, items: Sequence[Item], index: int) -> Item:
    """ "Neema lita moja": one litre, where no price is told for it."""
    if not item.has("per_litre") or item.end - item.start != 2 or item.word not in ("lita", "one"):
        return item
    beside = items[index + 1] if index + 1 < len(items) else None
    if beside is not None and beside.sort == "number" and beside.hint != "part":
        return item
    return Item("number", item.start, item.end, "moja", value=Decimal(1), unit="l")


def _may_bind(unit: Item, number: Item) -> bool:
    return unit.end == number.start and not (unit.has("per_litre"))


def _bind_after(items: Sequence[Item], index: int, item: Item) -> int:
    """Takes the unit after a number; 1 where it was taken. "6 lita na nusu" adds the half."""
    after = unit_of(items[index + 1])
    if after is None or (item.unit == "money" and after != "money"):
        return 0
    follows = items[index + 2] if index + 2 < len(items) else None
    if after == "money" and item.value < LEAST_SUM and follows is not None and follows.sort == "number" \
            and follows.value >= LEAST_SUM:  # fmt: skip
        return 0  # "gunia 2 sh 36,000": the shillings are the next number's
    if (
        item.value >= 1000
        and after in ("l", "kg")
        and index + 2 < len(items)
        and items[index + 2].sort == "number"
    ):
        return 0  # "310,000 lita 280": the unit is the next number's
    item.unit, item.end = after, items[index + 1].end
    if index + 3 < len(items) and items[index + 2].word in ("na", "and") and items[index + 3].hint == "part":
        item.value += items[index + 3].value
        return 3
    return 1


def _half_more(out: list[Item], half: Item) -> bool:
    """ "lita na nusu": one and a half."""
    if len(out) >= 2 and out[-1].word in ("na", "and") and out[-2].sort == "number" and out[-2].unit == "l":
        out.pop()
        out[-1].value += half.value
        return True
    if len(out) >= 2 and out[-1].word in ("na", "and") and unit_of(out[-2]) in ("l", "kg"):
        unit = out[-2]
        out[-2:] = [Item("number", unit.start, half.end, half.word, value=Decimal(1) + half.value,
                         unit=unit_of(unit))]  # fmt: skip
        return True
    return False


def milkings_by_am_and_pm(items: Sequence[Item]) -> list[Item]:
    """ "Neema 6 am 5 pm": where no other number is told, these are litres, not hours."""
    whole = _milkings(items)
    if len(whole) != len(items):
        return whole
    parts: list[list[Item]] = [[]]
    for item in items:
        if item.sort == "mark" and item.word in ",;.\n":
            parts += [[item], []]
        else:
            parts[-1].append(item)
    told = [_milkings(part) if len(part) > 2 and part[0].sort == "animal" else part for part in parts]
    return [item for part in told for item in part]


def _milkings(items: Sequence[Item]) -> list[Item]:
    clocks = [
        i for i in items if i.sort == "when" and isinstance(i.value, Clock) and i.value.style in ("am", "pm")
    ]
    others = [
        i
        for i in items
        if i.sort == "number" or (i.sort == "cue" and not i.has("milk", "yield", "got", "greeting"))
    ]
    named = any(i.sort == "animal" for i in items)
    if others or not clocks or not (named or any(i.has("milk", "yield") for i in items)):
        return list(items)
    out: list[Item] = []
    for item in items:
        if any(item is clock for clock in clocks):
            part = Part("morning" if item.value.style == "am" else "evening")
            out.append(
                Item("number", item.start, item.end, item.word, value=Decimal(item.value.hour), digits=True)
            )
            out.append(Item("when", item.start, item.end, item.word, value=part))
        else:
            out.append(item)
    return out


def settle_names(items: list[Item]) -> None:
    """
    Decides for each animal's name that is a word as well (Mwezi, Sumu, Jumapili, Maziwa) which is meant.

    It is the word where another animal is named near it and the two are not told in one breath
    ("Kito amekufa kwa sumu"), else the animal.
    """
    for index, item in enumerate(items):
        if item.sort != "animal" or item.other is None:
            continue
        span = _neighbourhood(items, index)
        others = [i for i in span if i is not item and i.sort == "animal" and i.other is None]
        twins = [i for i in span if i is not item and i.sort == "animal" and i.other is not None]
        twin_before = any(i is t for t in twins for i in items[:index])
        free = not _told_together(items, index) and not _opens(span, item) and not _is_object(items, index)
        if (others or twin_before) and free:
            items[index] = item.other


def _is_object(items: Sequence[Item], index: int) -> bool:
    """Whether a name that is a word of no meaning here stands where a deed's animal does: "served Bahati"."""
    before, other = items[index - 1] if index else None, items[index].other
    return (
        before is not None
        and other is not None
        and other.sort == "word"
        and before.has("serve", "ai", "mounted", "mounts", "treat", "vaccinate", "deworm", "spray", "sell")
    )


_TITLES = (
    "mama",
    "baba",
    "bwana",
    "bi",
    "mr",
    "mrs",
    "mzee",
    "dr",
    "fundi",
    "daktari",
    "bibi",
    "kaka",
    "dada",
)


def set_people_apart(items: list[Item]) -> None:
    """In a text about buying, "Mama Neema" is a neighbour, though a cow is called Neema."""
    trading = any(item.has("sell", "buy", "pay", "take") for item in items if item.sort == "cue")
    for index, item in enumerate(items[1:], 1):
        if trading and item.sort == "animal" and items[index - 1].word in _TITLES:
            items[index] = Item("word", item.start, item.end, item.word, capital=item.capital)


def _neighbourhood(items: Sequence[Item], index: int) -> Sequence[Item]:
    """The items of the same sentence piece."""
    start = end = index
    while start > 0 and not (items[start - 1].sort == "mark" and items[start - 1].word in ".;,\n!?"):
        start -= 1
    while end < len(items) and not (items[end].sort == "mark" and items[end].word in ".;,\n!?"):
        end += 1
    return items[start:end]


def _opens(span: Sequence[Item], item: Item) -> bool:
    """Whether a name stands first, as a subject; before another name it is a word ("Maziwa Neema 6")."""
    return span[0] is item and not (len(span) > 1 and span[1].sort == "animal")


def _told_together(items: Sequence[Item], index: int) -> bool:
    item = items[index]
    before = items[index - 1] if index else None
    after = items[index + 1] if index + 1 < len(items) else None
    if before is not None and before.word in _JOINS and index >= 2 and items[index - 2].sort == "animal":
        return True
    if (
        after is not None
        and after.word in _JOINS
        and index + 2 < len(items)
        and items[index + 2].sort == "animal"
    ):
        return True
    own_number = after is not None and (
        after.sort == "number" or unit_of(after) is not None or after.has("chest", "weight", "bcs")
    )
    other_time = item.other is not None and item.other.starts("weekday.") is not None
    is_word = item.other is not None and item.other.has("milk") and index == 0
    return own_number and not other_time and not is_word


def cows_called_like_words(text: Text, *, knows: Callable[[str], bool]) -> None:
    """
    Makes a strange name of a word that cows too are called by, where only a name can stand.

    "Neema 9 Mwezi 7", "Asali ana joto", "nimeuza Asali laki 5" of a herd that has no such animal.
    """
    mixed = not text.raw.isupper() and not text.raw.islower()
    items = text.items
    for index, item in enumerate(items):
        if item.sort not in ("word", "cue") or item.word not in VOCABULARY.names or item.end - item.start > 1:
            continue
        if item.has("milk", "greeting", "breed") or knows(item.word):
            continue
        if (mixed and item.capital and _in_a_row(items, index)) or _is_told_of(items, index):
            items[index] = Item("word", item.start, item.end, item.word, capital=item.capital)


def _in_a_row(items: Sequence[Item], index: int) -> bool:
    """Whether a word stands as names do in a row of names and litres, or is sold at an animal's price."""
    before = items[index - 1] if index else None
    after = items[index + 1] if index + 1 < len(items) else None
    if before is None or after is None or after.sort != "number":
        return False
    follows = items[index + 2] if index + 2 < len(items) else None
    sold = before.has("sell") and after.value >= LEAST_ANIMAL_PRICE
    listed = before.sort == "number" and index >= 2 and items[index - 2].sort == "animal"
    joined = before.word in _JOINS and index >= 2 and items[index - 2].sort in ("animal", "number")
    plain = after.hint == "" and (follows is None or unit_of(follows) in (None, "l", "kg"))
    return sold or ((listed or joined) and plain)


_TOLD_OF = (
    "heat",
    "mating",
    "pregnant",
    "empty",
    "serve",
    "ai",
    "calve",
    "unwell",
    "abort",
    "die",
    "dry",
    "wean",
)


def _is_told_of(items: Sequence[Item], index: int) -> bool:
    """Whether a word opens a sentence of which it can only be the animal: "Mwezi in calf"."""
    span = _neighbourhood(items, index)
    if span[0] is not items[index] or len(span) < 2 or any(i.sort == "animal" for i in span):
        return False
    second = span[1] if span[1].word not in _IS or len(span) < 3 else span[2]
    return second.has(*_TOLD_OF) or second.starts("sign.") is not None or second.starts("heat.") is not None


_IS = ("is", "was", "has", "ana", "ni", "hana", "yuko", "not")


def without_list_numbers(items: list[Item]) -> list[Item]:
    """
    *items* without the numbers that only count a list: "1. Neema 6 2. Zawadi 7", "1) Neema 6".

    They must count from one and stand before a name each, at the beginning, after a number or on a new line.
    """
    counters = _counters(items)
    if len(counters) < LEAST_COUNTED:
        return items
    marks = {at + 1 for at in counters if items[at + 1].sort == "mark"}
    return [
        Item("mark", item.start, item.start, ",") if index in counters else item
        for index, item in enumerate(items)
        if index not in marks
    ]


LEAST_COUNTED = 2
"""A list of one is not numbered."""


def _counters(items: Sequence[Item]) -> set[int]:
    found: list[int] = []
    for index, item in enumerate(items[:-2]):
        if item.sort != "number" or not item.digits or item.hint or item.value != len(found) + 1:
            continue
        before, mark = items[index - 1] if index else None, items[index + 1]
        begins = before is None or (before.sort == "mark" and before.word in "\n:;,.(")
        marked = mark.sort == "mark" and mark.word in ".):-" and mark.start == item.end
        opens = begins or (marked and before is not None and before.sort == "number")
        named = items[index + 2] if marked else mark
        if opens and (marked or (begins and _new_line(before))) and _names(named):
            found.append(index)
    return set(found)


def _new_line(before: Item | None) -> bool:
    return before is None or before.word == "\n"


def _names(item: Item) -> bool:
    return item.sort in ("animal", "tag") or (item.sort == "word" and not item.known)


def scores(items: list[Item]) -> None:
    """ "hali 3", "hali ni 2.5": a body condition; without a number "hali" is that she does not eat."""
    for index, item in enumerate(items[1:], 1):
        last = index + 1 == len(items) or items[index + 1].sort in ("mark", "animal")
        if item.word == "hali" and item.sort == "cue" and last and _is_score(items[index - 1]):
            items[index] = replace(item, concepts=("bcs",), denied=False, prefix="")
    for index, item in enumerate(items[:-1]):
        at = index + 1 + (items[index + 1].word in ("ni", "yake", "yake ni") and index + 2 < len(items))
        number = items[at]
        if item.word == "hali" and item.sort == "cue" and _is_score(number):
            items[index] = replace(item, concepts=("bcs",), denied=False, prefix="")


MOST_SCORE = 5


def _is_score(number: Item) -> bool:
    return number.sort == "number" and number.unit is None and 1 <= number.value <= MOST_SCORE


_RESULTS = {"+": "pregnant", "-": "empty"}


def results_by_mark(items: list[Item]) -> list[Item]:
    """ "PD: Neema +, Tausi -ve": a mark after a name is the result, where a check is told."""
    if not any(item.has("pd") for item in items):
        return items
    out: list[Item] = []
    for index, item in enumerate(items):
        follows = items[index + 1] if index + 1 < len(items) else None
        ends = follows is None or follows.sort in ("mark", "animal") or follows.word in ("ve", "na", "and")
        told = item.sort == "mark" and item.word in _RESULTS and out and (
            out[-1].sort == "animal" or out[-1].has("pd"))  # fmt: skip
        if told and ends:
            concepts = (_RESULTS[item.word],)
            out.append(Item("cue", item.start, item.end, item.word, concepts=concepts, known=True))
        elif not (item.word == "ve" and out and out[-1].word in _RESULTS):
            out.append(item)
    return out
