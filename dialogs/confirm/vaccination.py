"""Answers to a vaccination: the next one, what people must heed, and whom it was not for."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from dialogs import texts
from dialogs.confirm.noted import Ways, noted
from dialogs.holding import latest, milking, under_a_drug
from dialogs.outcome import Outcome
from dialogs.phrases import describe, who
from service.husbandry.herd import Animal, Told
from service.husbandry.kinds.health import Vaccination
from service.husbandry.task import day_of
from service.husbandry.vaccines import CALENDAR, REACTION_DAYS, Unfit, Vaccine, unfit
from service.messages import Say, say

HALF_A_YEAR = timedelta(days=183)
"""A day further ahead is named with its year."""


def vaccination(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Vaccination):
        return noted(told, outcome, language)
    hold = tuple(_hold(told, entry, outcome))
    why, wrong = _wrong(told, entry, outcome)
    many, few, short, only = _noted(entry, outcome, language)
    if why is None or not _vets(why, entry):
        after = (*_people(entry), *_follow(entry), *_next(told, entry, outcome))
        whole = tuple((begin, *hold, *wrong, *after) for begin in (many, few, short, only))
        return (*whole, (only, *hold, *after))
    people = tuple(_people(entry, always=True))
    calls = [say("vaccination.call", who=whom) for whom in (who(outcome.people, "vet"), say("who.vet"))]
    says = [(*wrong, call, *people) for call in calls]
    return (
        (many, *hold, *says[0], *_next(told, entry, outcome)),
        *((begin, *hold, *rest) for begin in (few, short) for rest in says),
        (only, *hold, say("vaccination.unfit_short"), *people),
    )


def _noted(entry: Vaccination, outcome: Outcome, language: str) -> tuple[Say, Say, Say, Say]:
    """That it is written down: of all, of the first and how many more, without the disease, no more."""
    values = {"animals": entry.animals, "disease": entry.disease, "on": entry.on, "about": entry.about}
    what = describe(entry.KIND, values, language, today=outcome.today, named=False)
    first = texts.at_level(say("names", names=entry.animals), language, texts.FEW_NAMES)
    return (
        say("vaccination.noted", names=entry.animals, what=what),
        say("vaccination.noted", names=first, what=what),
        say("vaccination.noted_short", names=first),
        say("vaccination.noted_only"),
    )


def _hold(told: Told, entry: Vaccination, outcome: Outcome) -> Iterator[Say]:
    """What it means for the milk, where a hold was told with it or another drug's still runs."""
    held = under_a_drug(outcome.animals(told), outcome.today)
    if held and entry.milk_hold_days != 0:
        first = latest(held.values())
        if first is not None:
            yield say("hold.first", milking=milking(first))
        elif entry.milk_hold_days is not None:
            yield say("hold.unknown")
    yield from outcome.follows.get(told.id, ())


def _vets(why: Unfit, entry: Vaccination) -> bool:
    """Whether the vet should hear of it now: not where it may only take badly in the very young."""
    return why is not Unfit.YOUNG or CALENDAR[entry.disease].ages_bind


def _wrong(told: Told, entry: Vaccination, outcome: Outcome) -> tuple[Unfit | None, tuple[Say, ...]]:
    """For whom this vaccine was not, and why; of several reasons the plainest."""
    found: dict[Unfit, list[Animal]] = {}
    for animal in outcome.animals(told):
        reason = unfit(entry.disease, animal, entry.on)
        if reason is not None:
            found.setdefault(reason, []).append(animal)
    why = next((reason for reason in Unfit if reason in found), None)
    if why is None:
        return None, ()
    key = f"vaccination.unfit.{why}" if _vets(why, entry) else "vaccination.early"
    names = tuple(animal.name for animal in found[why])
    return why, (say(key, names=names, age=_age(CALENDAR[entry.disease], why)),)


def _age(vaccine: Vaccine, reason: Unfit) -> Say:
    months = (vaccine.oldest_months or 0) if reason is Unfit.OLD else vaccine.youngest_months
    return age(months, vaccine.youngest_days)


def age(months: int, days: int) -> Say:
    """An age at which a vaccine is given: in months, else in days."""
    if months == 0:
        return say("age.days", count=days)
    return say("age.month") if months == 1 else say("age.months", count=months)


def _people(entry: Vaccination, *, always: bool = False) -> Iterator[Say]:
    """Whoever was pricked with a live vaccine is seen at once; East Coast fever's is in the vet's hands."""
    if CALENDAR[entry.disease].live and (always or entry.disease != "ecf"):
        yield say("vaccination.pricked")


def _follow(entry: Vaccination) -> Iterator[Say]:
    key = f"vaccination.follow_{entry.disease}"
    if texts.has(key):
        yield Say(key, {"until": entry.on + timedelta(REACTION_DAYS)})
    else:
        yield say("vaccination.follow")


def _next(told: Told, entry: Vaccination, outcome: Outcome) -> Iterator[Say]:
    """The next time, the earliest of them all."""
    tasks = (outcome.task("vaccinate", animal, entry.disease) for animal in outcome.animals(told))
    days = [day_of(task.due) for task in tasks if task is not None]
    if days:
        far = min(days) - outcome.today > HALF_A_YEAR
        yield say("next.about_year" if far else "next.about", on=min(days))
