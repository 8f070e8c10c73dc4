"""What of a text that was read in part came to nothing: the first stretch with a name or a number."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from dialogs.grammar.found import Found
from dialogs.grammar.items import Item, Text
from dialogs.grammar.pieces import Piece, pieces_of
from service.husbandry.units import Money

_SPANS = ("day", "week", "month", "year", "hour")
_NOUNS = ("cattle", "cow", "calf", "heifer", "in_calf_heifer", "bull_animal", "steer", "female", "male")


def unread(text: Text, items: Sequence[Item], found: Sequence[Found]) -> str:
    """
    The first piece of *text*, as written, of which *found* keeps nothing; "" where all was taken in.

    A piece counts if it holds the name of an animal or a number.
    """
    kept = _Kept(found)
    kept.told = {item.value for item in items if item.sort == "number"}
    kept.each = any(item.has("each", "per_litre") for item in items)
    kept.all |= any(item.has("except") for item in items)  # whom it names was left out, as told
    for piece in pieces_of(items):
        if _says_nothing(piece, kept):
            return text.written(piece.items[0].start, max(item.end for item in piece.items))
    return ""


class _Kept:
    """The names, numbers and kinds that a reading holds."""

    def __init__(self, found: Sequence[Found]) -> None:
        self.names = {subject.name for telling in found for subject in telling.subjects}
        self.names |= {subject.unknown for telling in found for subject in telling.subjects}
        self.all = any(subject.name == "*" for telling in found for subject in telling.subjects)
        self.told: set[Decimal] = set()  # all numbers of the text
        self.each = False  # whether one number is told for each of several
        self.words: set[str] = set()
        self.numbers: set[Decimal] = set()
        for telling in found:
            for value in _plain(telling.values.values()):
                if isinstance(value, Decimal):
                    self.numbers.add(value)
                elif isinstance(value, str):
                    self.words.add(value.lower())

    def names_it(self, item: Item) -> bool:
        if item.value is None or item.value.name in self.names or self.all or item.word in self.words:
            return True
        return any(item.value.name.lower() in word for word in self.words)

    def counts(self, item: Item) -> bool:
        """Whether a number is among what is kept, as it is, in days or multiplied."""
        if item.unit in _SPANS or item.value in self.numbers or item.hint == "ordinal":
            return True
        if item.unit == "ml" or (item.value == 1 and not item.digits):
            return True  # "upande mmoja"
        if any(item.word in word for word in self.words if len(item.word) > 1):
            return True
        return any(
            number == round(item.value / Decimal("1.03"), 2)
            or (
                item.value > 0
                and (number / item.value in self.told or (self.each and number % item.value == 0))
            )
            for number in self.numbers
        )


def _plain(values: Any) -> Iterator[Any]:
    for value in values:
        if isinstance(value, tuple | list):
            yield from _plain(value)
        elif isinstance(value, Money):
            yield value.amount
        elif hasattr(value, "amount") and hasattr(value, "what"):
            yield from (value.what, value.amount.amount)
        elif hasattr(value, "name") and hasattr(value, "alive"):
            yield value.name
        elif isinstance(value, int | Decimal) and not isinstance(value, bool):
            yield Decimal(value)
        elif value is not None:
            yield value


def _says_nothing(piece: Piece, kept: _Kept) -> bool:
    items = piece.items
    taken_in = any(item.sort == "number" and kept.counts(item) for item in items)
    for index, item in enumerate(items):
        if item.sort == "animal" and not taken_in and not kept.names_it(item):
            return not _is_denied(items)
        if item.sort == "number" and not kept.counts(item) and not _counts_no_record(items, index):
            return True
    return False


def _is_denied(items: Sequence[Item]) -> bool:
    """Whether a piece says of an animal that something did not happen: understood, and nothing to keep."""
    return any(item.denied or item.has("negation") or item.has("empty") for item in items)


def _counts_no_record(items: Sequence[Item], index: int) -> bool:
    """Whether a number counts animals or degrees, which the record says in another way."""
    near = items[max(0, index - 1) : index + 2]
    return any(item.has(*_NOUNS, "twins", "everyone", "degrees") for item in near)
