"""The store: work is whole or not at all, and one piece's failure is nobody else's."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import pytest
import sqlalchemy as sa

from service.records import tables
from service.records.base import Store, open_engine


class Broken(Exception):
    pass


def _add(conn: sa.Connection, name: str) -> str:
    conn.execute(sa.insert(tables.Cooperative), {"name": name, "number": name})
    return name


def wait_until(true: Callable[[], bool]) -> None:
    until = time.monotonic() + 1
    while not true() and time.monotonic() < until:
        time.sleep(0.01)


def _names(store: Store) -> set[str]:
    return set(store.read(lambda conn: conn.execute(sa.select(tables.Cooperative.name)).scalars().all()))


def test_what_is_written_is_there_when_write_returns(store: Store) -> None:
    assert store.write(lambda conn: _add(conn, "one")) == "one"
    assert _names(store) == {"one"}


def test_work_that_fails_half_way_leaves_nothing(store: Store) -> None:
    def half(conn: sa.Connection) -> None:
        _add(conn, "half")
        raise Broken

    with pytest.raises(Broken):
        store.write(half)
    assert _names(store) == set()
    store.write(lambda conn: _add(conn, "after"))
    assert _names(store) == {"after"}


def test_of_work_that_shares_a_commit_only_the_failing_part_is_lost(store: Store) -> None:
    """Many at once, every third of them failing after its insert."""
    started = threading.Barrier(8)

    def work(number: int) -> None:
        def do(conn: sa.Connection) -> None:
            _add(conn, str(number))
            if number % 3 == 0:
                raise Broken

        if number < 8:
            started.wait(timeout=10)
        store.write(do)

    with ThreadPoolExecutor(8) as pool:
        done = [pool.submit(work, number) for number in range(48)]
    failed = {number for number, one in enumerate(done) if isinstance(one.exception(), Broken)}
    assert failed == set(range(0, 48, 3))
    assert _names(store) == {str(number) for number in range(48)} - {str(number) for number in failed}


def test_a_refused_statement_fails_its_own_work_alone(store: Store) -> None:
    store.write(lambda conn: _add(conn, "one"))
    with pytest.raises(sa.exc.IntegrityError):
        store.write(lambda conn: _add(conn, "one"))
    store.write(lambda conn: _add(conn, "two"))
    assert _names(store) == {"one", "two"}


def test_where_the_database_cannot_be_opened_everyone_who_waits_is_told(sqlite_url: str) -> None:
    """One tries, three more wait for the writer meanwhile; then the database opens again."""
    engine = open_engine(sqlite_url)
    store, told = Store(engine), []
    refusals = iter((3, 0))  # each with how many wait by then

    @sa.event.listens_for(engine, "do_connect")
    def refuse(*_: object) -> None:
        waiting = next(refusals, None)
        if waiting is not None:
            wait_until(lambda: len(store._waiting) >= waiting)
            raise sqlite3.OperationalError("unable to open database file")

    def work() -> None:
        try:
            store.write(lambda conn: _add(conn, "never"))
        except sa.exc.OperationalError as error:
            told.append(error)

    writers = [threading.Thread(target=work, daemon=True) for _ in range(4)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join(timeout=10)
    assert len(told) == len(writers)
    store.close()


def test_naive_moments_are_refused(store: Store) -> None:
    from datetime import datetime

    naive = datetime(2026, 3, 2)  # noqa: DTZ001 - the point of it
    with pytest.raises(sa.exc.StatementError):
        store.read(lambda conn: conn.execute(sa.select(tables.Farm.id).where(tables.Farm.created_at < naive)))


def test_sqlite_waits_for_the_disk(sqlite_url: str) -> None:
    engine = open_engine(sqlite_url)
    with engine.connect() as conn:
        pragma = {
            name: conn.exec_driver_sql(f"PRAGMA {name}").scalar_one()
            for name in ("journal_mode", "synchronous", "foreign_keys")
        }
    engine.dispose()
    assert pragma == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1}
