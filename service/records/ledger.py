"""
The ledger of entries: appending, undoing, and the book of a farm that they make.

A :class:`Book` is a farm's plan-making entries and the state they replay to. It is kept in memory between
texts and holds as long as the farm's ``version`` in the database is the one it was read at.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import sqlalchemy as sa

from service.husbandry import forms, kinds
from service.husbandry.forms import Entry
from service.husbandry.herd import Farm, Told
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import AnimalSale, Naming, NewAnimal
from service.husbandry.kinds.trade import MilkSale, Payment
from service.husbandry.replay import replay, working_names
from service.records import tables

_PLANNING = tuple(kind.KIND for kind in kinds.KINDS if kind.PLANS and not kind.INSTRUCTION)

_ON_CREDIT = (MilkSale.KIND, AnimalSale.KIND, Payment.KIND)
"""Kinds of what a buyer can owe, and of what is paid of it."""

_COLUMNS = (
    tables.Entry.id,
    tables.Entry.kind,
    tables.Entry.payload,
    tables.Entry.animals,
    tables.Entry.calves,
    tables.Entry.told_at,
    tables.Entry.told_by,
)

_APPEND = sa.insert(tables.Entry).returning(tables.Entry.id)
_TURN = (
    sa.update(tables.Farm)
    .where(tables.Farm.id == sa.bindparam("farm"))
    .values(version=tables.Farm.version + 1)
)

_ON_DAYS = (
    sa.select(*_COLUMNS)
    .where(
        tables.Entry.farm_id == sa.bindparam("farm"),
        tables.Entry.kind == sa.bindparam("of"),
        tables.Entry.happened_on >= sa.bindparam("first"),
        tables.Entry.happened_on <= sa.bindparam("last"),
        tables.Entry.undone_at.is_(None),
    )
    .order_by(tables.Entry.happened_on, tables.Entry.id)
)


@dataclass(frozen=True, slots=True)
class Book:
    """What plans a farm: its entries of the planning kinds, oldest told first, and their outcome."""

    farm_id: int
    version: int
    told: tuple[Told, ...]
    farm: Farm


class Books:
    """The books read so far, newest use last; forgets the longest unused beyond *size*."""

    def __init__(self, size: int = 4096) -> None:
        self._size = size
        self._books: dict[int, Book] = {}

    def of(self, conn: sa.Connection, farm_id: int, version: int) -> Book:
        """The book of a farm as it stands at *version*."""
        book = self._books.pop(farm_id, None)
        if book is None or book.version != version:
            told = read(conn, farm_id)
            book = Book(farm_id, version, told, replay(told))
        self.keep(book)
        return book

    def keep(self, book: Book) -> None:
        self._books[book.farm_id] = book
        if len(self._books) > self._size:
            self._books.pop(next(iter(self._books)), None)

    def forget(self) -> None:
        """Drop all: after work was rolled back, a version may come to mean something else."""
        self._books.clear()


def read(conn: sa.Connection, farm_id: int) -> tuple[Told, ...]:
    """A farm's standing entries of the planning kinds, in the order of telling."""
    rows = conn.execute(
        sa.select(*_COLUMNS)
        .where(
            tables.Entry.farm_id == farm_id,
            tables.Entry.kind.in_(_PLANNING),
            tables.Entry.undone_at.is_(None),
        )
        .order_by(tables.Entry.id)
    )
    return tuple(map(_told, rows))


def _told(row: sa.Row[tuple[int, str, dict[str, object], list[int], list[int], datetime, str]]) -> Told:
    kind = kinds.BY_KEY[row.kind]
    return Told(
        id=row.id,
        entry=kind(**forms.load_values(kind, row.payload)),
        animals=tuple(row.animals),
        calves=tuple(row.calves),
        told_at=row.told_at,
        told_by=row.told_by,
    )


def append(
    conn: sa.Connection,
    book: Book,
    entries: Iterable[Entry],
    *,
    text_id: str,
    told_by: str,
    told_at: datetime,
) -> tuple[Told, ...]:
    """
    Write *entries* into the ledger of the book's farm, in order.

    Names are resolved to animals here, once; an animal named anew is given an identity, or gets back the
    one it had before it was undone. The farm's version is not touched: see :func:`turned`.

    Raises:
        LookupError: An entry names an animal the farm has not.
    """
    ids = book.farm.by_name  # an animal that has left can still be told of
    told = []
    for entry in entries:
        animals, calves = _whom(conn, book, entry, ids)
        payload = forms.dump(entry)
        row_id = conn.execute(
            _APPEND,
            {
                "farm_id": book.farm_id,
                "kind": entry.KIND,
                "happened_on": entry.happened_on,
                "payload": payload,
                "animals": list(animals),
                "calves": list(calves),
                "text_id": text_id,
                "told_by": told_by,
                "told_at": told_at,
            },
        ).scalar_one()
        told.append(
            Told(id=row_id, entry=entry, animals=animals, calves=calves, told_at=told_at, told_by=told_by)
        )
    return tuple(told)


def _whom(
    conn: sa.Connection, book: Book, entry: Entry, ids: dict[str, int]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Ids of the animals an entry is about and, of a calving, of the calves; *ids* learns new names."""
    if isinstance(entry, NewAnimal):
        # One present under that name is told of again: what was not known of it is added.
        known = ids.get(entry.name.casefold())
        there = known is not None and (known not in book.farm.animals or book.farm.animals[known].present)
        return (known if known is not None and there else _identity(conn, book, entry.name, ids),), ()
    named = tuple(ids[name.casefold()] for name in entry.named if name != forms.EVERY_ANIMAL)
    if isinstance(entry, Naming):
        _also_called(conn, named[0], entry.name, ids)
    if not isinstance(entry, Calving):
        return named, ()
    alive = [calf for calf in entry.calves if calf.alive]
    present = [animal.name for animal in book.farm.present]
    calves = (_identity(conn, book, n, ids) for n in working_names(entry.animal, alive, present))
    return named, tuple(calves)


def _identity(conn: sa.Connection, book: Book, name: str, ids: dict[str, int]) -> int:
    """The id for an animal that enters under *name*: the one undone under that name, or a new one."""
    known = conn.execute(
        sa.select(tables.AnimalName.animal_id)
        .join(tables.Animal, tables.Animal.id == tables.AnimalName.animal_id)
        .where(tables.Animal.farm_id == book.farm_id, tables.AnimalName.name == name)
        .order_by(tables.AnimalName.animal_id)
    ).scalars()
    taken = {*book.farm.animals, *ids.values()}
    animal_id = next((row for row in known if row not in taken), None)
    if animal_id is None:
        animal_id = conn.execute(
            sa.insert(tables.Animal).returning(tables.Animal.id), {"farm_id": book.farm_id}
        ).scalar_one()
        _also_called(conn, animal_id, name, ids)
    ids[name.casefold()] = animal_id
    return animal_id


def _also_called(conn: sa.Connection, animal_id: int, name: str, ids: dict[str, int]) -> None:
    """Keep that the animal has gone by *name*."""
    named = {"animal_id": animal_id, "name": name}
    known = sa.select(tables.AnimalName.name).filter_by(**named)
    if conn.execute(known).first() is None:
        conn.execute(sa.insert(tables.AnimalName), named)
    ids[name.casefold()] = animal_id


def undo(
    conn: sa.Connection,
    farm_id: int,
    *,
    told_by: Sequence[str],
    text_id: str,
    now: datetime,
    why: str | None = None,
) -> tuple[Told, ...]:
    """
    Mark all entries of the teller's latest standing telling as undone, and return them; maybe none.

    *told_by*: the teller's number, and those it had before.
    """
    latest = _latest_text(conn, farm_id, told_by)
    if latest is None:
        return ()
    return _mark_undone(conn, tables.Entry.text_id == latest, text_id=text_id, now=now, why=why)


def latest_telling(conn: sa.Connection, farm_id: int, told_by: Sequence[str]) -> tuple[Told, ...]:
    """The standing entries that :func:`undo` would take back."""
    latest = _latest_text(conn, farm_id, told_by)
    standing = (tables.Entry.text_id == latest, tables.Entry.undone_at.is_(None))
    return tuple(map(_told, conn.execute(sa.select(*_COLUMNS).where(*standing).order_by(tables.Entry.id))))


def undo_text(conn: sa.Connection, farm_id: int, of: str, *, text_id: str, now: datetime) -> tuple[Told, ...]:
    """Mark all standing entries of a farm that the text *of* told as undone, and return them."""
    which = sa.and_(tables.Entry.farm_id == farm_id, tables.Entry.text_id == of)
    return _mark_undone(conn, which, text_id=text_id, now=now)


def reported_by_others(
    conn: sa.Connection, farm_id: int, kinds: Sequence[str], own: Sequence[str], *, since: datetime
) -> str | None:
    """
    The latest text, come *since* then, whose entries of *kinds* stand and were told by no phone of the farm.

    *own*: the farm's phones.
    """
    return conn.execute(
        sa.select(tables.Entry.text_id)
        .join(tables.TextIn, tables.TextIn.id == tables.Entry.text_id)
        .where(
            tables.Entry.farm_id == farm_id,
            tables.Entry.kind.in_(kinds),
            tables.Entry.told_by.not_in(own),
            tables.Entry.undone_at.is_(None),
            tables.TextIn.arrived_at >= since,
        )
        .order_by(tables.Entry.id.desc())
        .limit(1)
    ).scalar_one_or_none()


def _latest_text(conn: sa.Connection, farm_id: int, told_by: Sequence[str]) -> str | None:
    return conn.execute(
        sa.select(tables.Entry.text_id)
        .where(
            tables.Entry.farm_id == farm_id,
            tables.Entry.told_by.in_(told_by),
            tables.Entry.undone_at.is_(None),
        )
        .order_by(tables.Entry.id.desc())
        .limit(1)
    ).scalar_one_or_none()


def undo_one(
    conn: sa.Connection, farm_id: int, entry_id: int, *, text_id: str, now: datetime
) -> tuple[Told, ...]:
    """Mark one standing entry of a farm as undone, and return it; () where it does not stand."""
    which = sa.and_(tables.Entry.farm_id == farm_id, tables.Entry.id == entry_id)
    return _mark_undone(conn, which, text_id=text_id, now=now)


def _mark_undone(
    conn: sa.Connection,
    which: sa.ColumnElement[bool],
    *,
    text_id: str,
    now: datetime,
    why: str | None = None,
) -> tuple[Told, ...]:
    standing = (which, tables.Entry.undone_at.is_(None))
    told = tuple(map(_told, conn.execute(sa.select(*_COLUMNS).where(*standing).order_by(tables.Entry.id))))
    marks = {"undone_at": now, "undone_by": text_id, "undone_why": why}
    conn.execute(sa.update(tables.Entry).where(*standing).values(**marks))
    return told


def without(book: Book, undone: Iterable[Told]) -> Book:
    """*book* as if *undone* had not been told: what goes in their place is resolved against it."""
    gone = {one.id for one in undone if one.entry.PLANS}
    if not gone:
        return book
    standing = tuple(one for one in book.told if one.id not in gone)
    return replace(book, told=standing, farm=replay(standing))


def turned(conn: sa.Connection, book: Book, told: Sequence[Told], undone: Sequence[Told]) -> Book:
    """
    The book after *told* was appended and *undone* taken back.

    The farm's version goes up by one, unless nothing of it plans: then the book is the same.
    """
    added = tuple(one for one in told if one.entry.PLANS)
    gone = {one.id for one in undone if one.entry.PLANS}
    if not added and not gone:
        return book
    conn.execute(_TURN, {"farm": book.farm_id})
    standing = tuple(one for one in book.told if one.id not in gone) + added
    return Book(book.farm_id, book.version + 1, standing, replay(standing))


def recent(conn: sa.Connection, farm_id: int, *, limit: int) -> tuple[Told, ...]:
    """The farm's latest standing entries of every kind, newest first."""
    rows = conn.execute(
        sa.select(*_COLUMNS)
        .where(tables.Entry.farm_id == farm_id, tables.Entry.undone_at.is_(None))
        .order_by(tables.Entry.id.desc())
        .limit(limit)
    )
    return tuple(map(_told, rows))


def latest_of(conn: sa.Connection, farm_id: int, kind: str, *, limit: int) -> tuple[Told, ...]:
    """The farm's latest standing entries of one kind, the last told first."""
    rows = conn.execute(
        sa.select(*_COLUMNS)
        .where(tables.Entry.farm_id == farm_id, tables.Entry.kind == kind, tables.Entry.undone_at.is_(None))
        .order_by(tables.Entry.id.desc())
        .limit(limit)
    )
    return tuple(map(_told, rows))


def replaced_by(conn: sa.Connection, told: Told) -> tuple[Told, ...]:
    """What the telling of *told* was written down in the place of; maybe nothing."""
    text = sa.select(tables.Entry.text_id).where(tables.Entry.id == told.id).scalar_subquery()
    rows = conn.execute(sa.select(*_COLUMNS).where(tables.Entry.undone_by == text).order_by(tables.Entry.id))
    return tuple(map(_told, rows))


def on_days(conn: sa.Connection, farm_id: int, kind: str, first: date, last: date) -> tuple[Told, ...]:
    """The farm's standing entries of one kind from day *first* to day *last*, both included."""
    bounds = {"farm": farm_id, "of": kind, "first": first, "last": last}
    return tuple(map(_told, conn.execute(_ON_DAYS, bounds)))


_OF_KINDS = (
    sa.select(*_COLUMNS)
    .where(
        tables.Entry.farm_id == sa.bindparam("farm"),
        tables.Entry.kind.in_(sa.bindparam("kinds", expanding=True)),
        tables.Entry.happened_on >= sa.bindparam("first"),
        tables.Entry.happened_on <= sa.bindparam("last"),
        tables.Entry.undone_at.is_(None),
    )
    .order_by(tables.Entry.happened_on, tables.Entry.id)
)


def of_kinds(
    conn: sa.Connection, farm_id: int, kinds: Sequence[str], first: date, last: date
) -> tuple[Told, ...]:
    """The farm's standing entries of several kinds from day *first* to day *last*, both included."""
    bounds = {"farm": farm_id, "kinds": list(kinds), "first": first, "last": last}
    return tuple(map(_told, conn.execute(_OF_KINDS, bounds)))


def first_day(conn: sa.Connection, farm_id: int, kind: str) -> date | None:
    """The earliest day of which a standing entry of that kind is told; None: of none."""
    return conn.execute(
        sa.select(sa.func.min(tables.Entry.happened_on)).where(
            tables.Entry.farm_id == farm_id, tables.Entry.kind == kind, tables.Entry.undone_at.is_(None)
        )
    ).scalar_one()


_OWING = (
    sa.select(*_COLUMNS)
    .where(
        tables.Entry.farm_id == sa.bindparam("farm"),
        tables.Entry.kind.in_(_ON_CREDIT),
        tables.Entry.happened_on <= sa.bindparam("last"),
        tables.Entry.undone_at.is_(None),
        sa.or_(tables.Entry.kind == Payment.KIND, tables.Entry.payload["credit"].as_boolean()),
    )
    .order_by(tables.Entry.happened_on, tables.Entry.id)
)


def owing(conn: sa.Connection, farm_id: int, until: date) -> tuple[Told, ...]:
    """The farm's standing sales on credit, and the payments, up to the day *until*."""
    return tuple(map(_told, conn.execute(_OWING, {"farm": farm_id, "last": until})))
