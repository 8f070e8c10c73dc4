"""A calving: its calves with their sexes, names and fates, its ease and its hour."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import (
    Found,
    Scene,
    Subject,
    cows_of,
    day_values,
    display,
    is_strange,
    likely,
    subjects,
)
from dialogs.grammar.items import Item
from dialogs.grammar.when import moment_of
from dialogs.grammar.words import VOCABULARY
from service.husbandry.forms import Calf
from service.husbandry.kinds import Calving, Illness

_PLURAL = ("majike", "madume", "heifers", "bulls", "females", "males", "calves", "mitamba")


def calving(clause: Clause, scene: Scene) -> list[Found]:
    used: list[Item] = []
    calves = calves_told(clause, scene, used)
    who = subjects(clause, scene, used)
    if not who:
        who = subjects(clause, scene)
    values: dict[str, Any] = {**day_values(clause, scene), "calves": calves, "ease": _ease(clause)}
    values["at"] = _hour_of(clause, scene, values)
    born = Found(Calving, values, who, [], cows_of(scene) or likely(clause, scene))
    return [born, *_signs_beside(clause, scene, who)]


_AFTER_CALVING = ("afterbirth", "prolapse")
"""Signs that can only be the cow's; who is down may be the calf that is told of."""


def _signs_beside(clause: Clause, scene: Scene, who: list[Subject]) -> list[Found]:
    """The signs of illness told of the cow in the same words: "amezaa jana kondo bado"."""
    young = clause.says("calf", "female", "male", "twins")
    signs = tuple(
        sign for sign in clause.signs("sign.") if sign in _AFTER_CALVING or (sign == "down" and not young)
    )
    return (
        [Found(Illness, {"on": scene.now.date(), "signs": signs}, who, [], cows_of(scene))] if signs else []
    )


def _hour_of(clause: Clause, scene: Scene, values: Mapping[str, Any]) -> datetime | None:
    """When of the day it was, where that is told, or the day is today; else not known."""
    on, when = values["on"], clause.when
    told = when.clock is not None or when.part is not None or on == scene.now.date()
    if not told or values.get("about"):
        return None
    at = moment_of(when, scene.now)
    return at if at.date() == on else None


def _ease(clause: Clause) -> str | None:
    if clause.has("hard"):
        return "hard"
    if clause.has("helped"):
        return "helped"
    if any(item.denied for item in clause.cues("helped", "hard")) or clause.has("easy"):
        return "easy"
    return None


def calves_told(clause: Clause, scene: Scene, used: list[Item]) -> tuple[Calf, ...]:
    calves: list[dict[str, Any]] = []
    items = clause.items
    all_dead = False
    for index, item in enumerate(items):
        if item.sort != "cue":
            continue
        sex = _sex_of(item)
        if item.word == "cow" and item.end - item.start == 1:
            continue  # "my cow Neema calved": she, not her calf
        if sex is not None and _of_one_told(clause, calves, index, sex):
            continue
        if sex is not None and len(calves) > 1 and calves[-1].pop("open", False):
            calves[-1]["sex"] = sex  # "a heifer and a dead bull"
            continue
        if sex is not None and not item.has("helped", "easy"):
            calves += [{"sex": sex, "alive": True, "name": None} for _ in range(_count(clause, index))]
            named_now = _names_beside(clause, index, len(calves))
            for calf, beside in zip(calves[len(calves) - len(named_now) :], named_now, strict=True):
                calf["name"] = _calf_name(scene, beside)
                used.append(beside)
        elif item.has("stillborn", "die") and not item.denied:
            all_dead = all_dead or _of_all(items, index)
            if item.word in _DEAD_BEFORE and _sexed_next(items, index):
                calves.append({"sex": None, "alive": False, "name": None, "open": True})
            elif calves and not all_dead:
                calves[-1]["alive"] = False
            elif not calves:
                calves.append({"sex": None, "alive": False, "name": None, "open": True})
        elif item.has("named"):
            named = slots.name_after(clause, index)
            if named is not None and calves:
                calves[-1]["name"] = _calf_name(scene, named[1][0])
                used.extend(named[1])
    return _completed(clause, calves, all_dead)


def _of_one_told(clause: Clause, calves: list[dict[str, Any]], index: int, sex: str) -> bool:
    """ "mapacha jike na dume, dume kafa": what became of a calf told already, and no third one."""
    follows = clause.items[index + 1] if index + 1 < len(clause.items) else None
    told = [calf for calf in calves if calf["sex"] == sex]
    if len(calves) < 2 or not told or follows is None or not follows.has("stillborn", "die", "alive"):
        return False
    told[-1]["alive"] = follows.denied or not follows.has("stillborn", "die")
    return True


_DEAD_BEFORE = ("dead", "stillborn", "lifeless")
"""English words that stand before the calf they are said of."""


def _sexed_next(items: list[Item], index: int) -> bool:
    return any(_sex_of(item) is not None for item in items[index + 1 : index + 2])


def _sex_of(item: Item) -> str | None:
    if item.has("female") and not item.has("male"):
        return "female"
    return "male" if item.has("male") else None


def _names_beside(clause: Clause, index: int, most: int) -> list[Item]:
    """The names after a word of sex, one for each calf that it speaks of: "majike mawili Lulu na Radi"."""
    count = _count(clause, index)
    if count == 1:
        beside = _name_beside(clause, index)
        return [] if beside is None else [beside]
    rest = clause.items[index + 1 :]
    if rest and rest[0].sort == "number":
        rest = rest[1:]
    named = [
        item for item in rest[::2] if item.capital and (is_strange(item) or item.word in VOCABULARY.names)
    ]
    joined = all(item.word in ("na", "and", "&", ",") for item in rest[1 : 2 * count - 2 : 2])
    return named[:count] if joined and count == len(named[:count]) <= most else []


def _name_beside(clause: Clause, index: int) -> Item | None:
    """The name told right after a calf's sex: "ndama dume Kito", "a bull calf Radi"."""
    items = clause.items
    follows = items[index + 1] if index + 1 < len(items) else None
    after = items[index + 2] if index + 2 < len(items) else None
    if follows is None or (after is not None and after.sort in ("cue", "number", "animal") and not after.has(
            "weight", "easy")):  # fmt: skip
        return None
    raw = clause.text.raw
    if follows.sort == "animal":
        return follows if any(i.sort == "animal" for i in items[:index]) else None
    mixed = not raw.isupper() and not raw.islower()
    if follows.capital and mixed and (is_strange(follows) or follows.word in VOCABULARY.names):
        return follows
    return follows if not mixed and (is_strange(follows) or follows.word in VOCABULARY.names) else None


def _calf_name(scene: Scene, item: Item) -> str:
    return display(scene.text, item)


def _completed(clause: Clause, calves: list[dict[str, Any]], all_dead: bool) -> tuple[Calf, ...]:
    if len(calves) > 1 and calves[0].pop("open", False):  # "a dead bull calf": the word came first
        first = calves.pop(0)
        calves[0]["alive"] = first["alive"]
    twins = clause.says("twins")
    if not calves:
        calves += [{"sex": None, "alive": True, "name": None} for _ in range(_number_born(clause))]
        twins = twins and len(calves) == 1
    if twins and len(calves) == 1:
        one = calves[0]
        if one["alive"] or one["sex"] is not None:
            calves.append({"sex": None, "alive": True, "name": None})
        else:
            calves.insert(0, {"sex": None, "alive": True, "name": None})
    for calf in calves:
        calf.pop("open", None)
        if all_dead:
            calf["alive"] = False
    return tuple(Calf(**calf) for calf in calves[:4])


_CHILDREN = ("watoto", "calves", "ndama")


def _number_born(clause: Clause) -> int:
    """How many calves are told of by number alone: "ndama 2", "3 calves", "watoto wawili"."""
    items = clause.items
    for index, item in enumerate(items):
        if item.sort != "number" or item.unit is not None or item.value not in (2, 3):
            continue
        near = items[max(0, index - 1) : index] + items[index + 1 : index + 2]
        if any(other.has("calf") or other.word in _CHILDREN for other in near):
            return int(item.value)
    return 1


def _count(clause: Clause, index: int) -> int:
    """How many calves a word of sex speaks of: "two heifers", "majike mawili", "mapacha majike"."""
    items = clause.items
    before, after = items[index - 1] if index else None, items[index + 1] if index + 1 < len(items) else None
    for near in (before, after):
        if near is None or near.sort != "number" or near.unit is not None or near.value not in (1, 2, 3):
            continue
        if near is before or items[index].word in _PLURAL or near.word in ("mmoja", "wawili", "mawili"):
            return int(near.value)
    if (
        clause.says("twins")
        and before is not None
        and (before.has("everyone") or before.word in ("both", "wote", "all"))
    ):
        return 2
    if after is not None and after.has("twins") and after.word != "pacha":
        return 2
    words = clause.text.tokens[items[index].start : items[index].end]
    return 2 if any(token.word in _PLURAL for token in words) else 1


def _of_all(items: list[Item], index: int) -> bool:
    near = items[max(0, index - 2) : index + 2]
    return any(i.word in ("wote", "both", "all", "wawili") or i.has("everyone") for i in near)
