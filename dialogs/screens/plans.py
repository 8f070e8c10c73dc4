"""
Which questions a record asks, in which order, and the entry that comes of the answers.

A question mostly is a field of the kind's form under that field's name. Some fill several fields with one
answer (``FILLS``), some are asked only when another answer calls for them (``ONLY_IF``).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from dialogs.screens.branches import ITEMS, Item
from dialogs.screens.state import Caller, State
from service.husbandry import forms
from service.husbandry.forms import Entry, Field, Sort
from service.husbandry.kinds import BY_KEY

FILLS: dict[str, tuple[str, ...]] = {
    "on": ("on", "about"),
    "milking": ("session", "on", "about"),
    "calved": ("on", "at", "about"),
    "cows": ("animal",),  # a record for each of them
    "result": ("result", "months"),
    "stage": ("sex", "status"),
    "hold": ("milk_hold_days", "meat_hold_days"),
    "quantity": ("litres", "kg"),
    "helper": ("phone", "name"),
    "secret": ("code", "old"),
    "dose_rate": ("rate_ml", "per_kg", "highest_ml", "route"),
    "mix_rate": ("rate_ml", "in_litres", "part", "tank_litres", "animals_count", "litres_each"),
    "sure": (),
}
"""Question -> the fields it fills, where these are not the one of its own name."""

WHEN = ("on", "milking", "first_seen", "calved", "born")
"""The questions for the day: last of a record, and with the way to the optional fields."""

ONLY_IF: dict[tuple[str, str], Callable[[State], bool]] = {
    ("new_animal", "born"): lambda s: s.details or s.values.get("status") == "calf",
    ("new_animal", "on"): lambda s: s.details or s.values.get("status") != "calf",
    ("milk_sale", "price"): lambda s: s.details or "litres" in s.values,
    ("milk_sale", "amount"): lambda s: s.details or ("litres" in s.trail and "litres" not in s.values),
    ("delivery", "reason"): lambda s: bool(s.values.get("rejected")),
}

FOLLOWS_FROM: dict[tuple[str, str], str] = {
    ("milk_sale", "litres"): "amount", ("milk_sale", "price"): "amount", ("milk_sale", "amount"): "price",
}  # fmt: skip
"""(Kind, what is put right) -> what is worked out anew from it."""


def fills(question: str) -> tuple[str, ...]:
    """Names of the fields that *question* fills."""
    return FILLS.get(question, (question,))


def kind_of(state: State) -> type[Entry]:
    return BY_KEY[item_of(state).kind or ""]


def item_of(state: State) -> Item:
    return ITEMS[state.item or ""]


def field_of(state: State, question: str) -> Field:
    """The first field that *question* fills."""
    return forms.field_of(kind_of(state), fills(question)[0])


def details(item: Item) -> tuple[str, ...]:
    """The optional questions that are asked only when the farmer has more to tell; () for instructions."""
    if not item.asks or item.asks[-1] not in WHEN:
        return ()
    asked = {name for question in item.asks for name in fills(question)} | {"about", *item.preset}
    left = (field.name for field in forms.form(BY_KEY[item.kind or ""]) if field.name not in asked)
    return tuple(dict.fromkeys("hold" if name in FILLS["hold"] else name for name in left))


def plan(state: State) -> tuple[str, ...]:
    """The questions of the record being told, as far as the answers so far determine them."""
    item = item_of(state)
    asks = list(item.asks)
    if state.details:
        asks[-1:-1] = details(item)
    if "milking" in state.trail and "session" not in state.values:  # another day than the last two
        asks.append("session")
    wanted = (ONLY_IF.get((item.kind or "", question)) for question in asks)
    return tuple(question for question, test in zip(asks, wanted, strict=True) if test is None or test(state))


def is_needed(state: State, question: str) -> bool:
    """Whether the record cannot do without an answer to *question*."""
    if question == "sure" or question in item_of(state).must:
        return True
    if question == "amount" and kind_of(state).KIND == "milk_sale":
        return "litres" not in state.values
    return any(forms.field_of(kind_of(state), name).needed for name in fills(question))


def is_answered(state: State, question: str) -> bool:
    """Whether an answer to *question* is kept from before (the farmer has gone back to it)."""
    return any(state.values.get(name) not in (None, []) for name in (question, *fills(question)))


def following(state: State) -> str | None:
    """The next question to ask; None when all are answered or skipped."""
    return next((question for question in plan(state) if question not in state.trail), None)


def _defaults(kind: type[Entry], caller: Caller) -> Mapping[str, Any]:
    now = {Sort.DAY: caller.now.date(), Sort.MOMENT: caller.now}
    return {f.name: now[f.sort] for f in forms.form(kind) if f.needed and f.sort in now}


def _told(state: State) -> dict[str, Any]:
    """The values that count: not those of questions which are not asked any more."""
    asked = {name for question in plan(state) for name in fills(question)} | {"about"}
    if state.amends is None:
        return {name: value for name, value in state.values.items() if name in asked}
    ended = {q for (kind, q), test in ONLY_IF.items() if kind == kind_of(state).KIND and not test(state)}
    return {name: value for name, value in state.values.items() if name not in ended}


def entries(state: State, caller: Caller) -> tuple[Entry, ...]:
    """
    The records that the answers make, mostly one; of the day of now where none is asked.

    Raises:
        TypeError: a needed question is not answered yet.
    """
    kind = kind_of(state)
    told = forms.load_values(kind, {**item_of(state).preset, **_told(state)})
    values = {**_defaults(kind, caller), **told}
    cows = state.values.get("cows")
    each: list[dict[str, Any]] = [{}] if cows is None else [{"animal": name} for name in cows]
    return tuple(kind(**{**values, **one}) for one in each)
