"""Answers to treatment, the routine against worms, ticks and disease, and to a death."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from dialogs.confirm.noted import Ways, follow, noted, one_way
from dialogs.holding import half_day, latest, milking, under_a_drug
from dialogs.outcome import Outcome
from dialogs.phrases import who
from service.husbandry.herd import Animal, Told
from service.husbandry.holds import meat_hold
from service.husbandry.kinds.health import Treatment
from service.husbandry.kinds.herd_book import Death
from service.husbandry.life import gives_milk
from service.husbandry.task import day_of
from service.messages import Say, say

WITHOUT_VET = {"accident", "lost", "stolen"}
"""Reasons of a death after which no vet needs to look at the body."""

HALF_A_YEAR = timedelta(days=183)
"""A day further ahead is named with its year."""


def treatment(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animals = told.entry, outcome.animals(told)
    if not isinstance(entry, Treatment) or not animals:
        return noted(told, outcome, language)
    meat, more = _meat(entry, animals, outcome), outcome.follows.get(told.id, ())
    held = under_a_drug(animals, outcome.today)
    if entry.dry_cow and all(a.calved_on is None or a.calved_on < entry.on for a in animals):
        return _dry_cow(entry, more, meat)
    if not held:
        none = [say("hold.none")] if entry.milk_hold_days == 0 and any(map(gives_milk, animals)) else []
        return follow(told, outcome, language, *none, *more, *meat)
    first = latest(held.values())
    known, many = "unknown" if first is None else "hold", "one" if len(animals) == 1 else "many"
    values = {"names": entry.named, "first_name": next(iter(held))}
    if first is None:
        return ((Say(f"treatment.{known}_{many}", values),),)
    text = Say(f"treatment.{known}_{many}", {**values, "milking": milking(first)})
    return (text, *more, *meat), (text, *more), (text,)


def _dry_cow(entry: Treatment, more: tuple[Say, ...], meat: list[Say]) -> Ways:
    """Her milk is held once she calves; how long is counted then."""
    days = entry.milk_hold_days
    known = "" if days else "_unknown" if days is None else "_none"
    text = Say(f"treatment.dry_cow{known}", {"names": entry.named, "count": days})
    return (text, *more, *meat), (text, *more), (text,)


def _meat(entry: Treatment, animals: tuple[Animal, ...], outcome: Outcome) -> list[Say]:
    held = [hold for animal in animals if (hold := meat_hold(animal, outcome.today)) is not None]
    if not held:
        return []
    first = latest(held)
    return [say("treatment.meat") if first is None else say("treatment.meat_until", milking=half_day(first))]


def _hold(told: Told, outcome: Outcome, *, ask: bool) -> list[Say]:
    """What follows for the milk after a routine; *ask*: a hold not told is spoken of."""
    entry: Any = told.entry
    animals = outcome.animals(told)
    more = [*outcome.follows.get(told.id, ())]
    held = under_a_drug(animals, outcome.today)
    if held and entry.milk_hold_days != 0:
        first = latest(held.values())
        if first is not None:
            return [say("hold.first", milking=milking(first)), *more]
        if ask or entry.milk_hold_days is not None:
            return [say("hold.unknown"), *more]
    return more


def _next(told: Told, outcome: Outcome, task: str) -> list[Say]:
    """The next time, where it is the herd's or the same day for all."""
    open_ = [outcome.task(task)] + [outcome.task(task, a) for a in outcome.animals(told)]
    days = {day_of(one.due) for one in open_ if one is not None}
    if not days:
        return []
    far = min(days) - outcome.today > HALF_A_YEAR
    return [say("next.about_year" if far else "next.about", on=min(days))]


def deworming(told: Told, outcome: Outcome, language: str) -> Ways:
    hold = _hold(told, outcome, ask=True)
    return follow(told, outcome, language, *hold, *_next(told, outcome, "deworm"))


def spraying(told: Told, outcome: Outcome, language: str) -> Ways:
    says = (*_hold(told, outcome, ask=False), *_next(told, outcome, "spray"), say("spraying.follow"))
    return follow(told, outcome, language, *says)


def disinfection(told: Told, outcome: Outcome, language: str) -> Ways:
    says = (*_next(told, outcome, "disinfect"), say("disinfection.follow"))
    return follow(told, outcome, language, *says)


def death(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Death) or animal is None:
        return noted(told, outcome, language)
    values = {"name": animal.name, "who": who(outcome.people, "vet")}
    if entry.reason == "slaughtered":
        return one_way(Say("death.slaughtered", values), *_meat_held(animal, entry.on))
    return one_way(Say("death.other" if entry.reason in WITHOUT_VET else "death.sick", values))


def _meat_held(animal: Animal, on: date) -> list[Say]:
    hold = meat_hold(animal, on)
    if hold is None:
        return []
    if hold.first is None:
        return [say("death.meat_unknown", name=animal.name)]
    return [say("death.meat_held", name=animal.name, milking=half_day(hold.first))]
