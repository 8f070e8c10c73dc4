"""One pass over the items of a text: what every part of gathering times builds on."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal

from dialogs.grammar.items import Item, Text
from dialogs.grammar.when import (
    Day,
    NoDay,
)

NOTHING = Item("", -1, -1)


class Gathering:
    """The items still to come, and those that are done; times are put in place of the words for them."""

    def __init__(self, text: Text, now: datetime) -> None:
        self.text = text
        self.items = text.items
        self.today = now.date()
        self.out: list[Item] = []
        self.at = 0

    def _peek(self, ahead: int = 0) -> Item:
        index = self.at + ahead
        return self.items[index] if index < len(self.items) else NOTHING

    def _put(self, value: object, count: int) -> bool:
        first, last = self.items[self.at], self.items[self.at + count - 1]
        self.out.append(Item("when", first.start, last.end, first.word, value=value, capital=first.capital))
        self.at += count
        return True

    def _put_day(
        self, on: date | None, count: int, *, about: bool = False, latest: bool = False
    ) -> bool | None:
        if on is None:
            return self._put(NoDay(), count)
        while self.out and (
            (self.out[-1].word == "the" and self.out[-1].sort == "word")
            or self.out[-1].has("when.about", "when.date", "when.on")
        ):
            about = self.out.pop().has("when.about") or about
        return self._put(Day(on, about, latest), count)


def is_year(item: Item) -> bool:
    return item.sort == "number" and item.digits and item.hint == "" and 1990 <= item.value <= 2099


def month_number(item: Item) -> int | None:
    """The month of "mwezi wa tatu", "mwezi wa 3", "mwezi wa kwanza"."""
    if item.word == "kwanza":
        return 1
    return int(item.value) if item.sort == "number" and item.unit is None and 1 <= item.value <= 12 else None


def is_hour(item: Item) -> bool:
    return item.hint == "" and 0 < item.value <= 24


def split_hour(item: Item) -> tuple[int, int]:
    """Hour and minute of a number: in words 2.5 is half past two, in digits 2.30 is 2:30."""
    value: Decimal = item.value
    hour = int(value)
    rest = value - hour
    if item.digits and "." in item.word and rest:
        return hour, int(item.word.split(".")[1].ljust(2, "0")[:2]) % 60
    return hour, int(rest * 60)
