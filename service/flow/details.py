"""
What a record can do without and that would change something later: asked for once, and let lapse.

No answer is needed: the question goes after a day like any other, and is not asked again. One function
each, listed in ``WANTED``.
"""

from __future__ import annotations

from collections.abc import Callable

from dialogs.reading import Problem
from service.flow import centre, credit, holds, prices
from service.flow.kept import kept
from service.flow.telling import Telling
from service.husbandry.herd import Status, Told
from service.husbandry.kinds.herd_book import NewAnimal


def _birth_of_a_heifer(telling: Telling, told: Told) -> Problem | None:
    """It says when she is of age to be served."""
    entry = told.entry
    if not isinstance(entry, NewAnimal) or entry.status != Status.HEIFER or entry.born is not None:
        return None
    return kept(entry, field="born", name=entry.name)


WANTED: tuple[Callable[[Telling, Told], Problem | None], ...] = (
    holds.label_wanted,
    holds.shorter_than_list,
    holds.hers_in_it,
    _birth_of_a_heifer,
    prices.wanted,
    credit.wanted_buyer,
    credit.wanted_payer,
    centre.wanted_reason,
    centre.wanted_month,
)


def wanted(telling: Telling) -> list[Problem]:
    """The question about the one thing just told; after a longer telling nothing more is asked."""
    if len(telling.recorded) != 1:
        return []
    asked = (want(telling, telling.recorded[0]) for want in WANTED)
    return [one for one in asked if one is not None][:1]
