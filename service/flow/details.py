"""
What was not demanded on entering and would change something later: asked for once, and let lapse.

A heifer's birth says when she is of age to be served. No answer is needed: the question goes after a day
like any other, and is not asked again.
"""

from __future__ import annotations

from dialogs.reading import Code, Draft, Problem
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.herd import Status
from service.husbandry.kinds.herd_book import NewAnimal
from service.messages import say


def wanted(telling: Telling) -> list[Problem]:
    """The question about a heifer just entered alone; after a longer telling nothing more is asked."""
    if len(telling.recorded) != 1:
        return []
    entry = telling.recorded[0].entry
    if not isinstance(entry, NewAnimal) or entry.status != Status.HEIFER or entry.born is not None:
        return []
    values = {field.name: getattr(entry, field.name) for field in forms.form(NewAnimal)}
    asked = {"kind": entry.KIND, "draft": forms.dump_values(NewAnimal, values), "field": "born"}
    return [
        Problem(
            code=Code.MISSING,
            ask=say("ask.missing", **asked, name=entry.name, options=(), kept=True),
            field="born",
            draft=Draft(kind=NewAnimal, values=values),
        )
    ]
