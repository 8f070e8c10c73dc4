"""
How soon a vet must see an animal, by the signs told and by where it stands in its life.

A sorting, never a diagnosis: now, today, or watched until the next morning. Only a single mild sign of a
grown animal is ever watched; whatever may be worse is sorted as the worse. Pure: dates in, a sort out.

Source: docs/trade/illness.md (each sign with its clock and status).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import IntEnum

from service.husbandry.cycle import calving_window, expected_calving
from service.husbandry.herd import Animal
from service.husbandry.intervals import DEFAULTS
from service.husbandry.life import is_calf


class Urgency(IntEnum):
    """When the vet is called; the higher the sooner."""

    WATCH = 0  # told of again tomorrow
    TODAY = 1
    NOW = 2


DANGER = (
    "sudden_death", "down", "bloat", "hard_breathing", "prolapse", "staggering", "bleeding", "wild",
    "drooling", "froth", "cold_ears",
)  # fmt: skip
"""Signs for which the vet is called at once, the one whose care matters most first."""

MILD = ("off_feed", "milk_drop", "lame", "cough", "diarrhoea", "hard_dung", "rough_coat", "ticks")
"""Signs that, alone and on a grown animal at no dangerous time, can be watched for a day; common practice,
no source."""

LEADING = ("afterbirth", "udder_clots", "udder_hard", "mouth_sores", "skin_lumps", "swollen_nodes", "fever")
"""Of signs for the vet today, those named first: they have a care of their own."""

AFTER_CALVING_DAYS = 7
"""Days after a calving on which no sign waits until tomorrow; common practice, no source."""

LATE_PREGNANCY_DAYS = DEFAULTS.steam_up_from_days
"""The last weeks before a calving, on which no sign waits either: three, as for steaming up (East African
manuals, from memory); that they are dangerous is common practice, no source."""

MILK_FEVER_DAYS = 3
"""Days after calving on which weakness alone is for the vet at once (within 72 h of calving; verified)."""

TOGETHER_NOW: tuple[frozenset[str], ...] = (
    frozenset({"afterbirth", "fever"}),
    frozenset({"afterbirth", "off_feed"}),
)
"""Signs that each can wait for the day, but not together (afterbirth with fever or smell: now; verified)."""

SCOUR_NOW = frozenset({"weak", "off_feed", "fever"})
"""With any of these a calf's scour is for the vet at once: it dries out within hours; from memory."""


@dataclass(frozen=True, slots=True)
class Triage:
    """How soon, and the sign that decides it and is named where there is room for one."""

    urgency: Urgency
    sign: str


def triage(signs: Sequence[str], animal: Animal | None, on: date, *, worse: bool = False) -> Triage:
    """
    How urgent *signs* (at least one, as the contract names them) of *animal* are that were seen *on* a day.

    Args:
        signs: In the order told.
        animal: The animal with these signs already in its state; None: nothing is known of it.
        on: Farm-local.
        worse: It is said to be worse than it was: the vet is called one step sooner.
    """
    danger = next((sign for sign in DANGER if sign in signs), None)
    if danger is not None:
        return Triage(Urgency.NOW, danger)
    found = _urgency(set(signs), animal, on)
    if worse:
        found = Urgency(min(found + 1, Urgency.NOW))
    return Triage(found, next((sign for sign in LEADING if sign in signs), signs[0]))


def _urgency(signs: Collection[str], animal: Animal | None, on: date) -> Urgency:
    if any(pair <= set(signs) for pair in TOGETHER_NOW):
        return Urgency.NOW
    if animal is not None and _at_once(signs, animal, on):
        return Urgency.NOW
    mild = len(signs) == 1 and all(sign in MILD for sign in signs)
    if not mild or (animal is not None and _must_not_wait(signs, animal, on)):
        return Urgency.TODAY
    return Urgency.WATCH


def _at_once(signs: Collection[str], animal: Animal, on: date) -> bool:
    if is_calf(animal, on) and "diarrhoea" in signs and not SCOUR_NOW.isdisjoint(signs):
        return True
    return "weak" in signs and _days_after_calving(animal, on, MILK_FEVER_DAYS)


def _must_not_wait(signs: Collection[str], animal: Animal, on: date) -> bool:
    """Whether even a mild sign is for the vet today; ticks are no illness by themselves."""
    if set(signs) == {"ticks"}:
        return False
    return is_calf(animal, on) or is_near_calving(animal, on) or _ill_before(animal, on)


def is_near_calving(animal: Animal, on: date) -> bool:
    """Whether *animal* calved within the week before *on*, or is in the last weeks before it."""
    return _days_after_calving(animal, on, AFTER_CALVING_DAYS) or _late_in_pregnancy(animal, on)


def _days_after_calving(animal: Animal, on: date, days: int) -> bool:
    """A sign told late, of the days just before a calving told since, counts as near it too."""
    if animal.calved_on is None:
        return False
    return -LATE_PREGNANCY_DAYS <= (on - animal.calved_on).days <= days


def _late_in_pregnancy(animal: Animal, on: date) -> bool:
    expected = expected_calving(animal)
    if expected is None:
        return False
    slack = DEFAULTS.guess_days if expected.about else 0
    if on < expected.on - timedelta(LATE_PREGNANCY_DAYS + slack):
        return False
    return animal.in_calf or on <= calving_window(expected).last


def _ill_before(animal: Animal, on: date) -> bool:
    """Whether it was ill on an earlier day already: what was watched once is not watched again."""
    return animal.ill_since is not None and animal.ill_since < on
