"""What the centre's lists have of each farm's days."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import sqlalchemy as sa

from service.husbandry.reconcile import Quantity, quantity
from service.records import tables

_LISTED = sa.select(tables.CentreDay.on, tables.CentreDay.litres, tables.CentreDay.kg).where(
    tables.CentreDay.farm_id == sa.bindparam("farm"),
    tables.CentreDay.on >= sa.bindparam("first"),
    tables.CentreDay.on <= sa.bindparam("last"),
)


def listed(conn: sa.Connection, farm_id: int, first: date, last: date) -> tuple[tuple[date, Quantity], ...]:
    """A farm's milk on the centre's lists from day *first* to *last*, a row for each session listed."""
    rows = conn.execute(
        _LISTED.order_by(tables.CentreDay.on), {"farm": farm_id, "first": first, "last": last}
    )
    told = ((row.on, quantity(row.litres, row.kg)) for row in rows)
    return tuple((on, amount) for on, amount in told if amount is not None)


def keep(
    conn: sa.Connection, farm_id: int, on: date, session: str, *, litres: Decimal | None, kg: Decimal | None
) -> None:
    """Make this what the centre's list has of a farm's day and session; what it had before is replaced."""
    values = {"litres": litres, "kg": kg}
    mine = (
        tables.CentreDay.farm_id == farm_id,
        tables.CentreDay.on == on,
        tables.CentreDay.session == session,
    )
    if conn.execute(sa.update(tables.CentreDay).where(*mine).values(**values)).rowcount == 0:
        key = {"farm_id": farm_id, "on": on, "session": session}
        conn.execute(sa.insert(tables.CentreDay), {**key, **values})
