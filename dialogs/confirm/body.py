"""Answers to girth, weight and condition: what the measure tells at this animal's stage, and how surely."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from dialogs.confirm.noted import Ways, follow, noted
from dialogs.outcome import Outcome
from service.husbandry import girth as tapes
from service.husbandry.condition import WANTED, Found, Stage, found, lost_too_much, stage
from service.husbandry.heifers import Reached, reached, target
from service.husbandry.herd import Animal, Status, Told
from service.husbandry.intervals import DEFAULTS
from service.husbandry.kinds.body import Condition, Girth, Weight
from service.husbandry.life import status
from service.husbandry.months import months_after
from service.messages import Say, say

TOO_SOON = timedelta(days=28)
"""Between two measures by tape that can show a change. Girth does not follow a season's change of weight
(Goopy et al. 2018, verified); four weeks are Byreline's own choice."""


def girth(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Girth) or animal is None:
        return noted(told, outcome, language)
    weight = tapes.weight_of(animal, entry.cm, entry.on)
    if weight is None:
        return follow(told, outcome, language, say("girth.no_weight"))
    says = [
        say("girth.weight", kg=weight.kg, error=weight.error_kg),
        *_for_service(animal, weight.kg, weight.error_kg, entry.on),
    ]
    again = say("girth.too_soon" if _too_soon(animal, entry.on) else "girth.follow")
    return follow(told, outcome, language, *says, again)


def _too_soon(animal: Animal, on: date) -> bool:
    before = animal.weighed_before
    return animal.weighed_on == on and before is not None and on - before <= TOO_SOON


def weight(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Weight) or animal is None:
        return noted(told, outcome, language)
    return follow(told, outcome, language, *_for_service(animal, entry.kg, Decimal(0), entry.on))


def _for_service(animal: Animal, kg: Decimal, error_kg: Decimal, on: date) -> list[Say]:
    """Whether a heifer that is still to be served is heavy enough, and old enough, for it."""
    if status(animal, on) is not Status.HEIFER or animal.served is not None:
        return []
    wanted = target(animal.breed)
    where = reached(kg, error_kg, wanted)
    of_age = _of_age_on(animal)
    if where is Reached.REACHED and of_age is not None and of_age > on:
        return [say("heifer.too_young", low=wanted.low, high=wanted.high, on=of_age)]
    return [say(f"heifer.{where.value}", low=wanted.low, high=wanted.high)]


def _of_age_on(animal: Animal) -> date | None:
    if animal.born is None:
        return None
    return months_after(animal.born, DEFAULTS.first_service_from_months)


def condition(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Condition) or animal is None:
        return noted(told, outcome, language)
    at = stage(animal, entry.on)
    if at is None:
        return follow(told, outcome, language)
    if animal.condition_on == entry.on and lost_too_much(animal):
        return follow(told, outcome, language, say("condition.lost"))
    meaning = _meaning(entry.score, at)
    full = follow(told, outcome, language, _wanted(at), *meaning)
    return (*full, *follow(told, outcome, language, *meaning)) if meaning else full


def _wanted(at: Stage) -> Say:
    wanted = WANTED[at]
    return say("condition.wanted", when=say(f"condition.at.{at.value}"), low=wanted.low, high=wanted.high)


MEANING = {
    (Stage.DRY_OFF, Found.THIN): "condition.thin_before_calving",
    (Stage.CALVING, Found.THIN): "condition.thin_before_calving",
    (Stage.LATE, Found.THIN): "condition.thin_before_calving",
    (Stage.FRESH, Found.THIN): "condition.thin_before_service",
    (Stage.SERVICE, Found.THIN): "condition.thin_before_service",
    (Stage.HEIFER, Found.THIN): "condition.thin_before_service",
    (Stage.DRY_OFF, Found.FAT): "condition.fat_before_calving",
    (Stage.CALVING, Found.FAT): "condition.fat_before_calving",
    (Stage.LATE, Found.FAT): "condition.fat",
    (Stage.FRESH, Found.FAT): "condition.fat",
    (Stage.SERVICE, Found.FAT): "condition.fat",
    (Stage.HEIFER, Found.FAT): "condition.fat",
}
"""What a score too low or too high costs at each stage, and what to do about it."""


def _meaning(score: Decimal, at: Stage) -> list[Say]:
    key = MEANING.get((at, found(score, at)))
    if key is not None:
        return [say(key)]
    wanted = WANTED[at]
    return [say("condition.good")] if wanted.low <= score <= wanted.high else []
