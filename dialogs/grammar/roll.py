"""
A telling of the herd made ready: the numbers of its list dropped, names told from words, one piece a stroke.

"1. Neema anakamuliwa 2. Asali mkavu mtamba Star" has three pieces, one for each animal.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from dialogs.grammar.found import is_strange
from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item, Text
from dialogs.grammar.pieces import STRONG, Piece, pieces_of
from dialogs.grammar.said import Said
from dialogs.grammar.words import VOCABULARY

NOUNS = ("in_calf_heifer", "heifer", "steer", "calf", "bull_animal", "cow")
FACTS = ("milking", "milking_all", "dry_now", "female", "male", "pregnant", "breed")
ATTRIBUTES = (*NOUNS, "cattle", *FACTS)
_AGES = ("day", "week", "month", "year")
_JOINS = ("na", "and", "&", "n")
_IS = ("ni", "is", "are", "ndio", "yupo", "yuko")
_NO_NAMES = (
    *ATTRIBUTES, "new", "buy", "sell", "named", "dam", "sire_word", "age", "price_word", "breed_word",
    "calve", "serve", "everyone", "greeting",
)  # fmt: skip
_ANOTHER = ("mwingine", "mwengine", "wengine", "another", "other", "others")
MOST_COUNTED = 20
"""Animals of one noun that a telling of the herd counts at most."""


def is_name(item: Item) -> bool:
    """An animal's name: of the herd, or one that is new."""
    return item.sort == "animal" or (
        is_strange(item) and not item.word.endswith(_KEEPING) and item.word not in _SPEAKER
    )


_KEEPING = ("fuga", "mwenye", "miliki")
_SPEAKER = ("mimi", "sisi", "naitwa", "ninaitwa")


def as_listed(text: Text, items: Sequence[Item]) -> list[Item]:
    """
    *items* as a list of new animals has them.

    A name only near to an animal's is another's ("Bahari" beside "Bahati"); "my cows" are those listed.
    """
    return [_as_listed(text, item) for item in items]


def _as_listed(text: Text, item: Item) -> Item:
    if item.near:
        return Item("word", item.start, item.end, item.word, capital=item.capital)
    words = text.written(item.start, item.end).lower().replace("'", "").split()
    if item.has("ask_herd", "everyone") and words[0] in (*_MINE, "majina", "names"):
        cows = not {"cow", "cows"}.isdisjoint(words)
        return replace(item, concepts=("cattle", "cow", "female") if cows else ("cattle",))
    if words[:1] == ["with"] and words[-1:] == ["calf"] and len(words) > 2:
        return replace(item, word="calf", concepts=("calf", HERS))  # "with her calf Kito"
    if item.has("twins") and words[-1] in ("calves", "wawili", "pacha"):
        return replace(item, concepts=("twins", "calf"))  # "ndama wawili" of no calving
    group = next((concepts for group, concepts in _GROUPS.items() if item.has(group)), None)
    if group is not None:
        return replace(item, concepts=(*item.concepts, *group))
    if item.has("milking_all") and not {"cows", "cow", "ngombe"}.isdisjoint(words):
        return replace(item, concepts=(*item.concepts, "cattle", *(() if "ngombe" in words else ("cow",))))
    if item.has("rest") and words[0] in ("ngombe", "cows", "animals"):
        return replace(item, concepts=("cattle",))  # "ng'ombe wengine wawili"
    if words == ["majina"]:
        return replace(item, sort="cue", concepts=("named",))
    if item.has("calf") and not {"wake", "her", "its"}.isdisjoint(words):
        return replace(item, concepts=(*item.concepts, HERS))
    return item


HERS = "hers"
"""What a calf has of which is said that she is its dam: "ndama wake"."""


_GROUPS = {"calves_all": ("calf",), "heifers_all": ("heifer", "female")}
_MINE = ("my", "our", "wangu", "wetu")


def pieces_of_herd(text: Text, items: Sequence[Item]) -> list[Piece]:
    """The pieces of a telling of the herd, each with the names and the facts that belong together."""
    named = _with_names(text, _without_list_numbers(list(items)))
    return [part for piece in pieces_of(named) for part in _strokes(piece)]


def _without_list_numbers(items: list[Item]) -> list[Item]:
    """ "1. Neema 2. Tausi": the numbers that count from one, each before a name."""
    counters: list[int] = []
    for at, item in enumerate(items):
        if item.sort != "number" or not item.digits or item.unit or item.value != len(counters) + 1:
            continue
        if _opens_entry(items, at):
            counters.append(at)
    if len(counters) < 2:
        return items
    marks = {at + 1 for at in counters if items[at + 1].sort == "mark"}
    return [
        Item("mark", item.start, item.start, ",") if at in counters else item
        for at, item in enumerate(items)
        if at not in marks
    ]


def _opens_entry(items: Sequence[Item], at: int) -> bool:
    """Whether the number at *at* stands before an entry of a list: marked so ("2."), or at its place."""
    follows = items[at + 1 : at + 3]
    marked = bool(follows) and follows[0].sort == "mark" and follows[0].word in ".):-" and len(follows) > 1
    begins = at == 0 or (items[at - 1].sort == "mark" and items[at - 1].word in "\n:;,.")
    entry = follows[1] if marked else follows[0] if follows and begins else None
    return entry is not None and (is_name(entry) or entry.word in VOCABULARY.names or entry.has(*NOUNS))


def _with_names(text: Text, items: list[Item]) -> list[Item]:
    """*items* with a name in place of each word that can only be one where it stands."""
    mixed = not text.raw.isupper() and not text.raw.islower() and not _titled(text)
    for at, item in enumerate(items):
        if _can_name(item) and _names_here(text, items, at, mixed=mixed):
            items[at] = Item("word", item.start, item.end, item.word, capital=item.capital)
    return items


def _titled(text: Text) -> bool:
    """Whether Every Word Has Its Capital, so that it says nothing."""
    written = {text.raw[token.start : token.end] for token in text.tokens if token.sort == "word"}
    return any(word.capitalize() in written for word in (*_JOINS, *_IS))


def _can_name(item: Item) -> bool:
    known = item.sort == "cue" or (item.sort == "word" and item.known) or (item.sort == "when")
    return known and item.end - item.start == 1 and not item.digits and not item.has(*_NO_NAMES)


def _names_here(text: Text, items: Sequence[Item], at: int, *, mixed: bool) -> bool:
    before = items[at - 1] if at else None
    item = items[at]
    opens = before is None or (before.sort == "mark" and before.word in STRONG)
    verb = opens and _VERB.match(text.tokens[item.start].word)
    if mixed and item.capital and not verb and (not opens or (item.corrected and _closed(items, at))):
        return True
    after = items[at + 1] if at + 1 < len(items) else None
    if item.corrected and item.sort == "cue" and after is not None and after.has("female", "male", *NOUNS):
        return True  # "mboni jike"
    if item.word not in VOCABULARY.names:
        return False
    return (before is None or _leads(before)) and _closed(items, at)


def _leads(before: Item) -> bool:
    """Whether a name can stand after *before*."""
    if before.sort in ("mark", "number") or before.word in (*_JOINS, *_IS, *_ANOTHER):
        return True
    return before.has(*ATTRIBUTES, "named") or is_name(before)


_VERB = re.compile(r"(?:ana|ame|ali|wana|wame|wali|nime|tume|hana|haku|hawa|nina|tuna)")


def _closed(items: Sequence[Item], at: int) -> bool:
    """Whether what can stand after a name follows."""
    after = items[at + 1] if at + 1 < len(items) else None
    if after is None or after.sort in ("mark", "number") or after.word in (*_JOINS, *_IS):
        return True
    return after.has(*FACTS, *NOUNS) or is_name(after)


def _strokes(piece: Piece) -> list[Piece]:
    """*piece* cut before each animal that is told after another one."""
    items = piece.items
    for at in range(1, len(items)):
        if _begins(items, at) and head_of(items) not in ("animal_sale", "death"):
            rest = Piece(items[at:], " ")
            return [Piece(items[:at], piece.joiner), *_strokes(rest)]
    return [piece]


def _begins(items: Sequence[Item], at: int) -> bool:
    """Whether another animal is told from *at* on: its noun, its name, or "the other"."""
    before, item = items[:at], items[at]
    named = any(is_name(i) for i in before)
    if item.word in _ANOTHER or _is_share(items, at):
        return named or _says_state(before)
    if item.has(*NOUNS) and named:
        return _leads_to_name(items, at) and not before[-1].has("breed")
    return is_name(item) and named and _told(before) and not after_another(items, at)


def _leads_to_name(items: Sequence[Item], at: int) -> bool:
    """Whether a name follows the noun at *at*, or nothing that would tell of the name before it."""
    if is_name(items[at - 1]) and not any(i.has(*FACTS) for i in items[:at]):
        return False  # "Neema mtamba": what she is
    return any(is_name(i) for i in items[at + 1 : at + 4]) or _is_share(items, at + 1)


def _is_share(items: Sequence[Item], at: int) -> bool:
    """ "mmoja anakamuliwa", "wawili wakavu", "two dry": some of those counted before."""
    if at + 1 >= len(items) or items[at].sort != "number" or items[at].unit is not None:
        return False
    item, after = items[at], items[at + 1]
    counts = 0 < item.value <= MOST_COUNTED and not item.hint
    after = items[at + 2] if after.word in (*_IS, "in") and at + 2 < len(items) else after
    counted = items[at - 1].has(*NOUNS, "cattle") if at else False
    return counts and not counted and after.has(*FACTS, "named")


def _told(items: Sequence[Item]) -> bool:
    """Whether something is told after the last name among *items*."""
    last = max(i for i, item in enumerate(items) if is_name(item))
    after = items[last + 1 :]
    return any(i.has(*ATTRIBUTES) or (i.sort == "number" and i.unit in (*_AGES, "l")) for i in after)


def _says_state(items: Sequence[Item]) -> bool:
    return bool(Said(items).told.intersection(FACTS)) or _counts(items) > 0


def after_another(items: Sequence[Item], at: int) -> bool:
    """Whether the name at *at* is a person's, a dam's or a place's by the word before it."""
    before = items[at - 1] if at else None
    led = [item.word for item in items[max(0, at - 3) : at]]
    mine = led[-2:] == ["my", "name"] or {"jina", "langu"}.issubset(led)
    if mine or {"mimi", "naitwa", "ninaitwa", "am", "im"}.intersection(led):
        return True  # the farmer's own
    return before is not None and (
        before.has("dam", "sire_word", "technician", "vet", "breed_word")
        or (before.has("straw") and not before.has("bull_animal"))
        or before.word in ("by", "from", "kwa", "wa", "of", "ya", "kutoka", "to", "at", "na")
    )


def _counts(items: Sequence[Item]) -> int:
    """How many animals *items* count: "ng'ombe wawili", "ndama mmoja"; 0 where they count none."""
    if not Said(items).has(*NOUNS, "cattle"):
        return 0
    if any(i.has("twins") and i.has("calf") for i in items):
        return 2
    counts = [i.value for i in items if i.sort == "number" and i.unit is None and not i.hint]
    return int(counts[0]) if counts and 0 < counts[0] <= MOST_COUNTED else 0


def count_of(items: Sequence[Item]) -> int:
    """How many animals *items* count, of a noun ("ng'ombe wawili") or of those before ("wawili wakavu")."""
    if _counts(items):
        return _counts(items)
    shares = [i for i in range(len(items)) if _is_share(items, i)]
    if shares:
        return int(items[shares[0]].value)
    return 1 if any(i.word in _ANOTHER and not i.word.startswith("we") for i in items) else 0
