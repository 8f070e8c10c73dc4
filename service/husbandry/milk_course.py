"""
What is known of a cow's milk beside the litres, from what was told: calvings, drying off, days left out.

The sum of the herd has a course too: it begins anew where a cow joins or leaves it, and while one is being
dried off it tells nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from service.husbandry.cycle import dry_off_window, expected_calving
from service.husbandry.herd import Animal, Farm, Told
from service.husbandry.intervals import DEFAULTS, Intervals
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import AnimalSale, Death, NewAnimal
from service.husbandry.kinds.milk import MilkReason
from service.husbandry.kinds.one_day import DryingOff
from service.husbandry.life import is_cow
from service.husbandry.yield_expected import DRYING_DAYS, Course

CALF = "calf"
"""The reason that makes a day's milk no measure of what she gives."""


def course_of(
    animal: Animal, told: Iterable[Told], reasons: Iterable[Told], intervals: Intervals = DEFAULTS
) -> Course:
    """
    The course of one cow.

    From the first day of her time for drying off on, once she is found in calf, less milk is wanted. After
    a day on which the calf sucked the level is learnt anew: it may go on sucking.

    Args:
        animal: As she is now.
        told: The farm's standing entries that plan, in any order.
        reasons: The standing ``milk_reason`` entries of the days looked at.
    """
    hers = [one.entry for one in told if animal.id in one.animals]
    calved = [entry.on for entry in hers if isinstance(entry, Calving)]
    dried = max((entry.on for entry in hers if isinstance(entry, DryingOff)), default=None)
    sucked = _sucked(one for one in reasons if animal.id in one.animals)
    return Course(
        calved_on=calved,
        drying_from=_drying_from(animal, dried, intervals),
        dried_on=dried,
        left_out=sucked,
        anew=sucked,
    )


def _sucked(reasons: Iterable[Told]) -> frozenset[date]:
    entries = (one.entry for one in reasons)
    return frozenset(e.on for e in entries if isinstance(e, MilkReason) and e.reason == CALF)


def _drying_from(animal: Animal, dried: date | None, intervals: Intervals) -> date | None:
    """The first day of the window in which she is to be dried off, where she has not been."""
    expected = expected_calving(animal, intervals) if animal.in_calf and not animal.dried_on else None
    return None if expected is None else dry_off_window(expected, intervals).first


def course_of_sum(
    farm: Farm, told: Sequence[Told], reasons: Iterable[Told], first: date, last: date
) -> Course:
    """The course of the herd's milk told in one sum, for the days from *first* to *last*."""
    sucked = _sucked(reasons)
    drying = {day for animal in farm.animals.values() for day in _drying_days(animal, told, first, last)}
    return Course(left_out=sucked | drying, anew={*sucked, *_changes(farm, told)})


def _drying_days(animal: Animal, told: Sequence[Told], first: date, last: date) -> Iterator[date]:
    if not animal.present or not is_cow(animal):
        return
    course = course_of(animal, told, ())
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        just_dry = course.dried_on is not None and (day - course.dried_on).days > 0
        if course.is_drying(day) and not just_dry:
            yield day


def _changes(farm: Farm, told: Iterable[Told]) -> Iterator[date]:
    """Days from which the milk is of other cows."""
    for one in told:
        entry = one.entry
        if isinstance(entry, Calving):
            yield from (entry.on, entry.on + timedelta(days=DRYING_DAYS))
        elif isinstance(entry, DryingOff):
            yield entry.on
        elif isinstance(entry, AnimalSale | Death | NewAnimal) and _of_a_cow(farm, one):
            yield entry.happened_on


def _of_a_cow(farm: Farm, told: Told) -> bool:
    return any(key in farm.animals and is_cow(farm.animals[key]) for key in told.animals)
