"""Measures of the body: girth, weight, condition."""

from __future__ import annotations

from decimal import Decimal

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
        if kind is Girth:
            values[field] = _centimetres(values[field])
    return [Found(kind, values, who)]


def _best(numbers: list[Item], units: tuple[str | None, ...]) -> Item:
    return next((n for unit in units for n in numbers if n.unit == unit), numbers[0])


MOST_METRES = Decimal("2.3")
"""A girth up to here is told in metres."""


def _centimetres(told: Decimal) -> Decimal:
    """A girth told in metres ("1.68", or "1.68m", which else is so many millions) in centimetres."""
    metres = told / 1_000_000 if told >= LEAST_MILLION else told
    return (metres * 100).normalize() if metres <= MOST_METRES else told


LEAST_MILLION = 100_000


def girth(clause: Clause, scene: Scene) -> list[Found]:
    return _measured(Girth, "cm", ("cm", None), clause, scene)


def weight(clause: Clause, scene: Scene) -> list[Found]:
    return _measured(Weight, "kg", ("kg", None), clause, scene)


def condition(clause: Clause, scene: Scene) -> list[Found]:
    return _measured(Condition, "score", (None,), clause, scene)
