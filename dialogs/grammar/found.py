"""What a clause tells of before it is checked: a kind, values, and the animals it is about."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from dialogs.grammar.clauses import Clause
from dialogs.grammar.items import Item, Text
from dialogs.grammar.names import Names, joined
from dialogs.grammar.place import Place
from dialogs.grammar.pronouns import speaks_of_one
from dialogs.grammar.when import Day, day_of
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Known, Status


@dataclass(frozen=True, slots=True)
class Subject:
    """An animal as named: known (perhaps by a slip), one of several that fit, or not of the herd."""

    name: str | None = None  # of the herd, or "*"
    known: Known | None = None
    near: bool = False
    fits: tuple[str, ...] = ()  # the name fits several
    unknown: str | None = None  # as written, if the herd has none such


@dataclass(slots=True)
class Found:
    """A telling of one kind. ``flags``: reasons to ask first; ``trouble``: (code, field) found on the way."""

    kind: type[Entry]
    values: dict[str, Any]
    subjects: list[Subject] = field(default_factory=list)
    flags: list[str] = field(default_factory=list)
    options: tuple[str, ...] = ()  # animals that are likely where none is named
    future: bool = False  # told of a time to come, though no day says so
    guessed: bool = False  # read with some doubt: recorded, and shown clearly


@dataclass(slots=True)
class Scene:
    """What reading a clause needs to know beside it."""

    text: Text
    names: Names
    now: datetime
    place: Place
    newcomers: list[Found] = field(default_factory=list)  # animals that the text itself enters


JOINERS = ("na", "and", "&", "n", ",", "+", "pamoja", "with", "plus")
_NAME_PREPOSITIONS = ("for", "of", "kwa", "wa", "ya", "la", "from", "za", "cha")


_VERBAL = re.compile(
    r"(?:nime|tume|wame|mme|nina|tuna|hatu|hawa|sija|haja|nili|tuli|wali)[a-z]{3,}|[a-z]{3,}(?:oni|eni)"
)
"""Kiswahili words that their form tells to be verbs: "nimempatia", "njooni"."""


def is_strange(item: Item) -> bool:
    """A word that may be a name: unknown to the vocabulary, and no verb by its form."""
    return item.sort == "tag" or (
        item.sort == "word"
        and not item.known
        and len(item.word) > 2
        and item.word.isalpha()
        and (item.capital or _VERBAL.fullmatch(item.word) is None)
    )


def _fresh(scene: Scene, name: str) -> bool:
    return any(found.values.get("name") == name for found in scene.newcomers)


def display(text: Text, item: Item) -> str:
    """A name as the farmer wrote it, a first capital given."""
    written = text.written(item.start, item.end).strip("'")
    return written[:1].upper() + written[1:] if written.islower() else _title(written)


def _title(written: str) -> str:
    return written.capitalize() if written.isupper() and written.isalpha() and len(written) > 2 else written


def subject_of(item: Item, scene: Scene) -> Subject:
    if item.sort == "animal":
        if item.value is not None:
            return Subject(item.value.name, item.value, item.near)
        return Subject(fits=tuple(dict.fromkeys(animal.name for animal in item.fits)))
    name = display(scene.text, item)
    return Subject(name) if scene.names.open or _fresh(scene, name) else Subject(unknown=name)


def subjects(clause: Clause, scene: Scene, used: Iterable[Item] = ()) -> list[Subject]:
    """
    The animals that *clause* is about, in the order told; [] if none is named or carried.

    Items in *used* play another part (a sire, a buyer). "all but Neema" is listed by name.
    """
    taken = {id(item) for item in used}
    items = [item for item in clause.items if id(item) not in taken]
    if any(item.has("except") and not item.denied for item in items) and _whole_group(items):
        return _all_but(clause, items, scene)
    found = relation(clause, items, scene)
    if found is not None:
        return found
    if any(item.has("one_of") for item in items) and not any(item.sort == "animal" for item in items):
        return []
    named = _named(items, scene)
    if named and clause.kind in _OF_MANY:
        named += [s for s in _joined_group(items, scene) if s not in named]
    groups = [] if clause.kind == "calving" else _group_of(items, scene)  # "calved two heifers"
    group = [s for s in groups if not (named and s.name == EVERY_ANIMAL)]
    found = [*group, *(s for s in named if s not in group)]
    if found:
        return found
    strange = _strange(clause, items, scene)
    if strange:
        return strange
    if _generic(items):
        return []
    carried = [s for item in clause.carried for s in _of_carried(item, scene)]
    names = tuple(dict.fromkeys(s.name for s in carried if s.name))
    return [Subject(fits=names)] if len(names) > 1 and speaks_of_one(clause) else carried


_OF_MANY = ("spraying", "deworming", "vaccination", "feeding", "treatment")


def _joined_group(items: Sequence[Item], scene: Scene) -> list[Subject]:
    """ "nimeogesha Neema, Tausi na ndama": the group that a list of names ends in."""
    for before, item in itertools.pairwise(items):
        noun = next((g for g in ("calf", "heifer") if item.has(g) and not item.has("dam")), None)
        if before.word in JOINERS and noun == "calf" and _is_hers(items, item):
            cow = next((i for i in items if i.sort == "animal" and i.value is not None), None)
            return [] if cow is None else _calf(cow, scene) or [Subject(fits=scene.names.group("calf"))]
        if before.word in JOINERS and noun is not None and not item.has("calves_all", "heifers_all"):
            return [Subject(n, scene.names.by_name.get(joined(n))) for n in scene.names.group(noun)]
    return []


def _is_hers(items: Sequence[Item], noun: Item) -> bool:
    """ "na ndama wake": the calf of the cow named before."""
    at = next(i for i, item in enumerate(items) if item is noun)
    return any(item.word in ("wake", "her", "his") for item in items[at + 1 : at + 2])


def _of_carried(item: Item, scene: Scene) -> list[Subject]:
    return [Subject(EVERY_ANIMAL)] if item.has("everyone") else [subject_of(item, scene)]


def _named(items: Sequence[Item], scene: Scene) -> list[Subject]:
    found = []
    for index, item in enumerate(items):
        if item.sort == "animal" or (is_strange(item) and in_list(items, index)):
            found.append(subject_of(item, scene))
    unique: list[Subject] = []
    for subject in found:
        if subject not in unique:
            unique.append(subject)
    return unique


def in_list(items: Sequence[Item], index: int) -> bool:
    """Whether a word stands alone in one list with a name: "Neema na Furaha", not "sad news, Neema"."""

    def joins(mark: int, other: int) -> bool:
        return 0 <= mark < len(items) and 0 <= other < len(items) and items[mark].word in JOINERS and (
            items[other].sort == "animal")  # fmt: skip

    if joins(index - 1, index - 2):
        return (
            items[index - 1].word != ","
            or items[index].capital
            or items[index].sort == "tag"
            or index + 1 == len(items)
        )
    alone = index == 0 or items[index - 1].sort == "mark" or items[index - 1].sort == "when"
    return alone and joins(index + 1, index + 2)


_GROUPS = ("calves_all", "heifers_all", "milking_all", "dry_now")


def _whole_group(items: Sequence[Item]) -> bool:
    return any(item.has("everyone", *_GROUPS) for item in items)


def _group_of(items: Sequence[Item], scene: Scene) -> list[Subject]:
    for item in items:
        if item.sort != "cue" or item.denied:
            continue
        for group in _GROUPS:
            if item.has(group) and scene.names.herd and not (group == "dry_now" and item.word != "dry_cows"):
                names = scene.names.group(group)
                if names:
                    return [Subject(name, scene.names.by_name.get(joined(name))) for name in names]
        if item.has("everyone"):
            return [Subject(EVERY_ANIMAL)]
    return []


def _all_but(clause: Clause, items: Sequence[Item], scene: Scene) -> list[Subject]:
    at = next(i for i, item in enumerate(items) if item.has("except"))
    left_out = {item.value.name for item in items[at:] if item.sort == "animal" and item.value is not None}
    whole, rest = items[: at + 1], items[at + 1 :]
    if not any(item.has("everyone", *_GROUPS) for item in whole):
        whole, rest = items, []  # "isipokuwa Neema, wote ..."
    if any(item.has("pregnant", "dry", "unwell") for item in rest):
        return [Subject(fits=scene.names.all_names())]  # "except those in calf": who they are is asked
    for item in rest:
        groups = (g for g in (*_GROUPS, "calf", "heifer", "bull_animal", "steer") if item.has(g))
        left_out.update(name for group in groups for name in scene.names.group(group))
    group = next((g for item in whole for g in _GROUPS if item.has(g)), None)
    names = scene.names.group(group) if group else scene.names.all_names()
    chosen = [Subject(name, scene.names.by_name.get(joined(name))) for name in names if name not in left_out]
    unsure = [
        subject_of(item, scene)
        for item in items[at:]
        if (item.sort == "animal" and item.value is None) or (is_strange(item) and item.capital)
    ]
    if not unsure and clause.kind in _ONE_AT_A_TIME:
        return [Subject(fits=tuple(s.name for s in chosen if s.name))]
    return unsure or chosen or [Subject(EVERY_ANIMAL)]


_ONE_AT_A_TIME = (
    "heat", "service", "calving", "abortion", "death", "animal_sale", "girth", "weight", "condition",
    "naming",
)  # fmt: skip
"""Kinds that are hardly told of a whole herd but for one: which are meant is asked."""


def relation(clause: Clause, items: Sequence[Item], scene: Scene) -> list[Subject] | None:
    """ "ndama wa Neema", "mama wa Kito", "Neema's calf": an animal named through another."""
    if clause.kind in ("calving", "new_animal", "abortion"):
        return None
    for index, item in enumerate(items):
        follows = items[index + 1 : index + 3]
        if item.has("dam", "calf") and follows and not item.denied:
            other = next((o for o in follows[:2] if o.sort == "animal"), None)
            between = follows[0].word in ("wa", "of", "ya") or other is follows[0]
            if other is follows[0] and other is not None and _is_young(other) and item.has("calf"):
                return None  # "ndama Kito" is Kito
            if other is not None and between and other.value is not None:
                if item.word in ("mama", "mother", "dam"):  # but "mama Zawadi" is Zawadi herself
                    of = item.end - item.start > 1 or other is not follows[0]
                    return _mother(other, scene) if of or clause.kind != "milk" else None
                if item.has("calf") or item.word in _OFFSPRING:
                    return _calf(other, scene)
        if (
            item.sort == "animal"
            and item.value is not None
            and follows
            and follows[0].has("calf")
            and (
                clause.text.raw[
                    clause.text.tokens[item.end - 1].start : clause.text.tokens[item.end - 1].end
                ].endswith("s")
            )
        ):
            return _calf(item, scene)
    return None


def _is_young(item: Item) -> bool:
    return item.value is not None and item.value.status is Status.CALF


_OFFSPRING = ("calf", "ndama", "mtoto", "binti", "son", "daughter")


def _mother(item: Item, scene: Scene) -> list[Subject]:
    dam = item.value.dam
    known = scene.names.by_name.get(joined(dam)) if dam else None
    return [Subject(known.name, known)] if known else []


def _calf(item: Item, scene: Scene) -> list[Subject]:
    """The calf of the cow named: by its dam, or by the working name it was born under."""
    young = [a for a in scene.names.herd if a.dam == item.value.name]
    calves = [a for a in young if a.status is Status.CALF] or young
    if not calves:
        calves = [a for a in scene.names.herd if _working_name_of(a.name.lower(), item.value.name.lower())]
    if len(calves) == 1:
        return [Subject(calves[0].name, calves[0])]
    return [Subject(fits=tuple(a.name for a in calves))] if calves else []


def _working_name_of(name: str, dam: str) -> bool:
    """Whether *name* is "<dam> calf", the dam's name cut where it is long."""
    begins, calf, _ = name.partition(" calf")
    return bool(calf) and dam.startswith(begins) and len(begins) >= min(len(dam), _LEAST_OF_DAM)


_LEAST_OF_DAM = 5
"""Letters of a dam's name that a calf's working name keeps at least."""

_NOUN_GROUPS = ("in_calf_heifer", "calf", "bull_animal", "bull", "steer", "heifer", "cow", "cattle")


def _generic(items: Sequence[Item]) -> bool:
    """Whether an animal is spoken of without its name: "ng'ombe wangu", "the calf"."""
    return any(item.sort == "cue" and item.has(*_NOUN_GROUPS) for item in items)


def likely(clause: Clause, scene: Scene) -> tuple[str, ...]:
    """Names that a word such as "ndama" or "the bull" can mean; all of the herd where nothing is said."""
    for item in clause.items:
        if item.sort != "cue":
            continue
        if item.has("dam") and item.word in ("calf", "ndama"):
            return scene.names.group("calf")
        for noun in ("in_calf_heifer", "calf", "bull_animal", "steer", "heifer"):
            if item.has(noun):
                return scene.names.group(noun)
    return ()


def _strange(clause: Clause, items: Sequence[Item], scene: Scene) -> list[Subject]:
    """A name that the herd has not, where a name would stand."""
    found = []
    for index, item in enumerate(items):
        if not is_strange(item):
            continue
        before = items[index - 1] if index else None
        opens = before is None or before.sort == "mark" or before.has("greeting") or before.sort == "when"
        after_word = before is not None and before.word in _NAME_PREPOSITIONS
        after_cue = before is not None and before.sort == "cue"
        mixed = not clause.text.raw.isupper() and not clause.text.raw.islower()
        if item.sort == "tag" or opens or after_word or after_cue or item.capital or in_list(items, index):
            if (
                item.sort == "word"
                and mixed
                and not item.capital
                and not opens
                and not after_word
                and not after_cue
            ):
                continue
            found.append(item)
    if not found:
        found = [i for n, i in enumerate(items) if n == 0 and _perhaps_a_name(i)]
    return [subject_of(item, scene) for item in found[:1]] + [
        subject_of(item, scene) for item in found[1:] if _listed(items, item)
    ]


def _perhaps_a_name(item: Item) -> bool:
    """A first word taken for a misspelt other one, where no name is found: "Daisy" is not "daily"."""
    return (
        item.corrected
        and item.sort in ("word", "cue")
        and not item.prefix
        and not item.has(
            "milk",
            "heat",
            "greeting",
            "serve",
            "unit.l",
            "calve",
            "deworm",
            "spray",
            "vaccinate",
            "treat",
            "pregnant",
        )
    )


def _listed(items: Sequence[Item], item: Item) -> bool:
    at = next(i for i, other in enumerate(items) if other is item)
    return at >= 2 and items[at - 1].word in JOINERS and is_strange(items[at - 2])


def day_values(clause: Clause, scene: Scene) -> dict[str, Any]:
    """``on`` and, where only its neighbourhood is told, ``about``."""
    return as_values(day_of(clause.when, scene.now))


def as_values(day: Day) -> dict[str, Any]:
    return {"on": day.on, "about": True} if day.about else {"on": day.on}


def cows_of(scene: Scene) -> tuple[str, ...]:
    """The grown females of the herd."""
    return tuple(
        a.name for a in scene.names.herd
        if a.status in (Status.MILKING, Status.DRY, Status.HEIFER, Status.IN_CALF_HEIFER)
    )  # fmt: skip
