"""
The farm's first telling: names told enter the herd before what is told of them.

"Neema ana mimba miezi 5, Zawadi ananyonyesha, mtamba mmoja" enters Neema with her pregnancy, Zawadi as
milking, and a heifer under a working name until she is given one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from dialogs.grammar import book
from dialogs.grammar.clauses import Clause, Piece, pieces_of
from dialogs.grammar.found import Found, Scene, Subject, display, is_strange
from dialogs.grammar.heads import Said, head_of
from dialogs.grammar.items import Item
from dialogs.grammar.when import collect
from service.husbandry.forms import EVERY_ANIMAL

_NOUNS = ("in_calf_heifer", "heifer", "steer", "calf", "bull_animal", "cow")
_ATTRIBUTES = (*_NOUNS, "cattle", "milking", "dry_now", "female", "male", "pregnant", "breed")
_STATES = ("milk", "drying_off", "new_animal", "naming", None)
"""Kinds that, without a quantity, only say what an animal is."""

_NO_HERD = (
    "expense",
    "other_income",
    "milk_sale",
    "delivery",
    "milk_pay",
    "disinfection",
    "undo",
    "denied",
    "animal_sale",
    "death",
)
_WORKING = {
    "heifer": ("Mtamba", "Heifer"),
    "in_calf_heifer": ("Mtamba", "Heifer"),
    "calf": ("Ndama", "Calf"),
    "bull": ("Dume", "Bull"),
    "steer": ("Maksai", "Steer"),
    "milking": ("Ng'ombe", "Cow"),
    "dry": ("Ng'ombe", "Cow"),
}
_MOST_UNNAMED = 20


class _Telling:
    """Gathers what the pieces of a first telling enter."""

    def __init__(self, scene: Scene, fill: Callable[[Clause, Scene], list[Found]]) -> None:
        self.scene = scene
        self.fill = fill
        self.out: list[Found] = []
        self.entered: dict[str, Found] = {}
        self.waiting: list[Item] = []  # names of a list whose common state is still to come
        self.last: list[str] = []
        self.heading: Clause | None = None  # "ng'ombe wawili Neema na Tausi": what a list of names is of
        self.to_come = 0  # names that the heading's number still promises

    def take(self, piece: Piece, *, more: bool) -> None:
        said, kind = Said(piece.items), head_of(piece.items)
        if kind in _NO_HERD:
            self._told(piece, kind)
            return
        named = self._named(piece, kind)
        listed = kind is None and named and more and not said.has(*_ATTRIBUTES)
        if listed and not self.to_come:
            self.waiting += named
            return
        clause = Clause(self.scene.text, kind or "", piece.items, collect(piece.items))
        if named:
            self._enter_named(named, clause, said)
        elif self.waiting and said.has(*_ATTRIBUTES) and not _counts(said):
            listed = self._of_list()
            for item in listed:
                self.enter(item, clause)
            self.last = [display(self.scene.text, item) for item in listed]
        elif not self.last or (said.has(*_NOUNS) and not self._describes_last(said)):
            self._unnamed(clause)
        else:
            self._add_to_last(clause)
        quantity = _litres(said) if kind == "milk" else kind not in _STATES
        if quantity and kind is not None:
            self._told(piece, kind)

    def _enter_named(self, named: list[Item], clause: Clause, said: Said) -> None:
        if self.to_come and self.heading is not None and not said.has(*_ATTRIBUTES):
            clause = self.heading
            self.to_come -= len(named)
        elif _counts(said):
            self.heading, self.to_come = clause, _counts(said) - len(named)
        for item in [*self._of_list(), *named]:
            self.enter(item, clause)
        self.last = [display(self.scene.text, item) for item in named]

    def _of_list(self) -> list[Item]:
        listed, self.waiting = self.waiting, []
        return listed

    def _named(self, piece: Piece, kind: str | None) -> list[Item]:
        items = piece.items
        named = [i for i in items if is_strange(i) and not _after_marker(items, i)]
        if kind == "new_animal" and not named:
            clause = Clause(self.scene.text, kind, items)
            called = book.new_name(clause)
            return [] if called is None else [called]
        if kind in ("new_animal", "naming") or len(named) <= 1:
            return named[:1]
        return [i for i in named if i.capital or i is named[0]]

    def enter(self, item: Item, clause: Clause) -> None:
        name = display(self.scene.text, item)
        if name in self.entered:
            return
        found = book.new_animal(clause, self.scene)[0]
        found.values["name"] = name
        self._put(name, found, clause)
        self.out += book.in_calf_too(clause, self.scene, found.values)

    def _put(self, name: str, found: Found, clause: Clause) -> None:
        values = found.values
        said = Said(clause.items)
        if values.get("sex") is None and clause.kind in _FEMALE_KINDS:
            values["sex"] = "female"
        if values.get("status") is None and (clause.kind == "milk" or said.has("milking")):
            values["status"] = "milking"
        self.entered[name] = found
        self.out.append(found)

    def _unnamed(self, clause: Clause) -> None:
        """ "mtamba mmoja", "2 heifers": animals under a working name."""
        noun = next((i for i in clause.items if i.sort == "cue" and i.has(*_NOUNS)), None)
        if noun is None:
            return
        number = next(
            (i for i in clause.items if i.sort == "number" and i.unit is None and i.value == int(i.value)),
            None,
        )
        count = 1 if number is None else min(int(number.value), _MOST_UNNAMED)
        self.last = []
        for _ in range(count):
            found = book.new_animal(clause, self.scene)[0]
            name = self._working_name(found.values, noun)
            found.values["name"] = name
            self._put(name, found, clause)
            self.last.append(name)

    def _working_name(self, values: dict[str, Any], noun: Item) -> str:
        swahili, english = _WORKING.get(values.get("status") or "milking", _WORKING["milking"])
        base = english if self.scene.text.votes.get("en", 0) > self.scene.text.votes.get("sw", 0) else swahili
        name, number = base, 1
        while name in self.entered:
            number += 1
            name = f"{base} {number}"
        return name

    def _describes_last(self, said: Said) -> bool:
        """ "Ng'ombe mpya Zawadi, mtamba": what she is, not another one; "mtamba mmoja" is another."""
        return said.count == 0 and all(self.entered[name].values.get("status") is None for name in self.last)

    def _add_to_last(self, clause: Clause) -> None:
        """A second piece about the same animal: "Neema, anakamuliwa"."""
        for name in self.last:
            values = self.entered[name].values
            more = book.new_animal(clause, self.scene)[0].values
            for key in ("sex", "status", "breed", "born", "dam"):
                if values.get(key) is None and more.get(key) is not None:
                    values[key] = more[key]
            if values.get("sex") is None and clause.kind in _FEMALE_KINDS:
                values["sex"] = "female"

    def _told(self, piece: Piece, kind: str) -> None:
        clause = Clause(self.scene.text, kind, piece.items, collect(piece.items))
        for found in self.fill(clause, self.scene):
            if not found.subjects or all(s.name in (None, EVERY_ANIMAL) for s in found.subjects):
                found.subjects = [Subject(name) for name in self.last] or found.subjects
            self.out.append(found)


def _counts(said: Said) -> int:
    """How many animals a piece counts: "ng'ombe wawili", "ndama mmoja"; 0 where it counts none."""
    if not said.has(*_NOUNS, "cattle"):
        return 0
    counts = [i.value for i in said.items if i.sort == "number" and i.unit is None and not i.hint]
    return int(counts[0]) if counts and 0 < counts[0] <= _MOST_UNNAMED else 0


def _litres(said: Said) -> bool:
    """Whether milk is told in a quantity, and not only that an animal is milked."""
    return bool(said.units & {"l", "kg"}) or (None in said.units and not said.has(*_NOUNS, "cattle"))


_FEMALE_KINDS = ("milk", "pregnancy_check", "calving", "service", "heat", "abortion", "drying_off")


def _after_marker(items: Sequence[Item], item: Item) -> bool:
    """A person or a dam, not a new animal."""
    at = next(i for i, other in enumerate(items) if other is item)
    before = items[at - 1] if at else None
    return before is not None and (
        before.has("dam", "sire_word", "technician", "vet", "straw", "breed_word")
        or before.word in ("by", "na")
    )


def first_telling(
    items: list[Item], scene: Scene, fill: Callable[[Clause, Scene], list[Found]]
) -> list[Found] | None:
    """Entries of new animals and of what is told of them; None where nothing of the kind is told."""
    pieces = pieces_of(items)
    told = any(item.has(*_ATTRIBUTES) for item in items if item.sort == "cue")
    if not told and not any(head_of(piece.items) in _FEMALE_KINDS for piece in pieces):
        return None
    telling = _Telling(scene, fill)
    for number, piece in enumerate(pieces):
        telling.take(piece, more=number + 1 < len(pieces))
    for item in telling.waiting:
        telling.enter(item, Clause(scene.text, "", []))
    return telling.out if telling.entered else None
