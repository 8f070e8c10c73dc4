"""
The present state of a farm and of each of its animals: what replaying the entries yields.

All values are frozen; an entry's effect (``Entry.after``) returns a changed copy. Dates are
farm-local; moments are aware, in the farm's zone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from datetime import date, datetime, timedelta
from decimal import Decimal
from enum import StrEnum
from typing import Any, Literal

from service.husbandry.forms import EVERY_ANIMAL, Entry

SOLD, DIED = "sold", "died"
"""Why an animal left, where no other reason is told."""


BULL_STAYS = 63
"""Days a bull is taken to stay whose going is not told: three cycles, in which nearly all that can have
conceived; common practice, no source."""

NAME_LENGTH = 12
"""Longest name of an animal, GSM-7 characters (the contract)."""


class Sex(StrEnum):
    FEMALE = "female"
    MALE = "male"


class Status(StrEnum):
    """Where in its life an animal is (the contract's words)."""

    CALF = "calf"
    HEIFER = "heifer"
    IN_CALF_HEIFER = "in_calf_heifer"
    MILKING = "milking"
    DRY = "dry"
    BULL = "bull"
    STEER = "steer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """An entry with what is kept around it."""

    id: int  # unique over the database; the order of telling
    entry: Entry
    animals: tuple[int, ...] = ()  # whom it is about; () for "*" and for what concerns no animal
    calves: tuple[int, ...] = ()  # of a calving: the animals born alive, in the order told
    told_at: datetime
    told_by: str  # E.164


@dataclass(frozen=True, slots=True)
class Heat:
    first_seen: datetime
    bleeding: bool


@dataclass(frozen=True, slots=True)
class Served:
    """The service whose plan stands."""

    on: date
    about: bool
    method: str | None
    sire: str | None
    technician: str | None
    running: bool = False  # a bull goes with her since that day
    until: date | None = None  # ... to this day, where it is told

    @property
    def last_on(self) -> date:
        """The last day on which she can have been served."""
        if not self.running:
            return self.on
        return self.until or self.on + timedelta(days=BULL_STAYS)


@dataclass(frozen=True, slots=True)
class Check:
    """The latest pregnancy check."""

    on: date
    result: str  # pregnant, empty, unsure


What = Literal["milk", "meat"]
"""What a drug holds back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """
    A drug given to one animal, with the hold days of its label as told with it (0: none; None: not told).

    ``asks``: what is held until the label is told, where it is not.
    """

    kind: str
    on: date
    at: datetime | None = None  # the hour of the last dose
    product: str | None = None  # case folded
    milk_days: Decimal | None = None
    meat_days: Decimal | None = None
    asks: tuple[What, ...] = ()
    dry_cow: bool = False
    calved_on: date | None = None  # of a dry-cow drug: the calving from which its milk days count again

    def days(self, what: What) -> Decimal | None:
        return self.milk_days if what == "milk" else self.meat_days


@dataclass(frozen=True, kw_only=True)
class Animal:
    """One animal as it is after its entries so far. Changed copies: :func:`changed`."""

    id: int
    name: str  # the one it goes by
    names: tuple[str, ...]  # all it is known by, the present one first
    sex: Sex | None = None
    born: date | None = None
    breed: str | None = None
    dam: int | None = None
    dam_name: str | None = None
    sire: str | None = None
    entered_on: date
    bought: bool = False
    twin_of_bull: bool = False  # a heifer born beside a bull calf: likely barren
    told_status: Status | None = None  # as said when entered, and on which day
    left_on: date | None = None
    left_why: str | None = None  # "sold", the reason told of the death, or "died"

    calved_on: date | None = None
    calved_at: datetime | None = None  # where its hour is known
    calvings: int = 0
    heat: Heat | None = None  # the latest heat that no later service, calving or check has answered
    served: Served | None = None
    services: int = 0  # since the last calving
    cycled_on: date | None = None  # the latest heat or service since the last calving
    lapsed: Served | None = None  # the service whose plan a heat has ended; a check can find that it held
    check: Check | None = None  # since the service that stands
    in_calf: bool = False  # found so by a check, or entered so
    conceived_on: date | None = None  # once in calf, where it can be told
    conceived_about: bool = False
    aborted_on: date | None = None
    dried_on: date | None = None
    weaned_on: date | None = None
    dewormed_on: date | None = None
    weighed_on: date | None = None  # by tape or scale
    weighed_before: date | None = None  # the time before that, on another day
    weight_kg: Decimal | None = None  # found then; None: the tape tells none for such a girth
    weight_from: str | None = None  # girth, weight
    condition: Decimal | None = None
    condition_on: date | None = None
    condition_before: Decimal | None = None  # the score before that, on another day
    condition_before_on: date | None = None
    vaccinated: Mapping[str, date] = field(default_factory=dict)  # disease -> last day
    doses: tuple[Dose, ...] = ()  # what holds or held milk or meat; the next six follow from it (holds.py)
    milk_held_until: date | None = None  # first day on which her milk may be sold again, by known labels
    milk_held_evening: bool = False  # ... from its evening milking on
    milk_hold_unknown_since: date | None = None  # the latest dose that holds until its label is told
    meat_held_until: date | None = None
    meat_held_evening: bool = False
    meat_hold_unknown_since: date | None = None
    ill_since: date | None = None  # the first day of the illness told of, until it is over or treated
    ill_on: date | None = None  # the latest day of it that was told of
    ill_told_at: datetime | None = None  # when that was told
    ill_signs: tuple[str, ...] = ()  # as seen on that day
    done: Mapping[str, date] = field(default_factory=dict)  # task -> last day a plain `done` was told

    @property
    def present(self) -> bool:
        return self.left_on is None


_FIELDS = frozenset(field.name for field in fields(Animal))


def changed(animal: Animal, **changes: Any) -> Animal:
    """
    *animal* with some fields changed.

    ``dataclasses.replace`` goes through every field's declaration; this copies all values at once and
    is about ten times as fast. Replaying a farm is little else.

    Raises:
        TypeError: an animal has no such field.
    """
    if not changes.keys() <= _FIELDS:
        raise TypeError(f"an animal has no {', '.join(changes.keys() - _FIELDS)}")
    copy = object.__new__(Animal)
    copy.__dict__.update(animal.__dict__, **changes)
    return copy


def not_in_calf(animal: Animal, **changes: Any) -> Animal:
    """*animal* with no heat, service or pregnancy standing (found empty, aborted, calved), and *changes*."""
    return changed(
        animal,
        heat=None,
        served=None,
        lapsed=None,
        in_calf=False,
        conceived_on=None,
        conceived_about=False,
        **changes,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Someone to call."""

    role: str  # vet, technician, other
    name: str | None
    phone: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Farm:
    """A farm's herd, routine, rules and people to call, after its entries so far."""

    animals: Mapping[int, Animal] = field(default_factory=dict)
    people: Mapping[str, Person] = field(default_factory=dict)  # role -> latest told
    settings: Mapping[str, Any] = field(default_factory=dict)  # as told: {"hour": 6, "spray": 14, ...}
    asked_on: Mapping[str, date] = field(default_factory=dict)  # task -> day its setting was told
    sprayed_on: date | None = None
    disinfected_on: date | None = None
    vaccinated_since: Mapping[str, date] = field(default_factory=dict)  # disease -> first day for any animal
    done: Mapping[str, date] = field(default_factory=dict)  # the herd's tasks

    @property
    def present(self) -> tuple[Animal, ...]:
        """The animals that have not left."""
        return tuple(animal for animal in self.animals.values() if animal.present)

    @property
    def by_name(self) -> dict[str, int]:
        """Name (case folded) -> animal, by all its names; of two of one name the one present."""
        animals = sorted(self.animals.values(), key=lambda animal: animal.present)
        return {name.casefold(): animal.id for animal in animals for name in animal.names}

    def of(self, told: Told) -> tuple[Animal, ...]:
        """The animals that *told* is about; those present where it is about all."""
        if told.entry.named == (EVERY_ANIMAL,):
            return self.present
        return tuple(self.animals[i] for i in told.animals if i in self.animals)


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """One animal as the reader knows it."""

    name: str
    names: tuple[str, ...]
    sex: Sex | None
    status: Status | None
    born: date | None = None
    in_calf: bool = False  # found so by a check, or entered so; not merely served
    in_calf_from: date | None = None  # the day of that check; None: no day is known
    dry_from: date | None = None  # the day she was dried off; None: no day is known
    calved_on: date | None = None
    dam: str | None = None
    left_on: date | None = None  # the day it was sold or died; None: it is present
    ill_signs: tuple[str, ...] = ()  # as seen last; (): it is not ill, or in the vet's hands


@dataclass(frozen=True, slots=True)
class Herd:
    """
    The animals that a text can be about. None in its place: every name is taken as an animal's.

    ``left``: those that were sold or died, of whom something of an earlier day can still be told.
    """

    animals: tuple[Known, ...]
    left: tuple[Known, ...] = ()
