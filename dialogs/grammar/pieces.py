"""
A text cut into pieces at commas, full stops, "and", and where a second telling begins without any of them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item
from dialogs.grammar.said import DENIED, Said

STRONG = ".;\n!?"
JOINING = ("na", "and", "&", "n")


@dataclass(slots=True)
class Piece:
    """What stands between two separators; ``joiner`` is the one before it."""

    items: list[Item]
    joiner: str = ""
    kind: str | None = None

    @property
    def animals(self) -> list[Item]:
        return [item for item in self.items if item.sort == "animal"]


def _pieces(items: Sequence[Item]) -> list[Piece]:
    pieces: list[Piece] = [Piece([])]
    group = False  # whether a whole group was named, of which a "but" then leaves some out
    for item in items:
        group = (group or item.has(*_GROUPS)) and not (item.sort == "mark" and item.word in STRONG)
        if not (_separates(item, group) or _but_she(item, pieces[-1])) or (
            item.word in _TOO and _only_named(pieces[-1])
        ):
            pieces[-1].items.append(item)
        elif pieces[-1].items:
            pieces.append(Piece([], item.word))
        elif item.word in STRONG or pieces[-1].joiner not in STRONG:
            pieces[-1].joiner = item.word
    return [piece for piece in pieces if piece.items]


_GROUPS = ("everyone", "calves_all", "heifers_all", "milking_all", "dry_now")


def _but_she(item: Item, piece: Piece) -> bool:
    """ "all cows fine except Neema is coughing": an exception to what is no telling begins one."""
    if item.sort != "cue" or not item.has("except") or item.has("everyone") or not piece.items:
        return False
    says = [
        i for i in piece.items
        if (i.sort == "word" and i.known and i.word not in _PLAIN)
        or i.has("state", "easy", "alive", "recover")
    ]  # fmt: skip
    return bool(says) and head_of(piece.items) is None


_PLAIN = ("the", "my", "our", "wangu", "wetu", "are", "is", "of", "leo", "kwa", "ya", "wa", "i", "we", "have")

_TOO = ("pia", "vilevile", "also", "too")


def _only_named(piece: Piece) -> bool:
    """Whether a piece has but a name so far: its "pia" says that the same is told of her."""
    return bool(piece.items) and all(item.sort == "animal" for item in piece.items)


def _separates(item: Item, group: bool) -> bool:
    if item.sort == "mark":
        return item.word not in "@#'\"()*&=%/\\"
    if item.word in JOINING:
        return True
    if item.sort != "cue" or not item.has("then", "but") or item.has("later", "deduct"):
        return False
    return not item.has("except") or not group


def _split_at_subjects(piece: Piece) -> list[Piece]:
    """ "Neema amezaa jike Zawadi ana joto": a second animal with a kind of its own begins a piece."""
    animals = [i for i, item in enumerate(piece.items) if item.sort == "animal"]
    for second in animals[1:]:
        before, after = piece.items[:second], piece.items[second:]
        previous = piece.items[second - 1]
        told_not = previous.word in ("ni", "is", "its", "bali") and head_of(before) == DENIED
        if told_not:  # "Neema hajazaa, ni Tausi amezaa"
            return [Piece(before, piece.joiner), *_split_at_subjects(Piece(after, " ", None))]
        if previous.word in ("wa", "ya", "la", "kwa", "for", "of", "to", "by", "from", "with", "ni", "is"):
            continue
        if previous.has("bull", "straw", "named", "sire_word", "dam", "except", "rename"):
            continue
        first_kind, then_kind = head_of(before), head_of(after)
        if first_kind and then_kind and (first_kind != "milk" or then_kind != "milk"):
            rest = _split_at_subjects(Piece(after, " ", None))
            return [Piece(before, piece.joiner), *rest]
    return [piece]


_TWO_IN_ONE = frozenset({
    ("heat", "service"), ("milk", "milk_sale"), ("milk", "delivery"), ("milk", "heat"), ("milk", "illness"),
    ("milk", "service"), ("milk", "denied"), ("milk", "treatment"), ("milk", "pregnancy_check"),
    ("calving", "illness"), ("girth", "condition"), ("weight", "condition"), ("girth", "weight"),
    ("weight", "girth"),
    ("treatment", "recovery"), ("illness", "recovery"),
})  # fmt: skip
"""Pairs of kinds that are told one after the other without a separator: "Neema 6 ana joto"."""


_STARTS_ANEW = (
    "serve", "ai", "mounted", "sell", "deliver", "heat", "mating", "treat", "pregnant", "empty", "unwell",
    "product", "drink", "recover", "bcs", "chest", "weight",
)  # fmt: skip


def _split_at_verbs(piece: Piece) -> list[Piece]:
    if not piece.animals:
        return [piece]
    for at in range(1, len(piece.items)):
        item = piece.items[at]
        if not item.has(*_STARTS_ANEW) and item.starts("sign.") is None and item.starts("heat.") is None:
            continue
        before, after = piece.items[:at], piece.items[at:]
        first = head_of(before)
        if first == "milk" and item.has("sell") and any(i.sort == "number" for i in before):
            milk_sold(after)  # "Neema 6 nikauza 4"
        pair = (first, head_of(after))
        if pair not in _TWO_IN_ONE or not any(i.sort == "animal" for i in before):
            continue
        if pair[0] == "milk" and not any(i.sort == "number" for i in before):
            continue
        if pair[1] == "recovery" and not item.has("recover"):
            continue
        if pair[0] == "calving" and not any(i.has("female", "male", "calf") for i in before):
            continue
        return [Piece(before, piece.joiner), Piece(after, " ")]
    return [piece]


_NARRATIVE = re.compile(r"(?:ni|tu|a|wa)ka(?:m|mu|mw|wa|ni|ku|i|li|ya|zi)?")


def _split_at_narrative(piece: Piece) -> list[Piece]:
    """ "nimeuza lita 5 kwa 6000 nikanunua chumvi 2000": -ka- tells what came next."""
    for at in range(1, len(piece.items)):
        item = piece.items[at]
        if item.sort != "cue" or not _NARRATIVE.fullmatch(item.prefix):
            continue
        before, after = piece.items[:at], piece.items[at:]
        if head_of(before) and head_of(after) and head_of(before) != head_of(after):
            return [Piece(before, piece.joiner), *_split_at_narrative(Piece(after, " "))]
    return [piece]


MOST_SOLD = 100
"""A bare number below this, sold after milk was told, is litres and no sum."""


def milk_sold(items: Sequence[Item]) -> bool:
    """
    Whether "nikauza 4", after milk was told, is of that milk; its number is then litres.

    Marks the number so.
    """
    said = Said(items)
    at = next((i for i, item in enumerate(items) if item.has("sell") and not item.denied), None)
    if at is None or said.animals or said.has("goods", "feed", "manure", "calf", "cattle", "cow", "heifer"):
        return False
    number = next((item for item in items[at:] if item.sort == "number"), None)
    if number is None or number.unit is not None or number.hint or number.value >= MOST_SOLD:
        return False
    number.unit = "l"
    return True


def _split_at_rejection(piece: Piece) -> list[Piece]:
    """ "nimepeleka lita 18 wamekataa lita 3": what was refused is told beside what was handed in."""
    at = next((i for i, item in enumerate(piece.items) if item.has("reject") and not item.denied), None)
    if at is None or not any(item.has("deliver", "centre") for item in piece.items[:at]):
        return [piece]
    before, after = piece.items[:at], piece.items[at:]
    counted = all(any(item.sort == "number" for item in half) for half in (before, after))
    return [Piece(before, piece.joiner), Piece(after, " ")] if counted else [piece]


def pieces_of(items: Sequence[Item]) -> list[Piece]:
    """The pieces of a text."""
    return [
        small
        for piece in _pieces(items)
        for part in _split_at_subjects(piece)
        for told in _split_at_rejection(part)
        for verbs in _split_at_verbs(told)
        for small in _split_at_narrative(verbs)
    ]
