"""Milk told: litres of each cow, milking by milking, in whichever order names, numbers and times come."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, as_values, in_list, is_strange, subject_of, subjects
from dialogs.grammar.items import Item
from dialogs.grammar.names import joined
from dialogs.grammar.when import Clock, Day, Part, When, begun, session_of
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.herd import Status
from service.husbandry.kinds import Milk
from service.husbandry.units import litres_of_kg

_SESSIONS = ("morning", "midday", "evening")


@dataclass(slots=True)
class _Quantity:
    """One quantity with the time and the names that belong to it."""

    at: int
    item: Item
    names: list[Item]
    part: Part | None = None
    clock: Clock | None = None
    day: Day | None = None
    session: str | None = None


def milk(clause: Clause, scene: Scene) -> list[Found]:
    items = clause.items
    quantities = [
        _Quantity(i, item, []) for i, item in enumerate(items) if item.sort == "number" and _is_milk(items, i)
    ]
    if not quantities:
        return [_single(clause, scene, None, subjects(clause, scene), clause.when)]
    named = [i for i, item in enumerate(items) if _is_name(items, i, scene)]
    _name(quantities, items, named)
    _time(quantities, items, clause)
    _milkings_in_a_row(quantities)
    return [found for group in _lists(quantities) for found in _entries(clause, scene, group)]


def _is_milk(items: list[Item], at: int) -> bool:
    item = items[at]
    if item.unit in ("l", "kg"):
        return True
    if item.unit is not None or item.hint not in ("", "fraction", "part"):
        return False
    follows = items[at + 1] if at + 1 < len(items) else None
    return not (follows is not None and follows.has("cattle", "cow", "calf", "heifer", "female", "male"))


def _is_name(items: list[Item], at: int, scene: Scene) -> bool:
    item = items[at]
    if item.sort == "animal" or item.has("everyone"):
        return True
    if not is_strange(item):
        return False
    after = next(
        (i for i in items[at + 1 :] if i.word not in ("ni", "=", ":", "-", "is") and i.sort != "when"), None
    )
    before = items[at - 1] if at else None
    beside = (after is not None and after.sort == "number") or (
        before is not None
        and (before.sort == "number" or before.word in ("kwa", "from", "of", "za", "ya", "for"))
    )
    return item.sort == "tag" or beside or scene.names.open or in_list(items, at)


def _name(quantities: list[_Quantity], items: list[Item], named: list[int]) -> None:
    """Gives each quantity its names: those before it, or after it where quantities come first."""
    if not named:
        return
    quantity_first = quantities[0].at < named[0]
    for quantity in quantities:
        after = [n for n in named if n > quantity.at]
        before = [n for n in named if n < quantity.at]
        if quantity_first and after:
            chosen = _run(items, after[0], named, 1)
        elif before:
            chosen = _run(items, before[-1], named, -1)
        else:
            chosen = _run(items, after[0], named, 1)
        quantity.names = [items[n] for n in sorted(chosen)]


def _run(items: list[Item], start: int, named: list[int], step: int) -> list[int]:
    """The names that stand in one list with the one at *start*, with no number between."""
    chosen = [start]
    at = start + step
    while 0 <= at < len(items):
        if at in named:
            chosen.append(at)
        elif items[at].word not in ("na", "and", ",", "&", "+"):
            break
        at += step
    return chosen


def _between(items: list[Item], sort: type, start: int, end: int) -> list[Any]:
    return [i.value for i in items[start:end] if i.sort == "when" and isinstance(i.value, sort)]


def _time(quantities: list[_Quantity], items: list[Item], clause: Clause) -> None:
    for sort, slot in ((Part, "part"), (Clock, "clock"), (Day, "day")):
        marks = [i for i, item in enumerate(items) if item.sort == "when" and isinstance(item.value, sort)]
        if not marks:
            continue
        values = [items[i].value for i in marks]
        told_after = quantities[0].at < marks[0]
        for number, quantity in enumerate(quantities):
            start = quantities[number - 1].at if number else -1
            end = quantities[number + 1].at if number + 1 < len(quantities) else len(items)
            own = (
                _between(items, sort, quantity.at, end)
                if told_after
                else _between(items, sort, start + 1, quantity.at)
            )
            before = _between(items, sort, 0, quantity.at)
            value = own[0] if told_after and own else own[-1] if own else None
            if value is None:
                value = before[-1] if before else values[0] if told_after or sort is Day else None
            if value is None and len(values) == 1 and marks[0] > quantity.at:
                value = values[0]
            setattr(quantity, slot, value)
    for quantity in quantities:
        if quantity.day is None:
            quantity.day = clause.when.day


def _milkings_in_a_row(quantities: list[_Quantity]) -> None:
    """ "Neema 6 5" without a word of time are her milkings in the order of the day."""
    start = 0
    while start < len(quantities):
        end = start + 1
        while (
            end < len(quantities)
            and quantities[end].names == quantities[start].names
            and quantities[start].names
        ):
            end += 1
        run = quantities[start:end]
        plain = all(q.part is None and q.clock is None for q in run) and len(run[0].names) == 1
        if plain and 1 < len(run) <= 3 and all(q.day == run[0].day for q in run):
            sessions = _SESSIONS if len(run) == 3 else ("morning", "evening")
            for quantity, session in zip(run, sessions, strict=True):
                quantity.part = Part(session)
        start = end


def _lists(quantities: list[_Quantity]) -> list[list[_Quantity]]:
    """Quantities told for one list of names stand together: "Neema na Zawadi 6 na 5"."""
    groups: list[list[_Quantity]] = []
    for quantity in quantities:
        if groups and len(quantity.names) > 1 and groups[-1][0].names == quantity.names:
            groups[-1].append(quantity)
        else:
            groups.append([quantity])
    return groups


def _entries(clause: Clause, scene: Scene, group: list[_Quantity]) -> list[Found]:
    first = group[0]
    names = first.names
    if len(names) > 1:
        if len(group) == len(names):
            return [
                _made(clause, scene, q, [subject_of(n, scene)]) for q, n in zip(group, names, strict=True)
            ]
        if clause.says("each"):
            return [_made(clause, scene, q, [subject_of(n, scene)]) for q in group for n in names]
        several = Subject(fits=tuple(subject_of(n, scene).name or "" for n in names))
        return [_made(clause, scene, q, [several]) for q in group]
    if not names:
        return [_made(clause, scene, q, _unnamed(clause, scene)) for q in group]
    who = names[0]
    if who.has("everyone"):
        if clause.says("each") and scene.names.herd:
            cows = scene.names.group("milking")
            return [
                _made(clause, scene, q, [Subject(c, scene.names.by_name[joined(c)])])
                for q in group
                for c in cows
            ]
        return [_made(clause, scene, q, [Subject(EVERY_ANIMAL)]) for q in group]
    return [_made(clause, scene, q, [subject_of(who, scene)]) for q in group]


def _unnamed(clause: Clause, scene: Scene) -> list[Subject]:
    found = subjects(clause, scene)
    if found:
        return found
    if clause.says("all_of_it"):
        return [Subject(EVERY_ANIMAL)]
    milking = [a for a in scene.names.herd if a.status is Status.MILKING]
    return [Subject(milking[0].name, milking[0])] if len(milking) == 1 else []


def _made(clause: Clause, scene: Scene, quantity: _Quantity, who: list[Subject]) -> Found:
    when = When(quantity.day, quantity.part, quantity.clock, clause.when.period)
    return _single(clause, scene, quantity.item, who, when)


def _single(clause: Clause, scene: Scene, item: Item | None, who: list[Subject], when: When) -> Found:
    day, session = session_of(when, scene.now)
    if clause.says("whole_day"):
        session = "day"
    values: dict[str, Any] = {**as_values(day), "session": session}
    if item is not None:
        litres: Decimal = litres_of_kg(item.value) if item.unit == "kg" else item.value
        values["litres"] = litres
    return Found(Milk, values, who, [], scene.names.group("milking"), future=_to_come(when, scene))


def _to_come(when: When, scene: Scene) -> bool:
    """Whether a milking of today is told before its part of the day has begun."""
    if when.part is None or when.day is None or when.day.on != scene.now.date():
        return False
    return not begun(when.part, scene.now)
