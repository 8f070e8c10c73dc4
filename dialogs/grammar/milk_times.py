"""When each quantity of milk was milked: its day, part of the day or hour, by where they stand in a text."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Scene
from dialogs.grammar.items import Item
from dialogs.grammar.when import Clock, Day, Part, begun

_SESSIONS = ("morning", "midday", "evening")


@dataclass(slots=True)
class Quantity:
    """One quantity with the time and the names that belong to it."""

    at: int
    item: Item
    names: list[Item]
    part: Part | None = None
    clock: Clock | None = None
    day: Day | None = None
    session: str | None = None


def _between(items: list[Item], sort: type, start: int, end: int) -> list[Any]:
    return [i.value for i in items[start:end] if i.sort == "when" and isinstance(i.value, sort)]


def give_times(quantities: list[Quantity], items: list[Item], clause: Clause) -> None:
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
            if told_after and own and _other_sentence(items, quantity.at, marks[0], quantities):
                own = []
            before = _between(items, sort, 0, quantity.at)
            alone = _of_its_piece(items, sort, quantity, quantities)
            if alone is not None:
                setattr(quantity, slot, alone)
                continue
            value = own[0] if told_after and own else own[-1] if own else None
            if value is None:
                ahead = told_after and not _other_sentence(items, quantity.at, marks[0], quantities)
                value = before[-1] if before else values[0] if ahead or sort is Day else None
            if value is None and len(values) == 1 and marks[0] > quantity.at and not _other_sentence(
                    items, quantity.at, marks[0], quantities):  # fmt: skip
                value = values[0]
            setattr(quantity, slot, value)
    for quantity in quantities:
        if quantity.day is None:
            quantity.day = clause.when.day


ORDER = {"dawn": 0, "morning": 1, "midday": 2, "afternoon": 3, "evening": 4, "night": 5}
"""The parts of the day as they follow."""


def days_of_parts(quantities: list[Quantity], items: list[Item], scene: Scene) -> None:
    """
    Gives "jana jioni 5 na asubuhi 6" its two days: a day told with a part of the day is of that part.

    What is told after it of a later part is of the same day, of an earlier part of the next; what is told
    before it without a day is of its own latest such part.
    """
    days = [i for i, item in enumerate(items) if item.sort == "when" and isinstance(item.value, Day)]
    bound = {at: part for at in days if (part := _part_of_day(items, at)) is not None}
    own_days = {id(part): items[at].value for at, part in bound.items()}
    alone = [at for at in days if at not in bound]
    if not bound or not all(_heads_a_list(items, at) for at in alone):
        return
    anchor: tuple[Part, Day] | None = None
    floor = 0
    for quantity in quantities:
        stretch = items[floor : quantity.at]
        explicit = [items[at].value for at in alone if floor <= at < quantity.at]
        floor = quantity.at + 1
        if explicit:
            quantity.day, anchor = explicit[-1], None
            if not any(item.value is quantity.part for item in stretch):
                quantity.part = None
            continue
        told_before = not alone or any(item.value is quantity.part for item in items[: quantity.at])
        if quantity.part is None or not told_before:
            continue
        own = own_days.get(id(quantity.part))
        if own is not None:
            anchor = (quantity.part, own)
            quantity.day = own
        elif anchor is not None:
            quantity.day = after(anchor, quantity.part, scene)
        elif not any(at < quantity.at for at in days):
            quantity.day = None


def _heads_a_list(items: list[Item], at: int) -> bool:
    """Whether a name or a number follows a day at once: "jana Neema 6", "leo 4"."""
    return at + 1 < len(items) and items[at + 1].sort in ("number", "animal")


def _part_of_day(items: list[Item], at: int) -> Part | None:
    """The part of the day that a day stands with: "jana jioni", "jioni ya jana", "evening yesterday 5"."""

    def part(index: int) -> Part | None:
        value = items[index].value if 0 <= index < len(items) and items[index].sort == "when" else None
        return value if isinstance(value, Part) else None

    if part(at + 1) is not None:
        return part(at + 1)
    if at and items[at - 1].word in ("ya", "of", "za"):
        return part(at - 2)
    labels = at + 1 < len(items) and items[at + 1].sort == "number"
    return part(at - 1) if labels else None


def after(anchor: tuple[Part, Day], part: Part, scene: Scene) -> Day:
    """The day of *part* told after a part with its day: the next one where it is earlier in the day."""
    told, day = anchor
    follows = day.on + timedelta(days=1)
    if ORDER[part.name] >= ORDER[told.name] or day.about or follows > scene.now.date():
        return day
    return Day(follows) if follows < scene.now.date() or begun(part, scene.now) else day


def _other_sentence(items: list[Item], at: int, mark: int, quantities: list[Quantity]) -> bool:
    """Whether a time told later is of a sentence with quantities of its own: "jana A 11; leo asubuhi B 6"."""
    stops = [i for i, item in enumerate(items) if item.sort == "mark" and item.word in ".;\n!"]
    before = [i for i in stops if at <= i < mark]
    end = next((i for i in stops if i >= mark), len(items))
    return bool(before) and any(before[-1] < quantity.at < end for quantity in quantities)


def _of_its_piece(items: list[Item], sort: type, quantity: Quantity, quantities: list[Quantity]) -> Any:
    """The time told between the same two commas as a quantity that stands there alone."""
    start = end = quantity.at
    while start > 0 and not parts(items[start - 1]):
        start -= 1
    while end + 1 < len(items) and not parts(items[end + 1]):
        end += 1
    told = _between(items, sort, start, end + 1)
    others = any(start <= other.at <= end for other in quantities if other is not quantity)
    return told[0] if len(told) == 1 and not others else None


def parts(item: Item) -> bool:
    return item.sort == "mark" and item.word in ",;.\n"


def milkings_in_a_row(quantities: list[Quantity]) -> None:
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
                quantity.part = Part(session, guessed=True)
        start = end
