"""What the menu has to know of a farm, looked up as far as a screen shows it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

import sqlalchemy as sa

from dialogs.phrases import summary
from dialogs.screens.state import Caller, Helper, Latest
from dialogs.screens.words import word
from dialogs.texts import render
from dialogs.work import line
from service.flow import orders
from service.flow.house import House
from service.flow.people import called
from service.flow.telling import Telling
from service.husbandry.herd import Told
from service.husbandry.replay import herd_of
from service.records import farms, ledger, people

RECENT = 12
"""Entries looked at for the animals told of last, and for what can be put right."""

MOST_FIXED = 8
"""Entries to choose from when one is put right."""


def stranger(conn: sa.Connection, phone: str, now: datetime, house: House) -> Caller:
    """An unknown phone, and who asks it to help; *now* is the house's own time."""
    asked = people.invitation(conn, phone)
    owner = None if asked is None else people.owner_of(conn, asked.farm_id)
    return Caller(
        language="sw",
        now=now,
        known=False,
        asked_by=None if owner is None else called(owner.name, owner.phone),
        currency=house.place.currency,
        region=house.place.region,
    )


def caller(telling: Telling, *, listed: bool = False) -> Caller:
    """
    The phone of *telling* and its farm.

    Args:
        telling: What the phone is about to tell.
        listed: The list of tasks is on the screen: its lines stay those it has been shown.
    """
    told = ledger.recent(telling.conn, telling.book.farm_id, limit=RECENT)
    return Caller(
        language=telling.caller.language,
        now=telling.local,
        herd=herd_of(telling.book.farm, telling.local.date()),
        recent=tuple(dict.fromkeys(name for one in told for name in one.entry.named)),
        tasks=_listed_lines(telling) if listed else _task_lines(telling),
        currency=telling.house.place.currency,
        region=telling.house.place.region,
        helpers=lambda: _helpers(telling),
        latest=lambda: _latest(telling, told),
    )


def _task_lines(telling: Telling) -> tuple[str, ...]:
    """The lines of the list of tasks, as the list in a text has them."""
    says = (line(item, telling.local, weekday=False) for item in orders.listed_tasks(telling))
    return tuple(render(one, telling.language) for one in says)


def _listed_lines(telling: Telling) -> tuple[str, ...]:
    """The lines of the list that the phone was shown last, as they are now."""
    items = orders.listed_tasks(telling)
    now = {due.id: item for item in items for due in item.tasks}
    shown = (next((now[one] for one in ids if one in now), None) for ids in telling.talk.listed)
    return tuple(
        word("tasks.gone", telling.language)
        if item is None
        else render(line(item, telling.local, weekday=False), telling.language)
        for item in shown
    )


def _helpers(telling: Telling) -> tuple[Helper, ...]:
    """Helpers and those invited, in the order in which they came."""
    farm_id = telling.book.farm_id
    helpers = [one for one in people.of_farm(telling.conn, farm_id) if one.role == farms.HELPER]
    invited = people.invited(telling.conn, farm_id)
    everyone = [(one.name, one.phone) for one in helpers] + [(one.name, one.phone) for one in invited]
    return tuple(Helper(phone, called(name, phone)) for name, phone in everyone)


def _latest(telling: Telling, told: Sequence[Told]) -> tuple[Latest, ...]:
    """What the caller may put right: of the owner everything that a phone told, of others their own."""
    own = [one for one in told if _is_own(telling, one)][:MOST_FIXED]
    today = telling.local.date()
    return tuple(
        Latest(one.id, one.entry, _capital(summary(one.entry, telling.language, today=today))) for one in own
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _is_own(telling: Telling, told: Told) -> bool:
    if telling.caller.role == farms.OWNER:
        return told.told_by.startswith("+")  # the centre's lists are its own
    return told.told_by in telling.caller.phones
