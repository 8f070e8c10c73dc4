"""
Milk that falls by more than chance: told of beside the reply to the milking that shows it, with a question.

Everything follows from the entries: a fall that what was told before showed already is not told of again,
and one that a correction takes away was never there.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from dialogs import milk_fall
from dialogs.asking import question
from service.flow.telling import Telling
from service.husbandry.herd import Told
from service.husbandry.kinds.milk import Milk, MilkReason
from service.husbandry.life import is_cow
from service.husbandry.milk_alarm import Alarm, fresh, may_have_fallen
from service.husbandry.milk_course import course_of, course_of_sum
from service.husbandry.yield_expected import WINDOW_DAYS, Course
from service.records import ledger, milkings

LOOKED_AT = timedelta(days=63)
"""Milk that is looked at: three weeks that a fall can last, and the six before it that tell the level."""

FEW = 32
"""A cow's last milkings by which it is seen whether to look closely: of a fortnight, milked twice."""

NEWS_DAYS = 2
"""A fall older than this is no news: what can be done is done; Byreline's own choice."""


def after_milk(telling: Telling) -> None:
    """Tell of falls that the milkings just told show."""
    told = [one for one in telling.recorded if isinstance(one.entry, Milk)]
    if not any(_looks_low(telling, one, one.entry) for one in told if isinstance(one.entry, Milk)):
        return
    for alarm in _found(telling):
        name = None if alarm.animal is None else telling.book.farm.animals[alarm.animal].name
        telling.raised.append(milk_fall.question(alarm, name, of=[one.id for one in told]))


def _looks_low(telling: Telling, told: Told, milk: Milk) -> bool:
    """Whether *milk* is of her latest day, a recent one, and may be part of a fall."""
    if telling.local.date() - milk.on > timedelta(days=NEWS_DAYS):
        return False
    since = milk.on - timedelta(days=WINDOW_DAYS)
    last = milkings.latest(telling.conn, telling.book.farm_id, milk.animal, since=since, most=FEW)
    return may_have_fallen(last)


def _found(telling: Telling) -> tuple[Alarm, ...]:
    today = telling.local.date()
    first = today - LOOKED_AT
    kinds = (Milk.KIND, MilkReason.KIND)
    standing = ledger.of_kinds(telling.conn, telling.book.farm_id, kinds, first, today)
    by_telling = sorted(standing, key=lambda told: told.id)
    milk = [told for told in by_telling if isinstance(told.entry, Milk)]
    reasons = [told for told in by_telling if isinstance(told.entry, MilkReason)]
    courses = dict(_courses(telling, reasons))
    if any(not told.animals for told in milk):
        summed = [one for one in reasons if not one.animals]
        courses[None] = course_of_sum(telling.book.farm, telling.book.told, summed, first, today)
    whose = {key for told in telling.recorded for key in told.animals}
    alarms = fresh(milk, _before(telling, milk, first), courses, whose)
    return tuple(one for one in alarms if today - one.found_on <= timedelta(days=NEWS_DAYS))


def _before(telling: Telling, milk: Sequence[Told], first: date) -> Sequence[Told]:
    """The milkings as they stood before this telling."""
    new = {told.id for told in telling.recorded}
    gone = [t for t in telling.undone if isinstance(t.entry, Milk) and t.entry.on >= first]
    return sorted((*(told for told in milk if told.id not in new), *gone), key=lambda told: told.id)


def _courses(telling: Telling, reasons: Sequence[Told]) -> Iterator[tuple[int | None, Course]]:
    farm, told = telling.book.farm, telling.book.told
    for animal in farm.present:
        if is_cow(animal):
            yield animal.id, course_of(animal, told, reasons, telling.intervals)


def alerts(telling: Telling) -> tuple[str, ...]:
    """The falls of this telling in words, each one segment."""
    return tuple(question(one, telling.language, today=telling.local.date()) for one in telling.raised)
