"""The same thing told by two people: which telling is right, asked with who told what and when."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from typing import Any

from dialogs import hours
from dialogs.grammar.answers import read_choice, read_yes_no
from dialogs.phrases import describe
from dialogs.reading import Code, Draft, Problem
from service.husbandry import forms, kinds
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.messages import Say, say

WHY = "told_by"

KEEP, REPLACE, BOTH = "keep", "replace", "both"
"""What can be done with a second telling: leave the first, take it in its place, count both."""


def question(entry: Entry, earlier: Told, *, by: str, at: datetime, may_replace: bool) -> Problem:
    """
    Asks whether *entry* is what was told *earlier*.

    Args:
        entry: The second telling.
        earlier: The first.
        by: Who told the first, as the farm calls him or her.
        at: When it was told, in the farm's zone.
        may_replace: Whether the second teller may take back the first's telling.
    """
    told = {**forms.dump(earlier.entry), "by": by, "at": at.isoformat(), "id": earlier.id}
    choices = (KEEP, REPLACE, BOTH) if may_replace and _differs(entry, earlier.entry) else (KEEP, BOTH)
    return Problem(
        code=Code.CONFIRM,
        ask=say(f"ask.confirm.{WHY}", why=WHY, earlier=told, choices=list(choices)),
        draft=Draft(kind=type(entry), values=forms.values_of(entry)),
        name=entry.named[0] if entry.named else None,
    )


def _differs(entry: Entry, other: Entry) -> bool:
    """Whether a value that both tell is not the same."""
    here, there = forms.values_of(entry), forms.values_of(other)
    return any(
        here[name] != there[name] for name in here if forms.is_told(here[name]) and forms.is_told(there[name])
    )


def is_asked(problem: Problem) -> bool:
    return problem.ask.values.get("why") == WHY


def answered(text: str, problem: Problem) -> str | None:
    """What is to be done: ``keep``, ``replace`` or ``both``; None where *text* does not say."""
    choices: Sequence[str] = problem.ask.values["choices"]
    chosen = read_choice(text, choices)
    if chosen is not None:
        return choices[chosen]
    same = read_yes_no(text)
    if same is None or REPLACE in choices:
        return None
    return KEEP if same else BOTH


def in_place_of(problem: Problem) -> int:
    """The id of the earlier telling."""
    return int(problem.ask.values["earlier"]["id"])


def worded(problem: Problem, draft: Draft, language: str, today: date | None) -> Say:
    """The question in words; *draft*: the second telling, its day named where it is another."""
    earlier: Mapping[str, Any] = problem.ask.values["earlier"]
    kind = kinds.BY_KEY[earlier["kind"]]
    told = forms.load_values(kind, earlier)
    first = describe(kind.KIND, told, language, today=today)
    at = datetime.fromisoformat(earlier["at"])
    key = f"ask.confirm.{WHY}.{'_'.join(problem.ask.values['choices'])}"
    other_day = _day(draft.values) != _day(told)
    deed = describe(kind.KIND, draft.values, language, today=today, named=False, dated=other_day)
    return say(key, before=first, deed=deed, by=earlier["by"], seen=_when(at, today))


def _day(values: Mapping[str, Any]) -> date | None:
    seen: datetime | None = values.get("first_seen")
    return values.get("on") if seen is None else seen.date()


def _when(at: datetime, today: date | None) -> Say:
    """``leo saa 1 asubuhi``; a day of its own where it is not today."""
    now = at if today is None else at.replace(year=today.year, month=today.month, day=today.day)
    return hours.moment(at, now)
