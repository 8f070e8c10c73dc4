"""The drugs that a cooperative's vet lists, with the holding times of their labels."""

from __future__ import annotations

from dataclasses import dataclass

import sqlalchemy as sa

from service.records import tables

SHORTEST = 4
"""Letters from which the beginning of a name may stand for it."""


@dataclass(frozen=True, slots=True)
class Product:
    """A drug of the list; days as its label states them (0: none, None: the label does not say)."""

    name: str
    milk_days: int | None
    meat_days: int | None
    dry_cow: bool


def find(conn: sa.Connection, cooperative_id: int, told: str) -> Product | None:
    """
    The drug of a cooperative's list that a farmer's words mean: by its whole name, or a beginning of one.

    None: the list has none, or several that begin so.
    """
    wanted = " ".join(told.casefold().split())
    columns = tables.Product.name, tables.Product.milk_days, tables.Product.meat_days, tables.Product.dry_cow
    listed = sa.select(*columns).where(
        tables.Product.cooperative_id == cooperative_id,
        tables.Product.name.startswith(wanted[:SHORTEST], autoescape=True),
    )
    rows = [Product(*row) for row in conn.execute(listed)]
    return next((one for one in rows if one.name == wanted), None) or _only(rows, wanted)


def _only(rows: list[Product], wanted: str) -> Product | None:
    """The one product whose name begins as told, or with whose name what is told begins."""
    if len(wanted) < SHORTEST:
        return None
    begun = [one for one in rows if one.name.startswith(wanted)]
    begun = begun or [one for one in rows if wanted.startswith(f"{one.name} ")]
    return begun[0] if len(begun) == 1 else None
