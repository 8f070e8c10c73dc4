"""Words of danger in a text that could not be read: its sender is told whom to call, whatever it says."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources

from rapidfuzz.distance import OSA

from dialogs.grammar.normalise import clean
from dialogs.grammar.words import VOCABULARY
from dialogs.reading import Problem
from service.husbandry.kinds import Heat
from service.messages import Say

SURE_FROM = 6
"""Letters from which a word with one slip is still taken for the word: shorter ones may be another."""

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)*")


@dataclass(frozen=True, slots=True)
class _Words:
    """The lists of one or more languages, without apostrophes."""

    words: frozenset[str]
    endings: tuple[str, ...]
    together: tuple[tuple[str, ...], ...]


@lru_cache(maxsize=1)
def _lists() -> _Words:
    file = resources.files("dialogs") / "words" / "danger.toml"
    languages = tomllib.loads(file.read_text("utf-8")).values()
    return _Words(
        frozenset(word for one in languages for word in one["words"]),
        tuple(_bare(ending) for one in languages for ending in one["endings"]),
        tuple(tuple(row) for one in languages for row in one["together"]),
    )


def _bare(word: str) -> str:
    return word.replace("'", "")


def speaks_of_danger(text: str) -> bool:
    """Whether *text*, as sent, holds a word of danger in either language."""
    lists = _lists()
    told = [_bare(word) for word in _WORD.findall(clean(text))]
    if any(word in lists.words or word.endswith(lists.endings) for word in told):
        return True
    if any(all(any(word.endswith(part) for word in told) for part in row) for row in lists.together):
        return True
    slips = (word for word in told if len(word) >= SURE_FROM and not VOCABULARY.is_known(word))
    return any(_near(word, lists.words) for word in slips)


def _near(word: str, words: frozenset[str]) -> bool:
    long = (known for known in words if len(known) >= SURE_FROM and known[0] == word[0])
    return any(OSA.distance(word, known, score_cutoff=1) <= 1 for known in long)


def marked(problems: tuple[Problem, ...], text: str) -> tuple[Problem, ...]:
    """
    *problems* of *text*, the first of them to be asked with whom to call where the text speaks of danger.

    Blood told of a heat is none.
    """
    first = problems[0] if problems else None
    if first is None or (first.draft is not None and first.draft.kind is Heat) or not speaks_of_danger(text):
        return problems
    ask = Say(first.ask.key, {**first.ask.values, "danger": True})
    return (replace(first, ask=ask), *problems[1:])
