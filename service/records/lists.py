"""What a cooperative keeps for its farms, list by list: whole lists take the place of the ones before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

import sqlalchemy as sa

from service.records import tables
from service.records.base import Base


def _replace(conn: sa.Connection, table: type[Base], cooperative_id: int, rows: Sequence[Any]) -> None:
    owned = table.__table__.c.cooperative_id
    conn.execute(sa.delete(table).where(owned == cooperative_id))
    if rows:
        conn.execute(sa.insert(table), [{**row, "cooperative_id": cooperative_id} for row in rows])


def replace_people(conn: sa.Connection, cooperative_id: int, people: Sequence[Mapping[str, Any]]) -> None:
    """Make *people* (ward, role, name, phone, rank) those whom a cooperative's farms can call."""
    _replace(conn, tables.PersonToCall, cooperative_id, people)


def replace_products(
    conn: sa.Connection, cooperative_id: int, products: Sequence[Mapping[str, Any]], now: datetime
) -> None:
    """Make *products* (name, milk_days, meat_days, dry_cow) the drugs that a cooperative's vet lists."""
    _replace(conn, tables.Product, cooperative_id, [{**one, "updated_at": now} for one in products])


def replace_words(conn: sa.Connection, cooperative_id: int, words: Sequence[Mapping[str, Any]]) -> None:
    """Make *words* (group, meaning, word) the ones that a cooperative's farmers use beside the shipped."""
    _replace(conn, tables.LocalWord, cooperative_id, words)
    of = tables.Cooperative
    conn.execute(sa.update(of).where(of.id == cooperative_id).values(words_version=of.words_version + 1))


def replace_semen(conn: sa.Connection, cooperative_id: int, bulls: Sequence[Mapping[str, Any]]) -> None:
    """Make *bulls* (rows of ``records.semen``) the catalogue of a cooperative."""
    _replace(conn, tables.Semen, cooperative_id, bulls)


def words(conn: sa.Connection, cooperative_id: int) -> tuple[tuple[str, str, str], ...]:
    """A cooperative's own words: (group, meaning, word)."""
    word = tables.LocalWord
    rows = conn.execute(
        sa.select(word.group, word.meaning, word.word)
        .where(word.cooperative_id == cooperative_id)
        .order_by(word.group, word.meaning, word.word)
    )
    return tuple((row.group, row.meaning, row.word) for row in rows)


def put_in_ward(conn: sa.Connection, cooperative_id: int, phone: str, ward: str) -> bool:
    """Say in which ward the farm of *phone* lies; False: the cooperative has no such farm."""
    farm_id = sa.select(tables.Person.farm_id).where(tables.Person.phone == phone).scalar_subquery()
    farm = tables.Farm
    where = (farm.id == farm_id, farm.cooperative_id == cooperative_id)
    return conn.execute(sa.update(farm).where(*where).values(ward=ward)).rowcount == 1
