"""How an animal is that was told to be ill."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from scheduler.rules.offer import Offer, of
from service.husbandry.cycle import Days
from service.husbandry.herd import Animal
from service.husbandry.intervals import Intervals


def illness_check(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """Asked from the morning after, until a recovery or a treatment is told; "still ill" moves it on."""
    if animal.ill_on is None:
        return
    window = Days(
        animal.ill_on + timedelta(intervals.illness_asked_days),
        animal.ill_on + timedelta(intervals.illness_over_days),
    )
    yield of(animal, "illness_check", window, since=window.first)
