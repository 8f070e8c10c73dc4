"""
Numbers as farmers write them, in digits and in words, in both languages.

Kiswahili: "sita na nusu" 6.5, "saba kasoro robo" 6.75, "elfu kumi na tano" 15,000 (the thousands take the
whole of what follows them), "laki mbili na elfu hamsini" 250,000. English: "six and a half",
"twenty five", "fifteen thousand".
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from dialogs.grammar.normalise import Token
from dialogs.grammar.words import VOCABULARY

_HALF, _QUARTER, _THREE_QUARTERS = Decimal("0.5"), Decimal("0.25"), Decimal("0.75")
_SLASHED = {"1/2": _HALF, "1/4": _QUARTER, "3/4": _THREE_QUARTERS}
_FRACTION_WORDS = {"nusu": _HALF, "half": _HALF, "robo": _QUARTER, "quarter": _QUARTER, "quarters": _QUARTER}
_AND = ("na", "and", "n")
_SCALES = (1_000_000, 100_000, 1_000)


class Number(NamedTuple):
    """A number, the token after it, what was glued to it, and whether it was in digits."""

    value: Decimal
    end: int
    hint: str = ""
    digits: bool = False


def _value(tokens: Sequence[Token], at: int) -> int | None:
    """The value of the number word at *at*."""
    if at < len(tokens) and tokens[at].sort == "word":
        return VOCABULARY.numbers.get(tokens[at].word)
    return None


def _is(tokens: Sequence[Token], at: int, *words: str) -> bool:
    return at < len(tokens) and tokens[at].word in words


def _swahili(word: str) -> bool:
    return "sw" in VOCABULARY.languages.get(word, ())


def _swahili_word(tokens: Sequence[Token], at: int) -> bool:
    """Whether a Kiswahili number stands at *at*: "million moja"."""
    return _value(tokens, at) is not None and _swahili(tokens[at].word)


def number_at(tokens: Sequence[Token], at: int) -> Number | None:
    """The number that begins at token *at*, with its fraction."""
    token = tokens[at]
    if token.sort == "number":
        value, end = _scaled(tokens, token.value or Decimal(0), at + 1)
        return _with_fraction(tokens, Number(value, end, token.hint, True))
    if token.sort == "date" and token.word in _SLASHED:
        return None
    if token.word in ("nusu", "half", "robo"):
        return _fraction_alone(tokens, at)
    if token.sort != "word" or token.word not in VOCABULARY.numbers:
        return None
    swahili = _swahili(token.word) or (
        VOCABULARY.numbers[token.word] >= 1000 and _swahili_word(tokens, at + 1)
    )
    found = _swahili_number(tokens, at) if swahili else _english_number(tokens, at)
    return _with_fraction(tokens, found)


def _scaled(tokens: Sequence[Token], value: Decimal, end: int) -> tuple[Decimal, int]:
    """Digits before a scale: "15 elfu"; but in "lita 6 elfu 9" the scale is the next number's."""
    scale = _value(tokens, end)
    if scale is None or scale < 100:
        return value, end
    follows = end + 1 < len(tokens) and (
        tokens[end + 1].sort == "number" or _value(tokens, end + 1) is not None
    )
    if follows and _swahili(tokens[end].word):
        return value, end
    return value * scale, end + 1


def _small(tokens: Sequence[Token], at: int) -> tuple[int | Decimal, int] | None:
    """A Kiswahili number below a thousand, or digits: "mia tano na hamsini", "kumi na tano", "15"."""
    if at < len(tokens) and tokens[at].sort == "number" and tokens[at].hint == "":
        value = tokens[at].value
        return (value, at + 1) if value is not None and value < 1000 else None
    first = _value(tokens, at)
    if first is None or first >= 1000:
        return None
    if first != 100:
        return _tens(tokens, at)
    unit = _value(tokens, at + 1)
    total, end = (first * unit, at + 2) if unit is not None and 0 < unit < 10 else (first, at + 1)
    rest_at = end + 1 if _is(tokens, end, "na") else end
    rest = _value(tokens, rest_at)
    if rest is not None and rest < 100:
        more, end = _tens(tokens, rest_at)
        total += more
    return total, end


def _tens(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    first = _value(tokens, at) or 0
    if first >= 10 and _is(tokens, at + 1, "na"):
        unit = _value(tokens, at + 2)
        if unit is not None and 0 < unit < 10:
            return first + unit, at + 3
    return first, at + 1


def _swahili_number(tokens: Sequence[Token], at: int) -> Number:
    total, end, last = Decimal(0), at, None
    for scale in _SCALES:
        start = end + 1 if last is not None and _is(tokens, end, "na") else end
        if _value(tokens, start) != scale:
            continue
        times = None if _is(tokens, start + 1, "jero") else _small(tokens, start + 1)  # "buku jero": 1,500
        factor, end = times if times is not None else (1, start + 1)
        total += scale * Decimal(factor)
        last = scale
        part = _fraction(tokens, end)
        if part is not None and part[0] > 0:
            total, end = total + scale * part[0], part[1]
    start = end + 1 if last is not None and _is(tokens, end, "na") else end
    rest = _small(tokens, start) if _value(tokens, start) is not None else None
    if rest is not None:
        below_laki = last == 100_000 and 10 <= rest[0] < 100
        total += Decimal(rest[0]) * (1000 if below_laki else 1)
        end = rest[1]
    return Number(total, end)


def _english_number(tokens: Sequence[Token], at: int) -> Number:
    total, current, end, last = 0, 0, at, None
    while True:
        step = end + 1 if last in (100, 1000, 1_000_000) and _is(tokens, end, "and") else end
        value = _value(tokens, step)
        if value is None or not _fits(value, current, last):
            return Number(Decimal(total + current), end)
        if value >= 1000:
            total, current = total + max(1, current) * value, 0
        elif value == 100:
            current = max(1, current) * 100
        else:
            current += value
        last, end = value, step + 1


def _fits(value: int, current: int, last: int | None) -> bool:
    """Whether *value* goes on with the number so far: "twenty" "five" does, "six" "five" does not."""
    if last is None or value >= 1000:
        return last is None or last < 1000
    if value == 100:
        return 0 < current < 10
    if value >= 10:
        return last >= 100
    return last >= 20 and value > 0 and (current % 100 == 0 or current % 10 == 0)


def _fraction(tokens: Sequence[Token], at: int) -> tuple[Decimal, int] | None:
    """What follows a whole number: "na nusu", "kasoro robo", "and a half", "point five"."""
    if _is(tokens, at, "kasoro", "kasorobo"):
        if tokens[at].word == "kasorobo":
            return -_QUARTER, at + 1
        if _is(tokens, at + 1, "robo", "nusu"):
            return -_FRACTION_WORDS[tokens[at + 1].word], at + 2
        return None
    if _is(tokens, at, "nukta", "point"):
        return _decimals(tokens, at + 1)
    if at < len(tokens) and tokens[at].sort == "date" and tokens[at].word in _SLASHED:
        return _SLASHED[tokens[at].word], at + 1
    if _is(tokens, at, "unusu", "nanusu") or (_is(tokens, at, "u") and _is(tokens, at + 1, "nusu")):
        return _HALF, at + (1 if tokens[at].word != "u" else 2)
    if _is(tokens, at, "nusu"):  # "sita nusu"
        return _HALF, at + 1
    if not _is(tokens, at, *_AND):
        return None
    start = at + 2 if _is(tokens, at + 1, "a", "an") else at + 1
    if _is(tokens, start, "three") and _is(tokens, start + 1, "quarters", "quarter"):
        return _THREE_QUARTERS, start + 2
    if _is(tokens, start, "robo") and _is(tokens, start + 1, "tatu"):
        return _THREE_QUARTERS, start + 2
    if _is(tokens, start, *_FRACTION_WORDS):
        return _FRACTION_WORDS[tokens[start].word], start + 1
    if start < len(tokens) and tokens[start].word in _SLASHED:
        return _SLASHED[tokens[start].word], start + 1
    return None


def _decimals(tokens: Sequence[Token], at: int) -> tuple[Decimal, int] | None:
    digits = ""
    while at < len(tokens) and len(digits) < 3:
        value = _value(tokens, at)
        if value is None and tokens[at].sort == "number" and tokens[at].word.isdigit():
            value = int(tokens[at].word)
        if value is None or value > 99:
            break
        digits, at = digits + str(value), at + 1
    return (Decimal(f"0.{digits}"), at) if digits else None


def _with_fraction(tokens: Sequence[Token], number: Number) -> Number:
    part = _fraction(tokens, number.end)
    if part is None or number.value != number.value.to_integral_value():
        return number
    return Number(number.value + part[0], part[1], number.hint, number.digits)


def _fraction_alone(tokens: Sequence[Token], at: int) -> Number:
    """ "nusu lita", "half a litre", "robo tatu"; "half a million" is half of it."""
    value = _FRACTION_WORDS[tokens[at].word]
    if tokens[at].word == "robo" and _is(tokens, at + 1, "tatu"):
        return Number(_THREE_QUARTERS, at + 2, "part")
    end = at + 2 if _is(tokens, at + 1, "a", "an") else at + 1
    scale = _value(tokens, end)
    if scale is not None and scale >= 1000:
        return Number(value * scale, end + 1)
    return Number(value, end, "part")


def fraction_after(tokens: Sequence[Token], at: int) -> tuple[Decimal, int] | None:
    """The fraction that follows a unit: the "na nusu" of "lita na nusu" and of "6 lita na nusu"."""
    return _fraction(tokens, at)
