"""Which animals to offer for a kind of record, and in which order."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from dialogs.screens.state import Caller
from service.husbandry.herd import Known, Sex, Status

MALE = (Status.BULL, Status.STEER)


def _is_calf(animal: Known) -> bool:
    return animal.status is Status.CALF


def _grown_female(animal: Known) -> bool:
    return animal.sex is not Sex.MALE and animal.status not in (*MALE, Status.CALF)


def _milkable(animal: Known) -> bool:
    return _grown_female(animal) and animal.status not in (Status.HEIFER, Status.IN_CALF_HEIFER)


def _milking(animal: Known) -> bool:
    return animal.status is Status.MILKING


def _in_calf(animal: Known) -> bool:
    return animal.in_calf or animal.status is Status.IN_CALF_HEIFER


def _open(animal: Known) -> bool:
    return not _in_calf(animal)


Test = Callable[[Known], bool]

OFFERED: dict[str, tuple[Test, Test]] = {
    "milk": (_milkable, _milking),
    "heat": (_grown_female, _open),
    "service": (_grown_female, _open),
    "pregnancy_check": (_grown_female, _open),
    "calving": (_grown_female, _in_calf),
    "abortion": (_grown_female, _in_calf),
    "drying_off": (_milkable, _milking),
    "weaning": (_is_calf, _is_calf),
}
"""Kind -> which animals it can well be about, and which of them come first; other kinds: all."""


def offered(kind: str, caller: Caller, told: Iterable[str] = ()) -> list[Known]:
    """
    The animals to choose from for a record of *kind*; all of the herd where none is likely.

    Those *told* of in this session come last; else the likely first, then the last told of first.
    """
    likely, first = OFFERED.get(kind, (lambda animal: True, lambda animal: True))
    able = [animal for animal in caller.herd.animals if likely(animal)] or list(caller.herd.animals)
    rank = {name: place for place, name in enumerate(caller.recent)}
    done = set(told)
    return sorted(
        able, key=lambda a: (a.name in done, not first(a), rank.get(a.name, len(rank)), a.name.casefold())
    )


def servable(caller: Caller) -> list[Known]:
    """Cows and heifers that a bull can serve: those not found in calf; of a herd without any, none."""
    able = (Status.MILKING, Status.DRY, Status.HEIFER)
    return [a for a in offered("service", caller) if a.status in able and _grown_female(a) and not a.in_calf]


def named(text: str, caller: Caller) -> Known | None:
    """The one animal that goes by *text*, whatever the case; by any of its names."""
    wanted = " ".join(text.casefold().split())
    found = [a for a in caller.herd.animals if wanted in (name.casefold() for name in a.names)]
    return found[0] if len(found) == 1 else None


def groups(caller: Caller) -> dict[str, tuple[str, ...]]:
    """Groups worth offering beside single animals: those of two or more that are not the whole herd."""
    every = caller.herd.animals
    found = {
        "milking": tuple(a.name for a in every if _milking(a)),
        "calves": tuple(a.name for a in every if _is_calf(a)),
    }
    return {group: names for group, names in found.items() if 2 <= len(names) < len(every)}
