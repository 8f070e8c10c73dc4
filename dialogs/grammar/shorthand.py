"""
Words as they are typed short on a phone: "cjaona", "nmeogesha", "wte", "wat".

A mark of a verb is written without its vowel by rule ("nme-" is "nime-", "c-" is "si-"); the commonest words
are listed. No slip: what is read so is as sure as the full word, save that no grave deed is told by it alone.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from functools import lru_cache
from importlib import resources

from dialogs.grammar.normalise import Token


@lru_cache(maxsize=1)
def _listed() -> dict[str, str]:
    file = resources.files("dialogs") / "words" / "short.toml"
    languages = tomllib.loads(file.read_text("utf-8")).values()
    return {short: full for one in languages for short, full in one.items() if short != full}


_MARKS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), full)
    for pattern, full in (
        (r"^nm(?=e|[bcdfgjklnpqrstvxz])", "nim"), (r"^tm(?=e)", "tum"), (r"^wm(?=e)", "wam"),
        (r"^km(?=e)", "kim"),
        (r"^nl(?=i)", "nil"), (r"^tl(?=i)", "tul"), (r"^wl(?=i)", "wal"), (r"^nt(?=a)", "nit"),
        (r"^cj(?=a)", "sij"), (r"^sj(?=a)", "sij"), (r"^xj(?=a)", "sij"), (r"^hj(?=a)", "haj"),
        (r"^ht(?=u)", "hat"), (r"^hw(?=a)", "haw"), (r"^c(?=[aegjkmnoptw])", "si"), (r"^hatj(?=a)", "hatuj"),
        (r"^hawj(?=a)", "hawaj"), (r"^((?:ki|wa|a|i|tu|ni)(?:me|li))n(?=[bcdfghjklmpqrtvz])", r"\1ni"),
        (r"^([aw]m)(?=[kptz][aeiou])", r"\1e"),
    )
)  # fmt: skip
"""Marks of a Kiswahili verb without their vowels, and in full."""

_LEAST = 4
"""Letters of a word from which its beginning is taken for a shortened mark."""


def in_full(token: Token, is_word: Callable[[str], bool]) -> list[Token]:
    """*token*, or the word that it is short for; ``is_word``: whether a word is known as it stands."""
    word = token.word
    if token.sort != "word" or is_word(word):
        return [token]
    full = _listed().get(word)
    if full is not None:
        return [token._replace(word=one) for one in full.split()]
    if len(word) >= _LEAST:
        for mark, whole in _MARKS:
            anew = mark.sub(whole, word)
            if anew != word and is_word(anew):
                return [token._replace(word=anew)]
    return [token]
