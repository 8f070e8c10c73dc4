"""What reading a text yields: entries that stand, and what must be asked before the rest can."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from service.husbandry.forms import Entry, dump
from service.messages import Say


class Code(StrEnum):
    """Why something of a text is held back (the contract's codes)."""

    NOT_UNDERSTOOD = "not_understood"
    WHICH_ANIMAL = "which_animal"
    UNKNOWN_ANIMAL = "unknown_animal"
    MISSING = "missing"
    OUT_OF_RANGE = "out_of_range"
    IN_FUTURE = "in_future"
    CONFIRM = "confirm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A record told in part: the kind and what is known of its fields, each of its declared type."""

    kind: type[Entry]
    values: Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What holds a draft back, and the question that would settle it."""

    code: Code
    ask: Say
    field: str | None = None  # of `missing`, `out_of_range`; the animal's field of the animal problems
    draft: Draft | None = None  # None where nothing can be kept (not understood)
    options: tuple[str, ...] = ()  # names to choose from by number, where the animal is asked
    name: str | None = None  # the name as written that is not known, where one is
    amends: int | None = None  # the entry in whose place the answer is told


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """
    A text, read.

    ``entries`` stand without an answer, in the order told. ``problems`` are in the order told; the
    contract's ``problem`` is the first. ``shaky``: which entries (by their place) were read with some doubt,
    and so are shown clearly, with how to take them back. ``unread``: where a part of the text came to
    nothing, that part as written.
    """

    language: str  # sw, en
    entries: tuple[Entry, ...] = ()
    problems: tuple[Problem, ...] = field(default=())
    shaky: frozenset[int] = frozenset()
    unread: str = ""


def as_json(text: str, reading: Reading, ask: Callable[[Problem], str]) -> dict[str, Any]:
    """*reading* of *text* as the contract's JSON object; *ask* words the question of a problem."""
    first = reading.problems[0] if reading.problems else None
    return {
        "text": text,
        "language": reading.language,
        "entries": [
            {**dump(entry), "confidence": "middling" if at in reading.shaky else "high"}
            for at, entry in enumerate(reading.entries)
        ],
        "problem": None if first is None else _problem_json(first, ask(first)),
    }


def _problem_json(problem: Problem, ask: str) -> dict[str, Any]:
    told = {"code": problem.code.value, "ask": ask}
    if problem.field is not None and problem.code in (Code.MISSING, Code.OUT_OF_RANGE):
        told["field"] = problem.field
    return told
