"""Months, years and spans: "mwezi wa tatu", "mwaka jana", "siku 3 zilizopita"."""

from __future__ import annotations

from datetime import date, timedelta

from dialogs.grammar.gathering import Gathering, is_year, month_number
from dialogs.grammar.items import Item
from dialogs.grammar.when import (
    ABOUT_DAY,
    Period,
    about_month,
    latest_date,
    months_before,
)


class Spans(Gathering):
    """Puts together what tells a month, a year or a length of time."""

    def _is_ago(self, item: Item) -> bool:
        return item.has("when.ago") and bool(self.out) and self.out[-1].starts("span.") is not None

    def _day_of_month(self, item: Item, month: int, count: int) -> bool | None:
        if item.value != int(item.value) or not 1 <= item.value <= 31 or not 1 <= month <= 12:
            return None
        year = self._year(count)
        if year is None:
            return self._put_day(latest_date(self.today, month, int(item.value)), count, latest=True)
        return self._put_day(_date(year[0], month, int(item.value)), year[1])

    def _year(self, ahead: int) -> tuple[int, int] | None:
        """A year told after *ahead* items ("2024", "mwaka jana", "last year") and the item after it."""
        if self._peek(ahead).sort == "mark" and self._peek(ahead).word == ",":
            ahead += 1
        if self._peek(ahead).word in ("wa", "ya", "of"):
            ahead += 1
        item, follows = self._peek(ahead), self._peek(ahead + 1)
        if item.has("when.last", "when.this") and follows.has("span.year"):
            return self.today.year - item.has("when.last"), ahead + 2
        if item.has("span.year"):
            back = _years_back(follows)
            if back is not None:
                return self.today.year - back, ahead + 2
            item, ahead = follows, ahead + 1
        return (int(item.value), ahead + 1) if is_year(item) else None

    def _ago(self, item: Item, span: str, count: int) -> bool | None:
        if item.value > 4000:
            return None
        number = int(item.value)
        if span in ("month", "year"):
            year, month = months_before(self.today, number * (12 if span == "year" else 1))
            return self._put_day(date(year, month, ABOUT_DAY), count, about=True)
        if span == "hour":
            return None
        return self._put_day(self.today - timedelta(days=number * (7 if span == "week" else 1)), count)

    def _span(self, item: Item) -> bool | None:
        """ "siku 3 zilizopita", "mwezi wa tatu", "wiki iliyopita", "mwezi huu", "a week ago"."""
        span, follows = item.starts("span.") or "", self._peek(1)
        if follows.sort == "number" and self._peek(2).has("when.ago"):
            return self._ago(follows, span, 3)
        if span == "month":
            number = month_number(self._peek(2)) if follows.word in ("wa", "ya") else None
            if number is not None:
                return self._month(number, 3)
            if follows.word in ("wa", "ya", "of") and self._peek(2).starts("month."):
                return self._month(int(self._peek(2).starts("month.") or 1), 3)
            if follows.starts("month.") and not follows.has("when.ago"):
                return self._month(int(follows.starts("month.") or 1), 2)
        if span == "year" and (is_year(follows) or _years_back(follows) is not None):
            return self._year_first()
        if follows.has("when.ago") or (span in ("week", "month") and follows.has("day.1")):
            return self._last(span, 2)
        if follows.has("when.this"):
            return self._this(span, 2)
        if follows.has("when.next"):
            return self._put_day(self.today + timedelta(days=SPAN_DAYS[span]), 2)
        if span == "month" and any(item.word in _PART_OF_MONTH for item in self.out[-3:]):
            return self._this(span, 1)
        return None

    def _year_first(self) -> bool | None:
        """ "mwaka jana", "mwaka 2024", and the month that may follow: "mwaka jana Machi"."""
        year, count = self._year(0) or (self.today.year, 2)
        month = self._month_told(count)
        if month is not None:
            return self._put_day(about_month(self.today, month[0], year), month[1], about=True)
        if self._peek().has("span.year") and self._peek(1).has("when.this"):
            return self._this("year", count)
        if year == self.today.year - 1 and not is_year(self._peek(count - 1)):
            return self._last("year", count)
        return self._put_day(about_month(self.today, MID_YEAR, year), count, about=True)

    def _this_last(self, item: Item) -> bool | None:
        span = self._peek(1).starts("span.")
        if span is None:
            return None
        if self._peek(1).has("when.saa"):
            span = self._peek(1).starts("span.") or span
        if item.has("when.this"):
            return self._this(span, 2)
        if item.has("when.next"):
            return self._put_day(self.today + timedelta(days=SPAN_DAYS[span]), 2)
        if span == "year":
            return self._year_first()
        return self._last(span, 2)

    def _this(self, span: str, count: int) -> bool | None:
        return self._put(Period(span), count) if span in ("week", "month", "year") else None

    def _last(self, span: str, count: int) -> bool | None:
        if span == "day":
            return self._put_day(self.today - timedelta(days=1), count)
        if span == "week":
            return self._put_day(self.today - timedelta(days=7), count, about=True)
        if span == "month" or span == "year":
            year, month = months_before(self.today, 1 if span == "month" else 12)
            return self._put_day(date(year, month, ABOUT_DAY), count, about=True)
        return None

    def _month_told(self, ahead: int) -> tuple[int, int] | None:
        """A month after *ahead* items ("Mei", "mwezi wa 5", "ya mwezi huu") and the items up to it."""
        if self._peek(ahead).word in ("ya", "of", "mwezi") and self._peek(ahead + 1).starts("month."):
            ahead += 1
        named = self._peek(ahead).starts("month.")
        if named is not None:
            return int(named), ahead + 1
        if self._peek(ahead).word in ("ya", "of"):
            ahead += 1
        month = self._peek(ahead)
        if not month.has("span.month") and not (month.other is not None and month.other.has("span.month")):
            return None
        if self._peek(ahead + 1).has("when.this"):
            return self.today.month, ahead + 2
        if self._peek(ahead + 1).has("when.ago"):
            return months_before(self.today, 1)[1], ahead + 2
        number = ahead + 2 if self._peek(ahead + 1).word in ("wa", "ya") else ahead + 1
        if self._peek(number).starts("month."):
            return int(self._peek(number).starts("month.") or 1), number + 1
        told = month_number(self._peek(number))
        return None if told is None else (told, number + 1)

    def _month(self, month: int, count: int) -> bool | None:
        """A month told first: a day of it may follow ("mwezi wa tatu tarehe 12"), else it is about."""
        if self._peek(count).has("when.date") and self._peek(count + 1).sort == "number":
            on = latest_date(self.today, month, int(self._peek(count + 1).value))
            return self._put_day(on, count + 2, latest=True)
        year = self._year(count)
        if year is not None:
            return self._put_day(about_month(self.today, month, year[0]), year[1], about=True)
        return self._put_day(about_month(self.today, month), count, about=True)

    def _month_first(self, item: Item) -> bool | None:
        month, follows = int(item.starts("month.") or 1), self._peek(1)
        if follows.sort == "number" and follows.value == int(follows.value) and 1 <= follows.value <= 31:
            if item.word == "may" and not follows.digits:
                return None
            follows_year = self._year(2)
            on = latest_date(self.today, month, int(follows.value)) if follows_year is None else _date(
                follows_year[0], month, int(follows.value))  # fmt: skip
            return self._put_day(
                on, 2 if follows_year is None else follows_year[1], latest=follows_year is None
            )
        if (
            item.word in ("may", "ago", "jun", "des", "mac", "sep")
            and not (
                self.out
                and (
                    self.out[-1].word in ("in", "of", "since", "during", "for", "ya", "mwezi")
                    or self.out[-1].has("when.since", "statement")
                )
            )
            and self._year(1) is None
            and not (item.capital and item.word != "may")
        ):
            return None
        return self._month(month, 1)


_PART_OF_MONTH = (
    "mwanzoni",
    "mwishoni",
    "katikati",
    "mwanzo",
    "mwisho",
    "beginning",
    "start",
    "end",
    "middle",
)


MID_YEAR = 7
"""Month that stands for a year told without one."""


SPAN_DAYS = {"hour": 0, "day": 1, "week": 7, "month": 30, "year": 365}


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _years_back(item: Item) -> int | None:
    """How many years before this one "mwaka jana", "mwaka juzi", "mwaka uliopita" is."""
    if item.has("day.1") or item.has("when.ago"):
        return 1
    if item.has("day.2"):
        return 2
    return 0 if item.has("when.this") else None
