"""
What an answer typed in full gives, where no number of a list was chosen: values of fields, or why not.

Values are given as ``forms.dump_values`` writes them, so that they wait as JSON.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from dialogs import secret
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.screens import animals, plans, typed
from dialogs.screens.joining import LONGEST_OWNER
from dialogs.screens.state import Caller, State
from dialogs.screens.typed import Wrong
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.kinds.instructions import Ask

Values = Mapping[str, Any]

HERD_LITRES = Decimal(10000)
"""As much as a whole herd's milk can be, told in one sum; as of milk sold."""

ANIMAL_QUESTIONS = ("animal", "animals", "cows")

OF_PEOPLE = ("contact", "helper")
"""Kinds whose names are people's."""


def value_of(state: State, name: str, text: str, caller: Caller) -> Values | Wrong:
    """What *text* gives for the one field *name*."""
    kind = plans.kind_of(state)
    field = forms.field_of(kind, name)
    if name == "name" and kind.KIND in OF_PEOPLE:
        field = replace(field, high=Decimal(LONGEST_OWNER))
    if name == "litres" and state.values.get("animal") == EVERY_ANIMAL:
        field = replace(field, high=HERD_LITRES)
    value = typed.read(text, field, caller)
    if isinstance(value, Wrong):
        return value
    about = {"about": True} if name == "on" and typed.is_about(text, caller) else {}
    return forms.dump_values(kind, {name: value, **about})


def _animals(state: State, text: str, caller: Caller) -> Values | Wrong:
    """Names separated by commas or blanks, if each is an animal's."""
    question = state.question or ""
    for parts in ([text], text.split(","), text.replace(",", " ").split()):
        known = [animals.named(part, caller) for part in parts]
        names = list(dict.fromkeys(animal.name for animal in known if animal))
        if names and all(known) and (len(names) == 1 or question != "animal"):
            return {question: names[0] if question == "animal" else names}
    return Wrong("wrong.animal")


def _in_order(state: State, names: Sequence[str], numbers: Sequence[str], caller: Caller) -> Values | Wrong:
    """Bare numbers as the values of the fields *names*, in that order."""
    found: dict[str, Any] = {}
    for name, number in zip(names, numbers, strict=False):
        value = value_of(state, name, number, caller)
        if isinstance(value, Wrong):
            return value
        found |= value
    return found or Wrong("wrong.read")


def _hold(state: State, text: str, caller: Caller) -> Values | Wrong:
    """Days without milk, then days without meat, as the label states them."""
    return _in_order(state, plans.FILLS["hold"], re.findall(r"\d+", text)[:2] or [text], caller)


def _quantity(state: State, text: str, caller: Caller) -> Values | Wrong:
    """Litres, unless the unit typed beside the number is the kilogram."""
    return value_of(state, "kg" if re.search(r"k(g|ilo)", text, re.IGNORECASE) else "litres", text, caller)


def _calved(state: State, text: str, caller: Caller) -> Values | Wrong:
    """The day, and its hour where one is told."""
    day = value_of(state, "on", text, caller)
    if isinstance(day, Wrong) or text.isdigit():
        return day
    kind = plans.kind_of(state)
    on = forms.load_values(kind, day)["on"]
    at = typed.hour_on(on, text, caller)
    return day if at is None else {**day, **forms.dump_values(kind, {"at": at})}


def _result(state: State, text: str, caller: Caller) -> Values | Wrong:
    """What was found; the months of a pregnancy say so as well."""
    if not any(character.isdigit() for character in text):
        return value_of(state, "result", text, caller)
    months = value_of(state, "months", text, caller)
    return months if isinstance(months, Wrong) else {"result": "pregnant", **months}


def _helper(state: State, text: str, caller: Caller) -> Values | Wrong:
    """A helper by name or number."""
    phone = value_of(state, "phone", text, caller)
    return value_of(state, "name", text, caller) if isinstance(phone, Wrong) else phone


def _secret(state: State, text: str, caller: Caller) -> Values | Wrong:
    """The secret number; where it is changed, the old one before it. Both at once, since neither may wait."""
    names = ("old", "code") if state.item == "pin.change" else ("code",)
    told = text.split()
    if len(told) != len(names) or not all(map(secret.is_code, told)):
        return Wrong("wrong.secret")
    return dict(zip(names, told, strict=True))


def _rate(state: State, text: str, caller: Caller) -> Values | Wrong:
    """A label's rate: bare numbers in the order in which they are asked for, or in words as in a text."""
    dosing = state.question == "dose_rate"
    if re.fullmatch(r"[\d., ]+", text):
        names = ("rate_ml", "per_kg", "highest_ml") if dosing else ("rate_ml", "in_litres", "tank_litres")
        numbers = text.split()
        return _in_order(state, names, numbers, caller) if len(numbers) in (2, 3) else Wrong("wrong.read")
    asked = f"{'DOSE' if dosing else 'MIX'} {text}"
    place = Place(caller.region, caller.currency)
    told = read(asked, caller.herd, now=caller.now, language=caller.language, place=place).entries
    ask = next((entry for entry in told if isinstance(entry, Ask)), None)
    if ask is None or (ask.rate_ml is None and ask.part is None):
        return Wrong("wrong.read")
    known = {name: value for name, value in forms.values_of(ask).items() if value is not None}
    fields = plans.fills(state.question or "")
    return forms.dump_values(Ask, {name: known[name] for name in fields if name in known})


Taking = Callable[[State, str, Caller], Values | Wrong]

BY_QUESTION: dict[str, Taking] = {
    **dict.fromkeys(ANIMAL_QUESTIONS, _animals),
    "hold": _hold, "quantity": _quantity, "calved": _calved, "result": _result, "helper": _helper,
    "secret": _secret, "dose_rate": _rate, "mix_rate": _rate,
    "milking": lambda state, text, caller: value_of(state, "on", text, caller),
    "stage": lambda state, text, caller: Wrong("wrong.number"),
    "sure": lambda state, text, caller: Wrong("wrong.number"),
}  # fmt: skip


def _is_taken(state: State, text: str, caller: Caller) -> bool:
    """Whether *text*, as a name for an animal, is another animal's already."""
    bearer = None if plans.kind_of(state).KIND in OF_PEOPLE else animals.named(text, caller)
    return bearer is not None and bearer.name != state.values.get("animal")


def take(state: State, text: str, caller: Caller) -> Values | Wrong:
    """What *text*, typed in full, gives as an answer to the question being asked."""
    question = state.question or ""
    if question == "name" and _is_taken(state, text, caller):
        return Wrong("wrong.taken")
    taking = BY_QUESTION.get(question)
    return value_of(state, question, text, caller) if taking is None else taking(state, text, caller)
