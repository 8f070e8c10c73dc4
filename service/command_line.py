"""What every command of ``byreline`` shares: how it is declared, how a wrong call is said, the database."""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn, TypeAlias

from service.phones import phone_of
from service.settings import Settings

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

GOOD, FAILED, WRONG = 0, 1, 2


class WrongCall(Exception):
    """The command cannot be carried out as called; the message is the line that says why."""


class Parser(argparse.ArgumentParser):
    """Says in one line what is wrong with a call."""

    def error(self, message: str) -> NoReturn:
        raise WrongCall(message)


Commands: TypeAlias = "argparse._SubParsersAction[Parser]"  # the only name argparse has for it
Run = Callable[[argparse.Namespace], int]


def command(commands: Commands, name: str, run: Run, help: str, example: str) -> argparse.ArgumentParser:
    """A command that *run* carries out; *help* is a sentence without its stop."""
    made = commands.add_parser(
        name,
        help=help,
        description=help,
        epilog=f"example: {example}",
        formatter_class=argparse.ArgumentDefaultsHelpFormatter,
    )
    made.set_defaults(run=run)
    return made


def add_database(made: argparse.ArgumentParser) -> None:
    """The option that names another database than that of the settings."""
    made.add_argument("--database", metavar="URL", help="the database; without it, the one of the settings")


def phone_in(written: str, settings: Settings) -> str:
    """
    A phone as an office writes it, in E.164.

    Raises:
        WrongCall: It is no phone number.
    """
    phone = phone_of(written, settings.region)
    if phone is None:
        raise WrongCall(f"{written} is no phone number")
    return phone


def settings_with(**over: str | None) -> Settings:
    """The settings of the environment, those given here laid over them."""
    given = {f"BYRELINE_{name.upper()}": value for name, value in over.items() if value is not None}
    return Settings.from_env({**os.environ, **given})


@contextmanager
def opened(settings: Settings) -> Iterator[Engine]:
    """The settings' database, which must be there and current."""
    import sqlalchemy as sa

    from service.records import migrate
    from service.records.base import open_engine

    url = sa.make_url(settings.database_url)
    if url.get_backend_name() == "sqlite" and not Path(url.database or "").is_file():
        raise WrongCall(f"there is no database {url.database}")
    engine = open_engine(settings.database_url)
    try:
        if not migrate.is_current(engine):
            raise WrongCall("the database is not up to date: start the service on it once")
        yield engine
    except sa.exc.OperationalError:
        raise WrongCall("the database does not answer") from None
    finally:
        engine.dispose()


@contextmanager
def reading(settings: Settings) -> Iterator[Connection]:
    """A connection that sees one state of the database and changes nothing."""
    with opened(settings) as engine, engine.connect().execution_options(reading=True) as conn:
        yield conn


@contextmanager
def writing(settings: Settings) -> Iterator[Connection]:
    """A connection in one transaction, committed at the end if nothing was raised."""
    with opened(settings) as engine, engine.begin() as conn:
        yield conn
