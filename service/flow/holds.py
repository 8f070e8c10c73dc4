"""
Holding times where a telling needs more than its own entries: the vet's list of drugs, a label told after
the drug, milk that went out while a cow's is held, and why a hold is to be lifted.

What follows for the herd follows from the entries; the list's days are therefore written into the entry.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from dialogs.grammar import checks
from dialogs.holding import milk_caution, under_a_drug
from dialogs.reading import Code, Problem
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Told
from service.husbandry.holds import lifts
from service.husbandry.kinds.health import Deworming, Spraying, Treatment, Vaccination
from service.husbandry.kinds.instructions import Undo
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.trade import Delivery, MilkSale
from service.husbandry.life import gives_milk
from service.husbandry.replay import replay
from service.messages import say
from service.records import ledger, products
from service.records.products import Product

Listed = Treatment | Deworming | Spraying
"""Kinds that name a product."""

Drug = Treatment | Deworming | Spraying | Vaccination
"""Kinds that can hold milk."""

# --- the vet's list ---------------------------------------------------------------------------------


def filled(telling: Telling, entries: Iterable[Entry]) -> list[Entry]:
    """
    *entries* with the days of the vet's list where a drug of it was told.

    What the farmer reads out goes over the list where it is longer; the longer stands until she confirms.
    """
    return [_filled(telling, entry) if isinstance(entry, Listed) else entry for entry in entries]


def _filled(telling: Telling, entry: Listed) -> Entry:
    if entry.product is None:
        return entry
    product = products.find(telling.conn, telling.caller.cooperative_id, entry.product)
    if product is None:
        return entry
    held = _listed(entry, product)
    if held != entry:
        telling.as_told[held] = entry
    return held


def _listed(entry: Listed, product: Product) -> Listed:
    milk = _longer(entry.milk_hold_days, product.milk_days)
    meat = _longer(entry.meat_hold_days, product.meat_days)
    held = replace(entry, milk_hold_days=milk, meat_hold_days=meat)
    if isinstance(held, Treatment) and product.dry_cow:
        return replace(held, dry_cow=True)
    return held


def _longer(told: Decimal | None, listed: int | None) -> Decimal | None:
    known = [days for days in (told, None if listed is None else Decimal(listed)) if days is not None]
    return max(known, default=None)


def note(telling: Telling) -> None:
    """Have the reply say whose first milk may not be in what was sold, and which days are the list's."""
    for told in telling.recorded:
        if _went_out(told.entry):
            session = getattr(told.entry, "session", None)
            cows = telling.book.farm.present
            if not under_a_drug(cows, told.entry.happened_on, session):
                telling.follow(told, *milk_caution(cows, told.entry.happened_on, session, summed=True))
    _note_list(telling)


def _note_list(telling: Telling) -> None:
    for told in telling.recorded:
        before = telling.as_told.get(told.entry)
        days = getattr(told.entry, "milk_hold_days", None)
        if before is not None and days and getattr(before, "milk_hold_days", None) != days:
            telling.follow(told, say("treatment.listed", days=days))


def shorter_than_list(telling: Telling, told: Told) -> Problem | None:
    """Whether her bottle says less than the vet's list, whose days are written down."""
    before = telling.as_told.get(told.entry)
    if not isinstance(before, Listed) or not isinstance(told.entry, Listed):
        return None
    days, listed = before.milk_hold_days, told.entry.milk_hold_days
    if days is None or listed is None or days >= listed:
        return None
    return _about(before, Code.CONFIRM, told, why="shorter_hold", listed=int(listed), read_out=int(days))


def _about(
    entry: Entry, code: Code, told: Told | None = None, field: str | None = None, **values: object
) -> Problem:
    """A question about what is written down already; its answer is told in the place of *told*."""
    asked = checks.problem(code, type(entry), forms.values_of(entry), field=field)
    ask = say(asked.ask.key, **asked.ask.values, **values, kept=True)
    return replace(asked, ask=ask, amends=None if told is None else told.id)


# --- a label told later -----------------------------------------------------------------------------


def label_wanted(telling: Telling, told: Told) -> Problem | None:
    """What the label says of the milk, where nobody has told it and milk is held for it."""
    entry = told.entry
    if not isinstance(entry, Treatment | Deworming) or entry.milk_hold_days is not None:
        return None
    animals = telling.book.farm.of(told)
    if isinstance(entry, Treatment) and entry.dry_cow:
        waits = any(animal.milk_hold_unknown_since is not None for animal in animals)
    else:
        held = under_a_drug(animals, telling.local.date())
        waits = any(hold.first is None for hold in held.values())
    return _about(entry, Code.MISSING, told, field="milk_hold_days") if waits else None


def completed(telling: Telling, entry: Entry) -> tuple[Told, Entry] | None:
    """
    The drug told before without its label that *entry* tells again with it, and what is then known of it.

    The same animals, the same day, no other product.
    """
    if not isinstance(entry, Treatment | Deworming) or entry.milk_hold_days is None:
        return None
    for told in reversed(telling.book.told):
        if _lacks_label(told.entry, entry):
            known = forms.values_of(entry).items()  # 0 days are known: the label says none
            told_now = {name: value for name, value in known if forms.is_told(value)}
            return told, replace(told.entry, **told_now)
    return None


def _lacks_label(before: Entry, entry: Treatment | Deworming) -> bool:
    if not isinstance(before, type(entry)) or before.milk_hold_days is not None:
        return False
    products = {one.product.casefold() for one in (before, entry) if one.product is not None}
    return before.on == entry.on and set(before.named) == set(entry.named) and len(products) < 2


# --- milk that went out -----------------------------------------------------------------------------


def hers_in_it(telling: Telling, told: Told) -> Problem | None:
    """Whether the milk of a cow under a drug is in what was sold or in the herd's sum; once for each hold."""
    entry = told.entry
    if not _of_the_herd(entry):
        return None
    on = entry.happened_on
    cows = telling.book.farm.present
    held = under_a_drug(cows, on, getattr(entry, "session", None))
    since = min((dose.on for a in cows if a.name in held for dose in a.doses[-1:]), default=on)
    if not held or _went_before(telling, told, since):
        return None
    question = _about(entry, Code.CONFIRM, why="held_milk", names=list(held))
    return replace(question, name=next(iter(held)))


def _of_the_herd(entry: Entry) -> bool:
    if isinstance(entry, Milk):
        return entry.animal == EVERY_ANIMAL
    return _went_out(entry)


def _went_out(entry: Entry) -> bool:
    """Whether milk went out to be drunk."""
    return isinstance(entry, MilkSale) or (isinstance(entry, Delivery) and not entry.rejected)


def _went_before(telling: Telling, told: Told, since: date) -> bool:
    """Whether milk of the herd was told of before since the hold began: then it was asked about then."""
    last = telling.local.date() + timedelta(days=1)
    earlier = (
        one
        for kind in (Milk, MilkSale, Delivery)
        for one in ledger.on_days(telling.conn, telling.book.farm_id, kind.KIND, since, last)
    )
    drug = max((one.id for one in telling.book.told if isinstance(one.entry, Drug)), default=0)
    return any(_of_the_herd(one.entry) and drug < one.id < told.id for one in earlier)


# --- lifting a hold ---------------------------------------------------------------------------------


def shorter_fix(telling: Telling, before: Told, entry: Entry) -> Problem | None:
    """The question before a correction by which milk held today could be sold sooner."""
    instead = replace(before, entry=entry)
    if not _lifted(telling, [before], [instead]):
        return None
    return _about(entry, Code.CONFIRM, before, why="lifts_hold")


def why_lift(telling: Telling, undone: Iterable[Told]) -> Problem | None:
    """The question why, where milk that is held today could be sold sooner once *undone* is taken back."""
    names = _lifted(telling, undone, ())
    if not names:
        return None
    question = _about(Undo(), Code.MISSING, field="why", names=names)
    return replace(question, name=names[0])


def _lifted(telling: Telling, undone: Iterable[Told], instead: Iterable[Told]) -> list[str]:
    """Names of the cows whose milk could be sold sooner with *instead* in the place of *undone*."""
    gone = {one.id for one in undone if isinstance(one.entry, Drug)}
    if not gone:
        return []
    after = replay((*(one for one in telling.book.told if one.id not in gone), *instead))
    today = telling.local.date()
    return [
        animal.name
        for animal in telling.book.farm.present
        if gives_milk(animal) and lifts(animal, after.animals.get(animal.id), today)
    ]
