"""
Days and hours as told: relative days, weekdays, dates, parts of the day, the clocks of both languages.

``gather`` turns the items of a text that speak of time into ``when`` items; the functions below them
settle the day, the session or the moment. `now` is aware and in the farm's zone; nothing here reads a
clock. "saa" counts from dawn and dusk whatever the language; am, pm and 07:30 are the European clock.
"""

from __future__ import annotations

import calendar
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from dialogs.grammar.items import Item, Text

MORNING_FROM, MIDDAY_FROM, EVENING_FROM, NIGHT_FROM = 3, 11, 15, 19
"""Hours at which the parts of the day begin: sessions of milking turn at 11:00 and 15:00."""

_BEGINS = {"morning": MORNING_FROM, "dawn": MORNING_FROM, "midday": MIDDAY_FROM, "afternoon": EVENING_FROM,
           "evening": EVENING_FROM, "night": NIGHT_FROM}  # fmt: skip
_STANDS_FOR = {"morning": 6, "dawn": 6, "midday": 12, "afternoon": 15, "evening": 18, "night": 21}
"""The hour for which a part of the day stands when no hour is told."""

_SESSION = {"morning": "morning", "dawn": "morning", "midday": "midday", "afternoon": "evening",
            "evening": "evening", "night": "evening"}  # fmt: skip
_HOURS_OF = {
    "morning": range(3, 13), "dawn": range(3, 8), "midday": range(10, 18), "afternoon": range(12, 19),
    "evening": range(15, 23),
}  # fmt: skip
"""Hours that can be meant by an hour told with a part of the day (night: all that is not day)."""

ABOUT_DAY = 15
"""Day of the month that stands for a month told without a day."""


@dataclass(frozen=True, slots=True)
class Day:
    """A day told; *about* where only its neighbourhood is."""

    on: date
    about: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the day; *last*: of the night before now, whatever the hour."""

    name: str
    last: bool = False


@dataclass(frozen=True, slots=True)
class Clock:
    """An hour told. *style*: ``saa`` (counted from dawn), ``am``, ``pm``, ``exact`` (HH:MM), ``bare``."""

    hour: int
    minute: int
    style: str


@dataclass(frozen=True, slots=True)
class NoDay:
    """A date told that no calendar has: tarehe 40, 31/2."""


@dataclass(frozen=True, slots=True)
class Period:
    """ "this week", "this month": a span that holds now."""

    name: str


@dataclass(slots=True)
class When:
    """What a stretch of a text says about time."""

    day: Day | None = None
    part: Part | None = None
    clock: Clock | None = None
    period: Period | None = None
    impossible: bool = False  # a date was told that no calendar has

    def __bool__(self) -> bool:
        return bool(self.day or self.part or self.clock or self.period)


def latest_weekday(today: date, weekday: int) -> date:
    """The latest *weekday* (Monday 0) before *today*."""
    return today - timedelta(days=(today.weekday() - weekday - 1) % 7 + 1)


def latest_day_of_month(today: date, day: int) -> date | None:
    """The latest day numbered *day* that is not after *today*; None where no month has it."""
    year, month = today.year, today.month
    for _ in range(13):
        if day <= calendar.monthrange(year, month)[1] and date(year, month, day) <= today:
            return date(year, month, day)
        year, month = (year - 1, 12) if month == 1 else (year, month - 1)
    return None


def latest_date(today: date, month: int, day: int) -> date | None:
    """The latest *day* of *month* that is not after *today*; None where there is no such day."""
    for year in range(today.year, today.year - 9, -1):
        try:
            found = date(year, month, day)
        except ValueError:
            continue
        if found <= today:
            return found
    return None


def about_month(today: date, month: int, year: int | None = None) -> date:
    """The 15th of the latest such *month*, or *today* if that is earlier."""
    if year is None:
        year = today.year if month <= today.month else today.year - 1
    return min(date(year, month, ABOUT_DAY), today)


def written_date(today: date, text: str) -> Day | None:
    """A date in figures: 2026-05-12, 12/5/2026, 12.5.26, 12/5 (day before month)."""
    pieces = [int(piece) for piece in text.replace("/", "-").replace(".", "-").split("-")]
    if len(pieces) == 2:
        found = latest_date(today, pieces[1], pieces[0]) if 1 <= pieces[1] <= 12 else None
        return None if found is None else Day(found)
    year, month, day = pieces if pieces[0] > 31 else (pieces[2], pieces[1], pieces[0])
    try:
        return Day(date(year + 2000 if year < 100 else year, month, day))
    except ValueError:
        return None


def months_before(today: date, months: int) -> tuple[int, int]:
    """(year, month) *months* before that of *today*."""
    index = today.year * 12 + today.month - 1 - months
    return index // 12, index % 12 + 1


class _Gathering:
    """One pass over the items, replacing those that speak of time."""

    def __init__(self, text: Text, now: datetime) -> None:
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
        while self.out and (self.out[-1].word == "the" or self.out[-1].has("when.about", "when.date", "when.on")):
            about = self.out.pop().has("when.about") or about
        return self._put(Day(on, about), count)

    def _take(self) -> bool | None:
        item = self._peek()
        if item.sort == "date":
            day = written_date(self.today, item.word)
            return self._put_day(None if day is None else day.on, 1)
        if item.sort == "clock":
            return self._clock(1, int(item.word.replace(".", ":").split(":")[0]), int(item.word[-2:]), saa=False)
        if item.sort == "number":
            return self._number_first(item)
        if item.sort == "animal" and item.other is not None and item.other.sort == "cue":
            return self._name_as_time(item)
        return self._cue(item) if item.sort == "cue" else None

    def _name_as_time(self, item: Item) -> bool | None:
        """A cow called Mwezi in "mwezi uliopita", "mwezi wa tatu": there it is the month."""
        assert item.other is not None
        if item.other.starts("span.") is None:
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
        if self._peek(2).word == "na" and self._peek(3).has("when.minutes") and self._peek(4).sort == "number":
            minute, count = int(self._peek(4).value) % 60, 5
        elif self._peek(2).has("when.less") and self._peek(3).has("when.minutes") and self._peek(4).sort == "number":
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
        if item.hint == "ordinal" and self.out and (self.out[-1].word in ("the", "on") or self.out[-1].has("when.date", "when.on", "when.about")):
            return self._put_day(latest_day_of_month(self.today, int(item.value)), 1)
        if self.out and self.out[-1].word == "at" and follows.sort != "cue" and _is_hour(item) and self._hour_place(follows):
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
        if self._peek(ahead).has("span.year") or self._peek(ahead).sort == "mark" and self._peek(ahead).word == ",":
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
        if item.word in ("may", "ago", "jun", "des", "mac", "sep") and not (
            self.out and (self.out[-1].word in ("in", "of", "since", "during", "ya", "mwezi") or self.out[-1].has("when.since", "statement"))
        ):  # fmt: skip
            if self._year(1) is None and not (item.capital and item.word != "may"):
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
    """Hour and minute of a number: 2.5 is half past two in words ("saa mbili na nusu"), 2.30 in digits 2:30."""
    value: Decimal = item.value
    hour = int(value)
    rest = value - hour
    if item.digits and "." in item.word and rest:
        return hour, int(item.word.split(".")[1].ljust(2, "0")[:2]) % 60
    return hour, int(rest * 60)


def gather(text: Text, now: datetime) -> list[Item]:
    """The items of *text* with those that speak of time put together as ``when`` items."""
    return _Gathering(text, now).run()


def collect(items: Sequence[Item]) -> When:
    """The first day, part, clock and period among *items*."""
    when = When()
    for item in items:
        if item.sort != "when":
            continue
        match item.value:
            case Day() if when.day is None:
                when.day = item.value
            case Part() if when.part is None:
                when.part = item.value
            case Clock() if when.clock is None:
                when.clock = item.value
            case Period() if when.period is None:
                when.period = item.value
            case NoDay():
                when.impossible = True
    return when


def _begun(part: Part, now: datetime) -> bool:
    return now.hour >= _BEGINS[part.name]


def part_day(part: Part, now: datetime) -> date:
    """The day of a part told without one: today's once it has begun, else yesterday's."""
    today = now.date()
    return today if _begun(part, now) and not part.last else today - timedelta(days=1)


def day_of(when: When, now: datetime) -> Day:
    """The day on which something happened."""
    if when.day is not None:
        return when.day
    if when.clock is not None:
        return Day(moment_of(when, now).date())
    if when.part is not None:
        return Day(part_day(when.part, now))
    if when.period is not None and when.period.name == "month":
        return Day(min(now.date().replace(day=ABOUT_DAY), now.date()), about=True)
    if when.period is not None:
        return Day(now.date(), about=True)
    return Day(now.date())


def _session_at(hour: int) -> str:
    return "morning" if hour < MIDDAY_FROM else "midday" if hour < EVENING_FROM else "evening"


def session_of(when: When, now: datetime) -> tuple[Day, str]:
    """Day and session of a milking."""
    today = now.date()
    if when.clock is not None:
        moment = moment_of(when, now)
        return when.day or Day(moment.date()), _session_at(moment.hour)
    if when.part is not None:
        return when.day or Day(part_day(when.part, now)), _SESSION[when.part.name]
    day = day_of(when, now)
    return day, _session_at(now.hour) if day.on == today and not day.about else "day"


def _hours(clock: Clock, part: str | None) -> tuple[int, ...]:
    """The hours of the European clock that *clock* can mean, given the part of the day told with it."""
    match clock.style:
        case "exact" if part is None or clock.hour > 12 or clock.hour == 0:
            return (clock.hour,)
        case "am":
            return (clock.hour % 12 if clock.hour == 12 else clock.hour,)
        case "pm":
            return (clock.hour % 12 + 12 if clock.hour <= 12 else clock.hour,)
        case "saa":
            both = ((clock.hour + 6) % 24, (clock.hour + 18) % 24)
        case _ if clock.hour > 12:
            return (clock.hour,)
        case _:
            both = (clock.hour % 12, clock.hour % 12 + 12)
    if part is None:
        return both
    if part == "night":
        return tuple(h for h in both if h >= 18 or h < 6) or both
    return tuple(h for h in both if h in _HOURS_OF[part]) or both


def _after_midnight(hour: int, clock: Clock, part: str | None) -> bool:
    """Whether an hour belongs to the night before: 01:00 does, alfajiri and the morning do not."""
    if part in ("dawn", "morning", "midday", "afternoon"):
        return False
    if part in ("night", "evening"):
        return hour < 6
    return clock.style in ("am", "exact") and hour < MORNING_FROM


def moment_of(when: When, now: datetime) -> datetime:
    """The moment at which something was first seen; it may lie in the future where the text says so."""
    if when.clock is None:
        return _moment_without_hour(when, now)
    clock, part = when.clock, when.part.name if when.part else None
    candidates = [_place(h, clock, part, when, now) for h in _hours(clock, part)]
    past = [moment for moment in candidates if moment <= now]
    return max(past) if past else min(candidates)


def _place(hour: int, clock: Clock, part: str | None, when: When, now: datetime) -> datetime:
    at = {"hour": hour, "minute": clock.minute, "second": 0, "microsecond": 0}
    if when.day is None:
        moment = now.replace(**at)
        return moment if moment <= now else _on(now, now.date() - timedelta(days=1), hour, clock.minute)
    moment = _on(now, when.day.on, hour, clock.minute)
    if _after_midnight(hour, clock, part):
        next_day = _on(now, when.day.on + timedelta(days=1), hour, clock.minute)
        return next_day if next_day <= now else moment
    return moment


def _on(now: datetime, day: date, hour: int, minute: int) -> datetime:
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=now.tzinfo)


def _moment_without_hour(when: When, now: datetime) -> datetime:
    part = when.part
    if part is None:
        if when.day is None or when.day.on == now.date():
            return now
        return _on(now, when.day.on, 12, 0)
    day = when.day.on if when.day is not None else part_day(part, now)
    moment = _on(now, day, _STANDS_FOR[part.name], 0)
    return min(moment, now) if day == now.date() and _begun(part, now) else moment
