"""Questions: what is asked back where a text cannot be kept as it is. Each one segment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from dialogs import mending, milk_fall, price_or_sum, secret, texts, told_before
from dialogs.offers import offered
from dialogs.outcome import EXAMPLE
from dialogs.phrases import animals_of, describe, who
from dialogs.reading import Code, Draft, Problem
from service import sms
from service.husbandry.forms import Sort, field_of
from service.husbandry.herd import Person
from service.messages import Say, say

Nobody: Mapping[str, Person] = {}


def question(
    problem: Problem,
    language: str,
    *,
    people: Mapping[str, Person] = Nobody,
    today: date | None = None,
    example: str = EXAMPLE,
    room: int = texts.SEGMENT,
) -> str:
    """
    The question or sentence that *problem* puts to the sender.

    Args:
        problem: What holds the text back.
        language: sw, en.
        people: Whom to call, where the text could not be read at all.
        today: The day against which the record's day is named; None: no day is named.
        example: The name of one of the farm's cows, for examples.
        room: Septets that it may take.
    """
    if problem.code is Code.NOT_UNDERSTOOD or problem.draft is None:
        key = "ask.not_understood_danger" if problem.ask.values.get("danger") else "ask.not_understood"
        return texts.render(Say(key, {"name": example, "who": who(people, "vet")}), language, room=room)
    if problem.ask.values.get("danger"):
        call = texts.render(say("ask.danger", who=who(people, "vet")), language, room=0)
        left = room - sms.septets(call) - 1
        rest = question(_calm(problem), language, people=people, today=today, example=example, room=left)
        return f"{call} {rest}"
    if problem.code in {Code.WHICH_ANIMAL, Code.UNKNOWN_ANIMAL}:
        return _with_choices(problem, problem.draft, language, room)
    text = ""
    for named in (True, False):
        asked = _asked(problem, problem.draft, language, today, people, named=named)
        # What is only asked for beside a record that stands is not said to be unwritten.
        tail = () if problem.ask.values.get("kept") else (say("ask.not_yet"),)
        text = texts.compose(asked, *tail, language=language, room=room)
        if texts.fits(text, room):
            break
    return text


def _calm(problem: Problem) -> Problem:
    """*problem* asked without whom to call: that is said already."""
    values = {name: value for name, value in problem.ask.values.items() if name != "danger"}
    return replace(problem, ask=Say(problem.ask.key, values))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _asked(
    problem: Problem,
    draft: Draft,
    language: str,
    today: date | None,
    people: Mapping[str, Person],
    *,
    named: bool,
) -> Say:
    kind, known = draft.kind.KIND, draft.values
    dated = today is not None and problem.code is not Code.IN_FUTURE
    what = _capital(describe(kind, known, language, today=today, named=named, dated=dated))
    if secret.is_asked(problem):
        return secret.worded(problem)
    match problem.code:
        case Code.MISSING:
            return _missing(problem, draft, what)
        case Code.OUT_OF_RANGE:
            return _out_of_range(problem, draft, language, named=named)
        case Code.IN_FUTURE:
            return say("ask.in_future", what=what)
    deed = _capital(describe(kind, known, language, today=today, named=False, dated=dated))
    if mending.is_asked(problem):
        return mending.worded(problem, what, language, today)
    if told_before.is_asked(problem):
        return told_before.worded(problem, draft, language, today)
    if milk_fall.is_asked(problem):
        asked = milk_fall.worded(problem)
        return Say(asked.key, {**asked.values, "who": who(people, "vet")})
    return _doubt(problem, draft, {"what": what, "deed": deed}, people)


def _missing(problem: Problem, draft: Draft, what: str) -> Say:
    """What is left out; said another way where values or names are offered for an answer."""
    name = draft.values.get("name") if draft.kind.KIND == "new_animal" else None
    told: dict[str, Any] = {"what": what if name is None else f"{what} {name}", **offered(problem)}
    if problem.field in {"milk_hold_days", "why"}:
        return _hold_asked(problem, draft)
    asked, keys = f"ask.missing.{draft.kind.KIND}.{problem.field}", []
    if len(told) > 1:
        keys.append(f"{asked}.offered")
    elif problem.options and field_of(draft.kind, problem.field or "").sort is Sort.WORDS:
        told["choices"] = numbered(problem.options)
        keys.append(f"{asked}.choice")
    keys += [asked, f"ask.missing.{problem.field}", "ask.missing"]
    return Say(next(key for key in keys if texts.has(key)), told)


def _hold_asked(problem: Problem, draft: Draft) -> Say:
    """What the label says of the milk, or why its hold is to be lifted; whose milk it is stays in it."""
    key = f"ask.missing.{'undo.why' if problem.field == 'why' else problem.field}"
    key = f"{key}.dry_cow" if draft.values.get("dry_cow") else key
    return say(key, names=tuple(problem.ask.values.get("names", ())) or animals_of(draft.values))


def _doubt(problem: Problem, draft: Draft, told: Mapping[str, str], people: Mapping[str, Person]) -> Say:
    why = problem.ask.values.get("why")
    key = f"ask.confirm.{why}"
    asked_of = tuple(problem.ask.values.get("names", ()))
    names = asked_of or animals_of(draft.values) or problem.options[:1] or (problem.name or "",)
    values: dict[str, Any] = {**told, "names": names, "who": who(people, "vet")}
    asked = problem.ask.values
    values |= {name: asked[name] for name in ("listed", "read_out") if name in asked}
    if price_or_sum.is_asked(problem):
        values |= {"litres": draft.values["litres"], "sum": price_or_sum.sum_told(draft)}
    return Say(key if texts.has(key) else "ask.confirm", values)


def _out_of_range(problem: Problem, draft: Draft, language: str, *, named: bool) -> Say:
    known = {name: value for name, value in draft.values.items() if name != problem.field}
    what = _capital(describe(draft.kind.KIND, known, language, named=named, dated=False))
    if problem.field is None:
        return say("ask.out_of_range", what=what)
    field = field_of(draft.kind, problem.field)
    match field.sort:
        case Sort.NUMBER if field.low is not None and field.high is not None:
            return say("ask.out_of_range.between", what=what, low=field.low, high=field.high)
        case Sort.NAME:
            return say("ask.out_of_range.name")
        case Sort.PHONE:
            return say("ask.out_of_range.phone")
        case Sort.DAY | Sort.MOMENT | Sort.MONTH:
            return say("ask.out_of_range.day", what=what)
    return say("ask.out_of_range", what=what)


def numbered(names: tuple[str, ...]) -> str:
    """``1 Neema 2 Zawadi``."""
    return " ".join(f"{number} {sms.plain(name)}" for number, name in enumerate(names, 1))


def _with_choices(problem: Problem, draft: Draft, language: str, room: int) -> str:
    """The question with as many numbered names as fit."""
    what = _capital(describe(draft.kind.KIND, draft.values, language, named=False, dated=False))
    values = {"what": what, "name": problem.name or ""}
    key = f"ask.{problem.code.value}"
    if problem.code is Code.UNKNOWN_ANIMAL and problem.name is None:
        key = "ask.which_animal"
    for count in range(len(problem.options), 0, -1):
        asked = Say(key, {**values, "choices": numbered(problem.options[:count])})
        # What is only asked for beside a record that stands is not said to be unwritten.
        tail = () if problem.ask.values.get("kept") else (say("ask.not_yet"),)
        text = texts.compose(asked, *tail, language=language, room=room)
        if texts.fits(text, room):
            return text
    return texts.compose(Say(f"{key}_plain", values), say("ask.not_yet"), language=language, room=room)
