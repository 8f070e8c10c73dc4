"""Which animal of the farm a name means."""

from __future__ import annotations

from collections.abc import Iterable

from service.husbandry.herd import Animal, Farm


def find_present(farm: Farm, name: str | None) -> Animal | None:
    """The present animal of *farm* that goes by *name*; None: there is none, or no name."""
    if name is None:
        return None
    wanted = name.casefold()
    present = (animal for animal in farm.animals.values() if animal.present)
    return next((animal for animal in present if wanted in {n.casefold() for n in animal.names}), None)


def ids_of(farm: Farm, names: Iterable[str]) -> frozenset[int]:
    """The animals that go by *names*, of two of one name the one present; none for ``*``."""
    animals = sorted(farm.animals.values(), key=lambda animal: animal.present)
    known = {name.casefold(): animal.id for animal in animals for name in animal.names}
    return frozenset(known[name.casefold()] for name in names if name.casefold() in known)
