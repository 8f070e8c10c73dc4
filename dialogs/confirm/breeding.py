"""Answers to heat, service, pregnancy check, calving, abortion, drying off and weaning."""

from __future__ import annotations

from datetime import datetime, timedelta

from dialogs import hours
from dialogs.confirm.noted import Ways, follow, noted, one_way
from dialogs.outcome import Outcome, due_on
from dialogs.phrases import who
from service.husbandry.forms import Calf
from service.husbandry.herd import Animal, Told
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.task import day_of
from service.messages import Say, say

SURE_SIGNS = {"standing", "mounting", "clear_mucus", "swollen_vulva"}
"""Signs on which a straw may be spent; restlessness or bellowing alone is none."""

DRINKING_SOON = timedelta(hours=4)
DRINKING_AGAIN = timedelta(hours=8)
"""First milk: two litres within four hours of birth, and again (veterinary practice sheet)."""

FIRST_DAYS = 3
"""Days after a calving in which first milk and afterbirth are still spoken of."""


def heat(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Heat) or animal is None:
        return noted(told, outcome, language)
    if animal.in_calf:
        return one_way(say("heat.in_calf", name=animal.name))
    to_serve = hours.serve_window(outcome.task("serve", animal))
    if to_serve is not None and not entry.bleeding:
        return _serve(entry, animal, outcome, to_serve)
    window = outcome.window("return_heat", animal)
    if window is None:
        return noted(told, outcome, language)
    if entry.bleeding:
        return one_way(_bled(entry, animal, window))
    seen = hours.moment(entry.first_seen, outcome.now)
    return one_way(say("heat.late", name=animal.name, seen=seen, window=window))


def _serve(entry: Heat, animal: Animal, outcome: Outcome, window: tuple[datetime, datetime]) -> Ways:
    key = "serve_now"
    if entry.signs and not SURE_SIGNS & set(entry.signs):
        key = "look_again"
    values = {
        "name": animal.name,
        "seen": hours.moment(entry.first_seen, outcome.now),
        "who": who(outcome.people, "technician"),
        "hours": hours.told(window, outcome.now),
    }
    return (Say(f"heat.{key}", values),), (Say(f"heat.{key}_short", values),)


def _bled(entry: Heat, animal: Animal, window: tuple[object, object]) -> Say:
    served = animal.served
    if served is not None and 0 <= (entry.happened_on - served.on).days <= FIRST_DAYS:
        return say("heat.blood_served", name=animal.name, served=served.on, window=window)
    return say("heat.blood", name=animal.name, window=window)


def service(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Service) or animal is None:
        return noted(told, outcome, language)
    on = say("when.about", on=entry.on) if entry.about else say("day", on=entry.on)
    if entry.running:
        return one_way(say("service.running", name=animal.name, on=on), *_when_calving(animal, outcome))
    key = "service.noted" if entry.sire else "service.noted_plain"
    says = [say(key, name=animal.name, on=on, sire=entry.sire)]
    if entry.about:
        says.append(say("service.guess"))
    if animal.served is None or animal.served.on != entry.on:
        return one_way(*says)  # an older service, or one a calving has answered: nothing follows from it
    return one_way(*says, *_watch_and_due(animal, outcome))


def bull_left(told: Told, outcome: Outcome, language: str) -> Ways:
    """The check and the span of calvings of the cow he ran with; of several, only the check."""
    with_him = [a for a in outcome.animals(told) if a.served is not None and a.served.running]
    if not with_him:
        return noted(told, outcome, language)
    check = outcome.task("pregnancy_check", with_him[0])
    says = [] if check is None else [say("bull_left.check", on=day_of(check.due))]
    if len(with_him) == 1:
        says += _when_calving(with_him[0], outcome)
    return follow(told, outcome, language, *says)


def _when_calving(animal: Animal, outcome: Outcome) -> list[Say]:
    """First and last day of the calvings that the bull's time with her can lead to."""
    task = outcome.task("calving", animal)
    if task is None or task.until is None:
        return []
    return [say("service.calves_between", window=(day_of(task.due), day_of(task.until)))]


def _watch_and_due(animal: Animal, outcome: Outcome) -> list[Say]:
    says = []
    window = outcome.window("return_heat", animal)
    if window is not None:
        says.append(say("service.watch", window=window))
    check = outcome.task("pregnancy_check", animal)
    if check is not None:
        says.append(say("service.check", on=day_of(check.due)))
    due = due_on(animal)
    if due is not None:
        says.append(say("service.due", on=due))
    return says


def pregnancy_check(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, PregnancyCheck) or animal is None:
        return noted(told, outcome, language)
    name = animal.name
    match entry.result:
        case "pregnant":
            return one_way(say("check.pregnant", name=name), *_due_and_dry(animal, outcome))
        case "empty":
            window = outcome.window("return_heat", animal)
            key = "check.empty" if window else "check.empty_plain"
            return one_way(say(key, name=name, window=window))
    again = outcome.task("pregnancy_check", animal)
    if again is None:
        return one_way(say("check.unsure_plain", name=name))
    return one_way(say("check.unsure", name=name, on=day_of(again.due)))


def _due_and_dry(animal: Animal, outcome: Outcome) -> list[Say]:
    due = due_on(animal)
    if due is None:
        return [say("check.no_date", name=animal.name)]
    says = [say("check.due", on=due)]
    dry = outcome.task("dry_off", animal)
    if dry is not None:
        says.append(say("check.dry", on=max(day_of(dry.due), outcome.today)))
    if animal.conceived_about:
        says.append(say("check.guess"))
    return says


def calving(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Calving) or animal is None:
        return noted(told, outcome, language)
    values = {
        "name": animal.name,
        "calf": _calf_names(told, outcome),
        "on": entry.on,
        "day": max(entry.on + timedelta(days=1), outcome.today),
        "first": _hour(outcome.now + DRINKING_SOON),
        "second": _hour(outcome.now + DRINKING_AGAIN),
    }
    text = Say(f"calving.{_way(entry.calves, entry.ease, entry, outcome)}", values)
    born = [outcome.farm.animals[i] for i in told.calves if i in outcome.farm.animals]
    if any(calf.twin_of_bull for calf in born):
        barren = say("calving.twin_heifer")
        if entry.on == outcome.today and all(calf.alive for calf in entry.calves):
            text = Say("calving.twins", values)
        return (text, barren), (text,)
    return one_way(text)


def _way(calves: tuple[Calf, ...], ease: str | None, entry: Calving, outcome: Outcome) -> str:
    alive = [calf for calf in calves if calf.alive]
    days = (outcome.today - entry.on).days
    if calves and not alive:
        return "dead"
    if days > FIRST_DAYS:
        return "alive_past"
    if days > 0:
        return "alive_late"
    if len(alive) < len(calves):
        return "one_dead"
    return "hard" if ease == "hard" else "alive_today"


def _calf_names(told: Told, outcome: Outcome) -> Say:
    born = [outcome.farm.animals[i].name for i in told.calves if i in outcome.farm.animals]
    return say("names", names=tuple(born)) if born else say("calving.calf")


def _hour(at: datetime) -> datetime:
    return at.replace(minute=0, second=0, microsecond=0)


def abortion(told: Told, outcome: Outcome, language: str) -> Ways:
    animal = outcome.animal(told)
    if animal is None:
        return noted(told, outcome, language)
    values = {"name": animal.name, "who": who(outcome.people, "vet")}
    return (Say("abortion", values),), (Say("abortion.short", values),)


def drying_off(told: Told, outcome: Outcome, language: str) -> Ways:
    animal = outcome.animal(told)
    due = None if animal is None or not animal.in_calf else due_on(animal)
    says = [] if due is None else [say("check.due", on=due)]
    return follow(told, outcome, language, *says, say("dry.follow"))


def weaning(told: Told, outcome: Outcome, language: str) -> Ways:
    return follow(told, outcome, language, say("weaning.follow"))
