"""One question of a record as a screen."""

from __future__ import annotations

from dialogs.screens import plans
from dialogs.screens.choices import FIRST_ANIMAL, choices
from dialogs.screens.layout import Option, Screen
from dialogs.screens.state import Caller, State
from dialogs.screens.take import ANIMAL_QUESTIONS
from dialogs.screens.words import catalogue, word
from service.husbandry.forms import EVERY_ANIMAL, Sort


def about(state: State, caller: Caller) -> str:
    """Whom the record is about, as the beginning of a heading; empty where no animal is chosen."""
    if state.question in ANIMAL_QUESTIONS:
        return ""
    own = None if state.question == "name" else state.values.get("name")
    several = state.values.get("cows") or state.values.get("animals")
    names = several or [state.values.get("animal") or own]
    if not names[0]:
        return ""
    if names == [EVERY_ANIMAL]:
        return word("animals.all", caller.language) + ": "
    return str(names[0]) + (f" +{len(names) - 1}" if len(names) > 1 else "") + ": "


def worded(part: str, state: State, question: str, language: str) -> str:
    """The catalogue's text for *question* of this item, of its kind, or of any kind; else empty."""
    texts = catalogue(language)
    kind = plans.kind_of(state).KIND
    keys = (f"{part}.{state.item}.{question}", f"{part}.{kind}.{question}", f"{part}.{question}")
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
    question, language = state.question or "", caller.language
    if question in ANIMAL_QUESTIONS and not caller.herd.animals:
        return _empty_herd(caller)
    ticked = f" ({len(state.picked)})" if state.picked else ""
    return Screen(
        heading=_heading(about(state, caller), worded("ask", state, question, language)) + ticked,
        options=choices(state, caller),
        hint=worded("hint", state, question, language),
        skip=_skip(state, question),
        zero_is_value=_zero_is_value(state, question),
    )


def _empty_herd(caller: Caller) -> Screen:
    first = Option(word("menu.new_animal", caller.language), to=FIRST_ANIMAL)
    return Screen(heading=word("ask.empty", caller.language), options=(first,))
