"""
How sure a telling is by its own words: what is too doubtful to record unasked, and what is shown clearly.

A misspelt key word, a "perhaps", a thing told in the present ("nauza Mwezi") hold the grave kinds back and
leave the others recorded with less than full confidence.
"""

from __future__ import annotations

import itertools
import re

from rapidfuzz.distance import OSA

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found
from dialogs.grammar.items import Item
from dialogs.grammar.mood import DEEDS

_GRAVE = {
    "death": ("die", "slaughter", "lost", "stolen"),
    "animal_sale": ("sell",),
    "abortion": ("abort",),
    "pregnancy_check": ("pregnant", "empty", "unsure"),
}
"""Kinds that are not recorded on a misspelt word alone, and the words that tell them."""

_PERHAPS = frozenset({
    "labda", "huenda", "inawezekana", "pengine", "yawezekana", "nadhani", "nafikiri", "nahisi", "maybe",
    "perhaps", "might", "possibly", "probably", "think", "guess", "believe", "suspect", "likely", "anaweza",
    "nasikia", "inasemekana", "yasemekana", "heard", "hear", "apparently", "supposedly", "eti", "wanasema",
    "wanadai", "rumour", "rumor", "rumours", "say", "seems", "appears", "inaonekana", "anaonekana",
    "looks", "look", "nimesikia", "tumesikia", "nimeambiwa", "ameniambia", "wameniambia", "seem", "hisia",
    "thinks", "believes", "anadhani", "anafikiri", "anahisi", "wanadhani", "wanafikiri", "wanahisi", "hears",
    "afraid", "fear", "naogopa", "nahofia",
})  # fmt: skip
_SEEN = ("heat", "illness", "milk", "feeding", "expense", "milk_sale", "delivery", "spraying", "deworming")
"""Kinds of which a "perhaps" is recorded: what is seen is seldom sure, and what is counted is about."""

_NOT_KEY = (
    "greeting", "then", "but", "each", "everyone", "money_word", "cattle", "about_animal", "task_word",
)  # fmt: skip
_NEGATIONS = ("not", "hana", "no", "isnt", "hakuna", "haina", "hawana", "sio", "si")


def weigh(clause: Clause, found: list[Found]) -> None:
    """Marks *found*, what *clause* tells, with the doubts that its words raise."""
    if clause.kind in _GRAVE and (_by_a_slip(clause, _GRAVE[clause.kind]) or _offered(clause)):
        _flag(found, "slip")
    several = clause.kind == "animal_sale" and any(len(told.subjects) > 1 for told in found)
    if several and any(told.values.get("amount") for told in found) and not clause.says("each"):
        _flag(found, "slip")  # one sum for two animals is neither one's price
    if clause.kind == "calving" and _who_died(clause):
        _flag(found, "slip")
    if clause.kind == "animal_sale" and any(_is_goods(item) for item in clause.items):
        _flag(found, "slip")
    if clause.kind == "drying_off" and _drying_up(clause):
        _flag(found, "slip")
    if clause.kind in _DONE and (_left_no(clause) or _only_meant(clause)):
        _flag(found, "slip")
    if clause.kind == "calving" and _calving_now(clause):
        _flag(found, "slip")
    perhaps = _perhaps(clause)
    if (perhaps and clause.kind not in _SEEN) or _one_of_two(clause):
        _flag(found, "slip")
    guessed = perhaps or any(_corrected_key(item) for item in clause.items)
    for telling in found:
        telling.guessed = telling.guessed or guessed


def _who_died(clause: Clause) -> bool:
    """ "Neema amezaa, amekufa": the calf or the cow."""
    for index, item in enumerate(clause.items):
        if item.sort != "cue" or not item.has("die") or item.denied or _is_born_dead(clause, item):
            continue
        told = any(
            i.has("calf", "female", "male", "twins") or i.sort == "number" for i in clause.items[:index]
        )
        follows = clause.items[index + 1 : index + 2]
        born = index and clause.items[index - 1].has("born")
        return not told and not born and not any(i.has("calf", "female", "male") for i in follows)
    return False


def _is_born_dead(clause: Clause, item: Item) -> bool:
    """ "mfu", "amefia tumboni", "died inside": it can only be the calf."""
    told = clause.text.tokens[item.start + 1 : item.end + 1]
    return item.word in _BORN_DEAD or any(token.word in _INSIDE for token in told)


_INSIDE = ("tumboni", "inside")
_BORN_DEAD = ("mfu", "maiti", "dead", "stillborn")


def _drying_up(clause: Clause) -> bool:
    """ "anakauka maziwa": her milk goes down; nobody has dried her off."""
    cues = [item for item in clause.cues("dry") if not item.denied]
    return bool(cues) and all(item.prefix in ("ana", "wana", "yana") for item in cues)


_DONE = (
    "death", "animal_sale", "calving", "abortion", "service", "treatment", "deworming", "spraying",
    "vaccination",
    "drying_off", "weaning",
)  # fmt: skip
"""Kinds of which a "no" that nothing else took up is asked about."""

_NOT_NO = (
    "hold", "no_hold", "label_none", "easy", "hard", "helped", "credit", "except", "empty", "not_denial",
    "meat",
    "unwell", "afterbirth_out",
)  # fmt: skip


def _left_no(clause: Clause) -> bool:
    """Whether a "no" is left that neither a day nor a number was denied by ("jana si leo")."""
    for index, item in enumerate(clause.items):
        follows = clause.items[index + 1] if index + 1 < len(clause.items) else None
        if _says_no(item) and (follows is None or follows.sort not in ("when", "number")):
            return True
    return False


_MINE = re.compile(r"(?:ni|tu)(?:me|li|na|ka)[a-z]{2,}")
_WENT = re.compile(
    r"(?:enda|peleka|pelekea|fika|kuja|rudi|toka|weza|fanikiwa|maliza|anza|saidia|endelea|isha)$"
)


def _only_meant(clause: Clause) -> bool:
    """ "nimeghairi kumuuza": the deed stands in the infinitive after something else that was done."""
    deeds = [i for i in clause.items if i.sort == "cue" and i.has(*DEEDS) and not i.denied and i.prefix]
    if not deeds or not all(i.prefix.startswith("ku") for i in deeds):
        return False
    at = clause.index(deeds[0])
    mine = [i for i in clause.items[:at] if _MINE.fullmatch(i.word)]
    return bool(mine) and not any(_WENT.search(i.word) or i.has("done", "then") for i in mine)


def _says_no(item: Item) -> bool:
    if item.sort not in ("word", "cue") or item.has(*_NOT_NO) or item.starts("sign.") is not None:
        return False
    return item.word in ("hapana", "no", "not", "bado") or (item.has("negation") and item.word != "hana")


def _calving_now(clause: Clause) -> bool:
    """ "anazaa", "is calving now": it is not over, and no calf is told of."""
    if clause.has("female", "male", "twins", "stillborn", "alive"):
        return False
    cues = [item for item in clause.cues("calve") if not item.denied]
    return bool(cues) and all(_under_way(clause, item) for item in cues)


def _under_way(clause: Clause, item: Item) -> bool:
    at = clause.index(item)
    before = clause.items[at - 1].word if at else ""
    after = clause.items[at + 1].word if at + 1 < len(clause.items) else ""
    now = before in ("is", "now", "started", "starting") or after in ("now", "sasa")
    if item.word in ("has", "have") and item.end - item.start > 1:
        return clause.text.tokens[item.end - 1].word == "calf"  # "has a calf" may be one of long ago
    return item.prefix == "ana" or (item.word == "calving" and now)


def _is_goods(item: Item) -> bool:
    """A name written small that is a thing sold as well: "nimeuza asali"."""
    return item.sort == "animal" and item.other is not None and item.other.has("goods") and not item.capital


def _perhaps(clause: Clause) -> bool:
    """Whether what is told is guessed, or heard from others than those who know."""
    items = clause.items
    if any(item.word in _PERHAPS and not item.has("hold") for item in items):
        return True
    knows = clause.says("vet", "technician", "centre")
    for index, item in enumerate(items):
        follows = items[index + 1].word if index + 1 < len(items) else ""
        if item.word == "may" and follows in ("have", "be"):
            return True
        if item.word in _SAYS and item.sort in ("word", "cue") and not knows and index:
            return True
    return False


_SAYS = (
    "wamesema",
    "walisema",
    "told",
    "amesema",
    "anasema",
    "kasema",
    "said",
    "says",
    "alisema",
    "anadai",
    "amedai",
)


def _one_of_two(clause: Clause) -> bool:
    """Whether an "or" is left: a day, a drug, a sum told as one of two."""
    if clause.kind in ("heat", "illness"):
        return False
    unsure = clause.says("unsure")
    return any(
        item.word in _OR and item.sort in ("word", "cue") and not (unsure and follows.word in _OR_NOT)
        for item, follows in itertools.pairwise([*clause.items, Item("mark", 0, 0)])
    )


_OR = ("au", "ama", "or")
_OR_NOT = ("la", "hapana", "sio", "siyo", "si", "hana", "not", "no")
""" "hajajua kama ana mimba au la": no second thing is told."""


def _flag(found: list[Found], reason: str) -> None:
    for telling in found:
        telling.flags.append(reason)


def _corrected_key(item: Item) -> bool:
    return item.sort == "cue" and item.corrected and item.starts("unit.") is None and not item.has(*_NOT_KEY)


def _by_a_slip(clause: Clause, concepts: tuple[str, ...]) -> bool:
    check = clause.kind == "pregnancy_check"
    cues = [item for item in clause.cues(*concepts) if not item.denied or check]
    if clause.kind == "death" and any(_as_if_she_stole(clause, i) or _lost_a_thing(clause, i) for i in cues):
        return True
    if check:  # a letter makes "hana" of "ana": a result is never taken from a word written wrong
        unsure = [item for item in cues if item.corrected and not _surely_in_calf(clause, item)]
        return bool(unsure) or any(map(_like_a_negation, clause.items))
    return bool(cues) and all(item.corrected for item in cues)


_HAS = ("ana", "anayo", "wana", "is", "has", "yuko", "amepata", "ameshika")


def _surely_in_calf(clause: Clause, item: Item) -> bool:
    """ "ana mmba miezi 5": no slip makes that of its opposite, as what affirms it is spelled right."""
    at = clause.index(item)
    before = clause.items[at - 1] if at else None
    has = before is not None and before.word in _HAS and before.sort == "word"
    affirmed = has or clause.says("pd")
    return (
        affirmed
        and bool(clause.numbers("month"))
        and item.has("pregnant")
        and not item.has("empty")
        and item.end - item.start == 1
    )


def _like_a_negation(item: Item) -> bool:
    """Whether a strange word may be a "not" misspelt: "nto pregnant", "hn mimba"."""
    if item.sort not in ("word", "cue") or (item.known and not item.corrected) or len(item.word) > 5:
        return item.sort == "cue" and item.corrected and item.has("negation")
    return any(OSA.distance(item.word, word) <= 1 and item.word[0] == word[0] for word in _NEGATIONS)


def _as_if_she_stole(clause: Clause, item: Item) -> bool:
    """ "Neema ameiba": a cow does not steal, so the word may be another one misspelt."""
    at = clause.index(item)
    return (
        item.word.endswith("iba")
        and item.prefix[:1] in ("a", "k")
        and at > 0
        and clause.items[at - 1].sort == "animal"
    )


def _lost_a_thing(clause: Clause, item: Item) -> bool:
    """ "Neema kaibiwa kengele": what was stolen may be hers."""
    follows = clause.items[clause.index(item) + 1 :][:1]
    things = [i for i in follows if i.sort in ("word", "cue") and i.word not in _JOIN]
    return item.word.endswith("ibiwa") and bool(things)


_JOIN = ("na", "kwa", "usiku", "jana", "leo", "huko", "hapa", "tena", "wote", "ya", "katika")
_NOW = ("na", "nina", "tuna", "ana", "wana", "n")
_FOR_SALE = ("selling", "sells")


def _offered(clause: Clause) -> bool:
    """ "nauza Mwezi milioni 1": offered for sale, perhaps not sold yet."""
    if clause.kind != "animal_sale":
        return False
    told = [item for item in clause.cues("sell") if not item.denied]
    return bool(told) and all(item.prefix in _NOW or item.word in _FOR_SALE for item in told)
