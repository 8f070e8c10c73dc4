"""The semen in a cooperative's stock."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import sqlalchemy as sa

from service.husbandry.semen import Bull
from service.husbandry.units import Money
from service.records import tables

PERCENT = Decimal(100)


def row(bull: Bull) -> Mapping[str, Any]:
    """*bull* as the table keeps him, without his cooperative."""
    return {
        "code": bull.code,
        "bull": bull.name,
        "breed": bull.breed,
        "values": {trait: str(value) for trait, value in bull.values.items()},
        "reliability": int(bull.reliability * PERCENT),
        "price": bull.price.amount,
        "currency": bull.price.currency,
        "straws": bull.straws,
        "sire": bull.sire,
        "dam": bull.dam,
        "maternal_grandsire": bull.maternal_grandsire,
    }


def catalogue(conn: sa.Connection, cooperative_id: int) -> tuple[Bull, ...]:
    """Every bull of a cooperative's list, those out of stock too, by code."""
    semen = tables.Semen
    listed = sa.select(*semen.__table__.c).where(semen.cooperative_id == cooperative_id).order_by(semen.code)
    return tuple(_bull(dict(found)) for found in conn.execute(listed).mappings())


def _bull(found: Mapping[str, Any]) -> Bull:
    return Bull(
        code=found["code"],
        name=found["bull"],
        breed=found["breed"],
        values={trait: Decimal(value) for trait, value in found["values"].items()},
        reliability=found["reliability"] / PERCENT,
        price=Money(found["price"], found["currency"]),
        straws=found["straws"],
        sire=found["sire"],
        dam=found["dam"],
        maternal_grandsire=found["maternal_grandsire"],
    )
