"""The steps of the database's history lead to the tables as they are declared."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import sqlalchemy as sa
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from service.records.base import open_engine
from service.records.migrate import config_of, head, is_current, upgrade
from service.records.tables import TextOut

METADATA = TextOut.metadata


def where_clauses(engine: sa.Engine) -> dict[str, str]:
    """The condition of each partial index, without the database's own brackets and casts."""
    indexes = [
        index for table in METADATA.sorted_tables for index in sa.inspect(engine).get_indexes(table.name)
    ]
    found = {}
    for index in indexes:
        where = index.get("dialect_options", {}).get(f"{engine.dialect.name}_where")
        if where is not None:
            found[str(index["name"])] = plain(str(where))
    return found


def plain(where: str) -> str:
    return where.replace("(", "").replace(")", "").replace("::text", "").lower()


def test_models_and_migrations_agree(engine: sa.Engine) -> None:
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, METADATA) == []


def test_partial_indexes_have_the_conditions_that_the_tables_declare(engine: sa.Engine) -> None:
    declared = {
        index.name: plain(str(where))
        for table in METADATA.sorted_tables
        for index in table.indexes
        if (where := index.dialect_options[engine.dialect.name]["where"]) is not None
    }
    assert where_clauses(engine) == declared


def test_a_database_is_current_only_after_it_was_migrated(empty_database_url: str) -> None:
    engine = open_engine(empty_database_url)
    assert not is_current(engine)
    upgrade(engine)
    assert is_current(engine)
    upgrade(engine)  # again changes nothing
    assert is_current(engine)
    engine.dispose()


def test_the_steps_are_numbered_as_they_follow_one_another(engine: sa.Engine) -> None:
    with engine.connect() as connection:
        assert ScriptDirectory.from_config(config_of(connection)).get_current_head() == head()


def test_two_processes_that_start_together_migrate_once(empty_database_url: str) -> None:
    engines = [open_engine(empty_database_url) for _ in range(4)]
    with ThreadPoolExecutor(len(engines)) as pool:
        list(pool.map(upgrade, engines))
    assert all(is_current(engine) for engine in engines)
    for engine in engines:
        engine.dispose()


def test_every_step_can_be_taken_back(engine: sa.Engine) -> None:
    with engine.begin() as connection:
        command.downgrade(config_of(connection), "base")
    assert set(sa.inspect(engine).get_table_names()) == {"alembic_version"}
