"""
How long cows of a breed carry their calf, and breeds as farmers write them.

Sources (fuller in docs/trade/gestation.md): Friesian 279.9 d, Knott 1932, verified; Ayrshire, Jersey,
Guernsey, Brown Swiss after Andersen & Plum 1965, from memory; Boran, Sahiwal, zebu from memory, tropical
breeding papers; crosses by the mid-parent rule, common practice, no source. The numbers are the contract's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal
from difflib import get_close_matches
from functools import lru_cache

GESTATION_DAYS = {
    "friesian": 280,
    "ayrshire": 279,
    "jersey": 279,
    "guernsey": 284,
    "brown swiss": 290,
    "boran": 285,
    "sahiwal": 285,
    "zebu": 285,
}
"""Mean days from service to calving."""

SPELLINGS = {
    "friesian": ("friesian", "holstein", "fresian", "frisian", "frizian", "friziani", "frisiani", "hf"),
    "ayrshire": ("ayrshire", "airshire", "ayshire", "ayrshaya", "eashaya"),
    "jersey": ("jersey", "jersy", "jezi", "jesi", "jase"),
    "guernsey": ("guernsey", "gernsey", "guernsy", "gansi"),
    "brown swiss": ("swiss", "brownswiss", "swis", "braunswiss"),
    "boran": ("boran", "borani", "borana"),
    "sahiwal": ("sahiwal", "sahiwali", "saiwal"),
    "zebu": ("zebu", "zebo", "tsz", "kienyeji", "asili", "local", "indigenous", "shorthorn"),
}
"""Words by which a breed is told, in both languages, as written (lower case)."""

_BREED_OF = {word: breed for breed, words in SPELLINGS.items() for word in words}
_BETWEEN = re.compile(r"\b(?:na|and|by|kwa)\b|[/+&,]")
_CROSS = re.compile(r"\b(?:x|cross\w*|chotara|mix\w*|mchanganyiko|hybrid|f1)\b|×")
_WORD = re.compile(r"[a-z]+")
_SHORTEST_BREED_LETTERS = 4
_NO_BREEDS = frozenset(("breed", "aina", "mbegu", "ngombe", "ombe", "cattle", "dairy", "maziwa", "brown"))


def _breed(word: str) -> str | None:
    exact = _BREED_OF.get(word)
    if exact is not None or len(word) <= _SHORTEST_BREED_LETTERS:
        return exact
    near = get_close_matches(word, _BREED_OF, n=1, cutoff=0.8)
    return _BREED_OF[near[0]] if near else None


def _parents(told: str) -> Iterator[str | None]:
    """The breeds named on either side of a cross; None for a side that no known breed stands on."""
    for side in _BETWEEN.split(_CROSS.sub(",", told)):
        words = [word for word in _WORD.findall(side) if word not in _NO_BREEDS]
        breeds = dict.fromkeys(breed for breed in map(_breed, words) if breed is not None)
        if breeds:
            yield from breeds
        elif any(len(word) >= _SHORTEST_BREED_LETTERS for word in words):
            yield None


@lru_cache(maxsize=1024)
def parents(told: str | None) -> tuple[str | None, ...]:
    """
    The breeds that the breed *told* comes of: one of a pure animal, of a cross all that are named.

    None stands for a parent of no known breed ("chotara ya Friesian": Friesian, None); () is a breed
    that is not told, or not known.
    """
    text = (told or "").casefold()
    named: list[str | None] = list(dict.fromkeys(_parents(text)))
    if len(named) <= 1 and _CROSS.search(text):
        named.append(None)
    return tuple(named) if any(named) or len(named) > 1 else ()


@lru_cache(maxsize=1024)
def gestation_days(told: str | None, *, untold: int) -> int:
    """
    Days from service to calving of the breed *told* ("Friesian", "chotara ya Ayrshire na zebu").

    A cross carries the mean of its parents' breeds, half a day rounded up; where no breed is told, or
    of a parent whose breed is not, it is *untold* days.
    """
    days = [untold if breed is None else GESTATION_DAYS[breed] for breed in parents(told)] or [untold]
    mean = Decimal(sum(days)) / len(days)
    return int(mean.to_integral_value(ROUND_HALF_UP))
