"""What staff should look at: each thing once, by its mark."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

import sqlalchemy as sa

from service.records import farms, tables
from service.records.base import insert_new

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
    new = insert_new(conn.dialect.name, tables.Concern).returning(tables.Concern.id)
    concern_id: int | None = conn.execute(new, values).scalar_one_or_none()
    return concern_id


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
    where = (
        *farms.of_ward(cooperative_id, ward),
        entry.kind.in_(kinds),
        entry.happened_on >= since,
        entry.undone_at.is_(None),
    )
    rows = conn.execute(
        sa.select(entry.farm_id, entry.animals, entry.payload)
        .join(farm, farm.id == entry.farm_id)
        .where(*where)
        .order_by(entry.id)
    )
    return tuple(Told(row.farm_id, tuple(row.animals), row.payload) for row in rows)
