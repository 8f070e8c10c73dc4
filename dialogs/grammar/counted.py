"""Numbers that count teats, sores, needles or times, and no litres: "2 teats blocked", "vidonda 3"."""

from __future__ import annotations

from collections.abc import Sequence

from dialogs.grammar.items import Item, Text

_BEFORE = frozenset({
    "chuchu", "matiti", "vidonda", "kidonda", "mabonge", "vinundu", "sindano", "vidonge", "miguu", "kwato",
    "macho", "masikio", "meno", "kupe", "dozi", "mara", "majipu", "pembe", "mbavu", "vibonge", "uvimbe",
    "madonda",
})  # fmt: skip
"""Kiswahili nouns that their number follows."""

_AFTER = frozenset({
    "teat", "teats", "quarter", "quarters", "leg", "legs", "lump", "lumps", "sore", "sores", "wound",
    "wounds",
    "injection", "injections", "tablet", "tablets", "tube", "tubes", "eye", "eyes", "ear", "ears", "hoof",
    "hooves",
    "foot", "feet", "tick", "ticks", "times", "time", "swelling", "swellings", "doses", "dose", "shots",
    "boluses",
    "bolus", "abscess", "abscesses", "teeth", "horns", "pills", "jabs", "glands", "nodes",
})  # fmt: skip
"""English nouns that their number stands before, perhaps with a word between ("2 swollen legs")."""

COUNT = "count"
"""The unit of such a number."""

MOST_COUNTED = 100
"""From here on a number beside such a noun is what it cost ("sumu ya kupe 8500")."""


def mark(text: Text, items: Sequence[Item]) -> None:
    """Gives the numbers among *items* that count such things the unit ``count``."""
    tokens = text.tokens
    milked = any(i.has("milk", "yield") for i in items) and sum(i.sort == "animal" for i in items) > 1
    for item in items:
        if item.sort != "number" or item.unit is not None or item.hint or item.value >= MOST_COUNTED:
            continue
        before = tokens[item.start - 1].word if item.start else ""
        after = [token.word for token in tokens[item.end : item.end + 2]]
        plain = after[:1] and after[0] in _AFTER
        described = len(after) == 2 and after[0] in _DESCRIBING and after[1] in _AFTER
        herd = milked and before == "ngombe" and item.word in _OF_ANIMALS
        if herd or before in _BEFORE or plain or described:
            item.unit = COUNT


_OF_ANIMALS = ("wawili", "watatu", "wanne", "watano", "wanane")
"""Numbers in the form that counts animals: "ng'ombe wawili"."""

_DESCRIBING = frozenset({
    "swollen", "big", "small", "red", "blocked", "hard", "front", "hind", "back", "bad", "open", "large",
    "sore",
    "dry", "cow", "more", "of", "hot", "broken", "lame", "infected",
})  # fmt: skip
