"""The bull that goes with the herd or with some of its cows, and leaves it again."""

from __future__ import annotations

from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, cows_of, day_values, subjects
from dialogs.grammar.heads_apart import bull_of
from dialogs.grammar.items import Item
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.herd import Sex, Status
from service.husbandry.kinds import BullLeft, Service


def running(clause: Clause, scene: Scene) -> list[Found]:
    """A bull that goes with the cows named, or with all of the herd that can be served."""
    sire, who = _bull_andcows_of(clause, scene)
    values: dict[str, Any] = {
        **day_values(clause, scene), "method": "bull", "sire": sire, "running": True,
        "cost": slots.first_sum(clause, scene),
    }  # fmt: skip
    return [Found(Service, values, _served_of_herd(clause, scene, who), [], cows_of(scene))]


def _bull_andcows_of(clause: Clause, scene: Scene) -> tuple[str | None, list[Subject]]:
    """The bull's name, where one is told, and the cows named beside him."""
    bull = bull_of(clause.items)
    used = [] if bull is None else [bull]
    sire = None
    if bull is not None and bull.sort == "animal":
        sire = str(bull.value.name)
    elif bull is not None:
        named = slots.name_after(clause, clause.index(bull))
        if named is not None and not _names_a_cow(named[1][0]):
            sire = named[0]
            used += named[1]
    return sire, [s for s in subjects(clause, scene, used) if not _is_bull(s)]


def _is_bull(subject: Subject) -> bool:
    return subject.known is not None and subject.known.status is Status.BULL


def _served_of_herd(clause: Clause, scene: Scene, who: list[Subject]) -> list[Subject]:
    """Those named; of "all", or of the herd, the cows and heifers that can be served."""
    everyone = any(s.name == EVERY_ANIMAL for s in who) or (not who and _speaks_of_herd(clause))
    if not everyone or not scene.names.herd:
        return who
    return [
        Subject(a.name, a)
        for a in scene.names.herd
        if a.status in (Status.MILKING, Status.DRY, Status.HEIFER) and a.sex is not Sex.MALE and not a.in_calf
    ]


def _speaks_of_herd(clause: Clause) -> bool:
    if clause.says("cattle", "cow", "everyone", "ask_herd"):
        return True
    spoken = {
        token.word
        for item in clause.cues("bull_running", "bull_gone")
        for token in clause.text.tokens[item.start : item.end]
    }
    return not spoken.isdisjoint(_HERD)


_HERD = frozenset({"kundi", "kundini", "herd", "cows"})


def bull_left(clause: Clause, scene: Scene) -> list[Found]:
    """The bull is with the cows named no more; where none is named, with none."""
    _, who = _bull_andcows_of(clause, scene)
    named = [s for s in who if s.unknown is None and (not clause.carried or _is_named(clause, s))]
    return [Found(BullLeft, day_values(clause, scene), named or [Subject(EVERY_ANIMAL)])]


def _is_named(clause: Clause, subject: Subject) -> bool:
    named = [i.value.name for i in clause.items if i.sort == "animal" and i.value is not None]
    return subject.name in named


def _names_a_cow(item: Item) -> bool:
    return item.sort == "animal" and (item.value is None or item.value.status is not Status.BULL)
