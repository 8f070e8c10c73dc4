"""Brings a database up to date with the tables, by the steps in ``migrations``."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

LOCK = 0x62797265
"""Advisory lock of PostgreSQL under which one process migrates while others wait; any number of our own."""


def upgrade(engine: sa.Engine) -> None:
    """Apply every step that *engine*'s database lacks, in one transaction, one process at a time."""
    if is_current(engine):
        return
    with engine.begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(sa.select(sa.func.pg_advisory_xact_lock(LOCK)))
        config = config_of(connection)
        if _revision(connection) != _head(config):  # another may have been quicker
            command.upgrade(config, "head")


def is_current(engine: sa.Engine) -> bool:
    """Whether *engine*'s database has every step."""
    with engine.connect().execution_options(reading=True) as connection:
        return _revision(connection) == _head(config_of(connection))


def config_of(connection: sa.Connection) -> Config:
    """Alembic's configuration for *connection*, without a file."""
    config = Config()
    config.set_main_option("script_location", "service.records:migrations")
    config.attributes["connection"] = connection
    return config


def _head(config: Config) -> str | None:
    return ScriptDirectory.from_config(config).get_current_head()


def _revision(connection: sa.Connection) -> str | None:
    return MigrationContext.configure(connection).get_current_revision()
