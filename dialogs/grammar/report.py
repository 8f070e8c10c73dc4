"""A reading as the JSON object of the contract's section 2."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from dialogs.reading import Code, Problem, Reading
from service.husbandry.forms import dump
from service.messages import Say

_WITH_FIELD = (Code.MISSING, Code.OUT_OF_RANGE)


def reading_json(text: str, reading: Reading, render: Callable[[Say], str]) -> dict[str, Any]:
    """*render* turns the question of the first problem into the text that the sender would get."""
    return {
        "text": text,
        "language": reading.language,
        "entries": [dump(entry) for entry in reading.entries],
        "problem": _problem(reading.problems[0], render) if reading.problems else None,
    }


def _problem(problem: Problem, render: Callable[[Say], str]) -> dict[str, Any]:
    told: dict[str, Any] = {"code": problem.code.value}
    if problem.code in _WITH_FIELD and problem.field is not None:
        told["field"] = problem.field
    return {**told, "ask": render(problem.ask)}
