"""Values typed in full where no number of a list was chosen: read as a text's would be, then checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from dialogs.grammar.answers import read_answer
from dialogs.grammar.items import Item, read_items
from dialogs.grammar.names import Names
from dialogs.grammar.place import Place
from dialogs.grammar.read import prepare
from dialogs.grammar.when import When, collect, day_of, latest_day_of_month, moment_of
from dialogs.screens.state import Caller
from service.husbandry.forms import Field, Sort
from service.husbandry.herd import NAME_LENGTH, Herd
from service.sms import measure

NO_ANIMALS = Herd(())
"""What is typed here names none: a 12 is twelve, also where a cow goes by that number."""

QUARTER = Decimal("0.25")
"""Steps of a condition score."""

LONGEST_WORDS = 60
"""Characters of anything typed; no answer to one question is longer."""


@dataclass(frozen=True, slots=True)
class Wrong:
    """Why an answer cannot be taken: the key of a short word on it, and its values."""

    key: str
    values: Mapping[str, Any] = field(default_factory=dict)


def _items(text: str, caller: Caller) -> list[Item]:
    return prepare(read_items(text, Names.of(NO_ANIMALS)), caller.now)


def _numbers(text: str, caller: Caller) -> list[Decimal]:
    return [item.value for item in _items(text, caller) if item.sort == "number"]


def _day_of_month(text: str, caller: Caller) -> date | None:
    """The latest day of that number, where a number is all that is typed."""
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= 31):
        return None
    return latest_day_of_month(caller.now.date(), int(text))


def _read(text: str, asked: Field, caller: Caller) -> Any:
    if asked.sort is Sort.NAME:
        return text
    if asked.sort in (Sort.NUMBER, Sort.MONEY) and (text.startswith("-") or len(_numbers(text, caller)) > 1):
        return None  # one number is asked for, and none below zero
    if asked.sort is Sort.DAY and text.isdigit():
        return _day_of_month(text, caller)
    place = Place(caller.region, caller.currency)
    value = read_answer(text, asked, now=caller.now, herd=NO_ANIMALS, place=place)
    if asked.sort is Sort.DEDUCTIONS and value and not all(part.what for part in value):
        return None
    return value


def _when(text: str, caller: Caller) -> When:
    return collect(_items(text, caller))


def is_about(text: str, caller: Caller) -> bool:
    """Whether the day typed is a guess: only a month, or "about"."""
    told = _when(text, caller)
    return bool(told) and day_of(told, caller.now).about


def hour_on(on: date, text: str, caller: Caller) -> datetime | None:
    """The moment of the day *on* that *text* tells; None where it tells no hour and no part of the day."""
    told = _when(text, caller)
    if told.clock is None and told.part is None:
        return None
    at = moment_of(told, caller.now)
    return at if at.date() == on and at <= caller.now else None


def _wrong(asked: Field, value: Any, caller: Caller) -> Wrong | None:
    match asked.sort:
        case Sort.NUMBER if asked.low is not None and asked.high is not None:
            if not asked.low <= value <= asked.high:
                return Wrong("wrong.range", {"low": f"{asked.low:f}", "high": f"{asked.high:f}"})
            if asked.name == "score" and value % QUARTER:
                return Wrong("wrong.quarter")
        case Sort.DAY if value > caller.now.date():
            return Wrong("wrong.future")
        case Sort.MOMENT if value > caller.now:
            return Wrong("wrong.future")
        case Sort.MONTH if value > caller.now.date():
            return Wrong("wrong.future")
        case Sort.NAME:
            most = int(asked.high or NAME_LENGTH)  # an animal's, where no other length is set
            fits = 1 <= len(value) <= most and measure(value).encoding == "gsm7"
            return None if fits else Wrong("wrong.name", {"most": most})
    return None


def read(text: str, asked: Field, caller: Caller) -> Any | Wrong:
    """The value of *text* as an answer to *asked*, of the field's declared type; or why there is none."""
    if len(text) > LONGEST_WORDS:
        return Wrong("wrong.long")
    value = _read(text, asked, caller)
    if value is None or value == ():
        return Wrong("wrong.read")
    wrong = _wrong(asked, value, caller)
    return value if wrong is None else wrong
