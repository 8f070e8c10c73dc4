"""Where in its life an animal is."""

from __future__ import annotations

from datetime import date

from service.husbandry.herd import Animal, Sex, Status
from service.husbandry.months import younger_than

CALF_MONTHS = 8
"""A calf is one until it is weaned or so old (heifer feed from 8 months; common practice, no source)."""

COW_MONTHS = 24
"""Entered without a word on her state she is taken as a cow from this age (15 months + gestation)."""


def latest_birth(animal: Animal) -> date | None:
    """The day it was born or, of one entered as a calf without a birth date, by which it must have been."""
    if animal.born is None and animal.told_status is Status.CALF:
        return animal.entered_on
    return animal.born


def is_calf(animal: Animal, today: date) -> bool:
    if animal.weaned_on is not None or animal.told_status not in (None, Status.CALF):
        return False
    born = latest_birth(animal)
    return born is not None and younger_than(born, CALF_MONTHS, today)


def is_cow(animal: Animal) -> bool:
    """Whether she has calved, as told or because she was entered as a grown cow."""
    if animal.calvings or animal.told_status in (Status.MILKING, Status.DRY):
        return True
    if animal.sex is Sex.MALE or animal.told_status is not None:
        return False
    return animal.born is None or not younger_than(animal.born, COW_MONTHS, animal.entered_on)


def is_dry(animal: Animal) -> bool:
    """Whether milking has ended since her last calving."""
    return animal.dried_on is not None


def gives_milk(animal: Animal) -> bool:
    """Whether milk of *animal* may be drunk or sold: when in doubt, yes."""
    return is_cow(animal) and not is_dry(animal)


def status(animal: Animal, today: date) -> Status:
    """What *animal* is *today*, by its own entries and its age."""
    if is_cow(animal):
        return Status.DRY if is_dry(animal) else Status.MILKING
    if is_calf(animal, today):
        return Status.CALF
    if animal.sex is Sex.MALE:
        return Status.STEER if animal.told_status is Status.STEER else Status.BULL
    return Status.IN_CALF_HEIFER if animal.in_calf else Status.HEIFER
