"""
Corrections: what a text tells goes in the place of what was told of the same before.

The same is the same kind of the same animal on the same day, and where a day has several, of the same
session, feed or buyer. What the correction leaves out stays as it was told first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import timedelta
from typing import Any

from dialogs import mending
from dialogs.grammar.answers import read_answer
from dialogs.reading import Draft, Problem
from dialogs.turn import Turn
from service.flow import doubts, holds
from service.flow.finding import ids_of
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.forms import Entry, Sort
from service.husbandry.herd import Told
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.instructions import Fix
from service.husbandry.kinds.trade import MilkSale
from service.records import farms, ledger

REACH = timedelta(days=14)
"""How long after its telling something is still meant by its kind and animal alone; common practice."""

JUST_TOLD = timedelta(days=1)
"""How long after its telling a wrong name is put right by telling the same of the right animal."""

LATEST = 60
"""Entries of a kind among which one is looked for: two weeks of two milkings of two cows, and more."""

TOLD_APART_BY: Mapping[str, str] = {
    "milk": "session", "delivery": "session", "vaccination": "disease", "contact": "role",
    "setting": "task", "milk_pay": "month", "feeding": "feed", "expense": "what", "other_income": "what",
    "milk_sale": "buyer", "payment": "buyer",
}  # fmt: skip
"""Of kinds that a day can have several of, the value that tells them apart."""

DAILY = frozenset(
    {"milk", "delivery", "milk_sale", "feeding", "expense", "other_income", "payment", "illness"}
)
"""Kinds told day after day: a day that is named is the day meant. Of others the day may be what was wrong."""

INSTEAD_OF = {"litres": "kg", "kg": "litres"}
"""Of milk handed in, either is told: the new one does not stand beside the old other one."""


def is_fix(turn: Turn) -> bool:
    return any(isinstance(order, Fix) for order in turn.instructions)


def put_right(telling: Telling, turn: Turn) -> tuple[Problem, ...]:
    """
    Record each entry of *turn* in the place of the one it corrects.

    Returns:
        What is still to be asked: of what corrects nothing, and what *turn* itself asks.
    """
    asked: list[Problem] = []
    for entry in turn.entries:
        before = _meant(telling, entry) or _other_animal(telling, entry)
        if before is None:
            # What another phone told is not a helper's to change, but it may be what is meant.
            told = doubts.doubt_of(telling, entry)
            asked.append(told or mending.question(entry, _nearest(telling, entry)))
        else:
            (mended,) = holds.filled(telling, [_mended(telling, entry, before.entry)])
            shorter = holds.shorter_fix(telling, before, mended)
            if shorter is not None:
                asked.append(shorter)
            else:
                telling.amend(before.id, [mended])
    holds.note(telling)
    if not turn.entries and not turn.questions:
        telling.say("fix.how")
    return (*asked, *(_about(telling, question) for question in turn.questions))


def _about(telling: Telling, question: Problem) -> Problem:
    """*question*, its answer to go in the place of what it corrects."""
    before = None if question.draft is None else _begun(telling, question.draft)
    return question if before is None else replace(question, amends=before.id)


def _begun(telling: Telling, draft: Draft) -> Told | None:
    """The latest entry of the kind and animal that *draft* names."""
    animal = draft.values.get("animal")
    if animal is None:
        return None
    wanted = ids_of(telling.book.farm, (animal,))
    return next((told for told in _own(telling, draft.kind) if set(told.animals) == wanted), None)


# --- which entry is meant --------------------------------------------------------------------------


def _meant(telling: Telling, entry: Entry) -> Told | None:
    alike = _alike(telling, entry)
    same_day = [told for told in alike if told.entry.happened_on == entry.happened_on]
    exact = [told for told in same_day if _same_part(told.entry, entry)]
    if exact:
        return exact[0]
    if _says_day(telling, entry) and entry.KIND in DAILY:
        return None
    recent = [told for told in alike if telling.told_at - told.told_at <= REACH]
    if not _says_part(telling, entry):
        return next(iter(same_day or recent), None)
    return next((told for told in recent if _same_part(told.entry, entry)), None)


def _other_animal(telling: Telling, entry: Entry) -> Told | None:
    """What was just told with the same values of another animal: the name was wrong."""
    named = {f.name for f in forms.form(type(entry)) if f.sort in (Sort.ANIMAL, Sort.ANIMALS)}
    told = next(iter(_own(telling, type(entry))), None)
    if not named or told is None or telling.told_at - told.told_at > JUST_TOLD:
        return None
    here, there = forms.values_of(entry), forms.values_of(told.entry)
    filled_in = _unsaid(telling, entry, here)
    same = all(here[name] == there[name] for name in here if name not in named | filled_in)
    return told if same else None


def _nearest(telling: Telling, entry: Entry) -> Entry | None:
    return next((told.entry for told in _alike(telling, entry)), None)


def _alike(telling: Telling, entry: Entry) -> list[Told]:
    """Standing entries of its kind and animals that the teller may correct, the latest told first."""
    wanted = ids_of(telling.book.farm, (entry.name,) if isinstance(entry, NewAnimal) else entry.named)
    return [told for told in _own(telling, type(entry)) if set(told.animals) == wanted]


def _own(telling: Telling, kind: type[Entry]) -> Sequence[Told]:
    """The latest entries of *kind*: to a helper, those she told; to the owner, everybody's of the farm."""
    latest = ledger.latest_of(telling.conn, telling.book.farm_id, kind.KIND, limit=LATEST)
    if telling.caller.role == farms.OWNER:
        return [told for told in latest if told.told_by.startswith("+")]  # the centre's lists are its own
    return [told for told in latest if told.told_by in telling.caller.phones]


def _same_part(other: Entry, entry: Entry) -> bool:
    """Whether both are of the same session, disease, feed ...; one that is not told is any."""
    name = TOLD_APART_BY.get(entry.KIND)
    here, there = (None, None) if name is None else (getattr(entry, name), getattr(other, name))
    return here is None or there is None or _folded(here) == _folded(there)


def _folded(value: Any) -> Any:
    return value.casefold() if isinstance(value, str) else value


# --- what the text itself says ---------------------------------------------------------------------


def _says(telling: Telling, entry: Entry, name: str) -> bool:
    """Whether the words themselves give the field *name*, which the reader fills in where they don't."""
    field = forms.field_of(type(entry), name)
    told = read_answer(telling.words, field, now=telling.local, herd=None, place=telling.house.place)
    return told is not None


def _says_day(telling: Telling, entry: Entry) -> bool:
    return _says(telling, entry, forms.day_field(type(entry)))


def _says_part(telling: Telling, entry: Entry) -> bool:
    name = TOLD_APART_BY.get(entry.KIND)
    if name == "session":
        return _says(telling, entry, name)
    return name is not None and getattr(entry, name) is not None


# --- what goes in its place ------------------------------------------------------------------------


def _mended(telling: Telling, entry: Entry, before: Entry) -> Entry:
    """*entry*, with what it leaves out as *before* has it."""
    old, new = forms.values_of(before), forms.values_of(entry)
    unsaid = _unsaid(telling, entry, new)
    unsaid -= {other for name, other in INSTEAD_OF.items() if name in new and new[name] is not None}
    if isinstance(entry, MilkSale):
        unsaid -= _follows_in(entry)
    return replace(entry, **{name: old[name] for name in unsaid})


def _unsaid(telling: Telling, entry: Entry, values: Mapping[str, Any]) -> set[str]:
    """Fields of *entry* that the words do not give: empty ones, and those that the reader filled in."""
    unsaid = {name for name, value in values.items() if not forms.is_told(value)}
    if not _says_day(telling, entry):
        unsaid |= {forms.day_field(type(entry)), "about"} & set(values)
    if "session" in values and not _says(telling, entry, "session"):
        unsaid.add("session")
    return unsaid


def _follows_in(sale: MilkSale) -> set[str]:
    """The one of litres, price and whole that is worked out anew where one of them is corrected."""
    told = [name for name in ("litres", "price", "amount") if getattr(sale, name) is not None]
    return {"price"} if told == ["amount"] else {"amount"} if len(told) == 1 else set()
