"""What is asked about because of what was told in earlier texts: the same thing told again."""

from __future__ import annotations

from collections.abc import Sequence

from dialogs.grammar import checks
from dialogs.reading import Code, Problem
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.milk import Milk
from service.records import ledger

REPEATABLE = frozenset({"heat", "illness", "done", "setting", "contact", "naming", "feeding", "expense"})
"""Kinds of which two on one day are usual: signs go on, feed and money come in parts."""


def sift(telling: Telling, entries: Sequence[Entry]) -> tuple[list[Entry], list[Problem]]:
    """*entries* that can be recorded at once, and questions about those that seem told before."""
    sure: list[Entry] = []
    doubtful: list[Problem] = []
    for entry in entries:
        doubt = told_before(telling, entry)
        if doubt is None:
            sure.append(entry)
        else:
            doubtful.append(doubt)
    return sure, doubtful


def told_before(telling: Telling, entry: Entry) -> Problem | None:
    """The question whether *entry* is meant beside the same thing told earlier; None: it was not."""
    return _twice(entry) if _told_before(telling, entry) else None


def _told_before(telling: Telling, entry: Entry) -> bool:
    if entry.KIND in REPEATABLE:
        return False
    if entry.PLANS:
        return any(_same(told, entry) for told in telling.book.told)
    if not isinstance(entry, Milk):
        return False
    day = entry.on
    earlier = ledger.on_days(telling.conn, telling.book.farm_id, Milk.KIND, day, day)
    return any(_same_milking(told.entry, entry) for told in earlier)


def _same(told: Told, entry: Entry) -> bool:
    """Whether *told* is the same kind of event of the same animals on the same day."""
    other = told.entry
    return (
        type(other) is type(entry)
        and other.happened_on == entry.happened_on
        and other.named == entry.named
        and getattr(other, "disease", None) == getattr(entry, "disease", None)
    )


def _same_milking(other: Entry, entry: Milk) -> bool:
    return isinstance(other, Milk) and (other.animal, other.session) == (entry.animal, entry.session)


def _twice(entry: Entry) -> Problem:
    return checks.problem(Code.CONFIRM, type(entry), forms.values_of(entry), why="twice")
