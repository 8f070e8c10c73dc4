"""
A fall of milk: told of with a question, answered by a number or its words.

The question says by how much and since when. What is answered becomes a record: heat, illness, or why the
milk is less.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from dialogs.grammar.answers import read_choice
from dialogs.reading import Code, Draft, Problem
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.kinds.health import Illness, Recovery, Treatment
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.milk import MilkReason
from service.husbandry.milk_alarm import Alarm
from service.messages import Say, say

COW, SUM, HERD, UDDER = "milk_fall", "milk_fall_sum", "milk_fall_herd", "milk_fall_udder"

HEAT, OFF_FEED, IN_UDDER, FEED, CALF, UNKNOWN = range(6)
OF_HERD = ("feed_water", "weather", "sick", "unknown")

CHOICES: dict[str, tuple[tuple[str, ...], ...]] = {
    COW: (
        ("joto la kupandwa", "hataki kula", "kiwele", "chakula au maji", "ndama amenyonya", "sijui"),
        ("heat", "not eating", "udder", "feed or water", "calf sucked", "don't know"),
    ),
    HERD: (
        ("chakula au maji", "mvua au baridi", "wanaumwa", "sijui"),
        ("feed or water", "weather", "sick", "don't know"),
    ),
    UDDER: (("kigumu", "mabonge", "vyote"), ("hard", "clots", "both")),
}
CHOICES[SUM] = CHOICES[HERD]
"""What can be answered to each question, in the order in which it is asked; by its number too."""

SIGNS = (("udder_hard",), ("udder_clots",), ("udder_hard", "udder_clots"))
"""What is seen of the udder, in the order in which it is asked."""

SETTLE = (Heat, Illness, Treatment, Recovery, MilkReason)
"""Kinds whose telling says what it was."""


def question(alarm: Alarm, name: str | None, *, of: Sequence[int]) -> Problem:
    """
    The question about *alarm*.

    Args:
        alarm: What was found.
        name: The cow's; None: it is the herd.
        of: The ids of the milkings that showed it: with them taken back, nothing is asked.
    """
    why = COW if name is not None else HERD if alarm.litres is None else SUM
    told = {
        "gave": _written(alarm.litres),
        "usual": _written(alarm.usual),
        "percent": alarm.percent,
        "count": alarm.cows,
        "number": (alarm.found_on - alarm.since).days + 1,
        "of": list(of),
    }
    return Problem(
        code=Code.CONFIRM,
        ask=say(f"ask.confirm.{why}", why=why, kept=True, **told),
        draft=Draft(kind=MilkReason, values={"animal": name or EVERY_ANIMAL, "on": alarm.found_on}),
    )


def _written(litres: Decimal | None) -> str | None:
    """To the half litre, which is how it is measured."""
    return None if litres is None else str((2 * litres).quantize(Decimal(1), ROUND_HALF_UP) / 2)


def is_asked(problem: Problem) -> bool:
    return problem.ask.values.get("why") in CHOICES


def rests_on(problem: Problem) -> frozenset[int]:
    """The ids of the entries without which the question falls away."""
    return frozenset(problem.ask.values.get("of", ()))


def is_settled_by(entry: Entry, problem: Problem) -> bool:
    """Whether *entry*, told by itself, says what the fall was."""
    return is_asked(problem) and isinstance(entry, SETTLE) and _name(problem) in entry.named


def _name(problem: Problem) -> str:
    return "" if problem.draft is None else str(problem.draft.values["animal"])


def worded(problem: Problem) -> Say:
    """The question in words, but for whom to call."""
    told = problem.ask.values
    values: dict[str, Any] = {"name": _name(problem)}
    if told["why"] != UDDER:
        values |= {name: told[name] for name in ("percent", "count", "number")}
    if told.get("gave") is not None:
        values |= {name: Decimal(told[name]) for name in ("gave", "usual")}
    return Say(f"ask.confirm.{told['why']}", values)


def answered(text: str, problem: Problem, draft: Draft, now: datetime) -> Draft | Problem | Say | None:
    """
    What *text* tells in answer: a record, what is asked next, or what is only said to it.

    None: it is no answer.
    """
    why = problem.ask.values["why"]
    chosen = (read_choice(text, words) for words in CHOICES[why])
    choice = next((one for one in chosen if one is not None), None)
    if choice is None:
        return None
    if why == UDDER:
        return _ill(draft, now.date(), *SIGNS[choice])
    if why == COW:
        return _of_cow(choice, draft, now)
    reason = OF_HERD[choice]
    return say("milk_fall.sick") if reason == "sick" else _reason(draft, reason)


def _of_cow(choice: int, draft: Draft, now: datetime) -> Draft | Problem:
    match choice:
        case 0:
            seen = {"animal": draft.values["animal"], "first_seen": now, "signs": ("milk_drop",)}
            return Draft(kind=Heat, values=seen)
        case 1:
            return _ill(draft, now.date(), "off_feed")
        case 2:
            return Problem(
                code=Code.CONFIRM, ask=say(f"ask.confirm.{UDDER}", why=UDDER, kept=True), draft=draft
            )
    return _reason(draft, {FEED: "feed_water", CALF: "calf"}.get(choice, "unknown"))


def _ill(draft: Draft, on: date, *signs: str) -> Draft:
    values = {"animal": draft.values["animal"], "on": on, "signs": (*signs, "milk_drop")}
    return Draft(kind=Illness, values=values)


def _reason(draft: Draft, reason: str) -> Draft:
    return Draft(kind=MilkReason, values={**draft.values, "reason": reason})
