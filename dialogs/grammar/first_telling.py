"""
The telling of the herd: names told enter it before what is told of them.

"Neema ana mimba miezi 5, Zawadi ananyonyesha, mtamba mmoja" enters Neema with her pregnancy, Zawadi as
milking, and a heifer under a working name until she is given one. A farm without animals is told so of any
text that says what its animals are; a herd that has some, where the text lists more ("nina mitamba ...").
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from dialogs.grammar import book
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, display, is_strange, subject_of
from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item
from dialogs.grammar.newcomers import FEMALE_KINDS, Register
from dialogs.grammar.pieces import STRONG, Piece
from dialogs.grammar.roll import (
    ATTRIBUTES,
    FACTS,
    HERS,
    MOST_COUNTED,
    NOUNS,
    after_another,
    count_of,
    is_name,
    pieces_of_herd,
)
from dialogs.grammar.said import Said
from dialogs.grammar.when import collect
from dialogs.grammar.words import VOCABULARY
from service.husbandry.forms import EVERY_ANIMAL

_STATES = ("milk", "drying_off", "new_animal", "naming", None)
"""Kinds that, without a quantity, only say what an animal is."""

_YOUNG = ("calf", "heifer", "bull_animal", "female", "male")
_NO_HERD = (
    "expense", "other_income", "milk_sale", "delivery", "milk_pay", "disinfection", "undo", "denied",
    "animal_sale", "death",
)  # fmt: skip
_ALL = ("both", "wote", "all", "zote")
_OF_ONE = re.compile(r"(?:ana|ame|aliye|anaye|haku|hana)[a-z]*|mkavu|mwenye|mjamzito|is|was|she|he|her")
_OF_SEVERAL = re.compile(
    r"(?:wana|wame|walio|wanao|hawa)[a-z]*|wakavu|wenye|wajawazito|are|both|all|wote|zote|majike|madume"
    r"|mitamba|cows|heifers|bulls|steers|milkers|milking_cows"
)


@dataclass(slots=True)
class _Heading:
    """What the names after it are: "mitamba miwili", "cows:". ``left``: names still to come."""

    items: list[Item]
    left: int
    noun: bool  # tells by itself that there are animals: "2 heifers", but not "ng'ombe 2"
    counted: bool
    used: bool = False


class _Telling:
    """Gathers what the pieces of a telling of the herd enter."""

    def __init__(self, scene: Scene, fill: Callable[[Clause, Scene], list[Found]]) -> None:
        self.scene = scene
        self.fill = fill
        self.register = Register(scene)
        self.headings: list[_Heading] = []
        self.group: list[str] = []  # names in a row of which nothing was told yet but their heading
        self.last: list[str] = []
        self.subjects: dict[str, Subject] = {}  # animals that the herd has already

    def take(self, piece: Piece, *, heads: bool) -> None:
        """*heads*: whether a colon follows, so that what is told is of the names to come."""
        kind = head_of(piece.items)
        if kind in _NO_HERD and not self._of_entered(piece.items):
            self._tell(piece.items, kind or "")
            return
        items, dam = self._without_dam(piece.items)
        kind = head_of(items)
        if piece.joiner == ".":
            self._end_group()
        named = self._named(items, kind)
        before = len(self.register.out)
        if named:
            self._take_named(named, items, kind)
        elif heads and Said(items).has(*ATTRIBUTES):
            self._take_heading(items, strong=piece.joiner in STRONG)
        else:
            self._take_unnamed(items, kind, dam)
        if dam is not None:
            for found in self.register.out[before:]:
                found.values.setdefault("dam", dam)
        said = Said(items)
        dated = kind == "drying_off" and any(item.sort == "when" for item in items)
        told = _litres(said) if kind == "milk" else dated or kind not in _STATES
        if kind is not None and told:
            self._tell(items, kind)

    def end(self) -> list[Found]:
        self._flush()
        self.register.share_price()
        for found in list(self.register.entered.values())[:1]:
            found.subjects = list(self.subjects.values())  # named beside the new ones, and taken in
        return self.register.out

    # Names

    def _take_named(self, named: list[Item], items: list[Item], kind: str | None) -> None:
        at = next(i for i, item in enumerate(items) if item is named[0])
        lead, rest = items[:at], items[at:]
        if Said(lead).has(*ATTRIBUTES):
            shared = self._shared(lead)
            self._flush()
            self._head([*lead, *shared])
            self.group = []
        own = [item for item in rest if not is_name(item)]
        tells = bool(Said(own).has(*NOUNS, *FACTS)) or kind not in _STATES or _measured(own)
        for item in named:
            self._enter(item, own, kind)
        self.last = [self._name(item) for item in named]
        if tells:
            self._spread(own, kind)
        else:
            self.last = list(self.group)

    def _spread(self, own: list[Item], kind: str | None) -> None:
        """What is told after a row of names is told of all, unless its form is that of one."""
        words = [item.word for item in own]
        several = any(_OF_SEVERAL.fullmatch(word) for word in words)
        one = any(_OF_ONE.fullmatch(word) for word in words)
        if several or not one:
            for name in self.group:
                self.register.add(name, own, kind, only=None if several else ("sex", "status"))
        if several:
            self.last = list(self.group)
        self.group = []

    def _enter(self, item: Item, own: list[Item], kind: str | None) -> None:
        name = self._name(item)
        self.group.append(name)
        if item.sort == "animal":
            self.subjects[name] = subject_of(item, self.scene)
            self._use_heading(own)
            return
        if name in self.register.entered:
            self.register.add(name, own, kind)
            return
        self.register.put(name, [*own, *self._use_heading(own)], kind)

    def _name(self, item: Item) -> str:
        if item.sort == "animal" and item.value is not None:
            return str(item.value.name)
        return display(self.scene.text, item)

    def _named(self, items: list[Item], kind: str | None) -> list[Item]:
        named = [i for at, i in enumerate(items) if is_name(i) and not after_another(items, at)]
        if kind == "new_animal" and not named:
            called = book.new_name(Clause(self.scene.text, kind, items))
            return [] if called is None else [called]
        if kind in ("new_animal", "naming", "service") or len(named) <= 1:
            return named[:1]
        return [i for i in named if i.capital or i is named[0] or i.word in VOCABULARY.names]

    # Headings

    def _head(self, items: list[Item]) -> None:
        said, count = Said(items), count_of(items)
        several = any(_OF_SEVERAL.fullmatch(item.word) or item.word == "ni" for item in items)
        noun = said.has(*NOUNS) or (said.has(*FACTS) and count > 0)
        cattle = not said.has(*NOUNS, *FACTS)
        left = count or (MOST_COUNTED if several or cattle else 1)
        self.headings.append(_Heading(items, left, noun, count > 0))

    def _use_heading(self, own: list[Item]) -> list[Item]:
        """What the heading says of one more name; [] where its own words say otherwise."""
        while self.headings and not self.headings[0].left:
            self.headings.pop(0)
        if not self.headings:
            return []
        heading, said, of = self.headings[0], Said(own), Said(self.headings[0].items)
        young = of.has("heifer", "calf", "bull_animal", "steer")
        other = said.has(*NOUNS) and not (of.has("calf") and not said.has("heifer", "cow", "steer"))
        if other or (young and said.has("milking", "dry_now", "milk")):
            return []
        heading.left -= 1
        heading.used = True
        return heading.items

    def _shared(self, items: list[Item]) -> list[Item]:
        """The noun of which *items* count some: "ng'ombe watatu: wawili wanakamuliwa"."""
        if Said(items).has("cattle", *NOUNS) or not self.headings or self.headings[-1].used:
            return []
        heading = self.headings[-1]
        heading.left = max(0, heading.left - max(1, count_of(items)))
        return [i for i in heading.items if i.sort == "cue"]

    def _flush(self) -> None:
        """Animals of a heading that no names came for: "mtamba mmoja", "2 heifers"."""
        for heading in self.headings:
            if heading.noun and not heading.used and heading.left:
                count = heading.left if heading.counted else 1
                self.last = self.register.put_unnamed(heading.items, min(count, MOST_COUNTED))
        self.headings = []

    def _end_group(self) -> None:
        self.group = []
        if any(heading.used for heading in self.headings):
            self.headings = []

    def _take_heading(self, items: list[Item], *, strong: bool) -> None:
        """ "Wakavu:", "Ng'ombe watatu:"; in "2 cows and a heifer:" the names are of both."""
        self.headings = [heading for heading in self.headings if not heading.used]
        if strong:
            self._flush()
        share = count_of(items) and not Said(items).has("cattle", *NOUNS)
        if share:
            items = [*items, *self._shared(items)]
            self.headings = []  # the rest of those counted are not told of
        self._head(items)
        self.group = []
        if not self.headings[-1].counted:
            self.headings[-1].left = MOST_COUNTED

    # Pieces without a name

    def _take_unnamed(self, items: list[Item], kind: str | None, dam: str | None) -> None:
        said, count = Said(items), count_of(items)
        if said.has("everyone"):
            for name in self.register.entered:
                self.register.add(name, items, kind)
            self.last = list(self.register.entered)
        elif count and not said.has(*NOUNS, "cattle") and self.last:
            self._of_some(items, count, kind)
        elif self.last and any(item.word in _ALL and (not count or item.word == "both") for item in items):
            self._describe_last(items, kind)
        elif said.has(*NOUNS, "cattle") and (count or dam or not self._describes_last()):
            self.group = []
            self._head(items)
            if dam is not None:
                self._flush()
        elif count and self.headings:
            self._part(items, count)
        elif not self.last and said.has(*ATTRIBUTES):
            self._head(items)
        else:
            self._describe_last(items, kind)

    def _part(self, items: list[Item], count: int) -> None:
        """Some of those counted: "mmoja anakamuliwa, wawili wakavu"."""
        heading = self.headings[-1]
        shared = [i for i in heading.items if i.sort == "cue"]
        heading.left = max(0, heading.left - count)
        facts = [i for i in items if i.sort != "number" or i.unit is not None]
        part = _Heading([*facts, *shared], count, noun=True, counted=True)
        self.headings.insert(len(self.headings) - 1, part)

    def _of_some(self, items: list[Item], count: int, kind: str | None) -> None:
        """ "Neema na Tausi, mmoja mkavu": of which one it is true is not told; of all it is."""
        whole = count >= len(self.last)
        for name in self.last:
            self.register.add(name, items, kind, only=None if whole else ("sex",))

    def _describes_last(self) -> bool:
        """ "Ng'ombe mpya Zawadi, mtamba": what she is, not another one."""
        entered = [self.register.entered[name].values for name in self.last if name in self.register.entered]
        return bool(entered) and any(
            all(values.get(key) is None for values in entered) for key in ("status", "sex")
        )

    def _describe_last(self, items: list[Item], kind: str | None) -> None:
        """A second piece about the same: "Neema, anakamuliwa", "Neema na Tausi, wanakamuliwa"."""
        one = any(_OF_ONE.fullmatch(item.word) for item in items)
        several = any(_OF_SEVERAL.fullmatch(item.word) for item in items)
        if self.group and one and not several and not any(h.used for h in self.headings):
            self.last = self.group[-1:]
        for name in self.last:
            self.register.add(name, items, kind)
        self.group = []

    def _of_entered(self, items: list[Item]) -> bool:
        return self._without_dam(items)[1] is not None

    def _without_dam(self, items: list[Item]) -> tuple[list[Item], str | None]:
        """*items* without the dam told by "of", and she: "ndama dume wa Neema", "na ndama wake"."""
        if any(item.has(HERS) for item in items) and len(self.last) == 1:
            return items, self.last[0]
        if not Said(items).has("calf", "heifer", "bull_animal"):
            return items, None
        for at in range(2, len(items)):
            item = items[at]
            if not is_name(item) or items[at - 1].word not in ("wa", "of"):
                continue
            name = self._name(item)
            if items[at - 2].has(*_YOUNG) and (item.sort == "animal" or name in self.register.entered):
                return [*items[: at - 1], *items[at + 1 :]], name
        return items, None

    def _tell(self, items: list[Item], kind: str) -> None:
        clause = Clause(self.scene.text, kind, items, collect(items))
        if kind == "pregnancy_check" and not clause.numbers("month") and self.register.all_in_calf(self.last):
            return  # an in-calf heifer is entered so
        for found in self.fill(clause, self.scene):
            several = len(self.last) > 1 and any(_OF_SEVERAL.fullmatch(item.word) for item in items)
            if not found.subjects or all(s.name in (None, EVERY_ANIMAL) for s in found.subjects) or several:
                found.subjects = [self.subjects.get(n, Subject(n)) for n in self.last] or found.subjects
            self.register.out.append(found)


def _measured(items: Sequence[Item]) -> bool:
    return any(i.sort == "number" and i.unit is not None for i in items)


def _litres(said: Said) -> bool:
    """Whether milk is told in a quantity, and not only that an animal is milked."""
    return bool(said.units & {"l", "kg"}) or (None in said.units and not count_of(said.items))


_KEEPS = ("nina", "tuna", "ninao", "tunao", "ninaye", "tunaye", "have", "own", "nafuga", "tunafuga")
_ARE = ("ni", "is", "are", "ndio", ":")
_OF_HERD = (*_STATES, "pregnancy_check")


def lists_herd(items: Sequence[Item], *, first: bool) -> bool:
    """
    Whether a text lists animals, whatever else its words could mean: "nina mitamba miwili Asha na Bahari".

    Args:
        items: Of the text, names only near to an animal's taken for new ones.
        first: Whether the farm has no animal yet.
    """
    at = next((i for i, item in enumerate(items) if is_name(item)), None)
    names = [item for item in items if is_strange(item)]
    if at is None or not names or any(item.word == "?" for item in items):
        return False
    lead, sure = items[:at], len(names) > 1 or names[0].capital or names[0].word in VOCABULARY.names
    noun = any(item.has(*NOUNS, "cattle") for item in items[:6])
    if noun and any(item.word in _KEEPS for item in items[:4]):
        after_noun = any(item.has(*NOUNS, "cattle") for item in lead)
        if not any(item.sort == "animal" for item in items):
            return sure or after_noun
        return sure and _tells_of_herd(items)
    if noun and len(names) > 1 and any(item.has("new", "buy") for item in items[:3]):
        return _tells_of_herd(items)
    are = any(item.word in _ARE or (first and item.has("named")) for item in lead[-1:])
    named = are and bool(Said(lead).has("cattle", *NOUNS, "named"))
    return named and sure and (first or _tells_of_herd(items))


def _tells_of_herd(items: Sequence[Item]) -> bool:
    return head_of(items) in _OF_HERD


def first_telling(
    items: list[Item], scene: Scene, fill: Callable[[Clause, Scene], list[Found]]
) -> list[Found] | None:
    """Entries of new animals and of what is told of them; None where nothing of the kind is told."""
    pieces = pieces_of_herd(scene.text, items)
    if not _enters(pieces):
        return None
    telling = _Telling(scene, fill)
    for piece, follows in zip(pieces, [*pieces[1:], None], strict=True):
        telling.take(piece, heads=follows is not None and follows.joiner == ":")
    found = telling.end()
    return found if telling.register.entered else None


def _enters(pieces: Sequence[Piece]) -> bool:
    """Whether pieces say what animals are, or are a row of their names."""
    items = [item for piece in pieces for item in piece.items]
    if Said(items).has(*ATTRIBUTES) or any(head_of(piece.items) in FEMALE_KINDS for piece in pieces):
        return True
    names = [item for item in items if is_name(item)]
    bare = all(is_name(item) and (item.capital or item.word in VOCABULARY.names) for item in items)
    return len(names) > 1 and (bare or Said(items).has("named"))
