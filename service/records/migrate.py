"""Brings a database up to date with the tables, by the steps in ``migrations``."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import sqlalchemy as sa

if TYPE_CHECKING:
    from alembic.config import Config

# Alembic takes a tenth of a second to import: only a database that is behind waits for it.

LOCK = 0x62797265
"""Advisory lock of PostgreSQL under which one process migrates while others wait; any number of our own."""

_VERSION = sa.table("alembic_version", sa.column("version_num", sa.String))


def upgrade(engine: sa.Engine) -> None:
    """Apply every step that *engine*'s database lacks, in one transaction, one process at a time."""
    if is_current(engine):
        return
    with engine.begin() as connection:  # on SQLite this is the lock
        if connection.dialect.name == "postgresql":
            connection.execute(sa.select(sa.func.pg_advisory_xact_lock(LOCK)))
        if _revision(connection) != head():  # another may have been quicker
            _upgrade(connection)


def is_current(engine: sa.Engine) -> bool:
    """Whether *engine*'s database has every step."""
    with engine.connect().execution_options(reading=True) as connection:
        return _revision(connection) == head()


def config_of(connection: sa.Connection) -> Config:
    """Alembic's configuration for *connection*, without a file."""
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", "service.records:migrations")
    config.attributes["connection"] = connection
    return config


def head() -> str:
    """The last step. Steps follow one another, and their files are named by number (``0001_first.py``)."""
    steps = (Path(__file__).parent / "migrations" / "versions").glob("[0-9]*_*.py")
    return max(step.name.partition("_")[0] for step in steps)


def _upgrade(connection: sa.Connection) -> None:
    from alembic import command

    command.upgrade(config_of(connection), "head")


def _revision(connection: sa.Connection) -> str | None:
    """The last step that the database has; None: it is new."""
    if not sa.inspect(connection).has_table(_VERSION.name):
        return None
    return connection.execute(sa.select(_VERSION.c.version_num)).scalar_one_or_none()
