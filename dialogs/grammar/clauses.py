"""
A text cut into clauses: each with the kind it tells of, its own items, and what it takes from before.

Commas, full stops and "and" part a text into pieces; a piece that names no kind of its own goes with its
neighbour. Across clauses go the animal last named, and a day told before the first of them.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from dialogs.grammar.heads import Said, head_of
from dialogs.grammar.items import Item, Text
from dialogs.grammar.when import Day, When, collect

_FUTURE = re.compile(r"(?:ni|u|a|tu|m|wa|i|li|ya|zi)ta")
_STRONG = ".;\n!?"
_JOINING = ("na", "and", "&", "n")


@dataclass(slots=True)
class Piece:
    """What stands between two separators; ``joiner`` is the one before it."""

    items: list[Item]
    joiner: str = ""
    kind: str | None = None

    @property
    def animals(self) -> list[Item]:
        return [item for item in self.items if item.sort == "animal"]


@dataclass(slots=True)
class Clause:
    """One telling."""

    text: Text
    kind: str
    items: list[Item]
    when: When = field(default_factory=When)
    carried: list[Item] = field(default_factory=list)  # animals named before, if it names none itself

    def cues(self, *concepts: str) -> list[Item]:
        return [item for item in self.items if item.sort == "cue" and item.has(*concepts)]

    def has(self, *concepts: str) -> bool:
        """Whether one of *concepts* is said and not denied."""
        return any(not item.denied for item in self.cues(*concepts))

    def says(self, *concepts: str) -> bool:
        return bool(self.cues(*concepts))

    def signs(self, prefix: str) -> tuple[str, ...]:
        """The signs named, in the order told, without what is denied."""
        found: list[str] = []
        for item in self.items:
            if item.sort != "cue" or item.denied:
                continue
            sign = item.starts(prefix)
            if sign is not None and sign not in found:
                found.append(sign)
        return tuple(found)

    @property
    def to_come(self) -> bool:
        """Whether it is told of the future: atazaa, "will calve"."""
        return any(
            item.has("future") or _FUTURE.match(item.prefix)
            for item in self.items
            if item.sort == "cue" and not item.denied
        )

    def numbers(self, *units: str | None) -> list[Item]:
        return [item for item in self.items if item.sort == "number" and item.unit in units]

    def index(self, item: Item) -> int:
        return next(i for i, other in enumerate(self.items) if other is item)


def _pieces(items: Sequence[Item]) -> list[Piece]:
    pieces: list[Piece] = [Piece([])]
    for item in items:
        separates = (item.sort == "mark" and item.word not in "@#'\"()*&=%/\\") or item.word in _JOINING or (
            item.sort == "cue" and item.has("then", "but") and not item.has("later", "except", "deduct")
        )  # fmt: skip
        if not separates:
            pieces[-1].items.append(item)
        elif pieces[-1].items:
            pieces.append(Piece([], item.word))
        elif item.word in _STRONG or pieces[-1].joiner not in _STRONG:
            pieces[-1].joiner = item.word
    return [piece for piece in pieces if piece.items]


def _split_at_subjects(piece: Piece) -> list[Piece]:
    """ "Neema amezaa jike Zawadi ana joto": a second animal with a kind of its own begins a piece."""
    animals = [i for i, item in enumerate(piece.items) if item.sort == "animal"]
    for second in animals[1:]:
        before, after = piece.items[:second], piece.items[second:]
        previous = piece.items[second - 1]
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
    ("milk", "service"), ("milk", "treatment"), ("milk", "pregnancy_check"), ("calving", "illness"),
})  # fmt: skip
"""Pairs of kinds that are told one after the other without a separator: "Neema 6 ana joto"."""


_STARTS_ANEW = (
    "serve", "ai", "mounted", "sell", "deliver", "heat", "mating", "treat", "pregnant", "empty", "unwell",
    "product",
)  # fmt: skip


def _split_at_verbs(piece: Piece) -> list[Piece]:
    if not piece.animals:
        return [piece]
    for at in range(1, len(piece.items)):
        item = piece.items[at]
        if not item.has(*_STARTS_ANEW) and item.starts("sign.") is None and item.starts("heat.") is None:
            continue
        before, after = piece.items[:at], piece.items[at:]
        pair = (head_of(before), head_of(after))
        if pair not in _TWO_IN_ONE or not any(i.sort == "animal" for i in before):
            continue
        if pair[0] == "milk" and not any(i.sort == "number" for i in before):
            continue
        if pair[0] == "calving" and not any(i.has("female", "male", "calf") for i in before):
            continue
        return [Piece(before, piece.joiner), Piece(after, " ")]
    return [piece]


def pieces_of(items: Sequence[Item]) -> list[Piece]:
    """The pieces of a text."""
    return [
        small
        for piece in _pieces(items)
        for part in _split_at_subjects(piece)
        for small in _split_at_verbs(part)
    ]


def clauses(text: Text, items: Sequence[Item]) -> list[Clause]:
    """The clauses of *text*, in the order told."""
    pieces = pieces_of(items)
    for piece in pieces:
        piece.kind = head_of(piece.items)
    _given_what_was_named(pieces)
    groups = _grouped(pieces)
    if groups and all(group.kind is None for group in groups):
        groups = [_Group(head_of(items), pieces)]  # only together do the pieces tell something
    return _carried(text, groups)


def _given_what_was_named(pieces: list[Piece]) -> None:
    """ "nimenunua dawa ya minyoo na kuwapa ndama": what is given was named in the piece before."""
    for before, piece in itertools.pairwise(pieces):
        said = Said(piece.items)
        to_another = any(item.word in ("to", "kwa") for item in piece.items) and "l" in said.units
        if before.kind == "milk_sale" and piece.kind == "milk" and to_another and not piece.animals:
            piece.kind = "milk_sale"  # "3 litres to Asha and 4 litres to Juma"
        if piece.kind is None and said.has("give") and said.names_cattle:
            named = Said(before.items)
            piece.kind = (
                "deworming" if named.has("deworm") else "treatment" if named.has("drug", "product") else None
            )


@dataclass(slots=True)
class _Group:
    kind: str | None
    pieces: list[Piece]


def _grouped(pieces: list[Piece]) -> list[_Group]:
    groups: list[_Group] = []
    waiting: list[Piece] = []
    for index, piece in enumerate(pieces):
        current = groups[-1] if groups else None
        kind = piece.kind
        if kind is None and current is None:
            waiting.append(piece)
        elif kind is None and current is not None:
            if _of_the_future(piece):
                continue
            if _goes_forward(pieces, index, current):
                waiting.append(piece)
            else:
                current.pieces += [*waiting, piece]
                waiting = []
        elif current is not None and not waiting and _belongs(piece, current):
            current.pieces.append(piece)
        elif current is not None and not waiting and _unfinished(piece, current):
            current.pieces.append(piece)
            current.kind = kind
        else:
            groups.append(_Group(kind, [*waiting, piece]))
            waiting = []
    if waiting:
        groups.append(_Group(None, waiting)) if not groups else groups[-1].pieces.extend(waiting)
    return groups


def _of_the_future(piece: Piece) -> bool:
    """Small talk about what is to come: "kesho nitapiga simu"."""
    return any(
        _FUTURE.match(item.prefix) for item in piece.items if item.sort in ("cue", "word") and item.prefix
    )


def _only_names(piece: Piece) -> bool:
    return all(
        item.sort == "animal"
        or item.has("everyone", "part.x")
        or item.word in ("pamoja", "with", "the", "my")
        or (item.sort in ("word", "tag") and not item.known)
        for item in piece.items
    )


def _only_time(piece: Piece) -> bool:
    return all(item.sort == "when" or item.has("when.since", "when.on", "when.about") for item in piece.items)


def _goes_forward(pieces: list[Piece], index: int, current: _Group) -> bool:
    """
    Whether a piece without a kind belongs to what follows: a name whose verb comes after "and" or a
    comma ("..., Zawadi na Pendo wana joto"), or a time that opens a sentence.
    """
    piece = pieces[index]
    follows = pieces[index + 1] if index + 1 < len(pieces) else None
    if follows is None:
        return False
    if _only_time(piece) and piece.joiner and (piece.joiner in _STRONG or current.kind == "milk"):
        return True
    if not _only_names(piece):
        return False
    if follows.kind is None:
        return _goes_forward(pieces, index + 1, current)
    return bool(follows.items) and follows.items[0].sort == "animal" and follows.kind != current.kind


def _belongs(piece: Piece, current: _Group) -> bool:
    """Whether a piece that names a kind still goes on with the clause before it."""
    kind, before = piece.kind, current.kind
    own_animal = any(item.sort == "animal" for item in piece.items)
    own_day = any(item.sort == "when" and isinstance(item.value, Day) for item in piece.items)
    had_day = any(
        item.sort == "when" and isinstance(item.value, Day) for p in current.pieces for item in p.items
    )
    had_animal = any(item.sort == "animal" for p in current.pieces for item in p.items)
    if kind == before == "delivery" and any(item.has("reject") for item in piece.items):
        return not any(item.sort == "number" for item in piece.items)  # "took 20 litres, 3 rejected"
    if kind == before and _one_list(piece, current):
        return True
    if before in _HERD_WORK and kind == "treatment" and _lists_on(piece, current):
        return not any(item.has("treat") for item in piece.items)
    if kind == before:
        if own_animal and not had_animal and kind in ("illness", "heat", "pregnancy_check", "vaccination"):
            return True
        if kind in ("expense", "other_income", "milk_sale", "animal_sale", "setting", "contact"):
            return not any(item.sort in ("number", "animal") for item in piece.items)
        if kind == "new_animal":
            return False
        return not own_animal and not (own_day and had_day)
    if before == "calving" and kind == "death":
        return not own_animal
    if before == "calving" and kind == "naming":
        return not own_animal
    if before == "treatment" and kind == "illness" and piece.joiner not in _STRONG:
        return not own_animal
    if (
        before in _HERD_WORK
        and kind in ("milk_sale", "milk", "animal_sale", "treatment")
        and any(item.has("hold", "meat") for item in piece.items)
    ):
        return not own_animal
    if before in ("vaccination", "deworming", "spraying") and kind == "treatment":
        return not own_animal
    if before == "service" and kind == "expense":
        return not own_animal and not any(item.has("buy") for item in piece.items)
    if before == "heat" and kind == "illness":
        return not own_animal
    if before == "illness" and kind == "heat":
        return not own_animal
    if before == "milk_pay" and any(item.has("deduct") for item in piece.items):
        return not own_animal
    if before == "milk_pay" and kind not in ("milk_pay", "heat", "service", "calving", "illness"):
        return not own_animal
    if before == "delivery" and kind == "milk":
        return not own_animal
    if before == "milk_sale" and kind in ("expense", "milk", "other_income", "milk_pay"):
        return not own_animal
    if before == "animal_sale" and kind in ("other_income", "expense"):
        return not own_animal
    if before == "new_animal" and kind in ("milk", "drying_off"):  # "New cow Tausi, milking"
        return not own_animal and not any(item.sort == "number" for item in piece.items)
    if before == "new_animal" and kind in ("expense", "naming", "animal_sale"):
        return True
    if before == "death" and kind == "illness":
        return not own_animal
    return False


_ONE_EVENT = ("heat", "drying_off", "weaning", "abortion", "calving", "death", "animal_sale")
"""Kinds that a second piece about the same animal only tells more of."""


def _lists_on(piece: Piece, current: _Group) -> bool:
    """Whether the separator before a piece cut a list of names."""
    last = current.pieces[-1].items[-1]
    return piece.joiner in (*_JOINING, ",") and last.sort == "animal" and piece.items[0].sort == "animal"


def _one_list(piece: Piece, current: _Group) -> bool:
    """All milk is one run; so is a list of names that the separator cut: "fed Neema and Tausi 3 kg each"."""
    if current.kind in _ONE_EVENT and not piece.animals:
        return True
    return current.kind == "milk" or _lists_on(piece, current)


def _unfinished(piece: Piece, current: _Group) -> bool:
    """ "Gave Pendo and Tausi 2 kg meal each": what was given comes after the second name."""
    items = [item for p in current.pieces for item in p.items]
    listed = (
        piece.joiner in (*_JOINING, ",") and items[-1].sort == "animal" and piece.items[0].sort == "animal"
    )
    open_ended = current.kind == "milk" and not any(item.sort == "number" for item in items)
    return open_ended and (listed or (piece.kind == "illness" and not piece.animals))


def _carried(text: Text, groups: list[_Group]) -> list[Clause]:
    found: list[Clause] = []
    leading = When()
    heading: tuple[str, Day | None] | None = None
    last_animals: list[Item] = []
    for number, group in enumerate(groups):
        items = _flat(group.pieces)
        if group.kind is None:
            continue
        clause = Clause(text, group.kind, items, collect(items), list(last_animals))
        if number == 0 or group.pieces[0].joiner in _STRONG:
            opening = _opening(items)
            leading = opening if opening else (leading if leading.day else When())
        if clause.when.day is None and leading.day is not None and clause.kind not in _DAYLESS:
            clause.when.day = leading.day
        if clause.when.day is None and heading is not None and clause.kind == heading[0]:
            clause.when.day = heading[1]
        if number == 0:
            heading = _heading(clause)
        found.append(clause)
        animals = [item for item in items if item.sort == "animal" or item.has("everyone")]
        last_animals = animals or last_animals
    _borrow(found, groups)
    return found


def _heading(clause: Clause) -> tuple[str, Day | None]:
    """Kind and day of a list's head ("PD yesterday: A12 positive, 0417 negative")."""
    first = next((i for i, item in enumerate(clause.items) if item.sort == "animal"), 0)
    return clause.kind, collect(clause.items[:first]).day


_DAYLESS = ("setting", "contact", "undo")


def _flat(pieces: Sequence[Piece]) -> list[Item]:
    """The items of pieces in one row, with their separators between them."""
    items: list[Item] = []
    for piece in pieces:
        if items and piece.joiner.strip() != "":
            items.append(Item("mark", piece.items[0].start, piece.items[0].start, piece.joiner))
        elif items and piece.joiner == "\n":
            items.append(Item("mark", piece.items[0].start, piece.items[0].start, "."))
        items += piece.items
    return items


def _opening(items: Sequence[Item]) -> When:
    """A time told before anything else: it holds for what follows too."""
    opening: list[Item] = []
    for item in items:
        if item.sort == "when":
            opening.append(item)
        elif not (item.sort == "mark" or item.has("greeting", "when.since", "when.on", "when.about")):
            break
    return collect(opening)


def _borrow(found: list[Clause], groups: list[_Group]) -> None:
    """ "nimeogesha na kuwapa dawa ya minyoo Kito jana": a first verb takes what the last one is given."""
    for clause, after in zip(reversed(found[:-1]), reversed(found[1:]), strict=True):
        verb = next((item for item in after.items if item.sort == "cue"), None)
        if verb is None or not (verb.prefix.startswith("ku") or _english_pair(clause, after)):
            continue
        own = any(item.sort == "animal" or item.has("everyone") for item in clause.items)
        if not own and not clause.carried:
            clause.carried = [item for item in after.items if item.sort == "animal" or item.has("everyone")]
        if clause.when.day is None and not own:
            clause.when.day = after.when.day


def _english_pair(clause: Clause, after: Clause) -> bool:
    """ "sprayed and dewormed all cows yesterday"."""
    return (
        bool(clause.items)
        and bool(after.items)
        and after.items[0].sort == "cue"
        and (clause.kind in _HERD_WORK and after.kind in _HERD_WORK)
    )


_HERD_WORK = ("spraying", "deworming", "vaccination", "treatment")
