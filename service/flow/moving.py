"""Staff move a farm's phone to another number, or take its secret number away."""

from __future__ import annotations

from datetime import datetime

import sqlalchemy as sa

from dialogs.texts import render
from service.messages import OutboundText, Purpose, say
from service.records import farms, outbox, people
from service.records.people import Lock


class NoSuchFarm(Exception):
    """What was asked for cannot be; the message says why in one line."""


def move(conn: sa.Connection, old: str, new: str, *, clear_pin: bool, now: datetime) -> int:
    """
    The farm of the phone *old* has *new* from now on, which is told so by text; the farm's id.

    Raises:
        NoSuchFarm: *old* is no farm's, or *new* is one's already.
    """
    caller = farms.caller(conn, old)
    if caller is None:
        raise NoSuchFarm(f"no farm has the phone {old}")
    if people.farm_of(conn, new) is not None:
        raise NoSuchFarm(f"{new} belongs to a farm already")
    people.move(conn, old, new)
    if clear_pin:
        people.set_lock(conn, caller.farm_id, Lock(hash=None, misses=0, locked_until=None))
    if caller.state != farms.STOPPED:
        words = render(say("moved"), caller.language)
        text = OutboundText(phone=new, text=words, purpose=Purpose.NOTICE, farm=caller.farm_id)
        outbox.add(conn, text, now=now)
    return caller.farm_id


def clear_pin(conn: sa.Connection, phone: str) -> int:
    """
    The farm of *phone* has no secret number any more; the farm's id.

    Raises:
        NoSuchFarm: *phone* is no farm's.
    """
    caller = farms.caller(conn, phone)
    if caller is None:
        raise NoSuchFarm(f"no farm has the phone {phone}")
    people.set_lock(conn, caller.farm_id, Lock(hash=None, misses=0, locked_until=None))
    return caller.farm_id
