"""Which animal of the farm a name means."""

from __future__ import annotations

from collections.abc import Iterable

from service.husbandry.herd import Animal, Farm


def find_present(farm: Farm, name: str | None) -> Animal | None:
    """The present animal of *farm* that goes by *name*; None: there is none, or no name."""
    if name is None:
        return None
    wanted = name.casefold()
    return next((animal for animal in farm.present if wanted in {n.casefold() for n in animal.names}), None)


def ids_of(farm: Farm, names: Iterable[str]) -> frozenset[int]:
    """The animals that go by *names*, of two of one name the one present; none for ``*``."""
    known = farm.by_name
    return frozenset(known[name.casefold()] for name in names if name.casefold() in known)
