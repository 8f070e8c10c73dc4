"""
Several people of one farm: who may do and see what, and helpers invited, removed, allowed more or less.

The owner may everything. A helper records; money, animals that leave and people are hers only where the
owner allows it, settings and the secret number never. A technician reports services.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from dialogs.answers import listed
from dialogs.phrases import summary
from dialogs.texts import render
from dialogs.turn import Turn
from dialogs.values import clipped, dialled
from service.flow.telling import Telling
from service.husbandry import forms
from service.husbandry.forms import Entry, Sort
from service.husbandry.herd import Told
from service.husbandry.kinds.farm import Contact, Setting
from service.husbandry.kinds.herd_book import AnimalSale, Death
from service.husbandry.kinds.instructions import (
    MONEY_TOPICS,
    Ask,
    Contest,
    Helper,
    Pin,
    Stop,
    Undo,
)
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.messages import OutboundText, Purpose, Say, say
from service.records import farms, outbox, people
from service.records.people import Member

MONEY, REMOVE, PEOPLE, ALL = "money", "remove", "people", "all"
"""What beyond recording a text can need; ``all`` is the owner's alone."""

MOST_HELPERS = 8
"""Helpers and open invitations of one farm: nobody is to be texted by its means without end."""

REPORTED: tuple[type[Entry], ...] = (Service, PregnancyCheck)
"""What a technician may tell of a farm that is not his."""

# --- who may what ----------------------------------------------------------------------------------


def need_of(entry: Entry | type[Entry]) -> str | None:
    """What *entry* takes beyond the right to record; None: nothing."""
    kind = entry if isinstance(entry, type) else type(entry)
    if isinstance(entry, Ask) and entry.topic in MONEY_TOPICS:
        return MONEY
    if kind in (Death, AnimalSale):
        return REMOVE
    if isinstance(entry, Helper) and entry.act in ("allow", "forbid"):
        return ALL
    if kind in (Contact, Helper) or (isinstance(entry, Ask) and entry.topic == "people"):
        return PEOPLE
    return ALL if kind in (Setting, Pin, Contest) else None


def guarded(entry: Entry) -> bool:
    """Whether *entry* is behind the farm's secret number."""
    return isinstance(entry, Helper) or need_of(entry) in (MONEY, PEOPLE)


def refused(telling: Telling, turn: Turn) -> bool:
    """
    Whether *turn* holds what its sender may not do; if so nothing of it is done, and he is told whom to ask.

    An animal that has died or gone is news all the same: the owner is told that a helper told it.
    """
    caller = telling.caller
    if caller.role == farms.OWNER:
        return False
    everything: list[Entry | type[Entry]] = [*turn.entries, *_orders(turn)]
    everything += [question.draft.kind for question in turn.questions if question.draft is not None]
    if caller.role == farms.REPORTER and not everything and turn.say is None:
        telling.say("people.not_reported", owner=_owner(telling))
        return True
    held = [one for one in everything if not _may(telling, one)]
    if not held:
        return False
    key = "people.not_shown" if all(isinstance(one, Ask) for one in held) else "people.not_allowed"
    telling.say("people.not_reported" if caller.role == farms.REPORTER else key, owner=_owner(telling))
    if caller.role == farms.HELPER:
        _pass_on(telling, [entry for entry in held if isinstance(entry, Death | AnimalSale)])
    return True


def _orders(turn: Turn) -> Iterable[Entry]:
    """Instructions of *turn*, without a secret number that was only given."""
    return (one for one in turn.instructions if not (isinstance(one, Pin) and one.act == "give"))


def _may(telling: Telling, entry: Entry | type[Entry]) -> bool:
    if telling.caller.role == farms.REPORTER:
        kind = entry if isinstance(entry, type) else type(entry)
        return kind in (*REPORTED, Undo, Stop)
    need = need_of(entry)
    return need is None or need in telling.caller.may


def _pass_on(telling: Telling, entries: Sequence[Entry]) -> None:
    owner = people.owner_of(telling.conn, telling.book.farm_id)
    if not entries or owner is None:
        return
    what = "; ".join(summary(entry, owner.language, today=telling.local.date()) for entry in entries[:1])
    tell_owner(telling, say("people.told_you", by=name_of(telling, telling.caller.phone), what=what))


def tell_owner(telling: Telling, words: Say) -> None:
    """A notice to the owner's phone, unless it has left the service or is the sender's."""
    owner = people.owner_of(telling.conn, telling.book.farm_id)
    if owner is None or owner.state == farms.STOPPED or owner.phone == telling.caller.phone:
        return
    notice = OutboundText(
        phone=owner.phone,
        text=render(words, owner.language),
        purpose=Purpose.NOTICE,
        farm=telling.book.farm_id,
    )
    outbox.add(telling.conn, notice, now=telling.now)


def _owner(telling: Telling) -> str:
    owner = people.owner_of(telling.conn, telling.book.farm_id)
    return "" if owner is None else called(owner.name, owner.phone)


def called(name: str | None, phone: str) -> str:
    """What a person is called in a text: by the name told, else by the number."""
    return dialled(phone) if name is None else name


def name_of(telling: Telling, phone: str) -> str:
    """What the person is called whose phone it is, or was: a member's name, the technician's, the number."""
    for member in people.of_farm(telling.conn, telling.book.farm_id):
        if phone in (member.phone, *member.earlier):
            return called(member.name, member.phone)
    named = (person for person in telling.book.farm.people.values() if person.phone == phone)
    return next((person.name for person in named if person.name is not None), dialled(phone))


def discreet(telling: Telling, told: Told) -> Entry:
    """The entry of *told* as its sums may be shown to this phone without more ado: maybe without them."""
    caller, entry = telling.caller, told.entry
    helper_sees = caller.role != farms.HELPER or MONEY in caller.may or told.told_by in caller.phones
    if helper_sees and not caller.guarded:
        return entry
    sums = [f.name for f in forms.form(type(entry)) if f.sort is Sort.MONEY]
    return replace(entry, **dict.fromkeys(sums)) if sums else entry


def tellers(telling: Telling, those: Sequence[Told]) -> list[str | None]:
    """Who told each, if another phone did."""
    others = {told.told_by for told in those if told.told_by.startswith("+")} - set(telling.caller.phones)
    names = {phone: clipped(name_of(telling, phone)) for phone in others}
    return [names.get(told.told_by) for told in those]


# --- helpers ---------------------------------------------------------------------------------------


def helper(telling: Telling, order: Helper) -> None:
    """Carry out what the owner orders about a helper."""
    if order.act == "add":
        _add(telling, order)
        return
    found = _meant(telling, order)
    if found is None:
        return
    match order.act:
        case "remove":
            _remove(telling, found)
        case "allow":
            _allow(telling, found, tuple(dict.fromkeys((*found.may, *order.may))))
        case "forbid":
            _allow(telling, found, tuple(one for one in found.may if one not in (order.may or found.may)))


def _add(telling: Telling, order: Helper) -> None:
    why = _cannot_add(telling, order.phone)
    if why is not None or order.phone is None:
        telling.say(why or "helper.no_phone")
        return
    farm_id = telling.book.farm_id
    people.invite(telling.conn, phone=order.phone, farm_id=farm_id, name=order.name, now=telling.now)
    invitation = OutboundText(
        phone=order.phone,
        text=render(say("helper.invitation", owner=_owner(telling)), telling.language),
        purpose=Purpose.NOTICE,
        farm=farm_id,
    )
    outbox.add(telling.conn, invitation, now=telling.now)
    telling.say("helper.invited", by=called(order.name, order.phone))


def _cannot_add(telling: Telling, phone: str | None) -> str | None:
    """Why *phone* cannot be invited: the sentence that says so; None: it can be."""
    if phone is None:
        return "helper.no_phone"
    farm = people.farm_of(telling.conn, phone)
    if farm is not None:
        return "helper.already" if farm == telling.book.farm_id else "helper.of_another"
    waiting = people.invitation(telling.conn, phone)
    if waiting is not None:
        return "helper.waits" if waiting.farm_id == telling.book.farm_id else "helper.of_another"
    farm_id = telling.book.farm_id
    count = len(people.of_farm(telling.conn, farm_id)) - 1 + len(people.invited(telling.conn, farm_id))
    return "helper.too_many" if count >= MOST_HELPERS else None


def _meant(telling: Telling, order: Helper) -> Member | None:
    """The helper that *order* names; None, with an answer: none, or several."""
    helpers = [m for m in people.of_farm(telling.conn, telling.book.farm_id) if m.role == farms.HELPER]
    fit = [one for one in helpers if _is_named(order, one.name, one.phone)]
    if len(fit) == 1:
        return fit[0]
    waiting = [one for one in people.invited(telling.conn, telling.book.farm_id)
               if _is_named(order, one.name, one.phone)]  # fmt: skip
    if order.act == "remove" and not fit and len(waiting) == 1:
        people.answered(telling.conn, waiting[0].phone)
        telling.say("helper.taken_back", by=called(waiting[0].name, waiting[0].phone))
    elif helpers:
        telling.say("helper.which", list=_listed(helpers))
    else:
        telling.say("helper.none")
    return None


def _is_named(order: Helper, name: str | None, phone: str) -> bool:
    if order.phone is not None:
        return order.phone == phone
    return order.name is None or (name is not None and order.name.casefold() == name.casefold())


def _listed(helpers: Sequence[Member]) -> str:
    return ", ".join(_shown(clipped(one.name or ""), one.phone) for one in helpers[:3])


def _remove(telling: Telling, found: Member) -> None:
    people.remove_helper(telling.conn, found.phone)
    outbox.withdraw_unasked(telling.conn, found.phone)
    telling.say("helper.removed", by=called(found.name, found.phone))


def _allow(telling: Telling, found: Member, may: tuple[str, ...]) -> None:
    people.allow(telling.conn, found.phone, may)
    telling.say("helper.may", by=called(found.name, found.phone), what=rights(may, telling.language))


def rights(may: Sequence[str], language: str) -> str:
    """What a helper may, in words: recording, and what the owner allows beyond it."""
    return ", ".join(render(say(f"may.{one}"), language) for one in ("record", *may))


def who_tells(telling: Telling, _: Ask) -> None:
    """Everyone who may tell of the farm, and what each may."""
    telling.answers.append(_answer(telling))


def _answer(telling: Telling) -> str:
    lines = [_line(telling, m) for m in people.of_farm(telling.conn, telling.book.farm_id)]
    for one in people.invited(telling.conn, telling.book.farm_id):
        whom = _shown(one.name, one.phone)
        lines.append(render(say("answer.people_invited", who=whom), telling.language))
    technician = telling.book.farm.people.get("technician")
    if technician is not None and technician.phone is not None:
        whom = _shown(technician.name, technician.phone)
        lines.append(render(say("answer.people_technician", who=whom), telling.language))
    return listed(say("answer.people"), lines, telling.language, tail=say("answer.people_end"))


def _line(telling: Telling, member: Member) -> str:
    who = _shown(member.name, member.phone)
    if member.role == farms.OWNER:
        return render(say("answer.people_owner", who=who), telling.language)
    may = rights(member.may, telling.language)
    return render(say("answer.people_helper", who=who, what=may), telling.language)


def _shown(name: str | None, phone: str) -> str:
    return f"{name} {dialled(phone)}" if name else dialled(phone)
