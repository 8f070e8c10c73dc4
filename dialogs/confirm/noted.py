"""The plain answer to a record: it is written down."""

from __future__ import annotations

from dialogs.outcome import Outcome
from dialogs.phrases import summary
from service.husbandry.herd import Told
from service.messages import Say, say

Ways = tuple[tuple[Say, ...], ...]
"""Ways of saying the same, the fullest first, each as sentences."""


def one_way(*says: Say) -> Ways:
    return (says,)


def noted(told: Told, outcome: Outcome, language: str) -> Ways:
    return follow(told, outcome, language, *outcome.follows.get(told.id, ()))


def follow(told: Told, outcome: Outcome, language: str, *says: Say) -> Ways:
    """It is written down, and what follows from it."""
    return one_way(say("noted", what=summary(told.entry, language, today=outcome.today)), *says)
