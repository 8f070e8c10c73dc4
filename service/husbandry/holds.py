"""
How long milk and meat are held back after a drug, and the first milk after a calving.

The product's label decides, never Byreline. The clock starts at the last dose, a new dose starts it
again, and of several drugs the latest end counts. 0 days is a label that says "none"; None is a label
that nobody has told: what was given then holds until its label is told.

All is worked out anew from the doses of an animal, so that the order in which they are told of does not
matter. Figures and their sources: docs/trade/holds.md.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal

from service.husbandry.herd import Animal, Dose, What, changed
from service.husbandry.intervals import DEFAULTS, Intervals

MORNING_MILKING, EVENING_MILKING = time(6), time(18)
"""When cows are milked, farm-local; common practice, no source."""

LONGEST_DAYS = 365
"""The longest hold that a label can be told with: after it none holds any more, told or not."""

WORMS_LONGEST_DAYS = 60
"""The same of worm medicine whose label is never told: a warning that never ends is heard no more;
Byreline's own choice."""


@dataclass(frozen=True, slots=True, order=True)
class Milking:
    """A milking of a farm-local day: its morning's or its evening's."""

    on: date
    evening: bool = False


@dataclass(frozen=True, slots=True)
class Hold:
    """
    What keeps milk or meat from being sold, and the first milking (of meat: half day) that may be.

    ``first`` is None while a label is not told; ``drug`` is False of the first milk after a calving.
    """

    first: Milking | None
    drug: bool = True


def first_sale(on: date, hold_days: Decimal | None) -> date | None:
    """
    First day on which milk or meat may be sold after a dose *on* a day; None if there is no known hold.

    Where the hour of the dose is not told, its day counts whole: on + days + 1.
    """
    return on + timedelta(math.ceil(hold_days) + 1) if hold_days else None


def first_milking(at: datetime) -> Milking:
    """The first milking at or after a moment of the farm's zone."""
    if at.time() <= MORNING_MILKING:
        return Milking(at.date())
    if at.time() <= EVENING_MILKING:
        return Milking(at.date(), evening=True)
    return Milking(at.date() + timedelta(days=1))


def hold_end(on: date, last_dose: datetime | None, hold_days: Decimal | None) -> Milking | None:
    """
    The first milking that may be sold after a drug; None if there is no known hold.

    Counted from the hour of the last dose where that is told, else from the whole day *on*.
    """
    if hold_days and last_dose is not None:
        return first_milking(last_dose + timedelta(math.ceil(hold_days)))
    first = first_sale(on, hold_days)
    return None if first is None else Milking(first)


# --- from doses to holds ----------------------------------------------------------------------------


def given(animal: Animal, dose: Dose) -> Animal:
    """*animal* after one more *dose*."""
    if not dose.milk_days and not dose.meat_days and not dose.asks:
        return animal
    return changed(animal, doses=(*animal.doses, dose))


def at_calving(animal: Animal, on: date) -> Animal:
    """*animal* once it calved *on* that day: what was put in at drying off holds the new milk too."""
    if not any(dose.dry_cow and dose.calved_on is None for dose in animal.doses):
        return animal
    waiting = (dose.dry_cow and dose.calved_on is None for dose in animal.doses)
    doses = zip(animal.doses, waiting, strict=True)
    return changed(
        animal, doses=tuple(replace(dose, calved_on=on) if waits else dose for dose, waits in doses)
    )


def summed_up(animal: Animal) -> Animal:
    """*animal* with what its doses come to: worked out once, when all of them are known."""
    if not animal.doses:
        return animal
    milk, milk_unknown = _outcome(animal.doses, "milk")
    meat, meat_unknown = _outcome(animal.doses, "meat")
    return changed(
        animal,
        milk_held_until=None if milk is None else milk.on,
        milk_held_evening=milk is not None and milk.evening,
        milk_hold_unknown_since=milk_unknown,
        meat_held_until=None if meat is None else meat.on,
        meat_held_evening=meat is not None and meat.evening,
        meat_hold_unknown_since=meat_unknown,
    )


def _outcome(doses: tuple[Dose, ...], what: What) -> tuple[Milking | None, date | None]:
    """The end of all known holds, and the day of the latest dose whose label is not told."""
    spans = list(_spans(doses, what))
    ends = (span.end for span in spans if span.end is not None)
    unknown = (span.begin.on for span in spans if span.end is None)
    return max(ends, default=None), max(unknown, default=None)


@dataclass(frozen=True, slots=True)
class _Span:
    """The hold of one dose: from its first milking to before *end*, or, not told, to the day *lapses*."""

    begin: Milking
    end: Milking | None
    lapses: date

    def covers(self, first: Milking, last: Milking) -> bool:
        """Whether any of the milkings from *first* to *last* is held."""
        before = first.on <= self.lapses if self.end is None else first < self.end
        return self.begin <= last and before


def _spans(doses: tuple[Dose, ...], what: What) -> Iterator[_Span]:
    for dose in doses:
        days = _by_label(dose, doses, what)
        if days:
            end = hold_end(dose.on, dose.at, days)
            yield _Span(_begin(dose), end, date.max)
            if dose.dry_cow and dose.calved_on is not None and what == "milk":
                yield _Span(Milking(dose.calved_on), hold_end(dose.calved_on, None, days), date.max)
        elif days is None and what in dose.asks:
            yield _Span(_begin(dose), None, _lapses(dose))


def _begin(dose: Dose) -> Milking:
    if dose.at is None or dose.at.date() != dose.on:
        return Milking(dose.on)
    return Milking(dose.on, evening=dose.at.time() > MORNING_MILKING)


def _lapses(dose: Dose) -> date:
    days = WORMS_LONGEST_DAYS if dose.kind == "deworming" else LONGEST_DAYS
    from_days = (dose.on, dose.at and dose.at.date(), dose.calved_on)
    return max(day for day in from_days if day is not None) + timedelta(days)


def _by_label(dose: Dose, doses: tuple[Dose, ...], what: What) -> Decimal | None:
    """
    The days of the label of *dose*: told with it, else the longest told of the same drug with others.

    A label told with a later dose counts (it has been read since), one of an earlier dose where both
    name the drug or while its hold still ran. None: nobody has told it.
    """
    if dose.days(what) is not None:
        return dose.days(what)
    told = ((one, one.days(what)) for one in doses if _same_drug(dose, one))
    labels = (days for one, days in told if days is not None and _tells(one, days, dose))
    return max(labels, default=None)


def _same_drug(dose: Dose, label: Dose) -> bool:
    """Whether a *label* can be of the drug of *dose*: its name is the same, or not told of one of them."""
    if label.kind == "treatment" and label.product is None:
        return True  # "no milk from Neema for 4 days" is of whatever she was given
    if label.kind != dose.kind:
        return False
    return dose.product == label.product or None in (dose.product, label.product)


def _tells(label: Dose, days: Decimal, dose: Dose) -> bool:
    if label.on >= dose.on or (label.product is not None and label.product == dose.product):
        return True
    end = hold_end(label.on, label.at, days)
    return end is not None and end.on > dose.on


# --- what is held on a day --------------------------------------------------------------------------


def milk_hold(animal: Animal, on: date, session: str | None = None) -> Hold | None:
    """
    What keeps milk of a day (of one *session* of it, where told) from being sold; None: nothing.

    Milk of before the drug is free, however late it is told. The first milk after a calving is the calf's.
    """
    first = Milking(on, evening=session == "evening")
    last = Milking(on, evening=session != "morning")
    held = _held(animal, "milk", first, last)
    return held if held is not None else _first_milk(animal, on)


def meat_hold(animal: Animal, on: date) -> Hold | None:
    """What keeps the meat of an animal slaughtered *on* that day from being eaten; None: nothing."""
    return _held(animal, "meat", Milking(on), Milking(on, evening=True))


def _held(animal: Animal, what: What, first: Milking, last: Milking) -> Hold | None:
    ends = [span.end for span in _spans(animal.doses, what) if span.covers(first, last)]
    if not ends:
        return None
    known = [end for end in ends if end is not None]
    return Hold(max(known) if len(known) == len(ends) else None)


def _first_milk(animal: Animal, on: date, intervals: Intervals = DEFAULTS) -> Hold | None:
    calved = animal.calved_on
    if calved is None:
        return None
    first = calved + timedelta(intervals.colostrum_days + 1)
    return Hold(Milking(first), drug=False) if calved <= on < first else None


def drug_hold(animal: Animal, on: date, session: str | None = None) -> Hold | None:
    """As :func:`milk_hold`, of drugs alone."""
    held = milk_hold(animal, on, session)
    return held if held is not None and held.drug else None


def lifts(before: Animal, after: Animal | None, on: date) -> bool:
    """Whether milk held that day could be sold sooner of her as *after* (None: she is not there)."""
    held = drug_hold(before, on)
    if held is None:
        return False
    then = None if after is None else drug_hold(after, on)
    if then is None:
        return True
    return then.first is not None and (held.first is None or then.first < held.first)
