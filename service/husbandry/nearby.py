"""Like signs of illness on several farms of one neighbourhood: when staff should know. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

WITHIN_DAYS = 7
"""Signs seen within so many days of one another, counted from today back."""

FARMS = 3
"""So many farms are a cluster by themselves."""

ANIMALS, THEIR_FARMS = 4, 2
"""So are so many animals of at least so many farms. All four figures: common practice, no source."""

GROUPS: Mapping[str, frozenset[str]] = {
    "nodes": frozenset({"fever", "swollen_nodes", "cough", "froth", "hard_breathing", "cloudy_eye"}),
    "mouth": frozenset({"mouth_sores", "drooling", "lame"}),
    "skin": frozenset({"skin_lumps"}),
    "gut": frozenset({"diarrhoea"}),
    "blood": frozenset({"red_urine", "bleeding"}),
    "temper": frozenset({"wild", "staggering"}),
    "lost_calves": frozenset({"abortion"}),
    "sudden": frozenset({"sudden_death"}),
}
"""Signs that count as like ones. Those of any illness (off feed, less milk, weak) and those of one animal's
own trouble (udder, afterbirth, bloat) are in none; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Case:
    """An ill animal and the signs told of it."""

    farm: int
    animal: int
    signs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cluster:
    """Like signs near one another: the group, its sign told most, and how many show it."""

    group: str
    sign: str
    farms: int
    animals: int


def cluster(cases: Iterable[Case]) -> Cluster | None:
    """The like signs that most farms, and of these most animals, show among *cases*; None: too few."""
    told = tuple(cases)
    found = [one for group in GROUPS if (one := _of_group(group, told)) is not None]
    return max(found, key=lambda one: (one.farms, one.animals), default=None)


def _of_group(group: str, told: tuple[Case, ...]) -> Cluster | None:
    signs = GROUPS[group]
    those = [case for case in told if not signs.isdisjoint(case.signs)]
    farms, animals = len({case.farm for case in those}), len({case.animal for case in those})
    if farms < FARMS and not (animals >= ANIMALS and farms >= THEIR_FARMS):
        return None
    counts = {sign: sum(sign in case.signs for case in those) for sign in sorted(signs)}
    return Cluster(group, max(counts, key=lambda sign: counts[sign]), farms, animals)
