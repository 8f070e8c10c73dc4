"""What is asked about because of what was told in earlier texts, such as the same thing told again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import timedelta

from dialogs import told_before as told_before_by
from dialogs.grammar import checks
from dialogs.reading import Code, Problem
from service.flow import centre, credit, holds
from service.flow.finding import ids_of
from service.flow.people import name_of
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.trade import Delivery, MilkPay, MilkSale, OtherIncome, Payment
from service.records import farms, ledger

REPEATABLE = frozenset({"heat", "illness", "done", "setting", "contact", "naming", "feeding", "expense"})
"""Kinds of which two on one day are usual: signs go on, feed and money come in parts."""

ONCE = frozenset({"calving", "abortion", "drying_off", "weaning"})
"""Kinds that one animal cannot have on two days running."""

ONE_HEAT = timedelta(days=1)
"""Two people who see a cow on heat within a day see the same heat."""

Doubt = Callable[[Telling, Entry], Problem | None]
"""The question that an entry raises against what was told before; None: it raises none."""


def sift(telling: Telling, entries: Sequence[Entry]) -> tuple[list[Entry], list[Problem]]:
    """*entries* that can be recorded at once, and questions about those that seem told before."""
    sure: list[Entry] = []
    doubtful: list[Problem] = []
    for entry in entries:
        doubt = doubt_of(telling, entry)
        if doubt is None:
            sure.append(entry)
        else:
            doubtful.append(doubt)
    return sure, doubtful


def doubt_of(telling: Telling, entry: Entry) -> Problem | None:
    """The first question of ``DOUBTS`` that *entry* raises."""
    return next((asked for doubt in DOUBTS if (asked := doubt(telling, entry)) is not None), None)


def told_before(telling: Telling, entry: Entry) -> Problem | None:
    """
    The question whether *entry* is meant beside the same thing told earlier; None: it was not.

    Told by another phone, it is more likely the same event: then the question says who told it, and when.
    """
    if holds.completed(telling, entry) is not None:
        return None
    earlier = _earlier(telling, entry)
    if earlier is None:
        return None
    if _is_own(telling, earlier):
        return twice(entry)
    return told_before_by.question(
        entry,
        earlier,
        by=name_of(telling, earlier.told_by),
        at=telling.house.local(earlier.told_at),
        may_replace=telling.caller.role == farms.OWNER,
    )


def _is_own(telling: Telling, told: Told) -> bool:
    return told.told_by in telling.caller.phones


def _earlier(telling: Telling, entry: Entry) -> Told | None:
    """The latest standing telling that *entry* tells again."""
    same = _same_heat if isinstance(entry, Heat) else _same
    if entry.KIND in REPEATABLE and not isinstance(entry, Heat):
        return None
    if entry.PLANS:
        return _latest(told for told in telling.book.told if same(telling, told, entry))
    if not isinstance(entry, Milk | MilkSale | Delivery | OtherIncome):
        return None
    day = entry.on
    earlier = ledger.on_days(telling.conn, telling.book.farm_id, entry.KIND, day, day)
    same = _same_milking if isinstance(entry, Milk) else _same_trade
    return _latest(told for told in earlier if same(telling, told, entry))


def _latest(told: Iterable[Told]) -> Told | None:
    return max(told, key=lambda one: one.id, default=None)


def _same(telling: Telling, told: Told, entry: Entry) -> bool:
    """
    Whether *told* is the same kind of event of the same animals on the same day.

    What happens to an animal once in a long while is the same a day apart, where two people tell it.
    """
    other = told.entry
    apart = abs((other.happened_on - entry.happened_on).days) if type(other) is type(entry) else None
    close = apart == 0 or (apart == 1 and entry.KIND in ONCE and not _is_own(telling, told))
    return close and _same_animals(telling, told, entry) and _same_disease(other, entry)


def _same_animals(telling: Telling, told: Told, entry: Entry) -> bool:
    if told.entry.named == entry.named:
        return True
    return bool(told.animals) and set(told.animals) == ids_of(telling.book.farm, entry.named)


def _same_disease(other: Entry, entry: Entry) -> bool:
    return getattr(other, "disease", None) == getattr(entry, "disease", None)


def _same_heat(telling: Telling, told: Told, entry: Entry) -> bool:
    """Whether another phone told that heat within a day and *entry* says nothing new of it."""
    other = told.entry
    if not isinstance(other, Heat) or not isinstance(entry, Heat) or _is_own(telling, told):
        return False
    news = entry.bleeding or not set(entry.signs) <= set(other.signs)
    near = abs(other.first_seen - entry.first_seen) <= ONE_HEAT
    return near and not news and _same_animals(telling, told, entry)


def _same_milking(telling: Telling, told: Told, entry: Entry) -> bool:
    """Whether it is the same milking, whatever the litres."""
    other = told.entry
    if not isinstance(other, Milk) or not isinstance(entry, Milk):
        return False
    return other.session == entry.session and _same_animals(telling, told, entry)


def _same_trade(telling: Telling, told: Told, entry: Entry) -> bool:
    """Whether another phone told of a sale or income with nothing in it that differs."""
    here, there = forms.values_of(entry), forms.values_of(told.entry)
    differs = any(here[n] != there[n] for n in here if here[n] is not None and there[n] is not None)
    return not _is_own(telling, told) and not differs


def paid_before(telling: Telling, entry: Entry) -> Problem | None:
    """A month is paid for once: a second payment, or the same one told again, is asked about."""
    again = isinstance(entry, MilkPay) and centre.paid_before(telling, entry)
    again = again or (isinstance(entry, Payment) and credit.paid_before(telling, entry))
    return twice(entry) if again or _handed_in_before(telling, entry) else None


def _handed_in_before(telling: Telling, entry: Entry) -> bool:
    """Whether a load of the same session, as much and as well received, was told already."""
    if not isinstance(entry, Delivery) or entry.session is None:
        return False
    day = entry.on
    earlier = ledger.on_days(telling.conn, telling.book.farm_id, Delivery.KIND, day, day)
    return any(replace(entry, reason=None) == _without_reason(told.entry) for told in earlier)


def twice(entry: Entry) -> Problem:
    """Asks whether *entry*, told already, is to be written down once more."""
    return checks.problem(Code.CONFIRM, type(entry), forms.values_of(entry), why="twice")


def _without_reason(entry: Entry) -> Entry:
    return replace(entry, reason=None) if isinstance(entry, Delivery) else entry


DOUBTS: tuple[Doubt, ...] = (told_before, paid_before)
