"""Answers to illness, treatment, the routine against worms, ticks and disease, and to a death."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from dialogs.confirm.breeding import abortion
from dialogs.confirm.noted import Ways, follow, noted, one_way
from dialogs.outcome import Outcome, gives_milk
from dialogs.phrases import signs, who
from service.husbandry.herd import Animal, Told
from service.husbandry.holds import first_sale
from service.husbandry.kinds.health import Illness, Treatment, Vaccination
from service.husbandry.kinds.herd_book import Death
from service.husbandry.task import day_of
from service.messages import Say, say

DANGER = (
    "sudden_death", "down", "bloat", "hard_breathing", "prolapse", "staggering", "bleeding", "wild",
    "drooling", "froth", "cold_ears",
)  # fmt: skip
"""Signs for which the vet is called at once, the one whose care matters most first."""

MEANWHILE_TODAY = (
    ("afterbirth", "afterbirth"),
    ("udder_clots", "udder"),
    ("udder_hard", "udder"),
    ("mouth_sores", "mouth_sores"),
)
"""Signs that have a care of their own until the vet comes the same day, and its text."""

WITHOUT_VET = {"accident", "lost", "stolen"}
"""Reasons of a death after which no vet needs to look at the body."""

HALF_A_YEAR = timedelta(days=183)
"""A day further ahead is named with its year."""


def illness(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Illness) or animal is None:
        return noted(told, outcome, language)
    if "abortion" in entry.signs:
        return abortion(told, outcome, language)
    values = {"name": animal.name, "who": who(outcome.people, "vet")}
    danger = next((sign for sign in DANGER if sign in entry.signs), None)
    if danger == "sudden_death":
        return one_way(Say("illness.sudden", {**values, "meanwhile": say("meanwhile.sudden_death")}))
    if entry.signs == ("ticks",):
        return one_way(Say("illness.ticks", values))
    key, main = ("today", _main(entry.signs)) if danger is None else ("danger", danger)
    values["meanwhile"] = say(f"meanwhile.{danger or _care(entry.signs)}")
    return tuple(
        (Say(f"illness.{key}", {**values, "what": signs(those, language)}),)
        for those in (entry.signs, (main,))
    )


def _main(those: tuple[str, ...]) -> str:
    """The sign named where there is room for one: one with a care of its own, else the first."""
    return next((sign for sign, _ in MEANWHILE_TODAY if sign in those), those[0])


def _care(those: tuple[str, ...]) -> str:
    return next((text for sign, text in MEANWHILE_TODAY if sign in those), "default")


def treatment(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animals = told.entry, outcome.animals(told)
    if not isinstance(entry, Treatment) or not animals:
        return noted(told, outcome, language)
    milkers = tuple(animal for animal in animals if gives_milk(animal))
    meat = _meat(entry, outcome)
    if not milkers:
        return follow(told, outcome, language, *meat)
    if entry.milk_hold_days == 0:
        return follow(told, outcome, language, say("hold.none"), *meat)
    first = first_milk(entry, milkers)
    if first is not None and first <= outcome.today:
        return follow(told, outcome, language, *meat)
    names = entry.named
    values = {"names": names, "first_name": milkers[0].name, "first": first}
    many = "one" if len(animals) == 1 else "many"
    known = "unknown" if first is None else "hold"
    text = Say(f"treatment.{known}_{many}", values)
    return ((text, *meat), (text,)) if known == "hold" else ((text,),)


def first_milk(entry: Any, animals: tuple[Animal, ...]) -> date | None:
    """The day whose morning milk of all of *animals* may be sold; None where no hold is known."""
    if entry.milk_hold_days is None:
        return None
    ends = [first_sale(entry.on, entry.milk_hold_days), *(a.milk_held_until for a in animals)]
    return max((end for end in ends if end is not None), default=None)


def _meat(entry: Any, outcome: Outcome) -> list[Say]:
    if entry.meat_hold_days is None:
        return [say("treatment.meat")]
    first = first_sale(entry.on, entry.meat_hold_days)
    return [say("treatment.meat_until", first=first)] if first is not None and first > outcome.today else []


def _hold(told: Told, outcome: Outcome, *, ask: bool) -> list[Say]:
    """What follows for the milk after a routine; *ask*: a hold not told is spoken of."""
    entry: Any = told.entry
    milkers = tuple(animal for animal in outcome.animals(told) if gives_milk(animal))
    first = first_milk(entry, milkers)
    if not milkers or entry.milk_hold_days == 0:
        return []
    if first is None:
        return [say("hold.unknown")] if ask else []
    return [say("hold.first", first=first)] if first > outcome.today else []


def _next(told: Told, outcome: Outcome, task: str, disease: str | None = None) -> list[Say]:
    """The next time, where it is the herd's or the same day for all."""
    open_ = [outcome.task(task)] + [outcome.task(task, a, disease) for a in outcome.animals(told)]
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


def vaccination(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Vaccination):
        return noted(told, outcome, language)
    again = _next(told, outcome, "vaccinate", entry.disease)
    says = (*_hold(told, outcome, ask=False), *again, say("vaccination.follow"))
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
    held = animal.meat_held_until
    return [] if held is None or held <= on else [say("death.meat_held", name=animal.name, first=held)]
