"""What goes before a calving, the calving itself, and one that does not come."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import timedelta

from scheduler.rules.offer import Offer, of, open_ended
from service.husbandry import cycle
from service.husbandry.cycle import Days, Expected
from service.husbandry.herd import Animal
from service.husbandry.intervals import Intervals
from service.husbandry.life import is_cow, is_dry
from service.husbandry.task import Key, Task

_WindowOf = Callable[[Expected, Intervals], Days]


def _before(animal: Animal, task: str, window_of: _WindowOf, intervals: Intervals) -> Iterator[Offer]:
    expected = cycle.expected_calving(animal, intervals)
    if expected is not None:
        window = window_of(expected, intervals)
        yield of(animal, task, window, since=expected.conceived, about=expected.about)


def dry_off(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """End the milking of a cow that is milked; a heifer before her first calving is not."""
    if is_cow(animal) and not is_dry(animal):
        yield from _before(animal, "dry_off", cycle.dry_off_window, intervals)


def steam_up(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """More meal in the last weeks."""
    yield from _before(animal, "steam_up", cycle.steam_up_window, intervals)


def calving(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """Watch for the calving."""
    yield from _before(animal, "calving", cycle.calving_window, intervals)


def afterbirth(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """Whether the afterbirth has come: asked at its hours, or on the next morning where no hour is known."""
    if animal.calved_on is None:
        return
    key = Key(task="afterbirth", animal=animal.id)
    if animal.calved_at is None:
        next_day = animal.calved_on + timedelta(days=1)
        yield of(animal, "afterbirth", Days(next_day, next_day), since=animal.calved_on)
        return
    due = animal.calved_at + timedelta(hours=intervals.afterbirth_asked_hours)
    until = animal.calved_at + timedelta(hours=intervals.afterbirth_over_hours)
    yield Offer(task=Task(key=key, due=due, until=until, since=animal.calved_on))


def calving_overdue(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """The watch is over and no calving was told."""
    expected = cycle.expected_calving(animal, intervals)
    if expected is None:
        return
    late = cycle.calving_window(expected, intervals).last + timedelta(days=1)
    key = Key(task="calving_overdue", animal=animal.id)
    yield open_ended(key, late, since=expected.conceived, about=expected.about, opens=late)
