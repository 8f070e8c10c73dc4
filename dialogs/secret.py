"""
A secret number before money and people: asked for, found where it is the answer, never kept readable.

What was asked for waits inside the question, and is carried out once the number has been given.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from dialogs.reading import Code, Draft, Problem
from service.husbandry import forms, kinds
from service.husbandry.forms import Entry
from service.husbandry.kinds.instructions import Pin
from service.messages import Say, say

SHORTEST, LONGEST = 4, 6
"""Digits of a secret number."""

_ALONE = re.compile(rf"\W*(?:pin\W*)?(\d{{{SHORTEST},{LONGEST}}})\W*", re.IGNORECASE)
_SPOKEN_OF = re.compile(r"\bpin(?![a-z])|\b(?:siri|nywila|password|passcode)\b", re.IGNORECASE)
_DIGITS = re.compile(r"(?<!\d)\d{1,8}(?!\d)")
"""Anything shorter than a phone number, which is no secret."""

MASK = "****"


def is_code(code: str | None) -> bool:
    return code is not None and code.isascii() and code.isdigit() and SHORTEST <= len(code) <= LONGEST


def code_alone(text: str) -> str | None:
    """The number of a text that is nothing else: ``4821``, ``PIN 4821``."""
    found = _ALONE.fullmatch(text)
    return None if found is None else found[1]


def masked(text: str, *, asked: bool = False) -> str:
    """*text* as it may be kept; *asked*: a secret number was asked for, so digits alone are one."""
    if _SPOKEN_OF.search(text) or (asked and code_alone(text) is not None):
        return _DIGITS.sub(MASK, text)
    return text


def question(held_back: Iterable[Entry], *, left: int | None = None) -> Problem:
    """Asks for the number, before *held_back* is done; *left*: tries after one that was wrong."""
    then = [forms.dump(entry) for entry in held_back]
    return Problem(
        code=Code.MISSING,
        ask=say("ask.pin", kept=True, then=then, left=left),
        field="code",
        draft=Draft(kind=Pin, values={"act": "give"}),
    )


def is_asked(problem: Problem) -> bool:
    return problem.draft is not None and problem.draft.kind is Pin


def worded(problem: Problem) -> Say:
    left = problem.ask.values.get("left")
    return say("ask.pin") if left is None else say("ask.pin_again", count=left)


def held_back(problem: Problem) -> tuple[Entry, ...]:
    """What waits for the number that *problem* asks for."""
    return tuple(map(_entry, problem.ask.values.get("then", ())))


def _entry(stored: dict[str, object]) -> Entry:
    kind = kinds.BY_KEY[str(stored["kind"])]
    return kind(**forms.load_values(kind, stored))
