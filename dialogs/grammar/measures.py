"""Numbers with their units as a label has them: millilitres, kilograms, litres, in either word order."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from dialogs.grammar import numbers
from dialogs.grammar.normalise import Token
from dialogs.grammar.phrases import words_of
from dialogs.grammar.whole import Whole

_WORDS = {
    "ml": "ml mls cc mil mils mililita millilitre millilitres milliliters",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramu",
    "l": "l lt lts ltr ltrs lita litre litres liter liters lit malita",
}
_UNIT = {word: unit for unit, written in _WORDS.items() for word in written.split()}
_PER = frozenset({"per", "kila", "kwa", "every", "each", "for", "/", "a", "one"})
_EACH = frozenset({"per", "every", "each", "a"})
_COUNTED = frozenset({"cow", "cows", "cattle", "calf", "calves", "heifers", "animals", "head"})


@dataclass(frozen=True, slots=True)
class Measure:
    """
    A number as told; ``unit`` ``ml``, ``kg``, ``l`` or None. ``start``..``end`` are words of the text.

    ``bare``: no number stands with the unit ("per kg", "kwa kila lita"), so that it is one.
    """

    value: Decimal
    unit: str | None
    start: int
    end: int
    bare: bool = False


def measures(whole: Whole) -> list[Measure]:
    """The measures of a text, in the order told; an animal's name is none, whatever its figures."""
    words = words_of(whole.scene.text.raw)
    figures = _figures(words, _named(whole, words))
    after = _unit_follows(words, figures)
    taken: set[int] = set()
    found = [_bound(words, figure, taken, figures, after=after) for figure in figures]
    found += [
        Measure(Decimal(1), _UNIT[word], at, at + 1, bare=True)
        for at, word in enumerate(words)
        if word in _UNIT and at not in taken and at and words[at - 1] in _PER
    ]
    return sorted(found, key=lambda m: m.start)


def _named(whole: Whole, words: tuple[str, ...]) -> set[int]:
    """The places of the words that name animals."""
    places: set[int] = set()
    for item in whole.animals:
        name = words_of(whole.scene.text.written(item.start, item.end))
        for at in range(len(words) - len(name) + 1):
            if words[at : at + len(name)] == name:
                places.update(range(at, at + len(name)))
    return places


_Figure = tuple[Decimal, int, int]


def _figures(words: tuple[str, ...], named: set[int]) -> list[_Figure]:
    """Numbers in figures or words, with the places that they stand at."""
    tokens = [_token(word, at) for at, word in enumerate(words)]
    found: list[_Figure] = []
    at = 0
    while at < len(tokens):
        number = None if at in named else numbers.number_at(tokens, at)
        if number is not None:
            found.append((number.value, at, number.end))
        at = at + 1 if number is None else number.end
    return found


_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?")


def _token(word: str, at: int) -> Token:
    if not word[0].isdigit():
        return Token(word, at, at + 1, "word" if word.isalpha() else "mark")
    plain = word.replace(",", "") if _THOUSANDS.fullmatch(word) else word.replace(",", ".")
    value = Decimal(plain) if plain.count(".") < 2 else Decimal(0)  # a date is no amount
    return Token(word, at, at + 1, "number", value)


def _unit_follows(words: tuple[str, ...], figures: list[_Figure]) -> bool:
    """Whether the text's first unit stands after its number (English) and not before it (Kiswahili)."""
    for _, start, end in figures:
        before = start > 0 and words[start - 1] in _UNIT
        if before or (end < len(words) and words[end] in _UNIT):
            return not before
    return True


def _bound(
    words: tuple[str, ...], figure: _Figure, taken: set[int], figures: list[_Figure], *, after: bool
) -> Measure:
    """A number with the unit beside it; where one stands on either side, in the text's own order."""
    value, start, end = figure
    before = start - 1 if start and words[start - 1] in _UNIT and start - 1 not in taken else None
    if before and after and words[before - 1] in _EACH and words[end : end + 1] and words[end] in _COUNTED:
        before = None  # "2 ml per litre 3 cows"
    follows = end if end < len(words) and words[end] in _UNIT else None
    if not after and any(end + 1 == other for _, other, _ in figures):
        follows = None  # "ng'ombe 3 lita 5": the unit is the next number's
    at = follows if follows is not None and (after or before is None) else before
    if at is None:
        return Measure(value, None, start, end)
    taken.add(at)
    return Measure(value, _UNIT[words[at]], min(start, at), max(end, at + 1))
