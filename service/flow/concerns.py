"""
Concerns for staff: raised once, told to the cooperative's office, and what staff can do about them.

The office may know which farmer it is about; other farmers never do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import sqlalchemy as sa

from dialogs.phrases import who
from dialogs.texts import render
from service.flow.telling import Telling
from service.husbandry.herd import Person, Told
from service.husbandry.kinds.health import Illness
from service.husbandry.kinds.herd_book import Death
from service.husbandry.kinds.one_day import Abortion
from service.husbandry.nearby import WITHIN_DAYS, Case, Cluster, cluster
from service.messages import OutboundText, Purpose, Say, say
from service.records import concerns, farms, outbox
from service.records.concerns import Concern

ILLNESS_NEAR = "illness_near"

OFFICE = "office"
OFFICE_LANGUAGE = "sw"
"""What the office is written to in: the list of people to call names no language."""

UNEXPLAINED = (None, "sick")
"""Reasons of a death that may be the start of an illness that spreads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Raised:
    """A concern to be raised: of whom, what, and how the office is told of it."""

    cooperative_id: int
    ward: str | None
    farm_id: int | None
    kind: str
    about: Mapping[str, Any]
    mark: str
    text: Say


def put_before_staff(conn: sa.Connection, raised: Raised, now: datetime) -> int | None:
    """
    Raise a concern and lay a text of it to the office, once.

    The text is unasked: in the night the sender keeps it until the morning.

    Returns:
        The concern's id; None where it was raised before, and nothing is sent.
    """
    concern = concerns.raise_(
        conn, raised.cooperative_id, raised.farm_id, raised.kind, raised.about, raised.mark, now
    )
    office = office_of(conn, raised.cooperative_id, raised.ward)
    if concern is not None and office is not None and office.phone is not None:
        text = render(Say(raised.text.key, {**raised.text.values, "number": concern}), OFFICE_LANGUAGE)
        alert = OutboundText(phone=office.phone, text=text, purpose=Purpose.ALERT, farm=raised.farm_id)
        outbox.add(conn, alert, now=now)
    return concern


def office_of(conn: sa.Connection, cooperative_id: int, ward: str | None) -> Person | None:
    """Whom to tell of a concern: the first of the office."""
    listed = farms.people_to_call(conn, cooperative_id, ward)
    return next((person for person in listed if person.role == OFFICE), None)


# --- like signs on several farms -------------------------------------------------------------------


def illness_near(telling: Telling) -> None:
    """What was just told may be one of several like illnesses in the ward."""
    if not any(_spreads(told) for told in telling.recorded):
        return
    caller, since = telling.caller, telling.local.date() - timedelta(days=WITHIN_DAYS - 1)
    kinds = (Illness.KIND, Abortion.KIND, Death.KIND)
    near = concerns.told_near(telling.conn, caller.cooperative_id, caller.ward, kinds, since)
    found = cluster(case for told in near for case in _cases(told))
    if found is not None:
        put_before_staff(telling.conn, _raised(telling, found), telling.now)


def _spreads(told: Told) -> bool:
    entry = told.entry
    return isinstance(entry, Illness | Abortion) or (isinstance(entry, Death) and entry.reason in UNEXPLAINED)


def _cases(told: concerns.Told) -> list[Case]:
    match told.payload["kind"]:
        case Illness.KIND:
            signs = tuple(told.payload["signs"])
        case Abortion.KIND:
            signs = ("abortion",)
        case _:
            signs = ("sudden_death",) if told.payload.get("reason") in UNEXPLAINED else ()
    return [Case(told.farm_id, animal, signs) for animal in told.animals]


def _raised(telling: Telling, found: Cluster) -> Raised:
    """Of a ward (without one, of the cooperative) once a calendar week."""
    caller = telling.caller
    year, week, _ = telling.local.isocalendar()
    about = {"ward": caller.ward, "group": found.group, "sign": found.sign}
    values = {"what": say(f"sign.{found.sign}"), "count": found.animals, "few": found.farms}
    key = "office.illness_near" if caller.ward is not None else "office.illness_near_all"
    return Raised(
        cooperative_id=caller.cooperative_id,
        ward=caller.ward,
        farm_id=None,
        kind=ILLNESS_NEAR,
        about={**about, "farms": found.farms, "animals": found.animals},
        mark=f"{year}-W{week:02} {(caller.ward or '*').lower()}",
        text=Say(key, {**values, "words": caller.ward or ""}),
    )


class NotToWarnOf(Exception):
    """Neighbours are not warned of this concern; the message says why."""


def warn_neighbours(conn: sa.Connection, concern_id: int, now: datetime) -> int:
    """
    Tell the farms of a ward, once, that cattle near them show like signs; no farm is named.

    The texts are unasked: none to a phone that has left the service, and none in the night.

    Returns:
        To how many owners a text was laid in the outbox; 0 where they were warned before.

    Raises:
        NotToWarnOf: There is no such concern, or it is of another kind.
    """
    concern = concerns.of(conn, concern_id)
    if concern is None or concern.kind != ILLNESS_NEAR:
        raise NotToWarnOf(f"{concern_id} is no concern about illness on several farms")
    if "warned_at" in concern.about:
        return 0
    owners = farms.active_owners(conn, *farms.of_ward(concern.cooperative_id, concern.about["ward"]))
    for owner in owners:
        warning = OutboundText(
            phone=owner.phone,
            text=_warning(conn, concern, owner.language),
            purpose=Purpose.NOTICE,
            farm=owner.farm_id,
        )
        outbox.add(conn, warning, now=now)
    concerns.know(conn, concern, warned_at=now.isoformat())
    return len(owners)


def _warning(conn: sa.Connection, concern: Concern, language: str) -> str:
    listed = farms.people_to_call(conn, concern.cooperative_id, concern.about["ward"])
    people = {person.role: person for person in reversed(listed)}
    sign = say(f"sign.{concern.about['sign']}")
    return render(say("notice.illness_near", what=sign, who=who(people, "vet")), language)
