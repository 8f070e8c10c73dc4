"""What staff should look at: each thing once, by its mark."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from typing import Any

import sqlalchemy as sa

from service.records import tables

OUT = tables.Concern.__table__.c


@dataclass(frozen=True, slots=True, kw_only=True)
class Concern:
    """A concern as kept. ``about`` is JSON-ready; moments in UTC."""

    id: int
    cooperative_id: int
    farm_id: int | None
    kind: str
    about: Mapping[str, Any]
    raised_at: datetime
    settled_at: datetime | None


@lru_cache
def _raise(dialect: str) -> sa.Insert:
    """Built once, and only with what the database in use needs."""
    if dialect == "sqlite":
        from sqlalchemy.dialects.sqlite import insert

        return insert(tables.Concern).on_conflict_do_nothing().returning(tables.Concern.id)
    from sqlalchemy.dialects import postgresql

    return postgresql.insert(tables.Concern).on_conflict_do_nothing().returning(tables.Concern.id)


def raise_(
    conn: sa.Connection,
    cooperative_id: int,
    farm_id: int | None,
    kind: str,
    about: Mapping[str, Any],
    mark: str,
    now: datetime,
) -> int | None:
    """
    Put something before the staff of a cooperative.

    Args:
        farm_id: Whose it is; None: no one farm's.
        kind: What it is: ``no_answer``, ``illness_near`` ...
        about: What there is to know of it, JSON-ready.
        mark: What it is the same by: raised again with the same mark, nothing changes.
        now: Aware.

    Returns:
        The concern's id; None where it had been raised before.
    """
    values = {
        "cooperative_id": cooperative_id,
        "farm_id": farm_id,
        "kind": kind,
        "about": dict(about),
        "mark": mark,
        "raised_at": now,
    }
    return conn.execute(_raise(conn.dialect.name), values).scalar_one_or_none()


def of(conn: sa.Connection, concern_id: int) -> Concern | None:
    """The concern with that id."""
    columns = [column for column in OUT if column.name != "mark"]
    row = conn.execute(sa.select(*columns).where(OUT.id == concern_id)).one_or_none()
    return None if row is None else Concern(**row._mapping)


def know(conn: sa.Connection, concern: Concern, **more: Any) -> None:
    """Keep *more* of what there is to know of a concern."""
    about = {**concern.about, **more}
    conn.execute(sa.update(tables.Concern).where(OUT.id == concern.id).values(about=about))


@dataclass(frozen=True, slots=True)
class Told:
    """An entry about animals of some farm: whose, of which animals, and its JSON."""

    farm_id: int
    animals: tuple[int, ...]
    payload: Mapping[str, Any]


def told_near(
    conn: sa.Connection, cooperative_id: int, ward: str | None, kinds: tuple[str, ...], since: date
) -> tuple[Told, ...]:
    """
    Standing entries of *kinds* on the farms of a ward that happened on *since* or later.

    A *ward* of None: the cooperative's farms of every ward.
    """
    entry, farm = tables.Entry, tables.Farm
    where = [
        farm.cooperative_id == cooperative_id,
        entry.kind.in_(kinds),
        entry.happened_on >= since,
        entry.undone_at.is_(None),
    ]
    if ward is not None:
        where.append(sa.func.lower(farm.ward) == ward.lower())
    rows = conn.execute(
        sa.select(entry.farm_id, entry.animals, entry.payload)
        .join(farm, farm.id == entry.farm_id)
        .where(*where)
        .order_by(entry.id)
    )
    return tuple(Told(row.farm_id, tuple(row.animals), row.payload) for row in rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Owner:
    """An owner who wants to be written to."""

    phone: str
    language: str
    farm_id: int


def active_owners(conn: sa.Connection, cooperative_id: int, ward: str | None) -> tuple[Owner, ...]:
    """The owners of a ward's farms (None: of all the cooperative's) who have not left the service."""
    person, farm = tables.Person, tables.Farm
    where = [farm.cooperative_id == cooperative_id, person.role == "owner", person.state == "active"]
    if ward is not None:
        where.append(sa.func.lower(farm.ward) == ward.lower())
    rows = conn.execute(
        sa.select(person.phone, person.language, person.farm_id)
        .join(farm, farm.id == person.farm_id)
        .where(*where)
        .order_by(person.farm_id)
    )
    return tuple(Owner(**row._mapping) for row in rows)
