"""Questions that wait for an answer, as they are kept between two texts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any

from dialogs.reading import Code, Draft, Problem
from service.husbandry import forms, kinds
from service.messages import Say

QUESTION_LASTS = timedelta(days=1)
"""After a day an answer could be to anything; common practice, no source."""

CLOCKS_APART = timedelta(minutes=5)
"""By how much the gateway's clock, which may tell whole minutes only, can be behind ours."""


def dump_questions(questions: Iterable[Problem]) -> tuple[dict[str, Any], ...]:
    """Questions as JSON-ready objects. What was not understood is no question."""
    return tuple(_dump(question, question.draft) for question in questions if question.draft is not None)


def _dump(question: Problem, draft: Draft) -> dict[str, Any]:
    return {
        "code": question.code.value,
        "ask": [question.ask.key, dict(question.ask.values)],
        "field": question.field,
        "kind": draft.kind.KIND,
        "values": forms.dump_values(draft.kind, draft.values),
        "options": list(question.options),
        "name": question.name,
        "amends": question.amends,
    }


def load_questions(
    stored: Iterable[Mapping[str, Any]], *, asked_at: datetime | None, now: datetime
) -> tuple[Problem, ...]:
    """The questions that were kept; none once they have lapsed, or for a text sent before they were asked."""
    if asked_at is None or not asked_at - CLOCKS_APART <= now <= asked_at + QUESTION_LASTS:
        return ()
    return tuple(map(_load, stored))


def _load(stored: Mapping[str, Any]) -> Problem:
    kind = kinds.BY_KEY[stored["kind"]]
    key, values = stored["ask"]
    return Problem(
        code=Code(stored["code"]),
        ask=Say(key, values),
        field=stored["field"],
        draft=Draft(kind=kind, values=forms.load_values(kind, stored["values"])),
        options=tuple(stored["options"]),
        name=stored["name"],
        amends=stored.get("amends"),
    )
