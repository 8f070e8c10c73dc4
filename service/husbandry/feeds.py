"""
What cattle are fed in East Africa: dry matter, crude protein and energy of each feed, and what it is called.

Figures and their sources: docs/trade/feeds.md. A feed that is not in the table (:data:`NO_FIGURES`) is
known by name and counted by nobody: a guessed figure would be worse than none.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from functools import lru_cache

from rapidfuzz import fuzz, process

D = Decimal

MEMORY = "from memory"
LIBRARY = "feed library of NASEM 2021, North American; verified"
KIAMBU = "Crovetto et al. 2022, Kiambu; verified"
FROM_DE = "ME = 0.82 DE (from memory) of that library's DE; computed"
STANDARD = "Kenya standard as quoted by the national extension site; verified"
MIXED = "library and texts disagree; a middle, from memory"


class Sort(StrEnum):
    """What part of a ration a feed is."""

    GREEN = "green"
    DRY = "dry"
    CONCENTRATE = "concentrate"
    MINERAL = "mineral"


ROUGHAGE = frozenset((Sort.GREEN, Sort.DRY))


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as its source has it: the middle of what is usual, which Byreline counts with."""

    value: Decimal
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """
    One feed: ``dm`` in % of what is fed, ``cp`` in % and ``me`` in MJ/kg of its dry matter.

    ``names``: what farmers call it, Kiswahili and English; ``loose``: words that may mean another feed
    too and are taken as this one, which an answer says.
    """

    key: str
    sort: Sort
    dm: Figure
    cp: Figure
    me: Figure
    names: tuple[str, ...]
    loose: tuple[str, ...] = ()

    def dm_kg(self, kg: Decimal) -> Decimal:
        """Kilograms of dry matter in *kg* as fed."""
        return kg * self.dm.value / 100

    def as_fed(self, dm_kg: Decimal) -> Decimal:
        """Kilograms as fed that hold *dm_kg* of dry matter."""
        return dm_kg * 100 / self.dm.value

    def me_mj(self, kg: Decimal) -> Decimal:
        """Metabolisable energy, MJ, in *kg* as fed."""
        return self.dm_kg(kg) * self.me.value

    def cp_g(self, kg: Decimal) -> Decimal:
        """Crude protein, grams, in *kg* as fed."""
        return self.dm_kg(kg) * self.cp.value * 10

    @property
    def is_roughage(self) -> bool:
        return self.sort in ROUGHAGE


_Told = tuple[str | int, str]


def _feed(key: str, sort: Sort, dm: _Told, cp: _Told, me: _Told, names: str, loose: str = "") -> Feed:
    figures = (Figure(D(value), source) for value, source in (dm, cp, me))
    dry, protein, energy = figures
    return Feed(key=key, sort=sort, dm=dry, cp=protein, me=energy, names=_list(names), loose=_list(loose))


def _list(names: str) -> tuple[str, ...]:
    return tuple(name.strip() for name in names.split(",") if name.strip())


_GREEN, _DRY, _MEAL = Sort.GREEN, Sort.DRY, Sort.CONCENTRATE

TABLE: tuple[Feed, ...] = (
    _feed("napier", _GREEN, (18, MEMORY), (9, MEMORY), ("8.2", MEMORY),
          "mabingobingo, bingobingo, matete, majani ya napier, majani ya napia, majani ya tembo, napier,"
          " napier grass, napia, elephant grass",
          "majani, majani mabichi, nyasi, nyasi mbichi, grass, green grass, fresh grass, fodder, forage"),
    _feed("old_napier", _GREEN, (27, MEMORY), (5, MEMORY), ("6.8", MEMORY),
          "mabingobingo makubwa, mabingobingo marefu, mabingobingo yaliyokomaa, matete makubwa, old napier,"
          " tall napier, overgrown napier"),
    _feed("hay", _DRY, (87, MEMORY), (8, MEMORY), (8, MEMORY),
          "hei, hay, rhodes, rhodes hay, rhodes grass, rhodes grass hay, boma rhodes, dry hay, hei ya rhodes",
          "nyasi kavu, majani makavu, dry grass"),
    _feed("stover", _DRY, (87, MEMORY), (4, MEMORY), (7, MEMORY),
          "mabua ya mahindi, mabua, maize stover, stover, maize stalks, stalks"),
    _feed("silage", _GREEN, (30, MEMORY), ("7.7", LIBRARY), (10, MEMORY),
          "maize silage, saileji ya mahindi, silage ya mahindi", "silage, saileji, sileji"),
    _feed("lucerne", _GREEN, (22, MEMORY), ("19.9", KIAMBU), ("9.2", MEMORY),
          "lusani, lucerne, alfalfa, lusan"),
    _feed("lucerne_hay", _DRY, (89, MEMORY), ("19.9", KIAMBU), ("9.2", MEMORY),
          "hei ya lusani, lusani kavu, lucerne hay, alfalfa hay"),
    _feed("desmodium", _GREEN, (22, MEMORY), ("15.9", KIAMBU), ("8.2", MEMORY), "desmodium, desmodi"),
    _feed("calliandra", _GREEN, (30, MEMORY), ("21.1", KIAMBU), (8, MEMORY),
          "kalandra, kaliandra, calliandra, fodder shrubs", "lukina, leucaena, lusina"),
    _feed("vines", _GREEN, (15, MEMORY), (16, MEMORY), ("9.2", MEMORY),
          "majani ya viazi, matembele, mabagazi ya viazi, majani ya viazi vitamu, sweet potato vines,"
          " potato vines, vines"),
    _feed("maize_germ", _MEAL, (89, MEMORY), (12, MEMORY), ("12.5", MEMORY),
          "maize germ, germ meal, kiini cha mahindi"),
    _feed("maize_bran", _MEAL, (88, MEMORY), (10, MEMORY), ("11.5", MEMORY),
          "pumba za mahindi, pumba ya mahindi, maize bran", "pumba, bran"),
    _feed("wheat_bran", _MEAL, ("90.1", LIBRARY), ("17.4", LIBRARY), ("10.5", FROM_DE),
          "pumba za ngano, pumba ya ngano, wheat bran"),
    _feed("pollard", _MEAL, ("88.3", LIBRARY), (16, MEMORY), ("10.5", LIBRARY),
          "pollard, wheat pollard, polad, middlings"),
    _feed("cotton_cake", _MEAL, ("89.9", LIBRARY), (34, MEMORY), ("11.3", FROM_DE),
          "mashudu ya pamba, pamba, cottonseed cake, cotton seed cake, cotton cake"),
    _feed("sunflower_cake", _MEAL, ("90.2", LIBRARY), (27, MEMORY), ("9.5", MEMORY),
          "mashudu ya alizeti, alizeti, sunflower cake, sunflower, sunflower seed cake",
          "mashudu, cake, seed cake, oil cake, oilcake"),
    _feed("brewers_grains", _MEAL, ("22.5", LIBRARY), ("28.1", LIBRARY), ("10.6", FROM_DE),
          "machicha ya pombe, machicha ya bia, brewers grains, brewers waste, brewer grains", "machicha"),
    _feed("straw", _DRY, ("89.5", LIBRARY), ("4.5", LIBRARY), ("6.7", FROM_DE),
          "majani makavu ya ngano, mabua ya ngano, wheat straw", "straw, straw feed"),
    _feed("molasses", _MEAL, (75, MIXED), (7, MIXED), ("11.5", MIXED), "molasi, molases, molasses"),
    _feed("dairy_meal", _MEAL, (88, MEMORY), (15, STANDARD), ("10.5", STANDARD),
          "dairy meal, dairymeal, dairy feed, chakula cha maziwa, chakula cha ng'ombe wa maziwa",
          "meal, concentrate, concentrates, konsetreti, pellets, mchanganyiko wa chakula"),
    _feed("minerals", Sort.MINERAL, (100, "a lick is dry"), (0, "holds none"), (0, "holds none"),
          "madini, chumvi ya madini, minerals, mineral, mineral lick, mineral salt, jiwe la madini",
          "chumvi, chumvi ya mawe, jiwe la chumvi, jiwe, salt, salt lick, lick"),
)  # fmt: skip
"""The feeds with figures. Oilcakes and pollard by what local mills make; others as their source has them."""

NO_FIGURES = _list(
    "pumba za mpunga, pumba ya mpunga, rice bran, unga wa mahindi, maize meal, mahindi, maize,"
    " crushed maize, unga, soya, soya meal, soybean meal, majani ya mahindi, maize leaves, banana stems,"
    " majani ya migomba, migomba, mikunde, makapi, calf pellets, calf starter, starter, chakula cha ndama,"
    " young stock feed, chakula, chakula cha ng'ombe, feed, feeds, cattle feed, animal feed, vyakula,"
    " chakula cha mtamba, heifer feed"
)
"""Feeds of which the table has no figures, and words that may be any feed."""

BY_KEY: Mapping[str, Feed] = {feed.key: feed for feed in TABLE}

NAPIER, HAY, SILAGE = BY_KEY["napier"], BY_KEY["hay"], BY_KEY["silage"]
DAIRY_MEAL, SUNFLOWER_CAKE = BY_KEY["dairy_meal"], BY_KEY["sunflower_cake"]

# --- what a farmer's word means --------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Named:
    """What a farmer's word for a feed means; ``loose``: it may mean another feed too."""

    feed: Feed
    loose: bool


LIKE_ENOUGH = 84
"""Likeness (0-100) from which a word is a slip of a name: one letter in six."""

SHORTEST_SLIP = 5
"""Letters below which a word counts only as it stands: "hei" and "hay" are too near to others."""

_BETWEEN = re.compile(r"\s*(?:,|\+|&|/|\bpamoja na\b|\bna\b|\band\b|\bwith\b)\s*")
_LETTERS = re.compile(r"[^a-z ]+")


def _names() -> dict[str, Named | None]:
    told: dict[str, Named | None] = dict.fromkeys(map(_plain, NO_FIGURES))
    for feed in TABLE:
        told.update({_plain(name): Named(feed, False) for name in feed.names})
        told.update({_plain(name): Named(feed, True) for name in feed.loose})
    return told


def _plain(words: str) -> str:
    """Lower case, letters alone, single spaces."""
    return " ".join(_LETTERS.sub("", words.casefold().replace("-", " ")).split())


_NAMES = _names()


def exactly(words: str) -> Named | None:
    """The feed that *words* are a name of, letter by letter; None: of none."""
    return _NAMES.get(_plain(words))


@lru_cache(maxsize=1024)
def named(words: str) -> Named | None:
    """The feed that *words* name, a slip of spelling allowed; None: no feed of the table."""
    plain = _plain(words)
    if plain in _NAMES:
        return _NAMES[plain]
    meant = _like(plain) or _held(plain)
    return None if meant is None else _NAMES[meant]


def _like(plain: str) -> str | None:
    """The name that *plain* is a slip of."""
    if len(plain) < SHORTEST_SLIP:
        return None
    near = process.extractOne(plain, _NAMES.keys(), scorer=fuzz.ratio, score_cutoff=LIKE_ENOUGH)
    return None if near is None else near[0]


def _held(plain: str) -> str | None:
    """The longest name that stands in *plain* word by word."""
    held = [name for name in _NAMES if f" {name} " in f" {plain} "]
    return max(held, key=len) if held else None


def parts(words: str) -> tuple[str, ...]:
    """The feeds of a mixture as told, one by one: "mashudu na pumba"."""
    return tuple(part for part in _BETWEEN.split(words.casefold()) if part)


# --- what a load weighs ----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Load:
    """What fodder is counted in: kilograms as fed of one, unless the farm says what its own weigh."""

    kg: Decimal
    source: str


_PRACTICE = "common practice, no source"

LOADS: Mapping[str, Load] = {
    "kg": Load(D(1), "the unit itself"),
    "tonne": Load(D(1000), "the unit itself"),
    "bale": Load(D(15), "Kenyan farm press 2023: at least 15 kg, 18-22 best; verified; the least is taken"),
    "headload": Load(D(20), _PRACTICE),
    "bundle": Load(D(8), _PRACTICE),
    "bag": Load(D(50), _PRACTICE),
    "barrow": Load(D(40), _PRACTICE),
    "cart": Load(D(250), _PRACTICE),
}
