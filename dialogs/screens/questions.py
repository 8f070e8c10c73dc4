"""
One question of a record as a screen, and what an answer typed in full gives.

Values are given as ``forms.dump_values`` writes them, so that they wait as JSON.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from dialogs.screens import animals, plans, typed
from dialogs.screens.choices import FIRST_ANIMAL, choices
from dialogs.screens.layout import Option, Screen
from dialogs.screens.state import Caller, State
from dialogs.screens.typed import Wrong
from dialogs.screens.words import catalogue, word
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL, Sort

Values = Mapping[str, Any]


def about(state: State, caller: Caller) -> str:
    """Whom the record is about, as the beginning of a heading; empty where no animal is chosen."""
    if state.question in ("animal", "animals"):
        return ""
    own = None if state.question == "name" else state.values.get("name")
    names = state.values.get("animals") or [state.values.get("animal") or own]
    if not names[0]:
        return ""
    if names == [EVERY_ANIMAL]:
        return word("animals.all", caller.language) + ": "
    return str(names[0]) + (f" +{len(names) - 1}" if len(names) > 1 else "") + ": "


def _worded(part: str, state: State, caller: Caller) -> str:
    """The catalogue's text for this question of this item, of this kind, or of any kind; else empty."""
    texts = catalogue(caller.language)
    keys = (f"{part}.{state.item}.{state.question}", f"{part}.{state.question}")
    return next((texts[key] for key in keys if key in texts), "")


def _heading(whom: str, question: str) -> str:
    """The question after the animal's name, then with a small letter first (a word in capitals stays)."""
    if not whom or question[1:2].isupper():
        return whom + question
    return whom + question[:1].lower() + question[1:]


def _skip(state: State, question: str) -> str | None:
    if state.picked:
        return "key.done"
    if plans.is_answered(state, question):
        return "key.keep"
    return None if plans.is_needed(state, question) or _is_flag(state, question) else "key.skip"


def _is_flag(state: State, question: str) -> bool:
    return question not in plans.FILLS and plans.field_of(state, question).sort is Sort.FLAG


def _zero_is_value(state: State, question: str) -> bool:
    if question == "sure" or plans.field_of(state, question).sort is not Sort.NUMBER or question == "hour":
        return False
    return plans.field_of(state, question).low == 0


def screen(state: State, caller: Caller) -> Screen:
    """The question being asked."""
    question = state.question or ""
    if question in ("animal", "animals") and not caller.herd.animals:
        return _empty_herd(caller)
    ticked = f" ({len(state.picked)})" if state.picked else ""
    return Screen(
        heading=_heading(about(state, caller), _worded("ask", state, caller)) + ticked,
        options=choices(state, caller),
        hint=_worded("hint", state, caller),
        skip=_skip(state, question),
        zero_is_value=_zero_is_value(state, question),
    )


def _empty_herd(caller: Caller) -> Screen:
    first = Option(word("menu.new_animal", caller.language), to=FIRST_ANIMAL)
    return Screen(heading=word("ask.empty", caller.language), options=(first,))


def _typed_animals(text: str, caller: Caller) -> list[str]:
    """Names separated by commas or blanks; [] unless each is an animal's."""
    for parts in ([text], text.split(","), text.replace(",", " ").split()):
        found = [animals.named(part, caller) for part in parts]
        if all(found):
            return list(dict.fromkeys(animal.name for animal in found if animal))
    return []


def _typed_hold(state: State, text: str, caller: Caller) -> Values | Wrong:
    """Days without milk, then days without meat, as the label states them."""
    numbers = re.findall(r"\d+", text)[:2] or [text]
    found: dict[str, Any] = {}
    for name, number in zip(plans.FILLS["hold"], numbers, strict=False):
        value = typed.read(number, forms.field_of(plans.kind_of(state), name), caller)
        if isinstance(value, Wrong):
            return value
        found[name] = value
    return forms.dump_values(plans.kind_of(state), found) if found else Wrong("wrong.read")


def _typed_quantity(state: State, text: str, caller: Caller) -> Values | Wrong:
    """Litres, unless the unit typed beside the number is the kilogram."""
    name = "kg" if re.search(r"k(g|ilo)", text, re.IGNORECASE) else "litres"
    return _typed_value(state, name, text, caller)


def _typed_value(state: State, name: str, text: str, caller: Caller) -> Values | Wrong:
    kind = plans.kind_of(state)
    value = typed.read(text, forms.field_of(kind, name), caller)
    if isinstance(value, Wrong):
        return value
    about = {"about": True} if name == "on" and typed.is_about(text, caller) else {}
    return forms.dump_values(kind, {name: value, **about})


def _is_taken(state: State, text: str, caller: Caller) -> bool:
    """Whether *text*, as a name for an animal, is another animal's already."""
    bearer = None if plans.kind_of(state).KIND == "contact" else animals.named(text, caller)
    return bearer is not None and bearer.name != state.values.get("animal")


def take(state: State, text: str, caller: Caller) -> Values | Wrong:
    """What *text*, typed in full, gives as an answer to the question being asked."""
    question = state.question or ""
    if question in ("animal", "animals"):
        found = _typed_animals(text, caller)
        if question == "animal" and len(found) == 1:
            return {"animal": found[0]}
        return {"animals": found} if found and question == "animals" else Wrong("wrong.animal")
    match question:
        case "hold":
            return _typed_hold(state, text, caller)
        case "quantity":
            return _typed_quantity(state, text, caller)
        case "milking":
            return _typed_value(state, "on", text, caller)
        case "stage" | "sure":
            return Wrong("wrong.number")
        case "name" if _is_taken(state, text, caller):
            return Wrong("wrong.taken")
    return _typed_value(state, question, text, caller)
