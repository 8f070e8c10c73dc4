"""Measures of the body: girth, weight, condition."""

from __future__ import annotations

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, day_values, subjects
from dialogs.grammar.items import Item
from service.husbandry.forms import Entry
from service.husbandry.kinds import Condition, Girth, Weight


def _measured(
    kind: type[Entry], field: str, units: tuple[str | None, ...], clause: Clause, scene: Scene
) -> list[Found]:
    """One entry for each animal and number: "Kito 78 cm, Sumu 80 cm"."""
    numbers = [n for unit in units for n in clause.numbers(unit)]
    numbers.sort(key=lambda item: item.start)
    who = subjects(clause, scene)
    values = day_values(clause, scene)
    if len(numbers) == len(who) and len(who) > 1:
        return [Found(kind, {**values, field: n.value}, [s]) for n, s in zip(numbers, who, strict=True)]
    if numbers:
        values[field] = _best(numbers, units).value
    return [Found(kind, values, who)]


def _best(numbers: list[Item], units: tuple[str | None, ...]) -> Item:
    return next((n for unit in units for n in numbers if n.unit == unit), numbers[0])


def girth(clause: Clause, scene: Scene) -> list[Found]:
    return _measured(Girth, "cm", ("cm", None), clause, scene)


def weight(clause: Clause, scene: Scene) -> list[Found]:
    return _measured(Weight, "kg", ("kg", None), clause, scene)


def condition(clause: Clause, scene: Scene) -> list[Found]:
    return _measured(Condition, "score", (None,), clause, scene)
