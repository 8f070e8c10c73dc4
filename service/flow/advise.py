"""A topic of advice that comes to a farm by itself: once, at its hour, on a day without another text."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time, timedelta

import sqlalchemy as sa

from dialogs.advice import unasked
from dialogs.phrases import called
from scheduler import advising
from scheduler.advising import Matter
from service.flow.house import House, whom_to_call
from service.flow.replan import hour_of
from service.husbandry.herd import Farm
from service.messages import OutboundText, Purpose
from service.records import advice, conversations, farms, outbox
from service.records import plan as plans
from service.records.farms import Caller


def advise(conn: sa.Connection, house: House, owner: Caller, farm: Farm, now: datetime) -> None:
    """Send what first matters to *farm* at *now* (aware), if anything, and keep when to look again."""
    local, hour = house.local(now), hour_of(farm)
    open_tasks = plans.open_tasks(conn, owner.farm_id)
    before = advice.sent(conn, owner.farm_id)
    matters = advising.matters(farm, [kept.task for kept in open_tasks], hour)
    those = [one for one in matters if one.topic not in before]
    todays = datetime.combine(local.date(), time(hour), house.zone)
    chosen = advising.chosen(
        those,
        local.date(),
        {house.local(kept.remind_at).date() for kept in open_tasks if kept.remind_at is not None},
        settled=now - advice.joined_at(conn, owner.farm_id) >= timedelta(advising.SETTLED_DAYS),
        rested=all((local.date() - on).days >= advising.APART_DAYS for on in before.values()),
    )
    if chosen is not None and local - todays <= advising.LATE and not _had_a_text(conn, owner, local):
        _send(conn, house, owner, farm, chosen, now)
        those = [one for one in those if one.topic != chosen.topic]
    advice.look_at(conn, owner.farm_id, advising.next_look(those, max(local, todays), hour))


def _had_a_text(conn: sa.Connection, owner: Caller, local: datetime) -> bool:
    """Whether something unasked has gone to the owner today."""
    return advice.had_a_text(conn, owner.phone, datetime.combine(local.date(), time(), local.tzinfo))


def _send(
    conn: sa.Connection, house: House, owner: Caller, farm: Farm, matter: Matter, now: datetime
) -> None:
    people = whom_to_call(farm, farms.people_to_call(conn, owner.cooperative_id, owner.ward))
    text = unasked(matter.topic, owner.language, people, matter.name)
    out = OutboundText(
        phone=owner.phone,
        text=text,
        purpose=Purpose.NOTICE,
        farm=owner.farm_id,
        not_after=datetime.combine(matter.last + timedelta(days=1), time(), house.zone),
    )
    outbox.add(conn, out, now=now)
    advice.note_sent(conn, owner.farm_id, matter.topic, house.local(now).date())
    named = called(text, people)
    if named:  # whoever texts that nobody answered means them
        talk = conversations.of(conn, owner.phone)
        conversations.keep(conn, owner.phone, replace(talk, called=named))
