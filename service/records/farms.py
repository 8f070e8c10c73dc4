"""Cooperatives, farms and the people whose phones speak for them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

import sqlalchemy as sa

from service.husbandry.herd import Person
from service.records import tables

OWNER, HELPER, REPORTER = "owner", "helper", "reporter"
"""Whom a phone speaks for; a reporter's is no phone of the farm (a technician whom the owner has named)."""

ACTIVE, STOPPED = "active", "stopped"


@dataclass(frozen=True, slots=True, kw_only=True)
class Caller:
    """
    A phone that tells of a farm, with what a text of it needs of that farm.

    ``may``: what the owner allows a helper beyond recording. ``earlier``: numbers moved to this one.
    ``guarded``: money and people are behind a secret number. ``reports``: other farms have named this phone
    as their technician's.
    """

    phone: str
    role: str
    name: str | None
    may: Sequence[str]
    earlier: Sequence[str]
    language: str
    state: str
    guarded: bool
    reports: bool
    farm_id: int
    version: int
    cooperative_id: int
    ward: str | None
    intervals: Mapping[str, int]  # the cooperative's own
    words_version: int  # of the cooperative's local words

    @property
    def phones(self) -> tuple[str, ...]:
        """The number it has and those it had: whatever they told, this person told."""
        return (self.phone, *self.earlier)


_REPORTS = sa.exists().where(
    tables.Reporter.phone == tables.Person.phone, tables.Reporter.farm_id != tables.Person.farm_id
)

_CALLER = (
    sa.select(
        tables.Person.phone,
        tables.Person.role,
        tables.Person.name,
        tables.Person.may,
        tables.Person.earlier,
        tables.Person.language,
        tables.Person.state,
        tables.Person.farm_id,
        tables.Farm.pin.is_not(None).label("guarded"),
        _REPORTS.label("reports"),
        tables.Farm.version,
        tables.Farm.cooperative_id,
        tables.Farm.ward,
        tables.Cooperative.intervals,
        tables.Cooperative.words_version,
    )
    .join(tables.Farm, tables.Farm.id == tables.Person.farm_id)
    .join(tables.Cooperative, tables.Cooperative.id == tables.Farm.cooperative_id)
)


_BY_PHONE = _CALLER.where(tables.Person.phone == sa.bindparam("phone")).with_for_update(of=tables.Farm)


def caller(conn: sa.Connection, phone: str) -> Caller | None:
    """Whom the phone speaks for, with the farm locked against other writers; None: nobody's."""
    row = conn.execute(_BY_PHONE, {"phone": phone}).one_or_none()
    return None if row is None else Caller(**row._mapping)


def owner(conn: sa.Connection, farm_id: int) -> Caller | None:
    """The owner of a farm, the farm locked against other writers."""
    statement = _CALLER.where(tables.Person.farm_id == farm_id, tables.Person.role == OWNER)
    row = conn.execute(statement.with_for_update(of=tables.Farm)).first()
    return None if row is None else Caller(**row._mapping)


@dataclass(frozen=True, slots=True, kw_only=True)
class Owner:
    """Whom a farm's unasked texts go to."""

    farm_id: int
    phone: str
    language: str


def active_owners(conn: sa.Connection, *wanted: sa.ColumnElement[bool]) -> tuple[Owner, ...]:
    """The owners of the farms for which *wanted* holds and who have not left the service."""
    rows = conn.execute(
        sa.select(tables.Person.farm_id, tables.Person.phone, tables.Person.language)
        .join(tables.Farm, tables.Farm.id == tables.Person.farm_id)
        .where(tables.Person.role == OWNER, tables.Person.state == ACTIVE, *wanted)
        .order_by(tables.Person.farm_id)
    )
    return tuple(Owner(**row._mapping) for row in rows)


def of_ward(cooperative_id: int, ward: str | None) -> tuple[sa.ColumnElement[bool], ...]:
    """That a farm is the cooperative's and lies in *ward*, in whatever case it is written; None: in any."""
    of = tables.Farm.cooperative_id == cooperative_id
    return (of,) if ward is None else (of, sa.func.lower(tables.Farm.ward) == ward.lower())


def cooperatives(conn: sa.Connection) -> dict[str, int]:
    """Name -> id of every cooperative."""
    of = tables.Cooperative
    return {row.name: row.id for row in conn.execute(sa.select(of.name, of.id).order_by(of.id))}


def ensure_cooperative(conn: sa.Connection) -> None:
    """There is always one cooperative, which takes the texts that no other's number claims."""
    if conn.execute(sa.select(tables.Cooperative.id).limit(1)).first() is None:
        conn.execute(sa.insert(tables.Cooperative), {"name": "Byreline", "number": None})


def cooperative_of(conn: sa.Connection, recipient: str) -> int:
    """The cooperative whose number *recipient* is, else the one that takes every other number."""
    by_number = sa.case((tables.Cooperative.number == recipient, 0), else_=1)
    return conn.execute(
        sa.select(tables.Cooperative.id)
        .where(sa.or_(tables.Cooperative.number == recipient, tables.Cooperative.number.is_(None)))
        .order_by(by_number, tables.Cooperative.id)
        .limit(1)
    ).scalar_one()


def join(
    conn: sa.Connection, *, phone: str, name: str, language: str, cooperative_id: int, now: datetime
) -> int:
    """A new farm with its owner; the farm's id."""
    farm = {"cooperative_id": cooperative_id, "name": name, "created_at": now}
    farm_id = conn.execute(sa.insert(tables.Farm).returning(tables.Farm.id), farm).scalar_one()
    person = {"phone": phone, "farm_id": farm_id, "role": OWNER, "name": name, "language": language}
    conn.execute(sa.insert(tables.Person), {**person, "state": ACTIVE, "joined_at": now})
    conn.execute(sa.delete(tables.Invitation).where(tables.Invitation.phone == phone))
    return farm_id


def change(conn: sa.Connection, phone: str, **values: str) -> None:
    """Change a person's ``language`` or ``state``."""
    conn.execute(sa.update(tables.Person).where(tables.Person.phone == phone).values(**values))


_OF_WARD = sa.bindparam("of_ward", type_=sa.String)

_TO_CALL = (
    sa.select(tables.PersonToCall.role, tables.PersonToCall.name, tables.PersonToCall.phone)
    .where(
        tables.PersonToCall.cooperative_id == sa.bindparam("cooperative"),
        sa.or_(
            tables.PersonToCall.ward.is_(None),
            sa.func.lower(tables.PersonToCall.ward) == sa.func.lower(_OF_WARD),
        ),
    )
    .order_by(tables.PersonToCall.ward.is_(None), tables.PersonToCall.rank, tables.PersonToCall.id)
)


def people_to_call(conn: sa.Connection, cooperative_id: int, ward: str | None) -> tuple[Person, ...]:
    """The cooperative's people for a ward, those of the ward itself first, each role in its own order."""
    rows = conn.execute(_TO_CALL, {"cooperative": cooperative_id, "of_ward": ward})
    return tuple(Person(role=row.role, name=row.name, phone=row.phone) for row in rows)
