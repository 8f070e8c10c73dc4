"""
Short phrases that many texts are built of: what a record says, when it happened, whom to call.

A phrase is a :class:`Say`, rendered inside the text that holds it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from dialogs import texts
from dialogs.reading import Draft
from dialogs.values import dialled
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Person
from service.husbandry.signs import DISEASES, ILLNESS_SIGNS
from service.messages import Say, say

Values = Mapping[str, Any]

OFFICE = "office"
"""The role of whoever is called where nobody nearer is known."""

FULLER: Mapping[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "milk": (("full", ("litres",)),),
    "girth": (("full", ("cm",)),),
    "weight": (("full", ("kg",)),),
    "condition": (("full", ("score",)),),
    "vaccination": (("full", ("disease",)),),
    "treatment": (("full", ("product",)),),
    "feeding": (("full", ("feed", "kg")), ("feed", ("feed",)), ("kg", ("kg",))),
    "milk_sale": (("full", ("litres", "amount")), ("litres", ("litres",)), ("amount", ("amount",))),
    "payment": (("full", ("buyer", "amount")), ("amount", ("amount",))),
    "delivery": (("litres", ("litres",)), ("kg", ("kg",))),
    "milk_pay": (("month", ("month", "amount")), ("full", ("amount",))),
    "animal_sale": (("full", ("amount",)),),
    "expense": (("full", ("what", "amount")), ("amount", ("amount",))),
    "other_income": (("full", ("what", "amount")), ("amount", ("amount",))),
    "naming": (("full", ("name",)),),
    "contact": (("full", ("name",)),),
}
"""Of each kind, the forms of its phrase, fullest first, and the values each needs."""

BY_VALUE = {"pregnancy_check": "result", "death": "reason", "milk_reason": "reason"}
"""Kinds whose phrase depends on one value."""

SALES = {"milk_sale", "animal_sale"}
"""Kinds that say to whom, where there is room to name."""

NO_DAY = {"contact", "setting", "naming", "new_animal", "milk_pay"}
"""Kinds whose day says nothing to the reader."""


def values_of(entry: Entry) -> dict[str, Any]:
    return forms.values_of(entry)


def disease(key: str) -> Say:
    return say(f"disease.{key}" if key in DISEASES else "what.vaccination")


def signs(those: Sequence[str], language: str) -> str:
    """Signs one after the other, in the reader's words."""
    known = [sign for sign in those if sign in ILLNESS_SIGNS]
    return ", ".join(texts.render(say(f"sign.{sign}"), language) for sign in known)


def when(on: date, today: date | None, session: str | None = None, *, about: bool = False) -> Say:
    """The day of a record, with the part of the day where it has one."""
    if about:
        return say("when.about", on=on)
    part = session if session in {"morning", "midday", "evening"} else None
    if on == today:
        return say(f"when.today_{part}" if part else "when.today")
    if today is not None and on == today - timedelta(days=1):
        return say(f"when.yesterday_{part}" if part else "when.yesterday")
    return say(f"when.day_{part}", on=on) if part else say("day", on=on)


def _fullest(kind: str, known: Values) -> str:
    for form, needed in FULLER.get(kind, ()):
        if all(known.get(name) is not None for name in needed):
            return f"what.{kind}.{form}"
    return f"what.{kind}"


def what(kind: str, known: Values, language: str) -> Say:
    """What a record of *kind* says beside its animal and day, as far as *known*."""
    if kind == "illness" and known.get("signs"):
        return say("plain", words=signs(known["signs"], language))
    if kind == "heat" and known.get("bleeding"):
        return say("what.heat.bleeding")
    by_value = f"what.{kind}.{known.get(BY_VALUE.get(kind, ''))}"
    if texts.has(by_value):
        return say(by_value)
    if not texts.has(f"what.{kind}"):
        return say("what.other")
    shown = {name: value for name, value in known.items() if value is not None}
    if kind == "vaccination" and "disease" in shown:
        shown["disease"] = disease(shown["disease"])
    return Say(_fullest(kind, known), shown)


def animals_of(known: Values) -> tuple[str, ...]:
    """The animals a record is about, as far as known."""
    one = known.get("animal")
    if one is None and "animal" not in known and "sex" in known:
        one = known.get("name")  # a new animal
    return (one,) if one is not None else tuple(known.get("animals") or ())


def _day_of(kind: str, known: Values) -> date | None:
    moment = known.get("first_seen")
    on: date | None = moment.date() if moment is not None else known.get("on")
    return None if kind in NO_DAY else on


def describe(
    kind: str,
    known: Values,
    language: str,
    *,
    today: date | None = None,
    named: bool = True,
    dated: bool = True,
) -> str:
    """``Neema, maziwa lita 6, leo asubuhi``: as much as is known. Without *today* the day is a date."""
    pieces: list[Say] = []
    animals = animals_of(known)
    if named and animals:
        pieces.append(say("names", names=animals))
    pieces.append(what(kind, known, language))
    if named and kind in SALES and known.get("buyer"):
        pieces.append(say("what.buyer", name=known["buyer"]))
    if named and known.get("credit"):
        pieces.append(say("what.credit"))
    if kind == "delivery" and known.get("rejected"):
        pieces.append(say("what.delivery.rejected"))
    on = _day_of(kind, known)
    if dated and on is not None:
        pieces.append(when(on, today, known.get("session"), about=bool(known.get("about"))))
    return ", ".join(texts.render(piece, language) for piece in pieces)


def summary(told: Entry | Draft, language: str, *, today: date | None = None) -> str:
    """A short phrase of one entry, or of what a draft holds so far."""
    if isinstance(told, Draft):
        return describe(told.kind.KIND, told.values, language, today=today)
    return describe(told.KIND, values_of(told), language, today=today)


def of_all(names: Sequence[str]) -> bool:
    return tuple(names) == (EVERY_ANIMAL,)


def who(people: Mapping[str, Person], role: str) -> Say:
    """Whom to call: name and number as far as told, else those of the office."""
    person = people.get(role) or people.get(OFFICE)
    if person is None or (person.phone is None and person.name is None):
        return say(f"who.{role}")
    if person.name is None:
        return say(f"who.{person.role}_number", phone=person.phone)
    if person.phone is None:
        return say("who.name_only", name=person.name)
    return say("who.named", name=person.name, phone=person.phone)


def called(text: str, people: Mapping[str, Person]) -> tuple[str, ...]:
    """The E.164 numbers of those of *people* whose number *text* names."""
    phones = (person.phone for person in people.values() if person.phone is not None)
    return tuple(phone for phone in phones if dialled(phone) in text)
