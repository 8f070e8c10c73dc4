"""
How a value is written in each language: days, clock times, ranges, quantities, sums, names.

Month and weekday names and the parts of the day are CLDR's, read through Babel. In Kiswahili the hours
are counted from dawn and dusk and always carry the part of the day ("saa 1 asubuhi"), because "saa 1"
alone is seven in the morning and in the evening.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, datetime, time
from decimal import Decimal
from typing import Any

from babel import Locale
from babel.dates import get_period_id

from service import sms
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.units import Money

LANGUAGES = ("sw", "en")

LONG_MONTH = 6
"""Letters of a Kiswahili month written out; a longer one is cut as CLDR does (Septemba: Sep)."""

WORDS_ROOM = 16
"""Characters of the farmer's own words (a product, a feed, a buyer) that a text repeats."""

SHILLINGS = ("KES", "TZS", "UGX")
"""Currencies whose sums are written with the stroke: 12,000/=."""

HOME_CODE = "+255"
"""Numbers of this country are shown as dialled inside it; any other keeps its country code."""


def _table(names: Any, width: str) -> dict[int, str]:
    return {int(key): str(name) for key, name in names[width].items()}


def _months(language: str) -> dict[int, str]:
    names = Locale.parse(language).months["format"]
    wide, short = _table(names, "wide"), _table(names, "abbreviated")
    if language == "en":
        return short
    return {key: name if len(name) <= LONG_MONTH else short[key] for key, name in wide.items()}


def _parts_of_day(language: str) -> list[str]:
    """The part of the day of each hour from 0 to 23."""
    locale = Locale.parse(language)
    names = locale.day_periods["format"]["wide"]
    by_hour = (get_period_id(time(hour, 1), locale=locale) for hour in range(24))
    return [str(names[period]) for period in by_hour]


MONTHS = {language: _months(language) for language in LANGUAGES}
FULL_MONTHS = {language: _table(Locale.parse(language).months["format"], "wide") for language in LANGUAGES}
WEEKDAYS = {language: _table(Locale.parse(language).days["format"], "wide") for language in LANGUAGES}
PARTS_OF_DAY = _parts_of_day("sw")

OTHERS = {"sw": "{first} na {count} wengine", "en": "{first} and {count} others"}
ANOTHER = {"sw": "{first} na mwingine", "en": "{first} and one more"}
AND = {"sw": " na ", "en": " and "}
ALL = {"sw": "wote", "en": "all"}
TO = {"sw": " hadi ", "en": "-"}
TO_HOUR = {"sw": " hadi ", "en": " to "}


def day(on: date, language: str) -> str:
    """The 3rd of March as ``3 Machi``, ``3 Mar``."""
    return f"{on.day} {MONTHS[language][on.month]}"


def long_day(on: date, language: str) -> str:
    """A day with its year: ``3 Machi 2024``."""
    return f"{day(on, language)} {on.year}"


def month(on: date, language: str) -> str:
    """The month of *on*, written out."""
    return FULL_MONTHS[language][on.month]


def weekday(on: date, language: str) -> str:
    return WEEKDAYS[language][on.weekday()]


def _saa(hour: int, minutes: int) -> str:
    """The hour (0-23) and its minutes as spoken in Kiswahili, with the part of the day."""
    if minutes == 45:
        hour, past = (hour + 1) % 24, " kasoro robo"
    else:
        past = {0: "", 15: " na robo", 30: " na nusu"}.get(minutes, f" na dakika {minutes}")
    return f"saa {(hour - 7) % 12 + 1}{past} {PARTS_OF_DAY[hour]}"


def clock(at: datetime, language: str) -> str:
    """``saa 1 asubuhi``, ``saa 12 na nusu jioni``; ``7 am``, ``6:30 pm``. Minutes as they are."""
    if language == "sw":
        return _saa(at.hour, at.minute)
    if at.minute == 0 and at.hour in (0, 12):
        return "12 noon" if at.hour else "midnight"
    minutes = f":{at.minute:02d}" if at.minute else ""
    return f"{(at.hour - 1) % 12 + 1}{minutes} {'am' if at.hour < 12 else 'pm'}"


def part_of_day(at: datetime, language: str) -> str:
    """``mchana``; in English the clock time, as the part of the day is not said without it."""
    return PARTS_OF_DAY[at.hour] if language == "sw" else clock(at, language)


def days(first: date, last: date, language: str) -> str:
    """Both days included: ``19 hadi 25 Machi``, ``19-25 Mar``; over a month's end both months."""
    if first == last:
        return day(first, language)
    begin = str(first.day) if (first.year, first.month) == (last.year, last.month) else day(first, language)
    return begin + TO[language] + day(last, language)


def hours(first: datetime, last: datetime, language: str) -> str:
    """``saa 7 mchana hadi saa 2 usiku``, ``saa 11 hadi saa 12 alfajiri``; ``1 pm to 8 pm``."""
    begin, end = clock(first, language), clock(last, language)
    if language == "sw" and begin.split()[-1] == end.split()[-1]:
        begin = begin.rsplit(" ", 1)[0]
    return begin + TO_HOUR[language] + end


def number(value: Decimal | int) -> str:
    """The shortest writing: 6, 6.5, 1,250."""
    text = f"{value:,f}" if isinstance(value, Decimal) else f"{value:,}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def money(value: Money) -> str:
    """``12,000/=`` in the region's shillings, else ``12,000 RWF``."""
    sum_ = number(value.amount)
    return f"{sum_}/=" if value.currency in SHILLINGS else f"{sum_} {value.currency}"


def names(those: Sequence[str], language: str, *, room: int = 3) -> str:
    """``Neema na Zawadi``; above *room* names the first and how many others; ``wote`` for all."""
    if tuple(those) == (EVERY_ANIMAL,):
        return ALL[language]
    plain = [sms.plain(name) for name in those]
    if len(plain) > room and len(plain) > 1:
        others = ANOTHER if len(plain) == 2 else OTHERS
        return others[language].format(first=plain[0], count=len(plain) - 1)
    return AND[language].join(filter(None, (", ".join(plain[:-1]), plain[-1]))) if plain else ""


def clipped(words: str) -> str:
    """The farmer's own words, plain, cut where they are long."""
    plain = " ".join(sms.plain(words).split())
    return plain if sms.septets(plain) <= WORDS_ROOM else sms.cut(plain, WORDS_ROOM - 2).rstrip() + ".."


def dialled(phone: str) -> str:
    """An E.164 number of the home country as dialled there; any other as it is."""
    return f"0{phone.removeprefix(HOME_CODE)}" if phone.startswith(HOME_CODE) else phone


_SPECS: dict[str, Callable[[Any, str], str]] = {
    "clock": clock,
    "part": part_of_day,
    "weekday": weekday,
    "long": long_day,
    "month": month,
    "upper": lambda value, _: sms.plain(value).upper(),
    "clip": lambda value, _: clipped(value),
    "phone": lambda value, _: dialled(value),
}


def _pair(value: tuple[Any, ...], language: str) -> str:
    if isinstance(value[0], datetime):
        return hours(value[0], value[1], language)
    return days(value[0], value[1], language)


def shown(value: Any, spec: str, language: str, *, room: int = 3) -> str:
    """
    *value* as written in *language*.

    A date is a day, a datetime its clock time, a pair of either a range, a list of strings names (at
    most *room* of them); *spec* asks for another form: ``clock part weekday long month upper clip phone``.
    """
    if spec:
        return _SPECS[spec](value, language)
    match value:
        case datetime():
            return clock(value, language)
        case date():
            return day(value, language)
        case Money():
            return money(value)
        case Decimal() | int():
            return number(value)
        case (date(), date()):
            return _pair(value, language)
        case tuple() | list():
            return names(value, language, room=room)
    return sms.plain(str(value))
