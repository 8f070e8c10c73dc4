"""A calf's feed, step by step, and its weaning."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from scheduler.rules.offer import Offer, of
from service.husbandry.cycle import Days
from service.husbandry.herd import Animal
from service.husbandry.intervals import Intervals


def calf_feed(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """Starter, young-stock feed, heifer feed: the next of them that is not over or done."""
    if animal.born is None:
        return
    for days in (intervals.starter_days, intervals.young_stock_feed_days, intervals.heifer_feed_days):
        due = animal.born + timedelta(days)
        window = Days(due, due + timedelta(intervals.feed_step_days))
        # The evening before is early enough to say that a step was made.
        yield of(animal, "calf_feed", window, since=due - timedelta(days=1))


def weaning(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """The end of milk for the calf."""
    if animal.born is None or animal.weaned_on is not None:
        return
    window = Days(
        animal.born + timedelta(intervals.weaning_from_days),
        animal.born + timedelta(intervals.weaning_until_days),
    )
    yield of(animal, "weaning", window, since=animal.born)
