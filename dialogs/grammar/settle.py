"""A record told in part, with one more thing known: does it stand now, and if not, what is asked next."""

from __future__ import annotations

from datetime import datetime

from dialogs.grammar import checks
from dialogs.grammar.found import Found, Subject
from dialogs.grammar.names import Names
from dialogs.reading import Code, Draft, Problem
from service.husbandry import forms
from service.husbandry.forms import Entry, Sort
from service.husbandry.herd import Herd


def settle(draft: Draft, herd: Herd, *, now: datetime, confirmed: bool = False) -> Entry | Problem:
    """
    The entry that *draft* has become, or the question that it still needs.

    Args:
        draft: The kind and what is known of its fields.
        herd: The farm's animals.
        now: Aware, in the farm's zone.
        confirmed: What is unlikely about it was asked and is meant.
    """
    field = next((f for f in forms.form(draft.kind) if f.sort in (Sort.ANIMAL, Sort.ANIMALS)), None)
    if field is not None and field.needed and not draft.values.get(field.name):
        options = tuple(animal.name for animal in herd.animals)
        return checks.problem(
            Code.WHICH_ANIMAL, draft.kind, dict(draft.values), field=field.name, options=options
        )
    found = Found(draft.kind, dict(draft.values), _subjects(draft, herd))
    checked = checks.settled(found, found.values, found.subjects, Names.of(herd), now, confirmed=confirmed)
    if checked.problem is not None:
        return checked.problem
    assert checked.entry is not None  # noqa: S101 - the one or the other
    return checked.entry


def doubt(entry: Entry, herd: Herd, *, now: datetime) -> Problem | None:
    """The question that a complete *entry* raises; None: it can stand."""
    values = forms.values_of(entry)
    outcome = settle(Draft(kind=type(entry), values=values), herd, now=now)
    return outcome if isinstance(outcome, Problem) else None


def _subjects(draft: Draft, herd: Herd) -> list[Subject]:
    named = draft.values.get("animals") or (draft.values.get("animal"),)
    known = {name.casefold(): animal for animal in herd.animals for name in animal.names}
    return [Subject(name, known.get(name.casefold())) for name in named if name]
