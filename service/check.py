"""Whether the service could run as it is set: one plain sentence for each thing wrong."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

import sqlalchemy as sa

from service.gateways.choose import gateway_of
from service.records import migrate
from service.records.base import open_engine
from service.settings import Settings, SettingsError


def faults(environ: Mapping[str, str]) -> list[str]:
    """What is wrong with settings, database, migrations and gateway; empty when all is well."""
    try:
        settings = Settings.from_env(environ)
    except SettingsError as error:
        return [str(error)]
    gateway = gateway_of(settings).check()
    return [*_database(settings), *([] if gateway == "ok" else [gateway])]


def _database(settings: Settings) -> list[str]:
    url = sa.make_url(settings.database_url)
    if url.get_backend_name() == "sqlite" and url.database and not Path(url.database).exists():
        return _can_be_made(Path(url.database))
    engine = open_engine(settings.database_url)
    try:
        if migrate.is_current(engine) or not sa.inspect(engine).get_table_names():
            return []  # an empty one is filled when the service starts
        return ["The database is not up to date: start the service on it once."]
    except sa.exc.SQLAlchemyError:
        where = url.render_as_string(hide_password=True)
        return [f"The database {where} does not answer."]
    finally:
        engine.dispose()


def _can_be_made(path: Path) -> list[str]:
    """Whether the service could make its SQLite file where it is to be."""
    folder = path.absolute().parent
    if folder.is_dir() and os.access(folder, os.W_OK):
        return []
    return [f"The database {path} cannot be made: its folder is not there or not writable."]
