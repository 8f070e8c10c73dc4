"""A correction of something that was not written down: asked whether it is new, with what there is."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from dialogs.phrases import describe
from dialogs.reading import Code, Draft, Problem
from service.husbandry import forms, kinds
from service.husbandry.forms import Entry
from service.messages import Say, say

WHY = "nothing_to_fix"


def question(entry: Entry, nearest: Entry | None) -> Problem:
    """Asks whether *entry*, told in the place of nothing, is new; *nearest*: what could be meant."""
    told = None if nearest is None else forms.dump(nearest)
    return Problem(
        code=Code.CONFIRM,
        ask=say(f"ask.confirm.{WHY}", why=WHY, nearest=told),
        draft=Draft(kind=type(entry), values=forms.values_of(entry)),
        name=entry.named[0] if entry.named else None,
    )


def is_asked(problem: Problem) -> bool:
    return problem.ask.values.get("why") == WHY


def worded(problem: Problem, what: str, language: str, today: date | None) -> Say:
    """The question in words; *what*: what was told."""
    nearest: Mapping[str, Any] | None = problem.ask.values["nearest"]
    if nearest is None:
        return say(f"ask.confirm.{WHY}", what=what)
    kind = kinds.BY_KEY[nearest["kind"]]
    there = describe(kind.KIND, forms.load_values(kind, nearest), language, today=today)
    return say(f"ask.confirm.{WHY}.near", what=what, before=there)
