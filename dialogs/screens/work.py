"""The numbered list of work: look, then say of one line that it is done, or leave it for later."""

from __future__ import annotations

from dataclasses import replace

from dialogs.screens.layout import Option, Screen
from dialogs.screens.state import At, Caller, State, Turn
from dialogs.screens.typed import Wrong
from dialogs.screens.words import word
from service.husbandry.forms import Entry
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.instructions import Later


def list_screen(state: State, caller: Caller) -> Screen:
    """The lines of work, or that there are none."""
    heading = word("tasks.heading" if caller.tasks else "tasks.none", caller.language)
    return Screen(heading=heading, options=tuple(Option(line) for line in caller.tasks))


def line_screen(state: State, caller: Caller) -> Screen:
    """One line, and what can be said of it."""
    answers = (Option(word(f"line.{key}", caller.language)) for key in ("done", "later"))
    return Screen(heading=_line(state, caller), options=tuple(answers))


def _line(state: State, caller: Caller) -> str:
    number = state.number or 0
    if not 1 <= number <= len(caller.tasks):
        return word("tasks.none", caller.language)
    return caller.tasks[number - 1]


def chosen(state: State, index: int, caller: Caller) -> State:
    """The line at *index* (from 0) of the whole list."""
    return replace(state, at=At.TASK, page=0, number=index + 1)


def said(state: State, text: str, caller: Caller) -> Turn | Wrong:
    """1: it is done; 2: tell me again tomorrow. The number is that of the list shown."""
    numbers = (state.number or 0,)
    if numbers[0] > len(caller.tasks) or text not in ("1", "2"):
        return Wrong("wrong.number")
    today = caller.now.date()
    effect: Entry = Done(numbers=numbers, on=today) if text == "1" else Later(numbers=numbers)
    return Turn(text="", more=False, state=State(at=At.OVER), effects=(effect,))
