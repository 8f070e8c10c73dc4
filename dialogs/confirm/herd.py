"""Answers to milk, the herd book, money, people to call, settings and work done."""

from __future__ import annotations

from datetime import datetime, time

from dialogs import texts
from dialogs.confirm.noted import Ways, follow, noted, one_way
from dialogs.holding import milk_caution, told_buyer
from dialogs.outcome import Outcome, due_on
from dialogs.phrases import disease, who
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.herd import Told
from service.husbandry.kinds.farm import Contact, Done, Setting
from service.husbandry.kinds.herd_book import AnimalSale, Naming, NewAnimal
from service.husbandry.kinds.milk import Milk, MilkReason
from service.husbandry.task import day_of
from service.messages import Say, say


def milk(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Milk):
        return noted(told, outcome, language)
    return follow(told, outcome, language, *milk_held(entry, told, outcome))


def milk_held(entry: Milk, told: Told, outcome: Outcome) -> list[Say]:
    """The caution that goes with each milking of a cow whose milk is held."""
    summed = entry.animal == EVERY_ANIMAL
    return milk_caution(outcome.animals(told), entry.on, entry.session, summed=summed)


def milk_reason(told: Told, outcome: Outcome, language: str) -> Ways:
    """What to do about it, and by when whom to call."""
    entry = told.entry
    if not isinstance(entry, MilkReason):
        return noted(told, outcome, language)
    advice = Say(f"milk_reason.{entry.reason}", {"who": who(outcome.people, "vet")})
    return follow(told, outcome, language, advice)


def animal_sale(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, AnimalSale) or animal is None:
        return noted(told, outcome, language)
    return follow(told, outcome, language, *told_buyer(animal, entry.on), say("sale.follow"))


def described(sex: str | None, status: str | None) -> Say:
    """``mtamba``, ``ndama jike``: what an animal is, by its status, else its sex."""
    if status == "calf":
        return say(f"animal.calf_{sex}" if sex else "animal.calf")
    return say(f"animal.{status or sex or 'female'}")


def new_animal(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, NewAnimal):
        return noted(told, outcome, language)
    says = [say("new.noted", name=entry.name, what=described(entry.sex, entry.status))]
    due = None if animal is None else due_on(animal)
    if due is not None:
        says.append(say("new.due", on=due))
    elif entry.status == "in_calf_heifer" or (animal is not None and animal.in_calf):
        says.append(say("new.in_calf", name=entry.name))
    elif entry.status == "milking":
        says.append(say("new.milk", name=entry.name))
    return one_way(*says)


def naming(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Naming):
        return noted(told, outcome, language)
    return one_way(say("naming.noted", old=entry.animal, name=entry.name))


def contact(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Contact):
        return noted(told, outcome, language)
    if entry.phone is None:
        return one_way(say("contact.no_phone", name=entry.name or ""))
    whom = say("number", phone=entry.phone)
    if entry.name is not None:
        whom = say("who.named", name=entry.name, phone=entry.phone)
    return one_way(say(f"contact.{entry.role}", who=whom))


def work_name(task: str, sickness: str | None = None) -> Say:
    """The work itself, without its caution."""
    key = f"plain.{task}" if texts.has(f"plain.{task}") else f"work.{task}"
    if not texts.has(key):
        return say("plain", words=task)
    return say(key, disease=disease(sickness or ""))


def setting(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Setting):
        return noted(told, outcome, language)
    if entry.hour is not None:
        at = datetime.combine(outcome.today, time(int(entry.hour)), outcome.now.tzinfo)
        return one_way(say("setting.hour", at=at))
    if entry.task == "advice":
        return one_way(say("setting.quiet" if entry.off else "setting.advice"))
    work = work_name(entry.task or "")
    following = outcome.task(entry.task or "")
    if entry.task == "statement" and following is not None:
        return one_way(say("setting.statement", on=day_of(following.due)))
    if entry.every_days is None:
        return one_way(say("setting.asked", work=work))
    if following is None:
        return one_way(say("setting.every_plain", work=work, count=entry.every_days))
    on = max(day_of(following.due), outcome.today)
    return one_way(say("setting.every", work=work, count=entry.every_days, on=on))


def done(told: Told, outcome: Outcome, language: str) -> Ways:
    entry = told.entry
    if not isinstance(entry, Done) or entry.task is None:
        return noted(told, outcome, language)
    what = texts.render(work_name(entry.task), language)
    named = () if entry.named == (EVERY_ANIMAL,) else entry.named
    pieces = [texts.render(say("names", names=named), language)] if named else []
    return one_way(say("done.noted", what=", ".join([*pieces, what])))
