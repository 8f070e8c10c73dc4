"""
How near of kin a cow and a bull are, by the pedigree that is written down.

The coefficient of inbreeding of a calf (Wright 1922) is half the additive relationship of its parents,
which the tabular method builds up generation by generation. Sources and the textbook values that the
tests check: docs/trade/semen.md. Exact fractions, since the line is a power of a half.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.husbandry.herd import Animal, Sex

LINE = Fraction(1, 16)
"""
A mating whose calf would be this inbred or more is never proposed: full first cousins, 6.25 %.

The rule is to stay below it (from memory, common practice), so a calf exactly on the line is refused.
"""

KNOWN_GENERATIONS = 2
"""Generations that must be known of both: the line is that of cousins, who share grandparents."""

HALF = Fraction(1, 2)

Id = str
"""
Who is meant in a pedigree: whatever is one and the same all over it.

Built here: ``animal 7`` of the farm, ``bull kilele`` by his name, ``cow malaika`` by hers.
"""


@dataclass(frozen=True, slots=True)
class Parents:
    """The parents of one animal; None: not known."""

    sire: Id | None = None
    dam: Id | None = None

    def __iter__(self) -> Iterator[Id | None]:
        return iter((self.sire, self.dam))


NONE_KNOWN = Parents()

Pedigree = Mapping[Id, Parents]
"""Parents by animal, in any order; an animal that is not in it has none that are known."""


@dataclass(frozen=True, slots=True)
class Inbreeding:
    """
    The coefficient of inbreeding of a calf, 0 to 1.

    ``lower_bound``: a parent or a grandparent of one of the two is not known and is taken as unrelated,
    so that the calf may be more inbred. What lies beyond is the base, as in the textbooks.
    """

    coefficient: Fraction
    lower_bound: bool

    @property
    def on_or_above_line(self) -> bool:
        return self.coefficient >= LINE


def inbreeding(pedigree: Pedigree, sire: Id, dam: Id) -> Inbreeding:
    """The inbreeding of a calf of *sire* and *dam*."""
    table = relationships(pedigree, (sire, dam))
    shallow = any(known_generations(pedigree, one) < KNOWN_GENERATIONS for one in (sire, dam))
    return Inbreeding(table[sire, dam] / 2, shallow)


def relationships(pedigree: Pedigree, of: Iterable[Id]) -> Mapping[tuple[Id, Id], Fraction]:
    """
    The additive relationship of every two of the animals *of* and of their ancestors, both ways round.

    An animal with itself has 1 + its own coefficient of inbreeding.
    """
    table: dict[tuple[Id, Id], Fraction] = {}
    before: list[Id] = []
    for one, parents in in_order(pedigree, of):
        for other in before:
            table[one, other] = table[other, one] = _with_other(table, parents, other)
        table[one, one] = 1 + _of_parents(table, parents)
        before.append(one)
    return table


def _with_other(table: Mapping[tuple[Id, Id], Fraction], parents: Parents, other: Id) -> Fraction:
    """Half the relationship of each known parent with *other*."""
    return HALF * sum((table[parent, other] for parent in parents if parent is not None), Fraction(0))


def _of_parents(table: Mapping[tuple[Id, Id], Fraction], parents: Parents) -> Fraction:
    """The animal's own inbreeding."""
    if parents.sire is None or parents.dam is None:
        return Fraction(0)
    return HALF * table[parents.sire, parents.dam]


def in_order(pedigree: Pedigree, of: Iterable[Id]) -> Sequence[tuple[Id, Parents]]:
    """
    The animals *of* and their ancestors, parents before their young.

    A parent that would be its own descendant is a slip of the record (two animals of one name) and is
    taken as not known.
    """
    done: dict[Id, Parents] = {}
    for one in of:
        _put(pedigree, one, done, ())
    return list(done.items())


def _put(pedigree: Pedigree, one: Id, done: dict[Id, Parents], young: tuple[Id, ...]) -> None:
    if one in done:
        return
    line = (*young, one)
    known = [None if parent in line else parent for parent in pedigree.get(one, NONE_KNOWN)]
    for parent in known:
        if parent is not None:
            _put(pedigree, parent, done, line)
    done[one] = Parents(*known)


def known_generations(pedigree: Pedigree, one: Id, most: int = KNOWN_GENERATIONS) -> int:
    """How many generations back, up to *most*, all ancestors of *one* are known."""
    generation = [one]
    for number in range(most):
        parents = [parent for animal in generation for parent in pedigree.get(animal, NONE_KNOWN)]
        generation = [parent for parent in parents if parent is not None]
        if len(generation) < len(parents):
            return number
    return most


# --- the pedigree of a farm ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class BullNames:
    """A bull of a catalogue and his kin, as it names them."""

    name: str
    code: str | None = None
    sire: str | None = None
    dam: str | None = None
    maternal_grandsire: str | None = None


def plain(name: str) -> str:
    """A name as it is compared: case folded, letters and figures only ("IG-101" is "ig 101")."""
    return "".join(filter(str.isalnum, name.casefold()))


@dataclass(frozen=True, slots=True)
class Kin:
    """Whom a name means, by its letters and figures (:func:`plain`)."""

    bulls: Mapping[str, Id]
    cows: Mapping[str, Id]

    def bull(self, name: str) -> Id:
        """The bull of that name or code; one that is not known is himself alone."""
        return self.bulls.get(plain(name), f"bull {plain(name)}")

    def cow(self, name: str) -> Id:
        return self.cows.get(plain(name), f"cow {plain(name)}")


def kin(animals: Iterable[Animal], bulls: Iterable[BullNames]) -> Kin:
    """
    Whom the names of a farm mean.

    Where a farm's own bull bears the name of one of the catalogue, the catalogue's is meant: kin to a bull
    that could be chosen is then found rather than missed. Of animals of one name the present one is meant.
    """
    listed = list(bulls)
    by_presence = sorted(animals, key=lambda animal: animal.present)
    codes = {plain(bull.code): f"bull {plain(bull.name)}" for bull in listed if bull.code}
    names = {plain(bull.name): f"bull {plain(bull.name)}" for bull in listed}
    own = [(plain(name), one) for one in by_presence for name in one.names]
    males = {name: own_id(one.id) for name, one in own if one.sex is not Sex.FEMALE}
    females = {name: own_id(one.id) for name, one in own if one.sex is not Sex.MALE}
    return Kin({**males, **codes, **names}, females)


def own_id(animal_id: int) -> Id:
    return f"animal {animal_id}"


def pedigree_of(animals: Iterable[Animal], bulls: Iterable[BullNames]) -> tuple[Pedigree, Kin]:
    """The pedigree that a farm's record and a catalogue make together, and whom its names mean."""
    herd, listed = list(animals), list(bulls)
    names = kin(herd, listed)
    found: dict[Id, Parents] = {own_id(animal.id): _of_animal(animal, names) for animal in herd}
    for bull in listed:
        for one, parents in _of_bull(bull, names):
            before = found.get(one, NONE_KNOWN)
            found[one] = Parents(before.sire or parents.sire, before.dam or parents.dam)
    return found, names


def _of_animal(animal: Animal, names: Kin) -> Parents:
    sire = None if animal.sire is None else names.bull(animal.sire)
    if animal.dam is not None:
        return Parents(sire, own_id(animal.dam))
    return Parents(sire, None if animal.dam_name is None else names.cow(animal.dam_name))


def _of_bull(bull: BullNames, names: Kin) -> Iterator[tuple[Id, Parents]]:
    """A bull and his dam: one not named is still the daughter of the grandsire named."""
    himself = names.bull(bull.name)
    dam = None if bull.dam is None else f"cow {plain(bull.dam)} of the catalogue"
    if dam is None and bull.maternal_grandsire is not None:
        dam = f"dam of {himself}"
    yield himself, Parents(None if bull.sire is None else names.bull(bull.sire), dam)
    if dam is not None and bull.maternal_grandsire is not None:
        yield dam, Parents(names.bull(bull.maternal_grandsire), None)
