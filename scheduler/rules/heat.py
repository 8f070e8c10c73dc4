"""Heat: serving it, and looking for the next one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from scheduler.rules.offer import Offer, of
from service.husbandry import cycle
from service.husbandry.herd import Animal, Heat, Sex
from service.husbandry.intervals import Intervals
from service.husbandry.life import is_cow
from service.husbandry.months import months_after
from service.husbandry.task import Key, Task


def serve(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """A heat seen and not served; none after blood."""
    if animal.heat is None or animal.heat.bleeding:
        return
    window = cycle.serve_window(animal.heat.first_seen, intervals)
    key = Key(task="serve", animal=animal.id)
    since = animal.heat.first_seen.date()
    yield Offer(task=Task(key=key, due=window.first, until=window.last, since=since))


def return_heat(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """The next heat of a cow not found in calf: after blood, a heat not served, an empty check, a service."""
    if animal.in_calf:
        return
    if animal.heat is not None:
        yield _after_heat(animal, animal.heat, intervals)
    if animal.check is not None and animal.check.result == "empty":
        window = cycle.return_when_empty(animal.check.on, intervals)
        yield of(animal, "return_heat", window, since=animal.check.on)
    if animal.served is not None and not animal.served.running:  # a bull sees to the next heat himself
        served = animal.served
        window = cycle.return_window(served.on, intervals)
        yield of(animal, "return_heat", window, since=served.on, about=served.about)


def _after_heat(animal: Animal, heat: Heat, intervals: Intervals) -> Offer:
    seen = heat.first_seen
    if heat.bleeding:
        window = cycle.return_after_blood(seen.date(), intervals)
        return of(animal, "return_heat", window, since=seen.date())
    over = cycle.serve_window(seen, intervals).last + timedelta(minutes=1)
    window = cycle.return_window(seen.date(), intervals)
    return of(animal, "return_heat", window, since=seen.date(), opens=over)


def heat_after_calving(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """Her first heat after calving, until one or a service is told."""
    if animal.calved_on is None or animal.cycled_on is not None or animal.in_calf:
        return
    window = cycle.heat_after_calving(animal.calved_on, intervals)
    yield of(animal, "heat_after_calving", window, since=animal.calved_on)


def first_service(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """A heifer of known age that was never served comes of age."""
    started = animal.services or animal.in_calf or animal.aborted_on is not None
    if animal.sex is not Sex.FEMALE or animal.born is None or started or is_cow(animal):
        return
    window = cycle.Days(
        months_after(animal.born, intervals.first_service_from_months),
        months_after(animal.born, intervals.first_service_until_months),
    )
    yield of(animal, "first_service", window, since=animal.born)
