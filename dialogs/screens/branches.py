"""
What there is to choose in the menu, by what a farmer does: data only.

A branch is a row of lines. A line (:class:`Item`) opens another branch, or begins a record or an
instruction: its kind, what is known of it from the start, and what is asked in the usual case. The
optional fields that are not asked can still be told, under "more" of the question for the day.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """
    One line of the menu; its label is ``menu.<key>`` in the catalogue.

    ``asks`` are question names (see ``questions``), in order; ``must`` those of them that the menu
    wants answered although the form could do without.
    """

    key: str
    to: str | None = None
    kind: str | None = None
    preset: Mapping[str, Any] = field(default_factory=dict)
    asks: tuple[str, ...] = ()
    must: frozenset[str] = frozenset()


def _branch(key: str) -> Item:
    return Item(key=key, to=key)


def _record(kind: str, *asks: str, must: tuple[str, ...] = ()) -> Item:
    return Item(key=kind, kind=kind, asks=asks, must=frozenset(must))


def _part(kind: str, part: str, *asks: str, must: tuple[str, ...] = (), **preset: Any) -> Item:
    return Item(key=f"{kind}.{part}", kind=kind, asks=asks, preset=preset, must=frozenset(must))


def _topic(topic: str, *asks: str, **preset: Any) -> Item:
    return _part("ask", topic, *asks, must=asks, topic=topic, **preset)


BRANCHES: dict[str, tuple[Item, ...]] = {
    "main": (
        _record("milk", "animal", "litres", "milking"),
        _record("heat", "animal", "bleeding", "first_seen"),
        _record("service", "animal", "method", "sire", "on"),
        _record("pregnancy_check", "animal", "result", "months", "on"),
        _branch("birth"),
        _branch("sick"),
        _branch("routine"),
        _branch("money"),
        _branch("herd"),
        _branch("body"),
        _branch("tasks"),
        _branch("questions"),
        _branch("settings"),
        _record("undo", "sure"),
        _topic("help"),
    ),
    "birth": (
        _record("calving", "animal", "calves", "on"),
        _record("drying_off", "animal", "on"),
        _record("abortion", "animal", "on"),
        _record("weaning", "animal", "on"),
    ),
    "sick": (
        _record("illness", "animal", "signs", "on"),
        _record("treatment", "animals", "product", "hold", "on"),
        _topic("call"),
        _record("no_answer", "sure"),
    ),
    "routine": (
        _record("spraying", "animals", "hold", "on"),
        _record("deworming", "animals", "hold", "on"),
        _record("vaccination", "animals", "disease", "on"),
        _record("disinfection", "on"),
        _topic("dose"),
        _topic("mix"),
    ),
    "money": (
        _record("milk_sale", "litres", "price", "amount", "on"),
        _record("delivery", "quantity", "milking", must=("quantity",)),
        _record("milk_pay", "month", "amount", "quantity", "on", must=("month", "amount")),
        _record("expense", "what", "amount", "on"),
        _record("other_income", "what", "amount", "on"),
        _record("feeding", "animals", "feed", "kg", "on"),
        _topic("price"),
        _topic("statement"),
    ),
    "herd": (
        _record("new_animal", "name", "stage", "born", "on"),
        _record("naming", "animal", "name"),
        _record("animal_sale", "animal", "amount", "on"),
        _record("death", "animal", "reason", "on"),
    ),
    "body": (
        _record("girth", "animal", "cm", "on"),
        _record("weight", "animal", "kg", "on"),
        _record("condition", "animal", "score", "on"),
    ),
    "questions": (
        _topic("animal", "animal"),
        _topic("herd"),
        _topic("milk"),
        _topic("entries"),
        _part("ask", "week", topic="tasks", period="week"),
        _part("ask", "month", topic="tasks", period="month"),
    ),
    "settings": (
        _record("language", "to"),
        _record("contact", "role", "name", "phone", must=("phone",)),
        _part("setting", "hour", "hour", must=("hour",)),
        _part("setting", "every", "task", "every_days", must=("task", "every_days")),
        _record("stop", "sure"),
        _record("start", "sure"),
    ),
}
"""``tasks`` is no row of lines of its own: its lines are the caller's work."""

ITEMS: dict[str, Item] = {item.key: item for branch in BRANCHES.values() for item in branch if item.kind}
