"""Heat, service, pregnancy check, abortion, drying off, weaning: what a clause tells of them."""

from __future__ import annotations

from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.bulls import running
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import (
    Found,
    Scene,
    Subject,
    cows_of,
    day_values,
    display,
    is_strange,
    subjects,
)
from dialogs.grammar.heads_apart import bull_of
from dialogs.grammar.items import Item
from dialogs.grammar.when import Clock, Part, moment_of
from service.husbandry.forms import Entry
from service.husbandry.herd import Status
from service.husbandry.kinds import (
    Abortion,
    DryingOff,
    Heat,
    Illness,
    PregnancyCheck,
    Service,
    Weaning,
)
from service.husbandry.signs import HEAT_SIGNS


def heat(clause: Clause, scene: Scene) -> list[Found]:
    _bare_hour(clause)
    who = subjects(clause, scene)
    if clause.has("mounts") and not clause.has("mating") and len(who) == 2:
        who = [Subject(fits=tuple(s.name for s in who if s.name))]  # either may be the one
    signs = [s for s in clause.signs("heat.") if s in HEAT_SIGNS]
    ill = [s for s in clause.signs("sign.") if s != "bleeding"]
    sure = clause.has("mating") or bool(signs)
    doubtful = not sure and (bool(ill) or clause.says("degrees", "hot", "body_heat") or _temperature(clause))
    signs += [s for s in ill if s in HEAT_SIGNS and s not in signs]
    values: dict[str, Any] = {
        "first_seen": moment_of(clause.when, scene.now),
        "bleeding": clause.has("blood"),
        "signs": tuple(signs),
    }
    found = [Found(Heat, values, who, ["heat_or_fever"] if doubtful else [], cows_of(scene))]
    ill = [s for s in ill if s not in HEAT_SIGNS]
    if sure and ill:  # heat for certain, and something else besides
        found.append(
            Found(Illness, {**day_values(clause, scene), "signs": tuple(ill)}, who, [], cows_of(scene))
        )
    return found


def _temperature(clause: Clause) -> bool:
    """A number beside "joto" that can only be degrees C of a body: 39.8."""
    return any(LEAST_DEGREES <= item.value <= MOST_DEGREES for item in clause.numbers(None))


LEAST_DEGREES, MOST_DEGREES = 35, 43
"""Degrees C between which a bare number is a body's warmth."""


def _bare_hour(clause: Clause) -> None:
    """ "joto 11 alfajiri": a bare number beside a part of the day is an hour of its clock."""
    if clause.when.clock is not None or clause.when.part is None:
        return
    for index, item in enumerate(clause.items):
        if item.sort != "number" or item.unit is not None or not 1 <= item.value <= 12:
            continue
        follows = clause.items[index + 1] if index + 1 < len(clause.items) else None
        if follows is not None and follows.sort == "when" and isinstance(follows.value, Part):
            swahili = follows.word not in (
                "in",
                "this",
                "morning",
                "evening",
                "night",
                "at",
                "noon",
                "afternoon",
            )
            clause.when.clock = Clock(int(item.value), 0, "saa" if swahili else "bare")


def service(clause: Clause, scene: Scene) -> list[Found]:
    if clause.says("bull_running") and bull_of(clause.items) is not None:
        return running(clause, scene)
    used: list[Item] = []
    sire = _sire(clause, scene, used)
    technician = _technician(clause, used)
    who = subjects(clause, scene, used)
    method = None
    if clause.says("ai") or (technician is not None and not clause.says("bull")):
        method = "ai" if clause.says("ai") or clause.says("technician") else None
    if method is None and (clause.says("bull") or _herd_bull(sire, scene)):
        method = "bull"
    if method is None and clause.says("technician"):
        method = "ai"
    values: dict[str, Any] = {
        **day_values(clause, scene), "method": method, "sire": sire, "technician": technician,
        "cost": slots.first_sum(clause, scene),
    }  # fmt: skip
    return [Found(Service, values, who, [], cows_of(scene))]


def _herd_bull(sire: str | None, scene: Scene) -> bool:
    return sire is not None and any(a.name == sire and a.status is Status.BULL for a in scene.names.herd)


def _sire(clause: Clause, scene: Scene, used: list[Item]) -> str | None:
    for index, item in enumerate(clause.items):
        if (
            item.sort == "animal"
            and item.value is not None
            and item.value.status is Status.BULL
            and _by_it(clause, index)
        ):
            used.append(item)
            return str(item.value.name)
    for index, item in enumerate(clause.items):
        if item.sort == "cue" and item.has("straw", "bull") and not item.denied:
            named = slots.name_after(clause, index)
            if named is not None and not _is_subject(clause, named[1][0]):
                used.extend(named[1])
                return named[0]
            breed = _breed_after(clause, index)
            if breed is not None:
                used.append(breed)
                return clause.text.written(breed.start, breed.end)
    if clause.says("ai"):
        for item in clause.items:
            if item.sort == "tag" and len(item.word) >= 5:
                used.append(item)
                return display(scene.text, item)
    return None


def _breed_after(clause: Clause, index: int) -> Item | None:
    beside = clause.items[index + 1 : index + 3]
    if clause.items[index].has("straw"):  # "Friesian straw"
        beside = beside + clause.items[max(0, index - 1) : index]
    return next((item for item in beside if item.has("breed")), None)


def _is_subject(clause: Clause, item: Item) -> bool:
    """A cow named after "kwa dume" is served, not the bull."""
    return item.sort == "animal" and (item.value is None or item.value.status is not Status.BULL)


def _by_it(clause: Clause, index: int) -> bool:
    """Whether the bull at *index* is the one that served: another animal is named or it comes after by/na."""
    others = [i for i in clause.items if i.sort == "animal" and i is not clause.items[index]]
    before = clause.items[index - 1] if index else None
    return (
        bool(others)
        or bool(clause.carried)
        or (before is not None and (before.word in ("na", "by", "with", "kwa") or before.has("bull")))
    )


def _technician(clause: Clause, used: list[Item]) -> str | None:
    taken = {id(item) for item in used}
    for index, item in enumerate(clause.items):
        if item.sort == "cue" and item.has("technician", "vet"):
            named = slots.name_after(clause, index)
            if named is not None and id(named[1][0]) not in taken and named[1][0].sort != "animal":
                used.extend(named[1])
                return named[0]
    for index, item in enumerate(clause.items):
        if item.word in ("by", "na") and index + 1 < len(clause.items):
            follows = next((i for i in clause.items[index + 1 :] if i.word not in _TITLES), item)
            if is_strange(follows) and follows.sort == "word" and id(follows) not in taken:
                named = slots.name_after(clause, index)
                if named is not None:
                    used.extend(named[1])
                    return named[0]
    server = _server(clause, taken)
    if server is None:
        return None
    used.append(server)
    return clause.text.written(server.start, server.end)


_TITLES = ("mr", "mrs", "dr", "bwana", "mzee", "fundi")


def _server(clause: Clause, taken: set[int]) -> Item | None:
    """ "Juma inseminated Zawadi": who stands before the deed did it."""
    for index, item in enumerate(clause.items[1:], 1):
        before = clause.items[index - 1]
        served = any(other.sort == "animal" for other in clause.items[index:])
        if (
            item.has("ai", "serve")
            and served
            and is_strange(before)
            and before.sort == "word"
            and id(before) not in taken
        ):
            return before
    return None


def pregnancy_check(clause: Clause, scene: Scene) -> list[Found]:
    values: dict[str, Any] = day_values(clause, scene)
    if clause.has("empty") or any(item.denied for item in clause.cues("pregnant")) or clause.says("empty"):
        values["result"] = "empty"
    elif clause.has("unsure"):
        values["result"] = "unsure"
    elif clause.has("pregnant"):
        values["result"] = "pregnant"
    if values.get("result") == "pregnant" and _short_result(clause) == "empty":
        values["result"] = "empty"  # "amepimwa mimba, hana"
    if "result" not in values:
        result = _short_result(clause)
        if result is not None:
            values["result"] = result
    months = next(iter(clause.numbers("month")), None)
    if months is not None and "result" not in values and clause.has("pd"):
        values["result"] = "pregnant"  # "PD: Neema 3 months"
    values["months"] = months.value if months is not None and values.get("result") == "pregnant" else None
    return [Found(PregnancyCheck, values, subjects(clause, scene), [], cows_of(scene))]


_HAS_NOT = (
    "hana", "haina", "hamna", "haipo", "hapana", "hakuna", "hawana", "no", "siyo", "sio", "not", "isnt",
    "hasnt",
    "wasnt",
)  # fmt: skip


_HAS = ("ana", "anayo", "ipo", "ndiyo", "ndio", "yes", "imo", "iko", "wana")


def _short_result(clause: Clause) -> str | None:
    """A result told in one word that ends a piece: "amepimwa mimba, hana"."""
    last = [
        item.word
        for index, item in enumerate(clause.items)
        if item.sort in ("word", "cue")
        and (index + 1 == len(clause.items) or clause.items[index + 1].sort == "mark")
    ]
    if any(word in _HAS_NOT for word in last):
        return "empty"
    return "pregnant" if any(word in _HAS for word in last) else None


def _one_day(kind: type[Entry], clause: Clause, scene: Scene, options: tuple[str, ...]) -> list[Found]:
    return [Found(kind, day_values(clause, scene), subjects(clause, scene), [], options)]


def abortion(clause: Clause, scene: Scene) -> list[Found]:
    return _one_day(Abortion, clause, scene, cows_of(scene))


def drying_off(clause: Clause, scene: Scene) -> list[Found]:
    return _one_day(DryingOff, clause, scene, scene.names.group("milking"))


def weaning(clause: Clause, scene: Scene) -> list[Found]:
    return _one_day(Weaning, clause, scene, scene.names.group("calf"))
