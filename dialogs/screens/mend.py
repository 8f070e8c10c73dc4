"""Putting right one of the entries told last: which, what of it, then that question as when it was told."""

from __future__ import annotations

from dataclasses import replace

from dialogs.screens import plans
from dialogs.screens.branches import ITEMS, Item
from dialogs.screens.layout import Option, Screen
from dialogs.screens.questions import worded
from dialogs.screens.state import At, Caller, Latest, State
from dialogs.screens.words import word
from service.husbandry import forms
from service.husbandry.forms import Entry
from service.sms import cut, plain

FIX = "fix"
"""The line of the menu that leads here."""

LABEL = 44
"""Septets of an entry: two and more to a screen of the list, and room for its fields below it."""


def begin(branches: tuple[str, ...], caller: Caller) -> State:
    """The list of what can be put right, as it is now: its numbers stay those shown."""
    ids = tuple(one.id for one in caller.latest() if _item(one.entry) is not None)
    return State(at=At.LATEST, branches=branches, item=FIX, offered=ids)


def _those(state: State, caller: Caller) -> list[Latest]:
    there = {one.id: one for one in caller.latest()}
    return [there[one] for one in state.offered if one in there]


def list_screen(state: State, caller: Caller) -> Screen:
    """The entries told last, or that there are none."""
    found = _those(state, caller)
    heading = word("fix.which" if found else "fix.none", caller.language)
    return Screen(heading=heading, options=tuple(Option(cut(plain(one.says), LABEL)) for one in found))


def chosen(state: State, index: int, caller: Caller) -> State:
    """The entry at *index* (from 0) of the list, with all its values."""
    one = _those(state, caller)[index]
    told = forms.dump_values(type(one.entry), forms.values_of(one.entry))
    values = {name: value for name, value in told.items() if value is not None}
    item = _item(one.entry)
    key = None if item is None else item.key
    return replace(state, at=At.FIELD, item=key, page=0, values=values, amends=one.id, details=True)


def asked(state: State) -> tuple[str, ...]:
    """The questions whose answer can be put right."""
    return tuple(question for question in plans.plan(state) if question != "session")


def field_screen(state: State, caller: Caller) -> Screen:
    """What the entry says, and what of it can be put right."""
    says = next((one.says for one in caller.latest() if one.id == state.amends), "")
    options = (Option(worded("ask", state, question, caller.language)) for question in asked(state))
    heading = f"{cut(plain(says), LABEL)}. {word('fix.what', caller.language)}"
    return Screen(heading=heading, options=tuple(options))


def field(state: State, index: int) -> State:
    """The question at *index* (from 0)."""
    return replace(state, at=At.ASK, question=asked(state)[index], page=0, picked=())


def back(state: State, caller: Caller) -> State:
    """From the question to what can be put right, from there to the list."""
    if state.at == At.FIELD:
        return begin(state.branches, caller)
    return replace(state, at=At.FIELD, question=None, page=0, picked=())


def _item(entry: Entry) -> Item | None:
    """The line of the menu that asks for most of what *entry* tells; None: none tells that kind."""
    items = [item for item in ITEMS.values() if item.kind == entry.KIND and not item.preset]
    items = items or [item for item in ITEMS.values() if item.kind == entry.KIND]
    told = {name for name, value in forms.values_of(entry).items() if value is not None and value != ()}
    return max(items, key=lambda item: len(told & _fields(item)), default=None)


def _fields(item: Item) -> set[str]:
    return {name for question in (*item.asks, *plans.details(item)) for name in plans.fills(question)}
