"""
Routine work: it begins when the farm first tells of it, or asks to be reminded of it.

Ticks, sheds and weighing go by the days since it was last done. Worm medicine goes by calendar months,
for the young by days, unless the farm has set its own number of days.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from scheduler.rules.offer import Offer, open_ended
from service.husbandry.herd import Animal, Farm
from service.husbandry.intervals import NEVER, Intervals
from service.husbandry.life import latest_birth
from service.husbandry.months import months_after, younger_than
from service.husbandry.task import Key


def spray(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    yield from _again(farm, "spray", farm.sprayed_on, intervals.spray_days)


def disinfect(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    yield from _again(farm, "disinfect", farm.disinfected_on, intervals.disinfect_days)


def _again(farm: Farm, task: str, last: date | None, days: int) -> Iterator[Offer]:
    start = last or farm.asked_on.get(task)
    if start is not None:
        yield open_ended(Key(task=task), start + timedelta(days), since=start)


def deworm(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    """Every animal wormed once; where the farm asked for it, the others from then on too."""
    for animal in farm.present:
        start = animal.dewormed_on or _asked(farm, "deworm", animal)
        if start is not None:
            key = Key(task="deworm", animal=animal.id)
            yield open_ended(key, _wormed_again(animal, start, intervals), since=start)


def _wormed_again(animal: Animal, last: date, intervals: Intervals) -> date:
    """The age at the last time decides, so that a date once planned stays."""
    if intervals.deworm_days != NEVER:
        return last + timedelta(intervals.deworm_days)
    born = latest_birth(animal)
    if born is not None and younger_than(born, intervals.deworm_young_months, last):
        return last + timedelta(intervals.deworm_young_days)
    return months_after(last, intervals.deworm_months)


def weigh(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    """Only where the farm set how often."""
    if intervals.weigh_days == NEVER:
        return
    for animal in farm.present:
        start = animal.weighed_on or _asked(farm, "weigh", animal)
        if start is not None:
            key = Key(task="weigh", animal=animal.id)
            yield open_ended(key, start + timedelta(intervals.weigh_days), since=start)


def _asked(farm: Farm, task: str, animal: Animal) -> date | None:
    """The day from which the farm wants *task* done to *animal*: it asked, or the animal came later."""
    asked = farm.asked_on.get(task)
    return None if asked is None else max(asked, animal.entered_on)
