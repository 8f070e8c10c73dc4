"""The pregnancy check: once after a service, again after one that was not sure."""

from __future__ import annotations

from collections.abc import Iterator

from scheduler.rules.offer import Offer, of
from service.husbandry import cycle
from service.husbandry.herd import Animal
from service.husbandry.intervals import Intervals


def pregnancy_check(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    if animal.check is not None:
        if animal.check.result == "unsure":
            window = cycle.recheck_window(animal.check.on, intervals)
            yield of(animal, "pregnancy_check", window, since=animal.check.on)
    elif animal.served is not None and not animal.in_calf:
        served = animal.served
        # Of a bull that ran with her it can be told only so long after he has left.
        window = cycle.check_window(served.last_on, intervals)
        yield of(animal, "pregnancy_check", window, since=served.on, about=served.about or served.running)
