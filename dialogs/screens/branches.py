"""
What there is to choose in the menu, by what a farmer does: data only.

A branch is a row of lines. A line (:class:`Item`) opens another branch, or begins a record or an
instruction: its kind, what is known of it from the start, and what is asked in the usual case: never so
much that the answer comes later than on the sixth screen. The optional fields that are not asked can still
be told, under "more" of the question for the day.
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
        _branch("birth"),
        _branch("health"),
        _branch("money"),
        _branch("herd"),
        _branch("more"),
    ),
    "birth": (
        _record("pregnancy_check", "animal", "result", "on"),
        _record("calving", "animal", "calves", "calved"),
        _record("drying_off", "animal", "on"),
        _record("abortion", "animal", "on"),
        _record("weaning", "animal", "on"),
        _part("service", "running", "cows", "on", method="bull", running=True),
        _record("bull_left", "animals", "on"),
        _record("milk_reason", "animal", "reason"),
    ),
    "health": (
        _record("illness", "animal", "signs", "on"),
        _record("recovery", "animal", "on"),
        _record("treatment", "animals", "product", "on"),
        _record("spraying", "animals", "on"),
        _record("deworming", "animals", "product", "on"),
        _record("vaccination", "animals", "disease", "on"),
        _record("disinfection", "on"),
        _topic("call"),
        _record("no_answer", "sure"),
        _topic("dose", "animal", "dose_rate"),
        _topic("mix", "use", "mix_rate"),
        _record("willing", "disease", "count", must=("count",)),
    ),
    "money": (
        _record("milk_sale", "litres", "price", "amount", "on"),
        _part("milk_sale", "credit", "litres", "price", "amount", "on", credit=True),
        _record("payment", "amount", "buyer", "on"),
        _record("delivery", "quantity", "milking", must=("quantity",)),
        _record("milk_pay", "month", "amount", "on", must=("month", "amount")),
        _record("expense", "what", "amount", "on"),
        _record("other_income", "what", "amount", "on"),
        _topic("price"),
        _topic("owed"),
        _part("ask", "statement", "month", topic="statement"),
        _part("ask", "pay", "month", topic="pay"),
    ),
    "herd": (
        _record("new_animal", "name", "stage", "born", "on"),
        _record("naming", "animal", "name"),
        _record("animal_sale", "animal", "amount", "on"),
        _record("death", "animal", "reason", "on"),
        _record("girth", "animal", "cm", "on"),
        _record("weight", "animal", "kg", "on"),
        _record("condition", "animal", "score", "on"),
        _record("feeding", "feed", "kg", "on"),
    ),
    "more": (
        _branch("tasks"),
        _record("undo", "sure"),
        _record("fix"),
        _branch("questions"),
        _branch("people"),
        _record("contact", "role", "name", "phone", must=("phone",)),
        _branch("settings"),
        _topic("help"),
    ),
    "questions": (
        _topic("animal", "animal"),
        _topic("herd"),
        _topic("milk"),
        _topic("entries"),
        _part("ask", "week", topic="tasks", period="week"),
        _part("ask", "month", topic="tasks", period="month"),
        _topic("semen", "animal"),
        _topic("ration", "animal"),
        _topic("fodder"),
        _topic("feed_worth"),
        _topic("space"),
    ),
    "people": (
        _topic("people"),
        _part("helper", "add", "phone", "name", must=("phone",), act="add"),
        _part("helper", "remove", "helper", must=("helper",), act="remove"),
        _part("helper", "allow", "helper", "may", must=("helper", "may"), act="allow"),
        _part("helper", "forbid", "helper", "may", must=("helper",), act="forbid"),
        _record("contest", "sure"),
    ),
    "settings": (
        _record("language", "to"),
        _part("setting", "hour", "hour", must=("hour",)),
        _part("setting", "every", "task", "every_days", must=("task", "every_days")),
        _record("stop", "sure"),
        _record("start", "sure"),
        _part("pin", "set", "secret", must=("secret",), act="set"),
        _part("pin", "change", "secret", must=("secret",), act="set"),
        _part("pin", "clear", "secret", must=("secret",), act="clear"),
        _part("setting", "off", "task", must=("task",), off=True),
    ),
}
"""``tasks`` is no row of lines of its own: its lines are the caller's work."""

ITEMS: dict[str, Item] = {item.key: item for branch in BRANCHES.values() for item in branch if item.kind}
