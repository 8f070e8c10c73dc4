"""The first day on which milk or meat may be sold again after a drug, by the labels that are told."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from scheduler.rules.offer import Offer, of
from service.husbandry.cycle import Days
from service.husbandry.herd import Animal
from service.husbandry.intervals import Intervals
from service.husbandry.life import is_cow, is_dry


def milk_hold_end(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    """Of a cow: nobody waits for the milk of a bull or a calf, or of a cow dried off with a drug."""
    dry = is_dry(animal) and any(dose.dry_cow for dose in animal.doses)
    if animal.milk_held_until is not None and is_cow(animal) and not dry:
        yield _end(animal, "milk_hold_end", animal.milk_held_until)


def meat_hold_end(animal: Animal, intervals: Intervals) -> Iterator[Offer]:
    if animal.meat_held_until is not None:
        yield _end(animal, "meat_hold_end", animal.meat_held_until)


def _end(animal: Animal, task: str, first_sale: date) -> Offer:
    # Told on its day and then over; "done" may answer a reminder of the evening before.
    return of(animal, task, Days(first_sale, first_sale), since=first_sale - timedelta(days=1))
