"""
Finds the items of a text that speak of time and puts each group of them together: "tarehe 12 mwezi wa 3",
"siku 3 zilizopita", "saa mbili na nusu asubuhi".
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from decimal import Decimal

from dialogs.grammar.items import Item, Text
from dialogs.grammar.when import (
    ABOUT_DAY,
    Clock,
    Day,
    NoDay,
    Part,
    Period,
    about_month,
    latest_date,
    latest_day_of_month,
    latest_weekday,
    months_before,
    written_date,
)


class _Gathering:
    """One pass over the items, replacing those that speak of time."""

    def __init__(self, text: Text, now: datetime) -> None:
        self.text = text
        self.items = text.items
        self.today = now.date()
        self.out: list[Item] = []
        self.at = 0

    def run(self) -> list[Item]:
        while self.at < len(self.items):
            took = self._take()
            if took is None:
                self.out.append(self.items[self.at])
                self.at += 1
        return self.out

    def _peek(self, ahead: int = 0) -> Item:
        index = self.at + ahead
        return self.items[index] if index < len(self.items) else _NOTHING

    def _put(self, value: object, count: int) -> bool:
        first, last = self.items[self.at], self.items[self.at + count - 1]
        self.out.append(Item("when", first.start, last.end, first.word, value=value))
        self.at += count
        return True

    def _put_day(self, on: date | None, count: int, *, about: bool = False) -> bool | None:
        if on is None:
            return self._put(NoDay(), count)
        while self.out and (
            self.out[-1].word == "the" or self.out[-1].has("when.about", "when.date", "when.on")
        ):
            about = self.out.pop().has("when.about") or about
        return self._put(Day(on, about), count)

    def _take(self) -> bool | None:
        item = self._peek()
        if item.sort == "date":
            day = written_date(self.today, item.word)
            return self._put_day(None if day is None else day.on, 1)
        if item.sort == "clock":
            return self._clock(
                1, int(item.word.replace(".", ":").split(":")[0]), int(item.word[-2:]), saa=False
            )
        if item.sort == "number":
            return self._number_first(item)
        if item.sort == "animal" and item.other is not None and item.other.sort == "cue":
            return self._name_as_time(item)
        return self._cue(item) if item.sort == "cue" else None

    def _name_as_time(self, item: Item) -> bool | None:
        """A cow called Mwezi in "mwezi uliopita", "mwezi wa tatu": there it is the month."""
        if item.other is None or item.other.starts("span.") is None:
            return None
        follows = self._peek(1)
        joined = follows.word in ("wa", "ya") and self._peek(2).sort in ("number", "cue")
        if follows.has("when.this", "when.ago", "when.next") or follows.starts("month.") or joined:
            self.items[self.at] = item.other
            return self._cue(item.other)
        return None

    def _cue(self, item: Item) -> bool | None:
        for prefix, take in (
            ("day.", self._relative), ("weekday.", self._weekday), ("part.", self._part),
        ):  # fmt: skip
            name = item.starts(prefix)
            if name is not None:
                return take(name)
        if item.has("when.last_night"):
            self._put(Day(self.today - timedelta(days=1)), 1)
            item = self.out[-1]
            self.out.append(Item("when", item.start, item.end, item.word, value=Part("night", last=True)))
            return True
        if item.has("when.am", "when.pm"):
            return self._put(Part("morning" if item.has("when.am") else "evening"), 1)
        if item.has("when.saa") and self._peek(1).sort in ("number", "clock"):
            return self._saa()
        if item.has("when.date"):
            return self._tarehe()
        if item.starts("span.") is not None and not item.has("when.saa"):
            found = self._span(item)
            if found:
                return found
        if item.has("when.this", "when.last", "when.next"):
            return self._this_last(item)
        if item.starts("month.") is not None and not self._is_ago(item):
            return self._month_first(item)
        if item.has("when.half", "when.quarter"):
            return self._half_past(item)
        return None

    def _is_ago(self, item: Item) -> bool:
        return item.has("when.ago") and bool(self.out) and self.out[-1].starts("span.") is not None

    def _relative(self, name: str) -> bool | None:
        if self._peek().word in ("sasa", "now") and self._peek(1).has("named", "rename"):
            return None
        return self._put_day(self.today - timedelta(days=int(name)), 1)

    def _weekday(self, name: str) -> bool | None:
        if self.out and self.out[-1].has("every"):
            return None
        on = latest_weekday(self.today, int(name))
        count = 1
        if self.out and self.out[-1].has("when.last", "when.next", "when.this"):
            if self.out.pop().has("when.next"):
                on += timedelta(days=14 if on + timedelta(days=7) == self.today else 7)
        elif self._peek(1).has("when.next"):
            on, count = on + timedelta(days=7), 2
        elif self._peek(1).has("when.ago") or self._peek(1).has("when.this"):
            count = 2
        if self._week_before(count):
            on, count = on - timedelta(days=7 if on >= self._monday() else 0), count + 2
        return self._put_day(on, count)

    def _monday(self) -> date:
        return self.today - timedelta(days=self.today.weekday())

    def _week_before(self, ahead: int) -> bool:
        first, second = self._peek(ahead), self._peek(ahead + 1)
        return (first.has("span.week") and second.has("when.ago")) or (
            first.has("when.last") and second.has("span.week")
        )

    def _part(self, name: str) -> bool | None:
        item = self._peek()
        written = self.text.written(item.start, item.end).lower().split()
        if {"this", "hii", "huu", "tonight", "leo"} & set(written):
            self.out.append(Item("when", item.start, item.end, item.word, value=Day(self.today)))
        return self._put(Part(name), 1)

    def _saa(self) -> bool | None:
        clock = self._peek(1)
        if clock.sort == "clock":
            hour, minute = (int(piece) for piece in clock.word.replace(".", ":").split(":"))
            return self._clock(2, hour, minute, saa=True)
        hour, minute = _split_hour(clock)
        if not 0 <= hour <= 24:
            return None
        count = 2
        if (
            self._peek(2).word == "na"
            and self._peek(3).has("when.minutes")
            and self._peek(4).sort == "number"
        ):
            minute, count = int(self._peek(4).value) % 60, 5
        elif (
            self._peek(2).has("when.less")
            and self._peek(3).has("when.minutes")
            and self._peek(4).sort == "number"
        ):
            hour, minute, count = hour - 1 or 12, 60 - int(self._peek(4).value) % 60, 5
        return self._clock(count, hour, minute % 60, saa=True)

    def _clock(self, count: int, hour: int, minute: int, *, saa: bool) -> bool | None:
        style = "saa" if saa else "exact"
        follows = self._peek(count)
        if follows.has("when.am", "when.pm"):
            style = "am" if follows.has("when.am") else "pm"
            count += 1
        if hour > 24 or minute > 59 or (style in ("am", "pm") and hour > 23):
            return None
        if style == "saa" and (hour > 12 or hour == 0):
            style = "exact"
        if self.out and (self.out[-1].word in ("at", "kwenye") or self.out[-1].has("when.about")):
            self.out.pop()
        return self._put(Clock(hour % 24, minute, style), count)

    def _number_first(self, item: Item) -> bool | None:
        follows = self._peek(1)
        if item.hint == "part" and follows.has("when.past", "when.less") and self._peek(2).sort == "number":
            return self._half_past(item)
        if item.digits and follows.has("when.am", "when.pm", "when.oclock") and 0 < item.value < 24:
            if self.out and self.out[-1].word in ("am", "pm"):
                return None  # "am 6 pm 4": the mark stands before its litres
            return self._european(item, follows)
        month = follows.starts("month.") if not follows.has("when.ago") else None
        if follows.word in ("of", "wa", "ya") and self._peek(2).starts("month.") is not None:
            return self._day_of_month(item, int(self._peek(2).starts("month.") or 0), 3)
        if month is not None and not (follows.word == "may" and item.hint == "" and item.value > 31):
            return self._day_of_month(item, int(month), 2)
        if follows.has("span.month") and self._peek(2).word in ("wa", "ya") and item.hint in ("", "ordinal"):
            number = _month_number(self._peek(3))
            if number is not None and 1 <= item.value <= 31 and self.out and not self.out[-1].starts("unit."):
                return self._day_of_month(item, number, 4)
        if follows.starts("span.") is not None and self._peek(2).has("when.ago"):
            return self._ago(item, follows.starts("span.") or "", 3)
        if (
            item.hint == "ordinal"
            and self.out
            and (self.out[-1].word in ("the", "on") or self.out[-1].has("when.date", "when.on", "when.about"))
        ):
            return self._put_day(latest_day_of_month(self.today, int(item.value)), 1)
        if (
            self.out
            and self.out[-1].word == "at"
            and follows.sort != "cue"
            and _is_hour(item)
            and self._hour_place(follows)
        ):
            self.out.pop()
            hour, minute = _split_hour(item)
            return self._put(Clock(hour, minute, "bare"), 1)
        return None

    def _hour_place(self, follows: Item) -> bool:
        return follows is _NOTHING or follows.sort in ("mark", "when") or follows.word in ("in", "na", "and")

    def _european(self, item: Item, follows: Item) -> bool | None:
        hour, minute = _split_hour(item)
        style = "am" if follows.has("when.am") else "pm" if follows.has("when.pm") else "bare"
        if self.out and (self.out[-1].word == "at" or self.out[-1].has("when.about", "price_word")):
            self.out.pop()
        return self._put(Clock(hour, minute, style), 2)

    def _day_of_month(self, item: Item, month: int, count: int) -> bool | None:
        if item.value != int(item.value) or not 1 <= item.value <= 31 or not 1 <= month <= 12:
            return None
        year = self._year(count)
        if year is None:
            return self._put_day(latest_date(self.today, month, int(item.value)), count)
        return self._put_day(_date(year[0], month, int(item.value)), year[1])

    def _year(self, ahead: int) -> tuple[int, int] | None:
        """A year told after *ahead* items, and how many items there are with it."""
        if self._peek(ahead).has("span.year") or (
            self._peek(ahead).sort == "mark" and self._peek(ahead).word == ","
        ):
            ahead += 1
        item = self._peek(ahead)
        if item.sort == "number" and item.digits and item.hint == "" and 1990 <= item.value <= 2099:
            return int(item.value), ahead + 1
        return None

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
            number = _month_number(self._peek(2)) if follows.word in ("wa", "ya") else None
            if number is not None:
                return self._month(number, 3)
            if follows.word in ("wa", "ya", "of") and self._peek(2).starts("month."):
                return self._month(int(self._peek(2).starts("month.") or 1), 3)
            if follows.starts("month.") and not follows.has("when.ago"):
                return self._month(int(follows.starts("month.") or 1), 2)
        if span == "year" and follows.sort == "number" and follows.digits and 1990 <= follows.value <= 2099:
            return None
        if follows.has("when.ago"):
            return self._last(span, 2)
        if follows.has("when.this"):
            return self._this(span, 2)
        if follows.has("when.next"):
            return self._put_day(self.today + timedelta(days=_SPAN_DAYS[span]), 2)
        return None

    def _this_last(self, item: Item) -> bool | None:
        span = self._peek(1).starts("span.")
        if span is None:
            return None
        if self._peek(1).has("when.saa"):
            span = self._peek(1).starts("span.") or span
        if item.has("when.this"):
            return self._this(span, 2)
        if item.has("when.next"):
            return self._put_day(self.today + timedelta(days=_SPAN_DAYS[span]), 2)
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

    def _tarehe(self) -> bool | None:
        follows = self._peek(1)
        if follows.sort == "date":
            self.at += 1
            return self._take()
        if follows.sort != "number" or follows.value != int(follows.value) or follows.hint == "money":
            return None
        if not 1 <= follows.value <= 31:
            return self._put(NoDay(), 2)
        month = self._month_told(2)
        if month is not None:
            self.at += 1
            return self._day_of_month(follows, month[0], month[1] - 1)
        return self._put_day(latest_day_of_month(self.today, int(follows.value)), 2)

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
        month_number = _month_number(self._peek(number))
        return None if month_number is None else (month_number, number + 1)

    def _month(self, month: int, count: int) -> bool | None:
        """A month told first: a day of it may follow ("mwezi wa tatu tarehe 12"), else it is about."""
        if self._peek(count).has("when.date") and self._peek(count + 1).sort == "number":
            return self._put_day(latest_date(self.today, month, int(self._peek(count + 1).value)), count + 2)
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
            return self._put_day(on, 2 if follows_year is None else follows_year[1])
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

    def _half_past(self, item: Item) -> bool | None:
        """ "half past six", "quarter to seven"."""
        if not self._peek(1).has("when.past", "when.less") or self._peek(2).sort != "number":
            return None
        minute = 30 if item.word == "half" else 15
        hour = int(self._peek(2).value)
        if self._peek(1).has("when.less"):
            hour, minute = hour - 1 or 12, 60 - minute
        return self._clock_of_words(hour, minute, 3)

    def _clock_of_words(self, hour: int, minute: int, count: int) -> bool | None:
        if not 0 < hour < 24:
            return None
        style = "bare"
        if self._peek(count).has("when.am", "when.pm"):
            style = "am" if self._peek(count).has("when.am") else "pm"
            count += 1
        if self.out and self.out[-1].word == "at":
            self.out.pop()
        return self._put(Clock(hour, minute, style), count)


_NOTHING = Item("", -1, -1)
_SPAN_DAYS = {"hour": 0, "day": 1, "week": 7, "month": 30, "year": 365}


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _month_number(item: Item) -> int | None:
    """The month of "mwezi wa tatu", "mwezi wa 3", "mwezi wa kwanza"."""
    if item.word == "kwanza":
        return 1
    return int(item.value) if item.sort == "number" and item.unit is None and 1 <= item.value <= 12 else None


def _is_hour(item: Item) -> bool:
    return item.hint == "" and 0 < item.value <= 24


def _split_hour(item: Item) -> tuple[int, int]:
    """Hour and minute of a number: in words 2.5 is half past two, in digits 2.30 is 2:30."""
    value: Decimal = item.value
    hour = int(value)
    rest = value - hour
    if item.digits and "." in item.word and rest:
        return hour, int(item.word.split(".")[1].ljust(2, "0")[:2]) % 60
    return hour, int(rest * 60)


def gather(text: Text, now: datetime) -> list[Item]:
    """The items of *text* with those that speak of time put together as ``when`` items."""
    return _Gathering(text, now).run()
