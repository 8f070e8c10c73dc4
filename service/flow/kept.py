"""A question about a record that stands without the answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from dialogs.grammar import checks
from dialogs.reading import Code, Problem
from service.husbandry import forms
from service.husbandry.forms import Entry
from service.messages import Say


def kept(
    entry: Entry,
    *,
    field: str,
    name: str | None = None,
    amends: int | None = None,
    offer: Mapping[str, Any] | None = None,
    options: Sequence[str] = (),
) -> Problem:
    """
    The question for *field* of an *entry* that stands without it.

    The answer is told beside the entry, or in its place where *amends* is the entry's id.

    Args:
        entry: What stands.
        field: What is asked for.
        name: The animal it is about, where it is about one.
        amends: The entry's id.
        offer: Values by field, of which that of *field* is taken if the answer is yes.
        options: Names to choose from by number, where *field* is of words.
    """
    kind = type(entry)
    question = checks.problem(
        Code.MISSING, kind, forms.values_of(entry), field=field, name=name, options=options
    )
    told = {**question.ask.values, "kept": True}
    if offer:
        told["offer"] = forms.dump_values(kind, offer)
    return replace(question, ask=Say(question.ask.key, told), amends=amends)
