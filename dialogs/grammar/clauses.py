"""
A text cut into clauses: each with the kind it tells of, its own items, and what it takes from before.

A piece that names no kind of its own goes with its neighbour. Across clauses go the animal last named, and
a day told before the first of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from dialogs.grammar.groups import FUTURE, HERD_WORK, Group, given_what_was_named, grouped
from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item, Text
from dialogs.grammar.mood import DEEDS
from dialogs.grammar.pieces import STRONG, Piece, pieces_of
from dialogs.grammar.when import Day, When, collect


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
            item.has("future") or FUTURE.match(item.prefix)
            for item in self.items
            if item.sort == "cue" and not item.denied and not item.has("credit")
        )

    @property
    def done_before_to_come(self) -> bool:
        """Whether a deed done is told before one foretold: "alipandishwa jumatatu atazaa mei"."""
        for item in self.items:
            if item.sort != "cue":
                continue
            if item.has("future") or FUTURE.match(item.prefix):
                return False
            if item.prefix and item.has(*DEEDS) and not item.denied:
                return True
        return False

    def numbers(self, *units: str | None) -> list[Item]:
        return [item for item in self.items if item.sort == "number" and item.unit in units]

    def index(self, item: Item) -> int:
        return next(i for i, other in enumerate(self.items) if other is item)


def clauses(text: Text, items: Sequence[Item]) -> list[Clause]:
    """The clauses of *text*, in the order told."""
    pieces = pieces_of(items)
    for piece in pieces:
        piece.kind = head_of(piece.items)
    given_what_was_named(pieces)
    groups = grouped(pieces)
    if groups and all(group.kind is None for group in groups):
        groups = [Group(head_of(items), pieces)]  # only together do the pieces tell something
    return _carried(text, groups)


def _carried(text: Text, groups: list[Group]) -> list[Clause]:
    found: list[Clause] = []
    leading = When()
    heading: tuple[str, Day | None] | None = None
    last_animals: list[Item] = []
    for number, group in enumerate(groups):
        items = _flat(group.pieces)
        if group.kind is None:
            continue
        beside = group.pieces[0].joiner == " "  # told of the last animal, without a pause
        carried = last_animals[-1:] if beside else last_animals
        clause = Clause(text, group.kind, items, collect(items), list(carried))
        if number == 0 or group.pieces[0].joiner in STRONG:
            opening = _opening(items)
            leading = opening if opening else (leading if leading.day else When())
        if clause.when.day is None and leading.day is not None and clause.kind not in _DAYLESS:
            clause.when.day = leading.day
        if clause.when.day is None and heading is not None and clause.kind == heading[0]:
            clause.when.day = heading[1]
        if group.goes_on and found and clause.when.day is None:
            clause.when.day = found[-1].when.day
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


def _borrow(found: list[Clause], groups: list[Group]) -> None:
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
        and (clause.kind in HERD_WORK and after.kind in HERD_WORK)
    )
