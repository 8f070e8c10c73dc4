"""
The database: one typed base, and a store through which all writing goes.

SQLite takes one writer. Whoever comes while another writes waits in a queue, and the next to hold the
lock writes for all who wait, in one commit: the cost of making it durable is shared, and nobody is told
"kept" before the commit that holds his work. PostgreSQL takes many writers; there each piece of work is
a transaction of its own.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable
from datetime import UTC, datetime
from decimal import Decimal
from functools import lru_cache
from typing import Any, Generic, TypeVar

import sqlalchemy as sa
from sqlalchemy.orm import DeclarativeBase

T = TypeVar("T")

BATCH = 64
"""Most pieces of work in one commit: keeps the wait of the last one short."""


class UtcDateTime(sa.types.TypeDecorator[datetime]):
    """An aware datetime, kept in UTC. Refuses naive ones."""

    impl = sa.DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("naive datetime")
        value = value.astimezone(UTC)
        return value.replace(tzinfo=None) if dialect.name == "sqlite" else value

    def process_result_value(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Exact(sa.types.TypeDecorator[Decimal]):
    """A quantity as written: SQLite's numbers are binary fractions, so it is kept as text."""

    impl = sa.String()
    cache_ok = True

    def process_bind_param(self, value: Decimal | None, dialect: sa.Dialect) -> str | None:
        return None if value is None else str(value)

    def process_result_value(self, value: str | None, dialect: sa.Dialect) -> Decimal | None:
        return None if value is None else Decimal(value)


@lru_cache
def insert_new(dialect: str, table: type[Base]) -> Any:
    """
    An insert into *table* that leaves what is there already alone.

    Built once, and only with what the database in use needs: each dialect takes its time to import.
    """
    if dialect == "sqlite":
        from sqlalchemy.dialects.sqlite import insert

        return insert(table).on_conflict_do_nothing()
    from sqlalchemy.dialects import postgresql

    return postgresql.insert(table).on_conflict_do_nothing()


class Base(DeclarativeBase):
    """Every table; constraint names are fixed so that migrations can speak of them."""

    metadata = sa.MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


def open_engine(url: str) -> sa.Engine:
    """
    An engine for *url*; on SQLite durable (WAL, synchronous FULL), with foreign keys.

    Raises:
        sqlalchemy.exc.ArgumentError: *url* is no SQLAlchemy URL.
    """
    parsed = sa.make_url(url)
    if parsed.drivername == "postgresql":
        parsed = parsed.set(drivername="postgresql+psycopg")
    if parsed.get_backend_name() != "sqlite":
        return sa.create_engine(parsed, pool_size=8, pool_pre_ping=True)
    engine = sa.create_engine(parsed, connect_args={"check_same_thread": False, "timeout": 30})
    sa.event.listen(engine, "connect", _durable)
    sa.event.listen(engine, "begin", _begin)
    return engine


def _durable(connection: Any, _record: Any) -> None:
    connection.isolation_level = None  # the driver must not begin or commit behind our back
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=30000"):
        connection.execute(f"PRAGMA {pragma}")


def _begin(connection: sa.Connection) -> None:
    # A reader that becomes a writer half-way can fail on a busy database: writers say so at once.
    reading = connection.get_execution_options().get("reading", False)
    connection.exec_driver_sql("BEGIN" if reading else "BEGIN IMMEDIATE")


class NotCommitted(Exception):
    """The commit was cut short: nothing of this is on disk."""


class _Work(Generic[T]):
    """One piece of work waiting for the writer, and what became of it."""

    def __init__(self, do: Callable[[sa.Connection], T]) -> None:
        self.do = do
        self.finished = False
        self.value: T | None = None
        self.error: Exception | None = None

    def outcome(self) -> T:
        if self.error is not None:
            raise self.error
        return self.value  # type: ignore[return-value]


class Store:
    """All reading and writing of one database."""

    def __init__(self, engine: sa.Engine) -> None:
        self.engine = engine
        self._shared = engine.dialect.name == "sqlite"
        self._waiting: deque[_Work[Any]] = deque()
        self._writer = threading.Lock()
        self._connection: sa.Connection | None = None

    def write(self, do: Callable[[sa.Connection], T]) -> T:
        """
        Do *do* in a transaction and return its value once that is committed.

        What *do* raises rolls back what it did, and nothing else, and is raised here.
        """
        if not self._shared:
            with self.engine.begin() as connection:
                return do(connection)
        work = _Work(do)
        self._waiting.append(work)
        with self._writer:
            while not work.finished:
                self._write_all()
        return work.outcome()

    def read(self, do: Callable[[sa.Connection], T]) -> T:
        """The value of *do*, which sees one committed state and changes nothing."""
        with self.engine.connect() as connection:
            return do(connection.execution_options(reading=True))

    def close(self) -> None:
        """Let go of every connection."""
        with self._writer:
            if self._connection is not None:
                self._connection.close()
                self._connection = None
        self.engine.dispose()

    def _write_all(self) -> None:
        """One commit for those who have waited longest. What is not committed is an error to each of them."""
        batch = [self._waiting.popleft() for _ in range(min(BATCH, len(self._waiting)))]
        lost: Exception | None = NotCommitted()
        try:
            if self._connection is None:
                self._connection = self.engine.connect()
            with self._connection.begin():
                for work in batch:
                    self._write_one(self._connection, work)
            lost = None
        except sa.exc.SQLAlchemyError as error:
            lost = error
        finally:
            for work in batch:
                work.error = work.error or lost
                work.finished = True

    @staticmethod
    def _write_one(connection: sa.Connection, work: _Work[Any]) -> None:
        """One piece of work in a savepoint, so that its failure undoes it alone."""
        connection.exec_driver_sql("SAVEPOINT work")
        try:
            work.value = work.do(connection)
        except Exception as error:  # noqa: BLE001 - raised again where it was asked for
            connection.exec_driver_sql("ROLLBACK TO work")
            work.error = error
        connection.exec_driver_sql("RELEASE work")
