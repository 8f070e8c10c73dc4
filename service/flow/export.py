"""Everything kept, as the JSON objects of the contract, one at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

import sqlalchemy as sa

from service.husbandry.herd import Animal, Farm
from service.husbandry.life import status
from service.husbandry.replay import replay
from service.records import ledger, tables
from service.records.farms import OWNER

Line = dict[str, Any]


class UnknownPhone(Exception):
    """No farm has this phone."""


def export(conn: sa.Connection, *, phone: str | None, now: datetime, zone: ZoneInfo) -> Iterator[Line]:
    """
    All lines, of every farm or of the one that *phone* (E.164) belongs to, each with its ``what``.

    Raises:
        UnknownPhone: No farm has *phone*.
    """
    farm_ids = _farm_ids(conn, phone)
    exporter = _Exporter(conn, now.astimezone(zone), zone)
    for farm_id in farm_ids:
        yield from exporter.farm(farm_id)
    if phone is None:
        yield from exporter.texts(None)


def _farm_ids(conn: sa.Connection, phone: str | None) -> list[int]:
    if phone is None:
        return list(conn.execute(sa.select(tables.Farm.id).order_by(tables.Farm.id)).scalars())
    of_phone = sa.select(tables.Person.farm_id).where(tables.Person.phone == phone)
    farm_id = conn.execute(of_phone).scalar_one_or_none()
    if farm_id is None:
        raise UnknownPhone(phone)
    return [farm_id]


class _Exporter:
    def __init__(self, conn: sa.Connection, now: datetime, zone: ZoneInfo) -> None:
        self.conn, self.now, self.zone = conn, now, zone

    def farm(self, farm_id: int) -> Iterator[Line]:
        """One farm with all that is its own."""
        book = replay(ledger.read(self.conn, farm_id))
        people = list(self._people(farm_id))
        owner = next((p["phone"] for p in people if p["role"] == OWNER), None)
        of_farm = sa.select(tables.Farm.name).where(tables.Farm.id == farm_id)
        name = self.conn.execute(of_farm).scalar_one()
        yield {"what": "farm", "id": farm_id, "name": name, "owner": owner}
        yield from people
        yield from (self._animal(farm_id, animal, book) for animal in book.animals.values())
        yield from self._entries(farm_id)
        yield from self._tasks(farm_id, book)
        yield from self.texts(farm_id)

    def _people(self, farm_id: int) -> Iterator[Line]:
        people = sa.select(*tables.Person.__table__.columns).where(tables.Person.farm_id == farm_id)
        for row in self.conn.execute(people.order_by(tables.Person.joined_at, tables.Person.phone)):
            keys = ("phone", "role", "name", "may", "language", "state")
            yield {"what": "person", "farm": farm_id, **{key: row._mapping[key] for key in keys}}

    def _animal(self, farm_id: int, animal: Animal, farm: Farm) -> Line:
        dam = farm.animals.get(animal.dam) if animal.dam is not None else None
        present = status(animal, self.now.date())
        return {
            "what": "animal",
            "farm": farm_id,
            "name": animal.name,
            "sex": None if animal.sex is None else animal.sex.value,
            "born": None if animal.born is None else animal.born.isoformat(),
            "dam": animal.dam_name if dam is None else dam.name,
            "sire": animal.sire,
            "status": present if animal.present else animal.left_why,
        }

    def _entries(self, farm_id: int) -> Iterator[Line]:
        entries = (
            sa.select(*tables.Entry.__table__.columns, tables.TextIn.channel)
            .join(tables.TextIn, tables.TextIn.id == tables.Entry.text_id)
            .where(tables.Entry.farm_id == farm_id)
        )
        for row in self.conn.execute(entries.order_by(tables.Entry.id)):
            yield {
                "what": "entry",
                **row.payload,
                "id": row.id,
                "farm": farm_id,
                "told_at": self._moment(row.told_at),
                "told_by": row.told_by,
                "channel": row.channel,
                "undone": row.undone_at is not None,
            }

    def _tasks(self, farm_id: int, farm: Farm) -> Iterator[Line]:
        tasks = sa.select(*tables.Task.__table__.columns).where(tables.Task.farm_id == farm_id)
        for row in self.conn.execute(tasks.order_by(tables.Task.id)):
            animal = farm.animals.get(row.animal_id)
            line = {
                "what": "task",
                "id": row.id,
                "farm": farm_id,
                "task": row.task,
                "animal": None if animal is None else animal.name,
                "due": row.due,
                "until": row.until,
                "state": row.state,
                "why": row.why,
            }
            yield line if row.disease is None else {**line, "disease": row.disease}

    def texts(self, farm_id: int | None) -> Iterator[Line]:
        """The texts of a farm, or of nobody's: those of unknown phones and of names."""
        came = tables.TextIn.__table__.columns
        texts_in = sa.select(*came).where(_of(came.farm_id, farm_id)).order_by(came.arrived_at, came.id)
        for row in self.conn.execute(texts_in):
            yield self._text("text_in", row._asdict(), {"from": row.sender}, row.arrived_at)
        went = tables.TextOut.__table__.columns
        texts_out = sa.select(*went).where(_of(went.farm_id, farm_id)).order_by(went.seq)
        for row in self.conn.execute(texts_out):
            yield self._text("text_out", row._asdict(), {"to": row.phone}, row.created_at)

    def _text(self, what: str, row: Mapping[str, Any], who: Mapping[str, str], at: datetime) -> Line:
        return {
            "what": what,
            "id": row["id"],
            **who,
            "text": row["text"],
            "at": self._moment(at),
            "state": row["state"],
        }

    def _moment(self, at: datetime) -> str:
        return at.astimezone(self.zone).isoformat(timespec="minutes")


def _of(column: sa.ColumnElement[int | None], farm_id: int | None) -> sa.ColumnElement[bool]:
    return column.is_(None) if farm_id is None else column == farm_id
