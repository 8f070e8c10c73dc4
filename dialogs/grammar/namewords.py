"""
Names that are common words as well, where the grammar shows the word: "neema ya Mungu", "kwa bahati nzuri",
"amekula sumu". And two animals of one name, where what is told fits only one of them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from dialogs.grammar.heads_herd import LEAST_ANIMAL_PRICE
from dialogs.grammar.items import Item
from dialogs.grammar.names import Names
from dialogs.grammar.words import VOCABULARY
from service.husbandry.herd import Known, Sex, Status

_HIS = (
    "yake",
    "yako",
    "yangu",
    "yetu",
    "yenu",
    "yao",
    "zake",
    "zangu",
    "zetu",
    "zako",
    "zao",
    "langu",
    "lake",
    "letu",
    "lako",
)
_LIKE = ("nzuri", "mbaya", "njema", "kubwa", "kuu", "tele", "nyingi")
_DIVINE = ("mungu", "bwana", "yesu", "allah", "mwenyezi", "mola", "god", "lord", "jesus", "maulana")
_OF = ("ya", "za", "la", "of", "wa")
_SAYS_WORD = ("kwa", "by", "with", "through")
_EATEN = (
    "kula",
    "amekula",
    "alikula",
    "kala",
    "walikula",
    "wamekula",
    "kunywa",
    "alikunywa",
    "amekunywa",
    "ate",
)


def without_common_words(items: list[Item]) -> None:
    """Puts a plain word in place of each name in *items* that is one here."""
    for index, item in enumerate(items):
        if item.sort == "animal" and item.value is not None and _is_word(items, index):
            items[index] = item.other or Item("word", item.start, item.end, item.word, known=True)


def misspelt_subjects(items: list[Item], names: Names) -> None:
    """A bare verb before an event may be a name with a slip: "Penda calved", of a herd with a Pendo."""
    for index, item in enumerate(items[:-1]):
        opens = index == 0 or (items[index - 1].sort == "mark" and items[index - 1].word in ".;\n!?")
        bare = item.sort == "cue" and item.has("said_verb") and not item.prefix and item.end - item.start == 1
        if not (opens and bare) or not items[index + 1].has(*_EVENTS):
            continue
        near, slips = names.near(item.word)
        if len(near) == 1 and slips == 1:
            items[index] = Item("animal", item.start, item.end, item.word, value=near[0], near=True)


_EVENTS = ("calve", "die", "serve", "heat", "mating", "sell", "abort", "pregnant", "yield", "dry")


def _is_word(items: Sequence[Item], at: int) -> bool:
    item = items[at]
    if item.word not in VOCABULARY.names or item.end - item.start > 1:
        return False
    before, first = items[at - 1] if at else None, items[at + 1] if at + 1 < len(items) else None
    second = items[at + 2] if at + 2 < len(items) else None
    if first is not None and first.word in _OF and second is not None and second.word in _DIVINE:
        return True
    if before is not None and before.word in _OF and at > 1 and items[at - 2].word in _DIVINE:
        return True
    if before is None and first is not None and (_is_other_noun(first, second) or _of_a_thing(first)):
        return True
    if (
        before is not None
        and before.has("sell", "buy")
        and item.other is not None
        and item.other.has("goods")
    ):
        return any(i.sort == "number" and i.value < LEAST_ANIMAL_PRICE for i in items[at + 1 : at + 4])
    milk_of_her = before is not None and before.word in _OF
    if first is not None and first.word in (*_HIS, *_LIKE) and not milk_of_her:
        return True
    if before is not None and before.word in _SAYS_WORD and item.word in ("bahati", "luck", "grace"):
        return second is not None and (first is None or first.sort in ("animal", "mark"))
    return before is not None and before.word in _EATEN and item.word in ("sumu", "asali", "chai", "sukari")


def _is_other_noun(first: Item, second: Item | None) -> bool:
    """ "nyota ya jaha": a noun of another kind than an animal, and what it is of."""
    strange = second is not None and second.sort == "word" and (second.corrected or not second.known)
    return first.word in ("ya", "za", "la") and strange


_THING = re.compile(r"(?:i|zi|li)(?:me|na|li|ta)[a-z]{3,}")


def _of_a_thing(first: Item) -> bool:
    """ "neema imenijia": a verb that no animal does, by its mark."""
    return first.sort == "word" and _THING.fullmatch(first.word) is not None


def told_apart(items: Sequence[Item], kind: str) -> list[Item]:
    """*items* in which a name that two animals bear is the one of them that *kind* can be told of."""
    return [_settled(items, index, kind) for index in range(len(items))]


def _settled(items: Sequence[Item], at: int, kind: str) -> Item:
    item = items[at]
    same = item.sort == "animal" and item.value is None and len({known.name for known in item.fits}) == 1
    if not same or len(item.fits) < 2:
        return item
    fits = [known for known in item.fits if _can_be(kind, known)]
    beside = [*items[max(0, at - 1) : at], *items[at + 1 : at + 2]]
    for noun, meant in _BY_NOUN.items():
        if any(other.has(noun) for other in beside):
            fits = [known for known in fits if meant(known)] or fits
    return replace(item, value=fits[0], fits=()) if len(fits) == 1 else item


def _is_calf(known: Known) -> bool:
    return known.status is Status.CALF


_BY_NOUN: dict[str, Callable[[Known], bool]] = {
    "calf": _is_calf,
    "bull_animal": lambda known: known.status is Status.BULL,
    "heifer": lambda known: known.status in (Status.HEIFER, Status.IN_CALF_HEIFER),
    "cow": lambda known: known.status in (Status.MILKING, Status.DRY),
}

_OF_COWS = ("milk", "heat", "service", "pregnancy_check", "calving", "abortion", "drying_off")


def _can_be(kind: str, known: Known) -> bool:
    """Whether *kind* can be told of an animal without a doubt."""
    if kind == "weaning":
        return _is_calf(known)
    if kind == "milk":
        return known.status in (Status.MILKING, Status.DRY)
    if kind in _OF_COWS:
        return known.sex is not Sex.MALE and known.status is not Status.CALF
    return True
