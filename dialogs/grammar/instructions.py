"""What a sender wants done rather than tells: done, later, undo, questions, language, settings, contacts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal
from typing import Any

import phonenumbers

from dialogs.grammar import slots, words
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, display, is_strange
from dialogs.grammar.heads import Said
from dialogs.grammar.items import Item
from dialogs.grammar.when import Clock, Day, Part, Period, collect
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.kinds import (
    Ask,
    Contact,
    Done,
    Language,
    Later,
    NoAnswer,
    Setting,
    Start,
    Stop,
    Undo,
)

_RECORDS = (
    "heat", "mating", "serve", "ai", "calve", "abort", "yield", "vaccinate", "die", "sell", "buy", "treat", "pregnant",
    "empty", "unwell", "slaughter", "new", "named", "rename", "feed_verb", "deliver",
)  # fmt: skip
"""Meanings that make a text a telling even where an instruction's word stands in it."""


class Whole:
    """A text as a whole, as the rules below look at it."""

    def __init__(self, items: Sequence[Item], scene: Scene) -> None:
        self.items = [item for item in items if not (item.sort == "cue" and item.has("greeting") and len(items) > 1)]
        self.scene = scene
        self.said = Said(self.items)
        self.clause = Clause(scene.text, "", list(self.items))
        self.animals = [item for item in self.items if item.sort == "animal"]
        self.asks = any(i.sort == "mark" and i.word == "?" for i in self.items) or self._question_word()
        self.words = [i for i in self.items if i.sort != "mark"]

    def has(self, *concepts: str) -> bool:
        return self.said.has(*concepts)

    def any(self, *concepts: str) -> bool:
        return self.said.any(*concepts)

    def _question_word(self) -> bool:
        for item in self.items:
            if item.has("question") and (item is self.items[0] or item.word in _SWAHILI_QUESTIONS):
                return True
            if item is self.items[0] and item.word in _ENGLISH_QUESTIONS:
                return True
            if item.word.endswith("je") and len(item.word) > 5 and item.sort in ("word", "cue"):
                return True  # "natumiaje": how do I use it
        return False

    @property
    def plain_numbers(self) -> tuple[int, ...]:
        """Item numbers told: 1 3, 1,3, "1 na 3"."""
        found: list[int] = []
        for item in self.items:
            if item.sort == "number" and item.unit is None and not item.hint:
                pieces = item.word.split(",") if item.digits else [str(item.value)]
                found += [int(float(piece)) for piece in pieces if piece and float(piece) == int(float(piece)) < 100]
            elif item.sort == "date" and "/" in item.word:
                found += [int(piece) for piece in item.word.split("/")]
        return tuple(number for number in found if number > 0)


_SWAHILI_QUESTIONS = (
    "nini", "gani", "je", "lini", "wapi", "vipi", "ngapi", "nani", "yupi", "ipi", "wangapi", "yapi", "yukoje", "ikoje",
    "anaendeleaje", "zipi", "wakoje", "mingapi", "kiasi", "atazaa", "hali", "kwanini", "mbona",
)  # fmt: skip


_ENGLISH_QUESTIONS = ("how", "what", "who", "whom", "whats", "where", "which")


def instructions(items: Sequence[Item], scene: Scene) -> list[Found] | None:
    """The instruction that the whole text is; None where it tells something."""
    whole = Whole(items, scene)
    for rule in _RULES:
        found = rule(whole)
        if found is not None:
            return found
    return None


def _language(whole: Whole) -> list[Found] | None:
    if not whole.has("to_sw", "to_en") or whole.animals or whole.said.count:
        return None
    if not whole.has("language") and len(whole.words) > 3:
        return None
    last = [i for i in whole.items if i.has("to_sw", "to_en") and not i.denied]
    return [Found(Language, {"to": "sw" if last[-1].has("to_sw") else "en"})] if last else None


def _stop_start(whole: Whole) -> list[Found] | None:
    if whole.animals or whole.has(*_RECORDS) or whole.said.count and not whole.has("service_word"):
        return None
    if whole.has("start") and not whole.asks and not (whole.has("stop") and not _again(whole)) and _short(whole, 9):
        return [Found(Start, {})]
    if whole.has("stop") and not whole.asks and not whole.has("spray", "deworm", "milk", "dry") and _short(whole, 9):
        return [Found(Stop, {})]
    return None


def _again(whole: Whole) -> bool:
    return any(item.word in ("tena", "again", "kurudi", "back") for item in whole.items)


def _short(whole: Whole, most: int) -> bool:
    return len(whole.words) <= most


def _no_answer(whole: Whole) -> list[Found] | None:
    if any(i.has("no_answer") for i in whole.items if i.sort == "cue") and not whole.animals:
        return [Found(NoAnswer, {})]
    return None


def _contact(whole: Whole) -> list[Found] | None:
    phone = next((item for item in whole.items if item.sort == "phone"), None)
    digits = phone or next((i for i in whole.items if i.sort == "number" and i.digits and len(i.word) >= 8), None)
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


_TASK_FIRST = ("weigh", "pregnancy_check", "return_heat", "calf_feed", "deworm", "spray", "disinfect", "vaccinate",
               "dry_off", "weaning", "steam_up", "serve", "milk_record", "statement", "calving", "heat_after_calving",
               "first_service")  # fmt: skip


def task_of(items: Sequence[Item]) -> str | None:
    """The task named in words, if one is."""
    told = [item.starts("task.") for item in items if item.sort == "cue"]
    tasks = [task for task in told if task is not None]
    return next((task for task in _TASK_FIRST if task in tasks), None)


def _done(whole: Whole) -> list[Found] | None:
    if not whole.has("done") or whole.asks:
        return None
    task, numbers = task_of(whole.items), whole.plain_numbers
    others = [i for i in whole.items if i.sort == "cue" and i.has(*_RECORDS) and not any(c.startswith("task.") for c in i.concepts)]
    measured = any(i.unit in ("l", "kg", "cm", "ml", "money") for i in whole.items if i.sort == "number")
    if others or measured or (whole.animals and task is None):
        return None
    if task is not None and _finished_verb(whole):
        return None
    values: dict[str, Any] = {"numbers": numbers if task is None else (), "on": whole.scene.now.date()}
    if task is not None:
        values["task"] = task
        values["animals"] = _animals(whole)
        return [Found(Done, values)]
    values["animals"] = ()
    if not numbers and not _short(whole, 4):
        return None
    return [Found(Done, values)]


def _finished_verb(whole: Whole) -> bool:
    """ "tayari nimeogesha": a verb that tells the work itself."""
    return any(
        i.sort == "cue" and i.prefix[:3] in ("nim", "tum", "nil", "tul", "nime", "ame", "wam") and not i.has("done")
        and i.has("spray", "deworm", "vaccinate", "disinfect", "dry", "wean", "serve", "measure")
        for i in whole.items
    )  # fmt: skip


def _animals(whole: Whole) -> tuple[str, ...]:
    if whole.has("everyone"):
        return (EVERY_ANIMAL,)
    named = [i.value.name for i in whole.animals if i.value is not None]
    if not named and whole.scene.names.open:
        named = [display(whole.scene.text, i) for i in whole.items if is_strange(i)]
    return tuple(named)


def _later(whole: Whole) -> list[Found] | None:
    if not (whole.any("later") or _tomorrow(whole)) or whole.asks or whole.animals or whole.has(*_RECORDS):
        return None
    others = [i for i in whole.items if i.sort == "cue" and not i.has("later", "remind", "task_word", "greeting", "not_yet")
              and not i.starts("task.")]  # fmt: skip
    if [i for i in others if not i.has("set_word", "negation")] or not _short(whole, 8):
        return None
    return [Found(Later, {"numbers": whole.plain_numbers})]


def _tomorrow(whole: Whole) -> bool:
    """ "kesho 2": the second item, tomorrow."""
    return any(i.sort == "when" and isinstance(i.value, Day) and i.value.on > whole.scene.now.date() for i in whole.items)


_DAYS = {"day": 1, "week": 7, "month": 30, "year": 365}


def _setting(whole: Whole) -> list[Found] | None:
    interval = _interval(whole)
    task = task_of(whole.items)
    base: dict[str, Any] = {"on": whole.scene.now.date()}
    if interval is not None and task is not None and not _told(whole):
        return [Found(Setting, {**base, "task": task, "every_days": interval})]
    if whole.has("remind", "set_word") and not whole.animals and not whole.has(*_RECORDS):
        hour = _hour(whole)
        if hour is not None:
            return [Found(Setting, {**base, "hour": Decimal(hour)})]
        if task is not None and not whole.asks:
            days = next((i for i in whole.items if i.sort == "number" and i.unit in _DAYS), None)
            if days is not None:
                return [Found(Setting, {**base, "task": task, "every_days": days.value * _DAYS[days.unit or "day"]})]
            if whole.has("remind") and not whole.has("later"):
                return [Found(Setting, {**base, "task": task})]
    return None


def _told(whole: Whole) -> bool:
    return any(i.sort == "cue" and i.prefix[:4] in ("nime", "tume", "nili", "tuli") and not i.has("remind") for i in whole.items)


def _interval(whole: Whole) -> Decimal | None:
    """Days of "every 14", "kila siku 14", "every two weeks", "every Monday"."""
    items = whole.items
    for index, item in enumerate(items):
        if item.word in ("daily", "weekly", "monthly"):
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
        if first.starts("weekday.") is not None or first.sort == "when" and isinstance(first.value, Day):
            return Decimal(7)
    return None


def _hour(whole: Whole) -> int | None:
    when = collect(whole.items)
    clock, part = when.clock, when.part
    if clock is None:
        number = next((i for i in whole.items if i.sort == "number" and (i.unit in (None, "hour")) and i.value < 24), None)
        if number is None or not whole.has("remind", "service_word", "set_hour"):
            return None
        clock = Clock(int(number.value), 0, "saa" if number.unit == "hour" else "exact")
    return _settled(clock, part)


def _settled(clock: Clock, part: Part | None) -> int:
    from dialogs.grammar.when import _hours

    hours = _hours(clock, part.name if part else None)
    return next((h for h in hours if 4 <= h <= 11), hours[0])


_TOPICS: tuple[tuple[str, str], ...] = (
    ("ask_mix", "mix"), ("ask_dose", "dose"), ("ask_call", "call"), ("statement", "statement"), ("ask_entries", "entries"),
    ("ask_price", "price"), ("ask_tasks", "tasks"), ("ask_herd", "herd"),
)  # fmt: skip


def _ask(whole: Whole) -> list[Found] | None:
    if whole.has("help") and not whole.animals and not whole.said.count and not whole.has("calve"):
        return [Found(Ask, {"topic": "help", "about": _about(whole)})]
    amounts = any(i.sort == "number" and i.unit in ("l", "kg", "cm", "ml", "money") for i in whole.items) or bool(slots.sums(whole.clause))
    if amounts and not whole.asks:
        return None
    topic = _topic(whole)
    if topic is not None:
        return [Found(Ask, topic)]
    return None


def _topic(whole: Whole) -> dict[str, Any] | None:
    for concept, topic in _TOPICS:
        if not whole.has(concept) or not _meant(whole, concept):
            continue
        values: dict[str, Any] = {"topic": topic}
        if topic == "tasks":
            values["period"] = _period(whole)
        if topic == "statement":
            values["month"] = _month(whole)
        if topic == "call":
            values["about"] = None
        return values
    animal = _asked_animal(whole)
    if whole.has("milk", "yield") and (whole.asks or (whole.has("about_animal") and not whole.said.count)) and not whole.has("serve"):
        return {"topic": "milk", "animal": animal}
    if whole.has("milk") and not whole.said.count and _period_told(whole) and _short(whole, 7) and not whole.said.sign("sign."):
        return {"topic": "milk", "animal": animal}
    if animal is None:
        return None
    if whole.asks or (whole.has("about_animal") and not _tells(whole)):
        return {"topic": "animal", "animal": animal}
    if len(whole.words) == 1 and len(whole.animals) == 1:
        return {"topic": "animal", "animal": animal}
    return None


def _tells(whole: Whole) -> bool:
    return whole.said.count > 0 or whole.has(*_RECORDS) or whole.said.sign("sign.") or whole.said.sign("heat.")


def _meant(whole: Whole, concept: str) -> bool:
    """Whether a word that names a topic asks for it here."""
    if whole.asks:
        return not (concept in ("ask_herd", "ask_tasks", "ask_price", "ask_entries") and bool(whole.animals))
    if concept in ("ask_dose", "ask_mix") and (whole.animals or whole.has("give", "treat", "deworm", "spray")):
        return whole.has("how") or not whole.animals and not whole.has("treat", "give", "spray", "deworm") and _short(whole, 5)
    if whole.animals or whole.has("serve", "calve", "sell", "buy", "pay", "spend", "vaccinate", "heat", "treat", "deworm",
                                  "spray", "done", "deliver", "die", "new", "feed_verb", "unwell"):  # fmt: skip
        return False
    if whole.said.sign("sign.") or whole.said.count:
        return concept in ("statement", "ask_tasks", "ask_entries") and not whole.said.sign("sign.") and concept != "ask_tasks"
    return _short(whole, 7)


def _about(whole: Whole) -> str | None:
    rest = [i for i in whole.items if i.sort in ("cue", "word") and not i.has("help", "greeting") and not (
        i.sort == "word" and i.known)]  # fmt: skip
    return whole.scene.text.written(rest[0].start, rest[-1].end) if rest else None


def _period_told(whole: Whole) -> bool:
    return any(i.sort == "when" and isinstance(i.value, Period) for i in whole.items)


def _period(whole: Whole) -> str | None:
    for item in whole.items:
        if item.sort == "when" and isinstance(item.value, Period):
            return item.value.name if item.value.name in ("week", "month") else None
        if item.sort == "when" and isinstance(item.value, Day) and item.value.on == whole.scene.now.date():
            return "today"
        if item.sort != "cue":
            continue
        written = whole.scene.text.written(item.start, item.end).lower().split()
        for words, period in ((("leo", "today", "todays", "today's", "siku"), "today"), (("wiki", "week"), "week"), (("mwezi", "month"), "month")):
            if any(w in words for w in written):
                return period
        span = item.starts("span.")
        if span in ("week", "month"):
            return span
    return None


def _month(whole: Whole) -> date | None:
    for item in whole.items:
        if item.sort == "when" and isinstance(item.value, Day):
            return item.value.on.replace(day=1)
        if item.sort == "when" and isinstance(item.value, Period) and item.value.name == "month":
            return whole.scene.now.date().replace(day=1)
    return None


def _asked_animal(whole: Whole) -> str | None:
    for item in whole.animals:
        if item.value is not None:
            return str(item.value.name)
    if not whole.scene.names.open:
        return None
    return next((display(whole.scene.text, i) for i in whole.items if is_strange(i)), None)


def _undo(whole: Whole) -> list[Found] | None:
    if whole.has("undo") and not whole.animals and not whole.said.count and not whole.asks and _short(whole, 8):
        return [Found(Undo, {})]
    return None


_RULES: tuple[Callable[[Whole], list[Found] | None], ...] = (
    _no_answer, _contact, _language, _undo, _stop_start, _setting, _done, _later, _ask,
)  # fmt: skip
