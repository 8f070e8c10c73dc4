"""The farm's own rules, and the people to call: settings and contacts."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import phonenumbers

from dialogs.grammar import slots, words
from dialogs.grammar.found import Found, Scene, display, is_strange
from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item
from dialogs.grammar.when import Clock, Day, Part, collect, hours_of
from dialogs.grammar.whole import RECORDS, Whole, task_of
from service.husbandry.kinds import Contact, Setting


def contact(whole: Whole) -> list[Found] | None:
    phone = next((item for item in whole.items if item.sort == "phone"), None)
    digits = phone or next(
        (i for i in whole.items if i.sort == "number" and i.word.isdigit() and len(i.word) >= 9), None
    )
    if digits is None:
        return None
    number = e164(digits.word, whole.scene)
    roles = {concept for token in whole.scene.text.tokens for concept in words.meanings(token.word)}
    role = "vet" if "vet" in roles else "technician" if roles & {"technician", "ai"} else "other"
    values: dict[str, Any] = {"role": role, "on": whole.scene.now.date()}
    if number is not None:
        values["phone"] = number
    name = _person(whole, digits)
    if name is not None:
        values["name"] = name
    return [Found(Contact, values, flags=[] if number is not None else ["bad_phone"])]


def e164(written: str, scene: Scene) -> str | None:
    """A phone number as written, in E.164; None where it is none."""
    try:
        parsed = phonenumbers.parse(written, scene.place.region)
    except phonenumbers.NumberParseException:
        return None
    if not phonenumbers.is_possible_number(parsed):
        return None
    return str(phonenumbers.format_number(parsed, phonenumbers.PhoneNumberFormat.E164))


def _person(whole: Whole, phone: Item) -> str | None:
    items = whole.items
    for index, item in enumerate(items):
        if item.has("vet", "technician", "named", "role_other"):
            named = slots.name_after(whole.clause, index)
            if named is not None and named[1][0] is not phone:
                return named[0]
    strange = next((i for i in items if is_strange(i) or i.sort == "animal"), None)
    if strange is None:
        return None
    named = slots.name_after(whole.clause, whole.clause.index(strange) - 1)
    return named[0] if named else display(whole.scene.text, strange)


_DAYS = {"day": 1, "week": 7, "month": 30, "year": 365}


def setting(whole: Whole) -> list[Found] | None:
    if any(i.has("yield") and not i.denied for i in whole.items if i.sort == "cue"):
        return None  # "every milking cow gave 4 litres"
    interval = _interval(whole)
    task = task_of(whole.items)
    base: dict[str, Any] = {"on": whole.scene.now.date()}
    if interval is not None and task is None:
        task = _TASK_OF.get(head_of(whole.items) or "")
    if interval is not None and task is not None and not _told(whole):
        return [Found(Setting, {**base, "task": task, "every_days": interval})]
    if whole.has("remind", "set_word") and not whole.animals and not whole.has(*RECORDS):
        hour = None if whole.has("later") or _to_come(whole) else _hour(whole)
        if hour is not None:
            return [Found(Setting, {**base, "hour": Decimal(hour)})]
        if task is not None and not whole.asks:
            days = next((i for i in whole.items if i.sort == "number" and i.unit in _DAYS), None)
            if days is not None:
                return [
                    Found(
                        Setting, {**base, "task": task, "every_days": days.value * _DAYS[days.unit or "day"]}
                    )
                ]
            if whole.has("remind") and not whole.has("later"):
                return [Found(Setting, {**base, "task": task})]
    return None


_TASK_OF = {
    "spraying": "spray",
    "deworming": "deworm",
    "disinfection": "disinfect",
    "weight": "weigh",
    "girth": "weigh",
    "vaccination": "vaccinate",
    "milk": "milk_record",
}


def _to_come(whole: Whole) -> bool:
    """Whether a later day is named: "remind me about 2 tomorrow" sets no hour."""
    today = whole.scene.now.date()
    return any(i.sort == "when" and isinstance(i.value, Day) and i.value.on > today for i in whole.items)


def _told(whole: Whole) -> bool:
    return any(
        i.sort == "cue" and i.prefix[:4] in ("nime", "tume", "nili", "tuli") and not i.has("remind")
        for i in whole.items
    )


def _interval(whole: Whole) -> Decimal | None:
    """Days of "every 14", "kila siku 14", "every two weeks", "every Monday"."""
    items = whole.items
    for index, item in enumerate(items):
        if item.word in ("daily", "weekly", "monthly") and not item.corrected:
            return Decimal({"daily": 1, "weekly": 7, "monthly": 30}[item.word])
        if not item.has("every"):
            continue
        follows = items[index + 1 : index + 3]
        if not follows:
            continue
        first = follows[0]
        if first.sort == "number" and first.unit in (None, *_DAYS):
            return Decimal(first.value * _DAYS[first.unit or "day"])
        span = first.starts("span.")
        if span in _DAYS:
            return Decimal(_DAYS[span])
        if first.starts("weekday.") is not None or (first.sort == "when" and isinstance(first.value, Day)):
            return Decimal(7)
    return None


def _hour(whole: Whole) -> int | None:
    when = collect(whole.items)
    clock, part = when.clock, when.part
    if clock is None:
        number = next(
            (i for i in whole.items if i.sort == "number" and (i.unit in (None, "hour")) and i.value < 24),
            None,
        )
        if number is None or not whole.has("remind", "service_word", "set_hour"):
            return None
        clock = Clock(int(number.value), 0, "saa" if number.unit == "hour" else "exact")
    return _settled(clock, part)


def _settled(clock: Clock, part: Part | None) -> int:
    hours = hours_of(clock, part.name if part else None)
    return next((h for h in hours if 4 <= h <= 11), hours[0])
