"""Whom a farm calls: the farm's own people before the cooperative's, and who is next when nobody answers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from dialogs import replies
from dialogs.phrases import who
from service.flow.concerns import OFFICE, Raised, put_before_staff
from service.flow.telling import Telling
from service.husbandry.herd import Person
from service.husbandry.kinds.instructions import Ask, NoAnswer
from service.messages import say

NO_ANSWER = "no_answer"
VET = "vet"


def call(telling: Telling, _: Ask) -> None:
    """Asked whom to call: one of each role, who from now on are the ones last named."""
    people = telling.people()
    phones = tuple(person.phone for person in people.values() if person.phone is not None)
    telling.talk = replace(telling.talk, called=phones)
    telling.answers.append(replies.answer_call(people, telling.language))


def no_answer(telling: Telling, _: NoAnswer) -> None:
    """The next of the same role as whoever was named last, at the end the office; staff are told."""
    called = telling.talk.called
    everyone = (*telling.book.farm.people.values(), *telling.cooperative_people())
    role = role_called(everyone, called)
    following = next_of(everyone, role, called)
    _tell_staff(telling, _tried(everyone, role, called), role)
    if following is None or following.phone is None:
        telling.say("no_answer.none")
        return
    telling.talk = replace(telling.talk, called=(*called, following.phone))
    telling.say("no_answer.next", name=following.name or "", phone=following.phone)


def role_called(everyone: Iterable[Person], called: Sequence[str]) -> str:
    """The role of whom the last text named: of several the vet, whose absence can cost most."""
    roles = [person.role for person in everyone if person.phone in called and person.role != OFFICE]
    return VET if VET in roles or not roles else roles[-1]


def next_of(everyone: Sequence[Person], role: str, called: Sequence[str]) -> Person | None:
    """The first of *role* who was not *called* yet, else of the office; None: nobody is left."""
    left = [person for person in everyone if person.phone is not None and person.phone not in called]
    return next((person for wanted in (role, OFFICE) for person in left if person.role == wanted), None)


def _tried(everyone: Sequence[Person], role: str, called: Sequence[str]) -> Person:
    """The one who did not answer; nobody known: only the role is."""
    by_phone = {person.phone: person for person in reversed(everyone)}
    tried = [by_phone[phone] for phone in called if phone in by_phone]
    of_role = [person for person in tried if person.role in (role, OFFICE)]
    return of_role[-1] if of_role else Person(role=role, name=None, phone=None)


def _tell_staff(telling: Telling, tried: Person, role: str) -> None:
    """Once a day for a farm and whoever does not answer."""
    caller = telling.caller
    name = caller.name or ""
    put_before_staff(
        telling.conn,
        Raised(
            cooperative_id=caller.cooperative_id,
            ward=caller.ward,
            farm_id=caller.farm_id,
            kind=NO_ANSWER,
            about={"by": caller.phone, "role": role, "name": tried.name, "phone": tried.phone},
            mark=f"{telling.local.date()} {caller.farm_id} {tried.phone or role}",
            text=say("office.no_answer", name=name, phone=caller.phone, who=who({role: tried}, role)),
        ),
        telling.now,
    )
