"""
A question that what was told has raised, on the screen of its reply: answered there just as by text.

Keys stand for words where a word would have to be spelled: 1 and 2 for yes and no, ``#`` to take what is
offered, or to say that a label asks for no days. Going back leaves a record that stands as it is, to be
answered by text; what is not written down yet is then not written down.
"""

from __future__ import annotations

from dialogs import how_is_it, milk_fall, told_before
from dialogs.asking import question as worded
from dialogs.labels import is_label
from dialogs.offers import is_kept, offered
from dialogs.reading import Code, Problem
from dialogs.screens.layout import BACK, HASH, LIMIT, STAR
from dialogs.screens.words import word
from service.sms import cut, measure, plain

CHOSEN_FROM = frozenset({"heat_or_fever", "price_or_sum"})
"""Doubts with choices of their own in the place of yes and no."""

YES, NO, NONE = "ndiyo", "hapana", "hakuna"


def _is_yes_no(problem: Problem) -> bool:
    if problem.code is not Code.CONFIRM or told_before.is_asked(problem) or how_is_it.is_asked(problem):
        return False
    return not milk_fall.is_asked(problem) and problem.ask.values.get("why") not in CHOSEN_FROM


def said(typed: str, problem: Problem) -> str | None:
    """The words that *typed* stands for; None: she goes back."""
    if typed in (BACK, STAR):  # never a value: a slip must not say that no milk need be held
        return NO if _is_yes_no(problem) and not is_kept(problem) else None
    if typed in ("1", "2") and _is_yes_no(problem):
        return YES if typed == "1" else NO
    if typed == HASH and is_label(problem):
        return NONE
    return YES if typed == HASH and offered(problem) else typed


def _keys(problem: Problem, language: str) -> tuple[str, ...]:
    """What can be pressed, all of it and then as little as must be known."""
    yes, no, none = (word(f"answer.{key}", language) for key in ("yes", "no", "none"))
    back = f"{BACK} {word('key.later', language)}"
    if _is_yes_no(problem):
        both = f"1 {yes} 2 {no}"
        return (f"{both} {back}", both) if is_kept(problem) else (both,)
    if is_label(problem):
        return (f"{HASH} {none} {back}",)
    return (f"{HASH} {yes} {back}" if offered(problem) else back,)


def shown(reply: str, problem: Problem, language: str) -> str:
    """The *reply* that asks, and the keys below it as far as there is room."""
    screens = (f"{reply}\n{keys}" for keys in _keys(problem, language))
    return next((screen for screen in screens if measure(screen).units <= LIMIT), reply)


def again(problem: Problem, language: str, reason: str) -> str:
    """The question alone, under the *reason* why the answer was none."""
    keys = _keys(problem, language)[-1]
    room = LIMIT - measure(f"{reason}\n\n{keys}").units
    asked = cut(plain(worded(problem, language, room=room)), room)
    return f"{reason}\n{asked}\n{keys}"
