"""
What the farmer calls what she spends and earns, sorted: feed, drugs, the vet, wages, a loan ...

Words of the trade as farmers write them, by beginnings of words; common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from dialogs.answers_money import is_feed
from service.husbandry import feeds
from service.husbandry.dairy_accounts import folded
from service.husbandry.statement import Sorting
from service.husbandry.statement_figures import ANIMAL, FEED, LOAN, SAVINGS, SERVED

OTHER = "other"

COSTS: Mapping[str, tuple[str, ...]] = {
    LOAN: ("mkopo", "mikopo", "deni", "madeni", "rejesho", "marejesho", "loan", "debt", "repay"),
    SAVINGS: ("akiba", "hisa", "saving", "share"),
    "wages": (
        "mfanyakaz", "wafanyakaz", "mchungaj", "wachungaj", "kibarua", "vibarua", "mshahara", "mishahara",
        "kijana", "mkamuaji", "wage", "worker", "labour", "labor", "salary", "salaries", "herdsman",
        "herder", "casual", "milker", "farmhand", "ujira",
    ),
    "transport": (
        "usafiri", "nauli", "bodaboda", "boda", "pikipiki", "mafuta", "kusafirisha", "transport", "fare",
        "fuel", "petrol", "diesel", "lift", "trip",
    ),
    SERVED: (
        "mbegu ya dume", "mbegu", "mrija", "mhimilish", "uhimilish", "kupandish", "semen", "straw of semen",
        "insemin", "service", "serving", "ai", "bull fee", "bull hire",
    ),
    "drugs": (
        "dawa", "chanjo", "sindano", "antibio", "penic", "minyoo", "kupe", "josho", "kuogesh", "drug",
        "medicine", "vaccin", "dewormer", "worm", "acaricide", "tick", "dip", "spray", "injection",
    ),
    "vet": ("daktari", "mganga", "mtaalamu", "vet", "vetenari", "matibabu", "tiba", "doctor", "treatment"),
    "water": ("maji", "water", "bomba", "umeme", "electric", "power", "luku"),
    "repairs": (
        "banda", "zizi", "uzio", "kamba", "ndoo", "koleo", "panga", "bati", "misumari", "mbao", "shed",
        "fence", "rope", "bucket", "can", "nail", "timber", "iron sheet", "repair", "tool", "spade", "jembe",
        "ukarabati", "ndoo ya maziwa",
    ),
}  # fmt: skip
"""Sort of a cost -> beginnings of its words, the surest first; what is feed is asked of the feeds."""

ANIMALS = (
    "ngombe", "ng'ombe", "mtamba", "mitamba", "ndama", "dume", "cow", "cows", "cattle", "heifer", "heifers",
    "calf", "calves", "bull", "bulls",
)  # fmt: skip
"""Words that alone mean an animal bought."""

INCOMES: Mapping[str, tuple[str, ...]] = {
    LOAN: ("mkopo", "mikopo", "loan", "credit"),
    "manure": ("mbolea", "samadi", "mavi", "kinyesi", "manure", "dung", "slurry", "compost"),
    "bull": ("dume", "kupandish", "bull", "service", "serving", "stud"),
    "fodder": ("majani", "nyasi", "mabua", "fodder", "grass", "hay", "napier"),
}
"""Sort of other income -> beginnings of its words."""

MILK_FED = frozenset((
    "maziwa", "maziwa ya ndama", "dang'a", "danga", "dangaa", "milk", "whole milk", "fresh milk", "colostrum",
))  # fmt: skip
"""Words that mean milk where they name a feed."""


@lru_cache(maxsize=4096)
def cost_sort(what: str | None) -> str:
    """The sort of what was spent on, or kept back for, as told; ``other`` where it is none known."""
    told = folded(what).replace("\u2019", "'")
    if not told:
        return OTHER
    if told in ANIMALS:
        return ANIMAL
    found = _begun(told, {LOAN: COSTS[LOAN], SAVINGS: COSTS[SAVINGS]})
    if found is not None:
        return found
    if _is_feed(told) and _begun(told, {"drugs": COSTS["drugs"]}) is None:
        return FEED
    return _begun(told, COSTS) or OTHER


@lru_cache(maxsize=4096)
def income_sort(what: str | None) -> str:
    """The sort of other income as told; ``other`` where it is none known."""
    return _begun(folded(what), INCOMES) or OTHER


def feed_name(what: str) -> str:
    """One name for a feed, however it is told: that of the feed table, else as told."""
    known = feeds.named(what)
    return folded(what) if known is None else known.feed.key


def _is_feed(told: str) -> bool:
    return is_feed(told) or feeds.named(told) is not None


def _begun(told: str, sorts: Mapping[str, tuple[str, ...]]) -> str | None:
    """The first of *sorts* of which a word, or a phrase, of *told* begins with one of its words."""
    for sort, words in sorts.items():
        if any(_is_told(told, word) for word in words):
            return sort
    return None


def _is_told(told: str, word: str) -> bool:
    if len(word) <= SHORT:  # "ai", "can", "vet": beginnings of too much else
        return f" {word} " in f" {told} "
    return f" {word}" in f" {told}"


SHORT = 4
"""Letters up to which a word counts only whole."""

SORTING = Sorting(
    cost=cost_sort,
    income=income_sort,
    is_milk=lambda feed: folded(feed) in MILK_FED,
    feed=feed_name,
)
"""What a statement needs to know of words."""
