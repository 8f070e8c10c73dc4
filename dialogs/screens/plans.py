"""
Which questions a record asks, in which order, and the entry that comes of the answers.

A question mostly is a field of the kind's form under that field's name. Some fill two fields with one
answer (``FILLS``), some are asked only when another answer calls for them (``ONLY_IF``).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from dialogs.screens.branches import ITEMS, Item
from dialogs.screens.state import Caller, State
from service.husbandry import forms
from service.husbandry.forms import Entry, Field, Sort
from service.husbandry.kinds import BY_KEY
from service.husbandry.units import Money

FILLS: dict[str, tuple[str, ...]] = {
    "on": ("on", "about"),
    "milking": ("session", "on", "about"),
    "stage": ("sex", "status"),
    "hold": ("milk_hold_days", "meat_hold_days"),
    "quantity": ("litres", "kg"),
    "sure": (),
}
"""Question -> the fields it fills, where these are not the one of its own name."""

WHEN = ("on", "milking", "first_seen")
"""The questions for the day: last of a record, and with the way to the optional fields."""

ONLY_IF: dict[tuple[str, str], Callable[[State], bool]] = {
    ("pregnancy_check", "months"): lambda s: s.values.get("result") == "pregnant",
    ("new_animal", "born"): lambda s: s.details or s.values.get("status") in ("calf", "heifer"),
    ("milk_sale", "amount"): lambda s: s.details or ("price" in s.trail and "price" not in s.values),
    ("delivery", "reason"): lambda s: bool(s.values.get("rejected")),
}


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
    """The optional fields that are asked only when the farmer has more to tell; () for instructions."""
    if not item.asks or item.asks[-1] not in WHEN:
        return ()
    asked = {name for question in item.asks for name in fills(question)} | {"about", *item.preset}
    return tuple(field.name for field in forms.form(BY_KEY[item.kind or ""]) if field.name not in asked)


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
    if (state.item, question) == ("milk_sale", "amount"):
        return "litres" not in state.values
    return any(forms.field_of(kind_of(state), name).needed for name in fills(question))


def is_answered(state: State, question: str) -> bool:
    """Whether an answer to *question* is kept from before (the farmer has gone back to it)."""
    return any(name in state.values for name in fills(question))


def following(state: State) -> str | None:
    """The next question to ask; None when all are answered or skipped."""
    return next((question for question in plan(state) if question not in state.trail), None)


def _completed(values: dict[str, Any], currency: str) -> dict[str, Any]:
    """Of a milk sale, the third of litres, price and amount where two are told."""
    litres, price, amount = (values.get(name) for name in ("litres", "price", "amount"))
    if litres and price and not amount:
        return {**values, "amount": Money.of(litres * price.amount, currency)}
    if litres and amount and not price:
        return {**values, "price": Money.of(amount.amount / litres, currency)}
    if price and amount and not litres and price.amount:
        return {**values, "litres": (amount.amount / price.amount).quantize(Decimal("0.01"))}
    return values


def _defaults(kind: type[Entry], caller: Caller) -> Mapping[str, Any]:
    now = {Sort.DAY: caller.now.date(), Sort.MOMENT: caller.now}
    return {f.name: now[f.sort] for f in forms.form(kind) if f.needed and f.sort in now}


def entry(state: State, caller: Caller) -> Entry:
    """
    The record that the answers make; the day of now where none is asked.

    Raises:
        TypeError: a needed question is not answered yet.
    """
    kind = kind_of(state)
    asked = {name for question in plan(state) for name in fills(question)} | {"about"}
    told = {name: value for name, value in state.values.items() if name in asked}
    values = forms.load_values(kind, {**item_of(state).preset, **told})
    if kind.KIND == "milk_sale":
        values = _completed(values, caller.currency)
    return kind(**{**_defaults(kind, caller), **values})
