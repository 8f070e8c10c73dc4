"""What a database holds of the texts that came: each whole, or not at all."""

from __future__ import annotations

from dataclasses import dataclass

import sqlalchemy as sa

from service.records.base import open_engine
from service.records.tables import Entry, TextIn, TextOut


@dataclass(frozen=True)
class Kept:
    """How many entries and replies follow from one text."""

    entries: int
    replies: int


def kept(database_url: str) -> dict[str, Kept]:
    """Every text that came, by its id."""
    entries = sa.select(sa.func.count()).where(Entry.text_id == TextIn.id).scalar_subquery()
    replies = sa.select(sa.func.count()).where(TextOut.in_reply_to == TextIn.id).scalar_subquery()
    engine = open_engine(database_url)
    with engine.connect().execution_options(reading=True) as connection:
        rows = connection.execute(sa.select(TextIn.id, entries, replies)).all()
    engine.dispose()
    return {name: Kept(*counts) for name, *counts in rows}
