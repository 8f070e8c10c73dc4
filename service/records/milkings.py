"""The last milkings of one cow, as bare values: what each milking told is held against."""

from __future__ import annotations

from datetime import date

import sqlalchemy as sa

from service.husbandry.kinds.milk import Milk
from service.records import tables

_ENTRY = tables.Entry

_LATEST = (
    sa.select(
        _ENTRY.happened_on,
        _ENTRY.payload["session"].as_string(),
        _ENTRY.payload["litres"].as_float(),
    )
    .where(
        _ENTRY.farm_id == sa.bindparam("farm"),
        _ENTRY.kind == Milk.KIND,
        _ENTRY.happened_on >= sa.bindparam("first"),
        _ENTRY.undone_at.is_(None),
        _ENTRY.payload["animal"].as_string() == sa.bindparam("name"),
    )
    .order_by(_ENTRY.happened_on.desc(), _ENTRY.id.desc())
    .limit(sa.bindparam("most"))
)


def latest(
    conn: sa.Connection, farm_id: int, name: str, *, since: date, most: int
) -> tuple[tuple[date, str, float], ...]:
    """
    Day, session and litres of the last milkings told under *name* (``*``: in one sum), newest first.

    A cow's milkings under an earlier name are not among them.
    """
    bounds = {"farm": farm_id, "name": name, "first": since, "most": most}
    return tuple((on, session, litres) for on, session, litres in conn.execute(_LATEST, bounds))
