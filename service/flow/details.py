"""
What was not demanded on entering and would change something later: asked for once, and let lapse.

A heifer's birth says when she is of age to be served. No answer is needed: the question goes after a day
like any other, and is not asked again.
"""

from __future__ import annotations

from dataclasses import replace

from dialogs.grammar import checks
from dialogs.reading import Code, Problem
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
    question = checks.problem(Code.MISSING, NewAnimal, forms.values_of(entry), field="born", name=entry.name)
    return [replace(question, ask=say(question.ask.key, **question.ask.values, kept=True))]
