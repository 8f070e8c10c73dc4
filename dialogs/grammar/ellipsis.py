"""
Pieces that tell by what stands before them: "Tausi hana", "na Tausi pia", "na pumba 20000", "Tausi kilo 2".

Each function looks at one piece and at the items told before it, and says what it is or makes it whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dialogs.grammar.items import Item
from dialogs.grammar.pieces import JOINING, STRONG, Piece
from dialogs.grammar.said import Said
from dialogs.grammar.when import Day

_NO = frozenset({
    "hana", "hapana", "hakuna", "haina", "hamna", "bado", "sio", "siyo", "si", "not", "no", "none", "hayupo",
    "sawa", "mzima", "wazima", "fine", "ok", "okay", "salama", "hajambo", "isnt", "hasnt", "didnt",
    "wasnt", "doesnt", "never", "hajawa", "sivyo", "empty", "negative", "hawana",
})  # fmt: skip
_GROUPS = ("calf", "heifer", "calves_all", "heifers_all", "milking_all", "bull_animal", "steer")
_YES = frozenset({"ana", "anayo", "ndiyo", "ndio", "yes", "ipo", "wana", "wanayo", "positive", "kweli"})
_SAME = frozenset({
    "pia", "naye", "nae", "nao", "vilevile", "vile", "hivyo", "hivyohivyo", "too", "also", "same", "likewise",
    "aswell", "well", "so", "hicho", "hichohicho", "hiyohiyo", "kiasi", "hivyo hivyo", "amount", "quantity",
})  # fmt: skip
_BESIDE = frozenset({
    "the", "is", "has", "did", "does", "was", "as", "for", "ni", "kwa", "tu", "but", "yeye", "lakini", "with",
    "ya", "yuko", "yupo", "wako", "are", "were", "wa", "of", "a", "it", "kitu", "kabisa", "yet", "sasa",
    "bado",
    "now", "still", "not", "mimba",
})  # fmt: skip


def verdict(piece: Piece) -> str | None:
    """``yes``, ``no`` or ``same``, where a piece says nothing else of the animals it names; else None."""
    said: set[str] = set()
    for item in piece.items:
        if item.sort == "animal" or item.word in JOINING or item.has(*_GROUPS):
            continue
        if item.sort not in ("word", "cue") or item.word not in _NO | _YES | _SAME | _BESIDE:
            return None
        said.add(item.word)
    group = any(item.has(*_GROUPS) for item in piece.items)
    if not (piece.animals or (group and said & _NO)) or not said:
        return None
    for answer, told in (("no", _NO), ("same", _SAME), ("yes", _YES)):
        if said & told:
            return answer
    return None


def with_last_quantity(before: Sequence[Item], piece: Piece) -> Piece:
    """ "Neema 6 na Tausi pia": the same quantity for whom the piece names."""
    numbers = [item for item in before if item.sort == "number" and item.unit in (None, "l", "kg")]
    if not numbers:
        return piece
    return replace(piece, items=[*piece.items, replace(numbers[-1], ditto=True)])


_LEAVES_OUT = ("ila", "but", "lakini", "bali", "isipokuwa", "except")


def leaves_out(piece: Piece) -> bool:
    """ "Neema na Tausi, ila Pendo": names alone after a "but" are not of those told of."""
    names = all(item.sort == "animal" or item.word in (*JOINING, "sio", "si", "not") for item in piece.items)
    return bool(piece.animals) and names and piece.joiner in _LEAVES_OUT


_SHARED = {
    "weight": ("kg", None), "girth": ("cm", None), "condition": (None,), "feeding": ("kg", None),
    "deworming": ("ml", None),
    "pregnancy_check": ("month",),
}  # fmt: skip
"""Kinds told as a list of names and numbers after one word for all, and the units of those numbers."""


def lists_on(kind: str | None, before: Sequence[Item], piece: Piece) -> Piece | None:
    """A name and its number as one more of the kind told before: "Kito uzito 60 na Sumu 55"."""
    units = _SHARED.get(kind or "")
    numbers = [item for item in piece.items if item.sort == "number"]
    if units is None or not piece.animals or not numbers or any(n.unit not in units for n in numbers):
        return None
    plain = all(item.sort in ("animal", "number") or item.word in _BESIDE for item in piece.items)
    if not plain or not any(item.sort == "number" for item in before):
        return None
    if any(n.unit is None for n in numbers) and piece.joiner in STRONG:
        return None  # a sentence of its own: "... pumba kilo 20. Neema 6"
    for number in numbers:
        number.unit = number.unit or units[0]
    shared = [item for item in before if item.sort == "cue" and not item.denied]
    return replace(piece, items=[*shared, *piece.items], kind=kind)


def goes_on_paying(kind: str | None, before: Sequence[Item], piece: Piece) -> bool:
    """ "nimenunua chumvi 1500 na pumba 20000": another thing and its own sum."""
    if kind not in ("expense", "other_income") or not _sums(before):
        return False
    said = Said(piece.items)
    thing = said.has("feed", "product", "drug", "goods", "manure", "cost_noun", "deworm") or said.strange
    return bool(_sums(piece.items)) and thing and not said.has("whole_sum", "deduct", "pay", "sell", "buy")


def _sums(items: Sequence[Item]) -> list[Item]:
    return [
        item for item in items
        if item.sort == "number" and (item.unit == "money" or (item.unit is None and item.value >= 100))
    ]  # fmt: skip


def after_heading(kind: str | None, before: Sequence[Item], piece: Piece) -> bool:
    """ "uzito: Kito 45, Sumu 50": the first of a list after the word for all of it."""
    units = _SHARED.get(kind or "")
    numbers = [item for item in piece.items if item.sort == "number"]
    bare = not any(item.sort in ("animal", "number") for item in before)
    if units is None or piece.joiner != ":" or not bare or not piece.animals or not numbers:
        return False
    if any(item.unit not in units for item in numbers):
        return False
    for number in numbers:
        number.unit = number.unit or units[0]
    return True


_EVENTS = (
    "service", "vaccination", "deworming", "spraying", "treatment", "calving", "heat", "drying_off",
    "weaning", "death", "animal_sale", "abortion",
)  # fmt: skip


def own_days(kind: str | None, before: Sequence[Item], piece: Piece) -> list[Piece]:
    """ "vaccinated Neema yesterday and Tausi today", "Neema jana Tausi leo": each on her own day."""
    at = [i for i, item in enumerate(piece.items) if item.sort == "animal"]
    named = any(item.sort == "animal" for item in before)
    if kind not in _EVENTS or piece.kind not in (None, kind) or not at or at[0] != 0 or not named:
        return []
    parts = [piece.items[a:b] for a, b in zip(at, [*at[1:], len(piece.items)], strict=True)]
    bare = not any(item.sort == "cue" for item in piece.items)
    listed = (bare and len(parts) > 1) or (_dated(before) and (bare or len(parts) == 1))
    if not listed or not all(_dated(part) for part in parts):
        return []
    told = [i for i in before if i.sort == "cue" and not i.denied]
    shared = [i for i in told if not i.has("everyone", "female", "male")]
    return [replace(piece, items=[*shared, *part], kind=kind) for part in parts]


def _dated(items: Sequence[Item]) -> bool:
    return any(item.sort == "when" and isinstance(item.value, Day) for item in items)


def own_disease(kind: str | None, before: Sequence[Item], piece: Piece) -> Piece | None:
    """ "chanjo FMD Neema na Tausi, LSD Pendo": another disease for other animals."""
    both = all(
        _has_disease(items) and any(i.sort == "animal" for i in items) for items in (before, piece.items)
    )
    if kind != "vaccination" or not both:
        return None
    shared = [item for item in before if item.has("vaccinate") and item.starts("disease.") is None]
    return replace(piece, items=[*shared, *piece.items], kind=kind)


def _has_disease(items: Sequence[Item]) -> bool:
    return any(item.sort == "cue" and item.starts("disease.") is not None for item in items)


def own_sum(kind: str | None, before: Sequence[Item], piece: Piece) -> Piece | None:
    """ "nimeuza Mwezi 900000 na Kito 300000": another animal at a sum of its own."""
    if kind != "animal_sale" or not (_sums(before) and _sums(piece.items) and piece.animals):
        return None
    return replace(piece, items=[*(i for i in before if i.has("sell")), *piece.items], kind=kind)


def own_buyer(kind: str | None, before: Sequence[Item], piece: Piece) -> Piece | None:
    """ "nimemuuzia Ana lita 3 na Beni lita 4": another buyer and her own litres."""
    verb = next((i for i in before if i.has("sell") and i.prefix.endswith(("m", "mu", "mw", "wa"))), None)
    litres = any(i.sort == "number" and i.unit == "l" for i in piece.items)
    if kind != "milk_sale" or verb is None or not litres or piece.animals:
        return None
    first = piece.items[0]
    if first.sort != "word" or first.known:
        return None
    return replace(piece, items=[verb, *piece.items], kind=kind)


def own_load(kind: str | None, before: Sequence[Item], piece: Piece) -> Piece | None:
    """ "kituoni lita 22 asubuhi, lita 18 jioni": another load, at a time of its own."""
    both = (before, piece.items)
    loads = all(any(i.sort == "number" and i.unit in ("l", "kg", None) for i in items) for items in both)
    timed = all(any(i.sort == "when" for i in items) for items in both)
    if kind != "delivery" or not loads or not timed or piece.animals:
        return None
    if any(i.sort == "cue" and not i.has("unit.l", "unit.kg", "greeting", "milk") for i in piece.items):
        return None
    shared = [i for i in before if i.has("deliver", "centre")][:1]
    return replace(piece, items=[*shared, *piece.items], kind=kind)


def own_calves(kind: str | None, before: Sequence[Item], piece: Piece) -> list[Piece]:
    """ "Neema kazaa jike, Tausi dume": each cow her calf."""
    at = [i for i, item in enumerate(piece.items) if item.sort == "animal"]
    if kind != "calving" or not at or at[0] != 0 or not any(i.sort == "animal" for i in before):
        return []
    parts = [piece.items[a:b] for a, b in zip(at, [*at[1:], len(piece.items)], strict=True)]
    if not all(any(item.has("female", "male") for item in part[1:2]) for part in parts):
        return []
    shared = [item for item in before if item.has("calve") and not item.has("female", "male")][:1]
    return [replace(piece, items=[part[0], *shared, *part[1:]], kind=kind) for part in parts]
