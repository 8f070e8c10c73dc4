"""An unknown phone: the invitation in both languages at once, then the owner's name."""

from __future__ import annotations

from dataclasses import replace

from dialogs.screens.layout import Option, Screen
from dialogs.screens.state import At, Caller, Join, State, Turn
from dialogs.screens.typed import Wrong
from dialogs.screens.words import LANGUAGES, word
from service.sms import cut, plain

LONGEST_OWNER = 30
"""Characters of an owner's name; longer ones are no names but letters to us."""

LONGEST_SHOWN = 16
"""Septets of the owner's name that stand in the question whether to help."""


def invitation(state: State, caller: Caller) -> Screen:
    """Who we are, or who asks for help, and yes in either language: the caller's is not known yet."""
    yes = tuple(Option(word("join.yes", language)) for language in LANGUAGES)
    heading = "\n".join(_welcome(caller, language) for language in LANGUAGES)
    return Screen(heading=heading, options=yes, back="join.no")


def _welcome(caller: Caller, language: str) -> str:
    if caller.asked_by is None:
        return word("join.welcome", language)
    return word("join.helper", language, owner=cut(plain(caller.asked_by), LONGEST_SHOWN))


def owner(state: State, caller: Caller) -> Screen:
    """The one question of joining."""
    return Screen(heading=word("join.owner", caller.language))


def accepted(state: State, text: str, caller: Caller) -> State | Turn | Wrong:
    """1 and 2 are yes in Kiswahili and in English, and so is the word itself."""
    for number, language in enumerate(LANGUAGES, 1):
        if text.casefold() in (str(number), word("answer.yes", language).casefold()):
            if caller.asked_by is not None:
                return Turn(text="", more=False, state=State(at=At.OVER), effects=(Join(None, language),))
            return replace(state, at=At.OWNER, language=language)
    return Wrong("wrong.number")


def joined(state: State, text: str, caller: Caller) -> Turn | Wrong:
    """The name given: the phone joins."""
    name = " ".join(text.split())
    if len(name) > LONGEST_OWNER or not any(character.isalpha() for character in name):
        return Wrong("wrong.owner")
    return Turn(text="", more=False, state=State(at=At.OVER), effects=(Join(name, caller.language),))
