"""
What a text message can carry: its coding, its length in units, its segments.

A text whose every character is in the GSM 7-bit set is counted in septets (160 alone, 153 in each
part of a longer one); any other in UCS-2 units (70 alone, 67). A character of two units is never cut
in two. Source: 3GPP TS 23.038 (set, 160 and 70) and TS 23.040 (six-octet header: 153 and 67).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from gsm0338 import Codec

Encoding = Literal["gsm7", "ucs2"]

ONE: dict[Encoding, int] = {"gsm7": 160, "ucs2": 70}
"""Units of a text that goes out in one segment."""

MANY: dict[Encoding, int] = {"gsm7": 153, "ucs2": 67}
"""Units of each segment of a longer text."""


def _septets() -> dict[str, int]:
    """The GSM set with the septets of each character: 1, or 2 with an escape. The library's table."""
    codec, table = Codec(), {}
    for character in map(chr, range(0x2200)):  # the set's last character is the euro sign, U+20AC
        if character == "\x1b":  # the escape itself, which the library passes through
            continue
        try:
            table[character] = len(codec.encode(character)[0])
        except UnicodeError:
            continue
    return table


SEPTETS = _septets()

STRAIGHT = {
    "‘": "'", "’": "'", "‚": ",", "‛": "'", "`": "'", "´": "'", "ʼ": "'", "ʻ": "'",
    "“": '"', "”": '"', "„": '"',
    "–": "-", "—": "-", "‐": "-", "‑": "-", "−": "-", "…": "...", "•": "-", "\t": " ",
    "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u200b": "", "\ufeff": "",
}  # fmt: skip
"""What phones and copied text put in the place of plain characters."""


@dataclass(frozen=True, slots=True)
class Size:
    """How much of the air a text takes; ``units`` are septets (gsm7) or 16-bit units (ucs2)."""

    encoding: Encoding
    units: int
    segments: int


def _units(text: str) -> tuple[Encoding, list[int]]:
    septets = [SEPTETS.get(character, 0) for character in text]
    if all(septets):
        return "gsm7", septets
    return "ucs2", [2 if ord(character) > 0xFFFF else 1 for character in text]


def _segments(units: Iterable[int], room: int) -> int:
    count, filled = 1, 0
    for unit in units:
        if filled + unit > room:
            count, filled = count + 1, 0
        filled += unit
    return count


def measure(text: str) -> Size:
    """Coding, units and segments of *text*; an empty text still takes one segment."""
    encoding, units = _units(text)
    total = sum(units)
    segments = 1 if total <= ONE[encoding] else _segments(units, MANY[encoding])
    return Size(encoding, total, segments)


def septets(text: str) -> int:
    """
    Length of a GSM-7 *text* in septets.

    Raises:
        ValueError: A character is not in the GSM set.
    """
    size = measure(text)
    if size.encoding != "gsm7":
        raise ValueError("not a GSM-7 text")
    return size.units


def cut(text: str, room: int) -> str:
    """The longest beginning of *text* of at most *room* units of its own coding."""
    filled = 0
    for place, unit in enumerate(_units(text)[1]):
        filled += unit
        if filled > room:
            return text[:place]
    return text


def _plain(character: str) -> str:
    if character in SEPTETS:
        return character
    bare = unicodedata.normalize("NFKD", STRAIGHT.get(character, character))
    kept = "".join(c for c in bare if not unicodedata.combining(c))
    return kept if all(c in SEPTETS for c in kept) else "?"


def plain(text: str) -> str:
    """*text* in GSM-7: straight quotes, plain spaces, accents off, ``?`` for what has no likeness."""
    if all(character in SEPTETS for character in text):
        return text
    composed = unicodedata.normalize("NFC", text)
    return "".join(_plain(character) for character in composed)
