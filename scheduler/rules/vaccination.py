"""
Vaccinations: repeated each at its own interval, begun at its own age, some once for life.

What the farm has told of is repeated, and its other animals come into it. What nobody has told of does
not begin by itself, except where the calendar or the cooperative says so (``vaccines.py``).
"""

from __future__ import annotations

from collections.abc import Iterator

from scheduler.rules.offer import Offer
from service.husbandry import vaccines
from service.husbandry.herd import Farm
from service.husbandry.intervals import Intervals
from service.husbandry.task import Key, Task


def vaccinate(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    """One for each disease and animal."""
    diseases = vaccines.begun(farm, intervals)
    for animal in farm.present:
        for disease in diseases:
            plan = vaccines.planned(disease, animal, farm, intervals)
            if plan is not None:
                key = Key(task="vaccinate", animal=animal.id, disease=disease)
                yield Offer(task=Task(key=key, due=plan.first, until=plan.last, since=plan.since))
