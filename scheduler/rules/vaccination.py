"""Vaccinations are repeated, each disease at its own interval; some are once for life."""

from __future__ import annotations

from collections.abc import Iterator

from scheduler.rules.offer import Offer, open_ended
from service.husbandry.herd import Animal
from service.husbandry.intervals import NEVER, Intervals
from service.husbandry.months import months_after
from service.husbandry.task import Key


def vaccinate(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    for disease, last in animal.vaccinated.items():
        months = intervals.repeat_months(disease)
        if months != NEVER:
            key = Key(task="vaccinate", animal=animal.id, disease=disease)
            yield open_ended(key, months_after(last, months), since=last)
