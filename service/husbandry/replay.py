"""
From what was told to what is: the entries of a farm, replayed.

The outcome does not depend on the order of telling. Animals are made first; then what happened is put
into the order in which it happened (the day, then the order of ``KINDS``, the moment where one is known,
the order of telling), and each entry changes the animals it is about and the farm.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime

from service.husbandry.cycle import can_be_of
from service.husbandry.forms import EVERY_ANIMAL, Calf
from service.husbandry.herd import NAME_LENGTH, Animal, Farm, Herd, Known, Sex, Status, Told, changed
from service.husbandry.holds import summed_up
from service.husbandry.kinds import KINDS
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.life import status

_RANK = {kind: rank for rank, kind in enumerate(KINDS)}
_NO_MOMENT = datetime.min.replace(tzinfo=UTC)


def replay(told: Iterable[Told]) -> Farm:
    """
    The farm after all that was *told* (standing entries only, in any order).

    Entries about an animal that no standing entry brought into the herd are passed over.
    """
    events = sorted((one for one in told if one.entry.PLANS), key=_when)
    animals = _created(events)
    farm = Farm()
    for one in events:
        if isinstance(one.entry, Calving):
            _born(one, one.entry, animals)
        for animal_id in _whom(one, animals):
            animals[animal_id] = one.entry.after(animals[animal_id], one)
        farm = one.entry.farm_after(farm, one)
    settled = {animal_id: summed_up(animal) for animal_id, animal in animals.items()}
    return replace(farm, animals=_with_dams(settled))


def _when(told: Told) -> tuple[date, int, datetime, int]:
    entry = told.entry
    moment = entry.first_seen if isinstance(entry, Heat) else _NO_MOMENT
    return entry.happened_on, _RANK[type(entry)], moment, told.id


def _created(events: Sequence[Told]) -> dict[int, Animal]:
    """All animals as they enter: those told of as new, then the calves, mothers before daughters."""
    animals: dict[int, Animal] = {}
    for one in events:
        if isinstance(one.entry, NewAnimal) and one.animals:
            animals.setdefault(one.animals[0], one.entry.enters(one.animals[0]))
    for one in events:
        if isinstance(one.entry, Calving) and any(dam in animals for dam in one.animals):
            for calf_id, calf in _calves(one, one.entry):
                animals.setdefault(calf_id, _calf(calf_id, calf, one, one.entry))
    return animals


def _calves(told: Told, calving: Calving) -> Iterator[tuple[int, Calf]]:
    alive = [calf for calf in calving.calves if calf.alive]
    for place, calf_id in enumerate(told.calves):
        yield calf_id, alive[place] if place < len(alive) else Calf()


def _calf(calf_id: int, calf: Calf, told: Told, calving: Calving) -> Animal:
    """A calf at birth; without a name it gets a working one once its dam calves (:func:`_born`)."""
    return Animal(
        id=calf_id,
        name=calf.name or "",
        names=(calf.name,) if calf.name else (),
        sex=Sex(calf.sex) if calf.sex is not None else None,
        born=calving.on,
        dam=told.animals[0],
        dam_name=calving.animal,
        entered_on=calving.on,
        told_status=Status.CALF,
        twin_of_bull=calf.sex == Sex.FEMALE and any(c.sex == Sex.MALE for c in calving.calves),
    )


def _born(told: Told, calving: Calving, animals: dict[int, Animal]) -> None:
    """The calves get their sire and, without a name yet, one unlike any that an animal present goes by."""
    born = [(calf_id, calf) for calf_id, calf in _calves(told, calving) if calf_id in animals]
    taken = [a.name for a in animals.values() if a.present and a.name]
    names = working_names(calving.animal, [calf for _, calf in born], taken)
    sire = _sire(animals, told, calving)
    for (calf_id, _), name in zip(born, names, strict=True):
        calf = animals[calf_id]
        animals[calf_id] = changed(calf, sire=sire, name=calf.name or name, names=calf.names or (name,))


def _sire(animals: Mapping[int, Animal], told: Told, calving: Calving) -> str | None:
    """The sire of the service that stands, if the calf can be of it."""
    dam = next((animals[animal_id] for animal_id in told.animals if animal_id in animals), None)
    served = dam.served if dam is not None else None
    return served.sire if served is not None and can_be_of(served, calving.on) else None


def _whom(told: Told, animals: Mapping[int, Animal]) -> Sequence[int]:
    if told.entry.named == (EVERY_ANIMAL,):
        day = told.entry.happened_on
        return [animal_id for animal_id, animal in animals.items() if _there(animal, day)]
    return [animal_id for animal_id in told.animals if animal_id in animals]


def _there(animal: Animal, day: date) -> bool:
    """Whether an animal that has not left yet belonged to the herd that day."""
    if animal.left_on is not None or (animal.born is not None and animal.born > day):
        return False
    return not animal.bought or animal.entered_on <= day


def working_names(dam: str, calves: Sequence[Calf], taken: Collection[str]) -> tuple[str, ...]:
    """
    A name for each of the *calves* born alive: its own where one was given, else ``<dam> calf``.

    A name that is *taken* already (by an animal present) gets the next number, ``<dam> calf 2``; the
    dam's name is cut so that 12 characters suffice.
    """
    used = {name.casefold() for name in taken} | {calf.name.casefold() for calf in calves if calf.name}
    names = []
    for calf in calves:
        name = calf.name or next(n for n in _numbered(dam) if n.casefold() not in used)
        used.add(name.casefold())
        names.append(name)
    return tuple(names)


def _numbered(dam: str) -> Iterator[str]:
    number = 1
    while True:
        ending = " calf" if number == 1 else f" calf {number}"
        yield dam[: NAME_LENGTH - len(ending)].rstrip() + ending
        number += 1


def _with_dams(animals: dict[int, Animal]) -> dict[int, Animal]:
    """Dams told of by name, found; an animal is not its own."""
    wanting = [a for a in animals.values() if a.dam is None and a.dam_name]
    if not wanting:
        return animals
    ids = {name.casefold(): a.id for a in animals.values() for name in a.names}
    found = {a.id: ids.get((a.dam_name or "").casefold()) for a in wanting}
    dams = {child: dam for child, dam in found.items() if dam not in (None, child)}
    return {key: changed(a, dam=dams[key]) if key in dams else a for key, a in animals.items()}


def herd_of(farm: Farm, today: date) -> Herd:
    """
    The animals present, and those that have left, as the reader knows them *today*.

    A name that an animal bore before is left out where another one goes by it now.
    """
    present = [a for a in farm.animals.values() if a.present]
    going_by = {a.name.casefold() for a in present}
    left = (a for a in farm.animals.values() if not a.present and a.name.casefold() not in going_by)
    return Herd(
        tuple(_known(a, farm, going_by, today) for a in present),
        tuple(_known(a, farm, going_by, today) for a in left),
    )


def _known(animal: Animal, farm: Farm, going_by: Collection[str], today: date) -> Known:
    dam = farm.animals.get(animal.dam) if animal.dam is not None else None
    earlier = (name for name in animal.names[1:] if name.casefold() not in going_by)
    return Known(
        name=animal.name,
        names=(animal.name, *earlier),
        sex=animal.sex,
        status=status(animal, today),
        born=animal.born,
        in_calf=animal.in_calf,
        in_calf_from=animal.check.on if animal.in_calf and animal.check is not None else None,
        dry_from=animal.dried_on,
        calved_on=animal.calved_on,
        dam=dam.name if dam is not None else animal.dam_name,
        left_on=animal.left_on,
        ill_signs=animal.ill_signs,
    )
