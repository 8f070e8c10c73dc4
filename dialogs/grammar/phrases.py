"""Phrases looked for in a whole text as they stand: orders and questions, apart from what is told."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Sequence
from functools import lru_cache
from importlib import resources
from typing import NamedTuple

from dialogs.grammar.normalise import READ_AT_MOST, clean

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)*|\d+(?:[.,]\d+)*|[:/]")


class Spot(NamedTuple):
    """Where a phrase stands: its first word and the one after its last."""

    start: int
    end: int


@lru_cache(maxsize=1)
def _lists() -> dict[str, dict[str, dict[str, tuple[tuple[str, ...], ...]]]]:
    """Group -> meaning -> first word -> the phrases that begin with it, longest first."""
    tables = tomllib.loads((resources.files("dialogs") / "words" / "orders.toml").read_text("utf-8"))
    return {
        group: {meaning: _by_first(phrases) for meaning, phrases in meanings.items()}
        for group, meanings in tables.items()
    }


def _by_first(phrases: Sequence[str]) -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in sorted(phrases, key=lambda p: -len(p.split())):
        pieces = tuple(phrase.split())
        found.setdefault(pieces[0], []).append(pieces)
    return {first: tuple(listed) for first, listed in found.items()}


@lru_cache(maxsize=16)
def words_of(text: str) -> tuple[str, ...]:
    """The words and figures of *text*, plain and in lower case, without apostrophes."""
    return tuple(piece.replace("'", "") for piece in _WORD.findall(clean(text[:READ_AT_MOST])))


class Wording:
    """The words of a text, asked for the phrases of one *group* of ``words/orders.toml``."""

    def __init__(self, text: str, group: str) -> None:
        self.words = words_of(text)
        self._lists = _lists()[group]

    def spots(self, meaning: str) -> Iterator[Spot]:
        """Where phrases of *meaning* stand, from left to right, the longest at each place."""
        listed = self._lists[meaning]
        if listed.keys().isdisjoint(self.words):
            return
        at = 0
        while at < len(self.words):
            fits = listed.get(self.words[at], ())
            end = next((at + len(p) for p in fits if self.words[at : at + len(p)] == p), None)
            if end is None:
                at += 1
                continue
            yield Spot(at, end)
            at = end

    def says(self, *meanings: str) -> bool:
        return any(next(self.spots(meaning), None) is not None for meaning in meanings)

    def opens(self, meaning: str) -> bool:
        """Whether the text begins with a phrase of *meaning*."""
        first = next(self.spots(meaning), None)
        return first is not None and first.start == 0

    def is_only(self, *meanings: str) -> bool:
        """Whether the text is made of nothing else than phrases of *meanings*."""
        covered: set[int] = set()
        for meaning in meanings:
            for spot in self.spots(meaning):
                covered.update(range(*spot))
        return bool(self.words) and len(covered) == len(self.words)

    def is_phrase(self, meaning: str) -> bool:
        """Whether the text is one phrase of *meaning*."""
        return any(spot == (0, len(self.words)) for spot in self.spots(meaning))
