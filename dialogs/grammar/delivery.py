"""Milk handed in at the centre, and why it was rejected."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, as_values, day_values
from dialogs.grammar.items import Item
from dialogs.grammar.milk import milkings
from dialogs.grammar.milk_times import ORDER, after
from dialogs.grammar.when import Day, Part, When, session_of
from dialogs.grammar.words import meanings
from service.husbandry.kinds import Delivery


def delivery(clause: Clause, scene: Scene) -> list[Found]:
    rejected = any(item.has("reject") for item in clause.items if item.sort == "cue")
    loads = [] if rejected else milkings(clause, scene)
    if len(loads) > 1 and all(when.part is not None for _, when in loads):
        return [_load(item, when, scene) for item, when in loads]
    values: dict[str, Any] = day_values(clause, scene)
    session = None
    if clause.when.part is not None or clause.when.clock is not None:
        when = replace(clause.when, day=_next_morning(clause, scene) or clause.when.day)
        day, session = session_of(when, scene.now)
        values = as_values(day)
    values.update(_measure(clause), session=session, rejected=rejected)
    values["reason"] = _why_rejected(clause) if rejected else None
    return [Found(Delivery, values)]


def _next_morning(clause: Clause, scene: Scene) -> Day | None:
    """The day after the one carried here, where "jana jioni 8" stood before "asubuhi 10"."""
    part, day = clause.when.part, clause.when.day
    times = [item for item in clause.items if item.sort == "when"]
    if part is None or day is None or not times or any(isinstance(item.value, Day) for item in times):
        return None
    before = [
        part_told for token in scene.text.tokens[: times[0].start]
        for meaning in meanings(token.word)
        if (part_told := meaning.removeprefix("part.")) in ORDER
    ]  # fmt: skip
    return after((Part(before[-1]), day), part, scene) if before else None


def _load(item: Item, when: When, scene: Scene) -> Found:
    """One of several loads, each handed in at a time of its own: "asubuhi 5 jioni 4 kituoni"."""
    day, session = session_of(when, scene.now)
    field = "kg" if item.unit == "kg" else "litres"
    return Found(Delivery, {**as_values(day), field: item.value, "session": session, "rejected": False})


def _measure(clause: Clause) -> dict[str, Any]:
    """Litres or kilograms, as told."""
    for unit, field in (("l", "litres"), ("kg", "kg")):
        numbers = clause.numbers(unit)
        if numbers:
            return {field: numbers[0].value}
    for item in clause.items:
        if item.sort == "number" and item.unit is None and not item.hint and item.value < 1000:
            return {"litres": item.value}
    return {}


_BECAUSE = (
    "wanasema", "wamesema", "walisema", "saying", "kwamba", "eti", "kwa", "sababu", "because", "for", "kwani",
    "due", "since", "reason", "was", "were",
)  # fmt: skip


def _why_rejected(clause: Clause) -> str | None:
    at = next(i for i, item in enumerate(clause.items) if item.has("reject"))
    for index in range(at + 1, len(clause.items)):
        item = clause.items[index]
        if item.word in _BECAUSE or (item.sort == "mark" and index > at):
            rest = [i for i in clause.items[index + 1 :] if i.sort != "number"]
            while rest and (
                rest[0].word in (*_BECAUSE, "of", "ya", "to", "ni", "it", "they", "ya kuwa")
                or rest[0].sort == "mark"
            ):
                rest.pop(0)
            end = next((i for i, r in enumerate(rest) if r.sort in ("mark", "when")), len(rest))
            if rest[:end]:
                return clause.text.written(rest[0].start, rest[end - 1].end)
    told = _told_last(clause, at)
    if told:
        return clause.text.written(told[0].start, told[-1].end)
    rest = clause.items[at + 1 :]
    if len(rest) == 1 and rest[0].sort in ("word", "cue"):  # "3 rejected watery"
        return clause.text.written(rest[0].start, rest[0].end)
    return None


def _told_last(clause: Clause, at: int) -> list[Item]:
    """What stands after the quantity and ends the clause: "kimekataa lita 12 yana dawa"."""
    items = clause.items
    numbers = [i for i, item in enumerate(items) if item.sort == "number" and i > at]
    start = numbers[-1] if numbers else at
    rest = [i for i in items[start + 1 :] if i.sort != "when"]
    while rest and rest[0].word in ("yana", "ina", "zina", "yalikuwa", "was", "were"):
        rest.pop(0)
    plain = all(i.sort in ("word", "cue") and not i.has(*_NO_REASON) and i.word not in _PLACE for i in rest)
    return rest if plain else []


_NO_REASON = (
    "centre", "deliver", "each", "everyone", "greeting", "all_of_it", "milk", "per_litre", "money_word",
)  # fmt: skip


_PLACE = ("at", "the", "to", "us", "only", "tu", "yote", "pale", "kwa", "today", "leo", "my", "from")
