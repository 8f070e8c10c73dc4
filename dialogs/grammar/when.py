"""
Days and hours as told: relative days, weekdays, dates, parts of the day, the clocks of both languages.

What ``gather`` finds in a text becomes, by the rules here, a day, a session or a moment. `now` is aware
and in the farm's zone; nothing here reads a clock. "saa" counts from dawn and dusk whatever the language;
am, pm and 07:30 are the European clock.
"""

from __future__ import annotations

import calendar
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from dialogs.grammar.items import Item

MORNING_FROM, MIDDAY_FROM, EVENING_FROM, NIGHT_FROM = 3, 11, 15, 19
"""Hours at which the parts of the day begin: sessions of milking turn at 11:00 and 15:00."""

_BEGINS = {"morning": MORNING_FROM, "dawn": MORNING_FROM, "midday": MIDDAY_FROM, "afternoon": EVENING_FROM,
           "evening": EVENING_FROM, "night": NIGHT_FROM}  # fmt: skip
_STANDS_FOR = {"morning": 6, "dawn": 6, "midday": 12, "afternoon": 15, "evening": 18, "night": 21}
"""The hour for which a part of the day stands when no hour is told."""

SESSION = {"morning": "morning", "dawn": "morning", "midday": "midday", "afternoon": "evening",
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
    """A day told; *about* where only its neighbourhood is; *latest*: the latest such, as no year is told."""

    on: date
    about: bool = False
    latest: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the day; *last*: of the night before now; *guessed*: by the order of what is told."""

    name: str
    last: bool = False
    guessed: bool = False


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
        return None if found is None else Day(found, latest=True)
    year, month, day = pieces if pieces[0] > 31 else (pieces[2], pieces[1], pieces[0])
    try:
        return Day(date(year + 2000 if year < 100 else year, month, day))
    except ValueError:
        return None


def months_before(today: date, months: int) -> tuple[int, int]:
    """(year, month) *months* before that of *today*."""
    index = today.year * 12 + today.month - 1 - months
    return index // 12, index % 12 + 1


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


def begun(part: Part, now: datetime) -> bool:
    return now.hour >= _BEGINS[part.name]


def part_day(part: Part, now: datetime) -> date:
    """The day of a part told without one: today's once it has begun, else yesterday's."""
    today = now.date()
    return today if begun(part, now) and not part.last else today - timedelta(days=1)


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
        return when.day or Day(part_day(when.part, now)), SESSION[when.part.name]
    day = day_of(when, now)
    return day, _session_at(now.hour) if day.on == today and not day.about else "day"


def hours_of(clock: Clock, part: str | None) -> tuple[int, ...]:
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
    candidates = [_place(h, clock, part, when, now) for h in hours_of(clock, part)]
    past = [moment for moment in candidates if moment <= now]
    return max(past) if past else min(candidates)


def _place(hour: int, clock: Clock, part: str | None, when: When, now: datetime) -> datetime:
    if when.day is None:
        moment = now.replace(hour=hour, minute=clock.minute, second=0, microsecond=0)
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
    return min(moment, now) if day == now.date() and begun(part, now) else moment
