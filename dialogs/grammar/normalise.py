"""
A text made plain, and cut into tokens that keep their place in the original.

``clean`` maps every character to exactly one character, so that a span of the cleaned text is the same
span of the original; it is idempotent. ``tokens`` cuts cleaned text into words, numbers and marks.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

READ_AT_MOST = 1000
"""Characters of a text that are read: six segments' worth; more is no farmer's telling."""

_APOSTROPHES = "\u2018\u2019\u201b\u02bc\u02bb\u0060\u00b4\u2032\uff07\u02b9"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212"
_FRACTIONS = {"\u00bd": Decimal("0.5"), "\u00bc": Decimal("0.25"), "\u00be": Decimal("0.75")}


class Token(NamedTuple):
    """
    One piece of a text.

    ``word`` is what is looked up (lower case, no apostrophe); ``sort`` is ``word``, ``number``, ``mark``,
    ``date``, ``clock``, ``phone`` or ``tag`` (letters and digits in one, as on an ear tag); ``value`` is a
    number's; ``hint`` is what was glued to a number: ``money`` (/=), ``k``, ``ordinal``, ``fraction``.
    """

    word: str
    start: int
    end: int
    sort: str
    value: Decimal | None = None
    hint: str = ""


@lru_cache(maxsize=4096)
def _plain(char: str) -> str:
    """The one character that stands for *char* when reading."""
    if char in _APOSTROPHES:
        return "'"
    if char in _DASHES:
        return "-"
    if char in _FRACTIONS or char == "\n":
        return char
    category = unicodedata.category(char)
    if category[0] in "CZ" or category in ("So", "Sk", "Mn"):
        return " "
    if category[0] == "N":
        digit = unicodedata.digit(char, None)
        return " " if digit is None else str(digit)
    base = unicodedata.normalize("NFKD", char)[0].lower()
    if len(base) != 1 or not base.isprintable():
        return " "
    return base if base == char or base.isascii() else _plain(base)


def clean(text: str) -> str:
    """*text* in lower case without accents, emoji or control characters, each at its own place."""
    if text.isascii() and text.isprintable():
        return text.lower().replace("`", "'")
    return "".join(map(_plain, text))


_TOKEN = re.compile(
    r"""
      (?P<phone>(?:\+\d{9,14}|00\d{10,14}|(?:\+?2\d{2}|0\d)[ -]?\d{2}[ -]?\d{3}[ -]?\d{4}
         |(?:\+?2\d{2}[ -]?|0)\d{3}[ -]?\d{3}[ -]?\d{3})(?!\d))
    | (?P<date>\d{4}-\d{1,2}-\d{1,2}(?!\d)
         |\d{1,2}(?P<sep>[/.-])\d{1,2}(?P=sep)(?:\d{4}|\d{2})(?!\d)|\d{1,2}/\d{1,2}(?![\d/]))
    | (?P<typed>2(?:nite|night|day|moro|morow|morrow)(?![a-z]))
    | (?P<clock>\d{1,2}:\d{2}(?!\d)|\d{1,2}\.\d{2}(?=\s?(?:am|pm|a\.m|p\.m)\b))
    | (?P<number>(?:\d{1,3}(?:,\d{3})+(?!\d)(?:\.\d+)?|\d{1,3}(?:\ 000)+(?!\d)|(?<!\d,)\d+(?:\.\d{1,3}(?!\d)
         |,\d{1,2}(?!\d))(?!,\d)|\d+)
         (?P<oh>o+(?![a-z]))?)
      (?P<glue>\s?/[=-]|\s?=(?!\d)|k(?![a-z])|m(?![a-z])|(?:st|nd|rd|th)(?![a-z])|\s?[\u00bc-\u00be])?
    | (?P<ohnumber>o\d+(?![a-z]))
    | (?P<short>(?<!\d)(?<!\d\s)\b(?:l|lt|lts|ltr|ltrs|kg|kgs)\.(?=\s?\d))
    | (?P<dotted>[a-z](?:\.[a-z])+(?![a-z])\.?)
    | (?P<word>[a-z]+(?:'[a-z]+)*'?)(?P<tail>\d+(?:(?:,\d{3})+(?!\d)|\.\d{1,3}(?!\d)|,\d{1,2}(?!\d))?)?
    | (?P<half>[\u00bc-\u00be])
    | (?P<hyphen>(?<=[a-z])-(?=[a-z]))
    | (?P<newline>\s*\n\s*)
    | (?P<mark>[^\w\s])
    """,
    re.VERBOSE,
)

_UNIT_GLUED = frozenset(
    [
        "l",
        "lt",
        "lts",
        "ltr",
        "ltrs",
        "lita",
        "litre",
        "litres",
        "kg",
        "kgs",
        "kilo",
        "cm",
        "sm",
        "ml",
        "sh",
        "tsh",
        "ksh",
        "shs",
        "no",
        "na",
        "saa",
        "tarehe",
        "tar",
        "namba",
        "siku",
        "d",
    ]
)


def _word(raw: str) -> str:
    if raw == "ai'd":
        return "ai"
    if raw.endswith("'s") and len(raw) > 3:
        raw = raw[:-2]
    return raw.replace("'", "")


def _number(raw: str) -> Decimal:
    if "," in raw and not re.fullmatch(r"\d{1,3}(,\d{3})+(\.\d+)?", raw):
        return Decimal(raw.replace(",", "."))
    return Decimal(raw.replace(",", "").replace(" ", ""))


def _numeral(match: re.Match[str]) -> Token:
    raw = match["number"]
    if match["oh"]:
        raw = raw.replace("o", "0")
    value, hint = _number(raw), ""
    glue = (match["glue"] or "").strip()
    if glue in ("/=", "/-", "="):
        hint = "money"
        if re.fullmatch(r"\d{1,3}(\.\d{3})+", raw):
            value = Decimal(raw.replace(".", ""))
    elif glue == "k":
        value, hint = value * 1000, "k"
    elif glue == "m":
        value, hint = value * 1_000_000, "k"
    elif glue in _FRACTIONS:
        value, hint = value + _FRACTIONS[glue], "fraction"
    elif glue:
        hint = "ordinal"
    return Token(raw, match.start(), match.end(), "number", value, hint)


def _split_word(match: re.Match[str], text: str, is_word: Callable[[str], bool]) -> list[Token]:
    """A word, or a word and the number glued to it, or the two as one ear tag."""
    word, tail, start = _word(match["word"]), match["tail"], match.start()
    if not word:
        return []
    if tail is None:
        return [Token(word, start, match.end(), "word")]
    if len(word) == 1 and text[start] == "I" and not is_word(word + tail):
        return [Token("1" + tail, start, match.end(), "number", _number("1" + tail))]
    whole = word + tail
    split = word in _UNIT_GLUED or len(word) > 4 or (len(word) > 1 and is_word(word))
    if is_word(whole) or not split:
        return [Token(whole, start, match.end(), "tag")]
    middle = start + len(match["word"])
    return [
        Token(word, start, middle, "word"),
        Token(tail, middle, match.end(), "number", _number(tail)),
    ]


_TYPED = {"2nite": "tonight", "2night": "tonight", "2day": "today"}
"""Words typed with a number for its sound."""


def _tokens_of(match: re.Match[str], text: str, is_word: Callable[[str], bool]) -> list[Token]:
    start, end = match.span()
    match match.lastgroup:
        case "word" | "tail":
            return _split_word(match, text, is_word)
        case "number" | "oh" | "glue":
            return [_numeral(match)]
        case "ohnumber":
            digits = "0" + match["ohnumber"][1:]
            return [Token(digits, start, end, "number", Decimal(digits))]
        case "dotted":
            return [Token(match["dotted"].replace(".", ""), start, end, "word")]
        case "short":
            return [Token(match[0][:-1], start, end - 1, "word")]
        case "typed":
            return [Token(_TYPED.get(match[0], "tomorrow"), start, end, "word")]
        case "half":
            return [Token(match[0], start, end, "number", _FRACTIONS[match[0]], "fraction")]
        case "hyphen":
            return []
        case "newline":
            return [Token("\n", start, end, "mark")]
        case "mark":
            return [Token(match[0], start, end, "mark")]
        case sort:
            return [Token(match[0], start, end, str(sort))]


def tokens(text: str, is_word: Callable[[str], bool] = lambda _: False) -> list[Token]:
    """
    The tokens of *text*, in order.

    Args:
        text: As it came; only its first ``READ_AT_MOST`` characters are read.
        is_word: Whether letters (or letters with digits) glued together are a known word or name.
    """
    text = text[:READ_AT_MOST]
    plain = clean(text)
    found: list[Token] = []
    for match in _TOKEN.finditer(plain):
        found += _tokens_of(match, text, is_word)
    return found


def consonants(word: str) -> str:
    """The letters of *word* that stay when vowels are left out."""
    return "".join(letter for letter in word if letter not in "aeiou")


def is_inside(word: str, whole: str) -> bool:
    """Whether *word* is *whole* with letters left out, the first one kept."""
    letters = iter(whole)
    return word[:1] == whole[:1] and all(letter in letters for letter in word)
