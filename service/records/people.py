"""The people of a farm: its helpers, whom it has invited, whose technician reports, and its secret number."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime

import sqlalchemy as sa

from service.records import tables
from service.records.farms import ACTIVE, HELPER, OWNER


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """Someone whose phone speaks for a farm."""

    phone: str
    role: str  # owner, helper
    name: str | None
    may: Sequence[str]
    earlier: Sequence[str]
    language: str
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Invited:
    """A phone that an owner has asked to help, and that has not answered."""

    phone: str
    farm_id: int
    name: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reported:
    """A farm that has named a phone as its technician's; ``owner`` and ``phone``: whose farm it is."""

    farm_id: int
    owner: str
    phone: str


_MEMBER = (
    tables.Person.phone,
    tables.Person.role,
    tables.Person.name,
    tables.Person.may,
    tables.Person.earlier,
    tables.Person.language,
    tables.Person.state,
)


def of_farm(conn: sa.Connection, farm_id: int) -> tuple[Member, ...]:
    """The owner first, then the helpers in the order in which they joined."""
    rows = conn.execute(
        sa.select(*_MEMBER)
        .where(tables.Person.farm_id == farm_id)
        .order_by(tables.Person.role != OWNER, tables.Person.joined_at, tables.Person.phone)
    )
    return tuple(Member(**row._mapping) for row in rows)


def owner_of(conn: sa.Connection, farm_id: int) -> Member | None:
    return next((member for member in of_farm(conn, farm_id) if member.role == OWNER), None)


def farm_of(conn: sa.Connection, phone: str) -> int | None:
    """The farm that *phone* belongs to."""
    return conn.execute(
        sa.select(tables.Person.farm_id).where(tables.Person.phone == phone)
    ).scalar_one_or_none()


# --- helpers and invitations -----------------------------------------------------------------------


def invite(conn: sa.Connection, *, phone: str, farm_id: int, name: str | None, now: datetime) -> None:
    values = {"phone": phone, "farm_id": farm_id, "name": name, "invited_at": now}
    conn.execute(sa.insert(tables.Invitation), values)


def invitation(conn: sa.Connection, phone: str) -> Invited | None:
    row = conn.execute(
        sa.select(tables.Invitation.phone, tables.Invitation.farm_id, tables.Invitation.name).where(
            tables.Invitation.phone == phone
        )
    ).one_or_none()
    return None if row is None else Invited(**row._mapping)


def invited(conn: sa.Connection, farm_id: int) -> tuple[Invited, ...]:
    """Whom a farm has invited without an answer so far, the oldest first."""
    rows = conn.execute(
        sa.select(tables.Invitation.phone, tables.Invitation.farm_id, tables.Invitation.name)
        .where(tables.Invitation.farm_id == farm_id)
        .order_by(tables.Invitation.invited_at, tables.Invitation.phone)
    )
    return tuple(Invited(**row._mapping) for row in rows)


def answered(conn: sa.Connection, phone: str) -> None:
    """The invitation of *phone* has its answer, or is taken back."""
    conn.execute(sa.delete(tables.Invitation).where(tables.Invitation.phone == phone))


def add_helper(conn: sa.Connection, one: Invited, *, language: str, now: datetime) -> None:
    """The invited phone speaks for the farm from now on."""
    answered(conn, one.phone)
    values = {"phone": one.phone, "farm_id": one.farm_id, "role": HELPER, "name": one.name}
    conn.execute(
        sa.insert(tables.Person), {**values, "language": language, "state": ACTIVE, "joined_at": now}
    )


def remove_helper(conn: sa.Connection, phone: str) -> None:
    """The phone is a stranger's from now on; what it told stays."""
    conn.execute(sa.delete(tables.Person).where(tables.Person.phone == phone, tables.Person.role == HELPER))
    conn.execute(sa.delete(tables.Conversation).where(tables.Conversation.phone == phone))


def allow(conn: sa.Connection, phone: str, may: Sequence[str]) -> None:
    """*may* is all that a helper is allowed beyond recording."""
    conn.execute(sa.update(tables.Person).where(tables.Person.phone == phone).values(may=list(may)))


# --- technicians who report ------------------------------------------------------------------------


def set_reporter(conn: sa.Connection, farm_id: int, phone: str | None) -> None:
    """*phone* (None: nobody's) is the only one that may report for the farm without being its own."""
    others = (tables.Reporter.farm_id == farm_id, tables.Reporter.phone.is_distinct_from(phone))
    conn.execute(sa.delete(tables.Reporter).where(*others))
    there = sa.select(tables.Reporter.phone).where(tables.Reporter.farm_id == farm_id)
    if phone is not None and conn.execute(there).first() is None:
        conn.execute(sa.insert(tables.Reporter), {"farm_id": farm_id, "phone": phone})


def reported_farms(conn: sa.Connection, phone: str, *, but: int | None = None) -> tuple[Reported, ...]:
    """The farms that *phone* may report for, without its own (*but*)."""
    rows = conn.execute(
        sa.select(tables.Reporter.farm_id, tables.Farm.name.label("owner"), tables.Person.phone)
        .join(tables.Farm, tables.Farm.id == tables.Reporter.farm_id)
        .join(tables.Person, tables.Person.farm_id == tables.Farm.id)
        .where(
            tables.Reporter.phone == phone,
            tables.Person.role == OWNER,
            tables.Reporter.farm_id.is_distinct_from(but),
        )
        .order_by(tables.Reporter.farm_id)
    )
    return tuple(Reported(**row._mapping) for row in rows)


def may_report(conn: sa.Connection, phone: str) -> bool:
    """Whether any farm has named *phone* as its technician's."""
    rows = conn.execute(sa.select(tables.Reporter.farm_id).where(tables.Reporter.phone == phone).limit(1))
    return rows.first() is not None


def stop_reporting(conn: sa.Connection, phone: str) -> None:
    """*phone* reports for nobody until a farm names it anew."""
    conn.execute(sa.delete(tables.Reporter).where(tables.Reporter.phone == phone))


def animals_of(conn: sa.Connection, farm_ids: Collection[int]) -> tuple[tuple[int, str], ...]:
    """Farm and name of every animal that these farms have had."""
    rows = conn.execute(
        sa.select(tables.Animal.farm_id, tables.AnimalName.name)
        .join(tables.AnimalName, tables.AnimalName.animal_id == tables.Animal.id)
        .where(tables.Animal.farm_id.in_(farm_ids))
    )
    return tuple((row.farm_id, row.name) for row in rows)


def reported_last(conn: sa.Connection, phone: str) -> int | None:
    """The farm of the latest entry that *phone* told and that stands."""
    return conn.execute(
        sa.select(tables.Entry.farm_id)
        .where(tables.Entry.told_by == phone, tables.Entry.undone_at.is_(None))
        .order_by(tables.Entry.id.desc())
        .limit(1)
    ).scalar_one_or_none()


# --- the secret number -----------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Lock:
    """A farm's secret number: its hash, wrong tries in a row, and until when none is taken."""

    hash: str | None
    misses: int
    locked_until: datetime | None


def lock(conn: sa.Connection, farm_id: int) -> Lock:
    row = conn.execute(
        sa.select(tables.Farm.pin, tables.Farm.pin_misses, tables.Farm.pin_locked_until).where(
            tables.Farm.id == farm_id
        )
    ).one()
    return Lock(hash=row.pin, misses=row.pin_misses, locked_until=row.pin_locked_until)


def set_lock(conn: sa.Connection, farm_id: int, lock: Lock) -> None:
    values = {"pin": lock.hash, "pin_misses": lock.misses, "pin_locked_until": lock.locked_until}
    conn.execute(sa.update(tables.Farm).where(tables.Farm.id == farm_id).values(values))


# --- a farm that moves to another number -----------------------------------------------------------


def move(conn: sa.Connection, old: str, new: str) -> None:
    """
    All that belongs to the phone *old* belongs to *new*: its farm, its talk, what waits to be sent.

    Entries keep who told them; the person keeps the old number as an earlier one, so that what was told
    from it can still be taken back.
    """
    earlier = conn.execute(
        sa.select(tables.Person.earlier).where(tables.Person.phone == old).with_for_update()
    ).scalar_one()
    conn.execute(
        sa.update(tables.Person)
        .where(tables.Person.phone == old)
        .values(phone=new, earlier=[*(p for p in earlier if p != new), old])
    )
    conn.execute(sa.delete(tables.Conversation).where(tables.Conversation.phone == new))
    for table in (tables.Conversation, tables.Reporter):
        conn.execute(sa.update(table).where(table.phone == old).values(phone=new))
    answered(conn, new)
    waiting = (tables.TextOut.phone == old, tables.TextOut.state == "waiting")
    conn.execute(sa.update(tables.TextOut).where(*waiting).values(phone=new))
