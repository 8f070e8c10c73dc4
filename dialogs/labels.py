"""Answers to what is asked about a drug whose hold stands: its label, her milk in the can, why to lift it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from dialogs.grammar.answers import read_choice, read_yes_no
from dialogs.grammar.label import label_not_known, read_label
from dialogs.phrases import animals_of
from dialogs.reading import Problem
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.kinds.instructions import Undo
from service.messages import Say, say

WHY = ("mistake", "no drug given", "another animal")
"""Why a drug is taken out, in the order in which it is asked."""

NOT_AFTER_ALL = frozenset({"acha", "usifute", "hapana", "basi", "no", "leave", "keep", "dont"})
"""First words by which she does not want it taken out after all."""

LEAST_WORDS = 2
"""Words from which an answer of her own is a reason: one alone is thanks, or a slip."""


def is_label(question: Problem) -> bool:
    """Whether *question* is for the hold days of a drug that is written down already."""
    return question.field == "milk_hold_days" and question.amends is not None


def label_told(text: str, question: Problem, now: datetime) -> Mapping[str, Any] | Say | None:
    """The days that *text* tells; what is said where she does not know them; None: it is no answer."""
    told = read_label(text, now=now)
    if told:
        return told
    if not label_not_known(text) or question.draft is None:
        return None
    names = animals_of(question.draft.values)
    if len(names) > 1 or EVERY_ANIMAL in names:
        return say("question.label_unknown_many", names=names)
    return say("question.label_unknown", names=names, first_name=names[0])


def noted(text: str, question: Problem) -> Say | None:
    """What is said to the answer whether the milk of a cow under a drug went out; None: it is no answer."""
    agreed = read_yes_no(text)
    if agreed is None:
        return None
    return say("held.in_it" if agreed else "held.left_out", names=tuple(question.ask.values["names"]))


def why_told(text: str) -> Mapping[str, Any] | Say | None:
    """Why a drug is taken out; what is said where it is not after all; None: it is no answer."""
    choice = read_choice(text, WHY)
    if choice is not None:
        return {"why": WHY[choice]}
    words = text.casefold().replace("'", "").split()
    if words and words[0].strip(".,!") in NOT_AFTER_ALL:
        return say("question.not_undone")
    return {"why": " ".join(text.split())[:60]} if len(words) >= LEAST_WORDS else None


def is_why(question: Problem) -> bool:
    return question.field == "why" and question.draft is not None and question.draft.kind is Undo
