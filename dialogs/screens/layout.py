"""
How a screen is laid out: within the length of a USSD message, whatever the names in it.

A screen is a heading, numbered choices, a hint and the keys; above them, in the hint's place, what was
wrong with the last answer. Choices that do not fit go to further pages; where a page ends does not
depend on whether there was something wrong, so a number means the same each time it is shown.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from dialogs.screens.words import word
from service.sms import cut, measure, plain

LIMIT = 182
"""GSM-7 septets of a USSD message. Source: 3GPP TS 23.038, 182 characters in 160 octets."""

REASON = 33
"""Septets kept free for a word on what was wrong, its line break included; the hint gives way to it."""

MOST = 8
"""Choices on a page: 9 turns the page, 0 goes back."""

TOGETHER = 2
"""So few choices (yes and no) are never parted by a page; a long heading gives way to them."""

BACK = "0"
MORE = "9"
STAR = "*"  # back, also where 0 is a possible value
HASH = "#"  # go on: skip, keep, or finish picking


def _septets(text: str) -> int:
    return measure(plain(text)).units


@dataclass(frozen=True, slots=True)
class Option:
    """One choice: ``gives`` values to the record, or goes ``to`` a place; ``name`` where it is picked."""

    label: str
    gives: Mapping[str, Any] = field(default_factory=dict)
    to: str | None = None
    name: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """What is to be shown, before it is cut into pages and put into words."""

    heading: str
    options: tuple[Option, ...] = ()
    hint: str = ""
    skip: str | None = None  # key of the word for going on without an answer
    zero_is_value: bool = False
    back: str = "key.back"


def _room(screen: Screen, language: str) -> int:
    """Septets for the choices of one page, each with the line break before it."""
    foot = max(REASON, _septets(screen.hint) + 1) + _septets(_keys(screen, True, language)) + 1
    return LIMIT - _septets(screen.heading) - foot


def pages(screen: Screen, language: str) -> tuple[tuple[Option, ...], ...]:
    """The choices in pages, as many to a page as fit and one at least; one empty page if there are none."""
    if len(screen.options) <= TOGETHER:
        return (screen.options,)
    filled: list[list[Option]] = [[]]
    left = _room(screen, language)
    for option in screen.options:
        size = _septets(option.label) + 3  # number, space, line break
        if filled[-1] and (size > left or len(filled[-1]) == MOST):
            filled.append([])
            left = _room(screen, language)
        filled[-1].append(option)
        left -= size
    return tuple(tuple(page) for page in filled)


def leaves(text: str, language: str) -> tuple[str, ...]:
    """*text* in pieces that leave a screen room for the keys, parted between words."""
    room = LIMIT - _septets(f"\n{MORE} {word('key.more', language)} {BACK} {word('key.end', language)}")
    found = [""]
    for part in plain(text).split():
        longer = f"{found[-1]} {part}".strip()
        if found[-1] and _septets(longer) > room:
            found.append(part)
        else:
            found[-1] = longer
    return tuple(cut(one, room) for one in found)


def spelled(screen: Screen, text: str) -> Option | None:
    """The choice whose label *text* is, typed out; whatever the case."""
    wanted = text.casefold()
    return next((option for option in screen.options if option.label.casefold() == wanted), None)


def _keys(screen: Screen, many: bool, language: str) -> str:
    shown = [f"{MORE} {word('key.more', language)}"] if many else []
    if screen.skip:
        shown.append(f"{HASH} {word(screen.skip, language)}")
    key = STAR if screen.zero_is_value else BACK
    return " ".join([*shown, f"{key} {word(screen.back, language)}"])


def render(screen: Screen, page: int, language: str, reason: str = "") -> str:
    """The text of one page of *screen*, with the *reason* why it is shown again."""
    cut_up = pages(screen, language)
    numbered = [f"{number} {option.label}" for number, option in enumerate(cut_up[page % len(cut_up)], 1)]
    keys = _keys(screen, len(cut_up) > 1, language)
    foot = "\n".join(line for line in (*numbered, "" if reason else screen.hint, keys) if line)
    head = f"{reason}\n{screen.heading}" if reason else screen.heading
    if _septets(head) + 1 + _septets(foot) > LIMIT:  # only where a heading is another's text: a doubt, a task
        head = cut(plain(screen.heading), LIMIT - 1 - _septets(foot))
    return plain(f"{head}\n{foot}")
