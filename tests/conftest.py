"""Fixtures for all: no settings from outside, and fresh databases on SQLite and PostgreSQL."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
import sqlalchemy as sa

from service.records.base import Store, open_engine
from service.settings import PREFIX
from tests.support.clocks import SetClock
from tests.support.databases import Postgres, Server, Sqlite
from tests.support.gateways import GatewayServer, gateway_server

DATABASES = {"sqlite": Sqlite, "postgresql": Postgres}


@pytest.fixture(autouse=True, scope="session")
def no_settings_from_outside() -> None:
    """What whoever runs the tests has set for a service of his own must not decide a test."""
    for name in [name for name in os.environ if name.startswith(PREFIX)]:
        del os.environ[name]


@pytest.fixture(scope="session")
def database_servers() -> Iterator[dict[str, Server]]:
    """The servers started so far, by name; started when first asked for."""
    started: dict[str, Server] = {}
    yield started
    for server in started.values():
        server.stop()


def _server(name: str, started: dict[str, Server]) -> Server:
    if name not in started:
        started[name] = DATABASES[name]()
    return started[name]


@pytest.fixture(params=list(DATABASES))
def database_server(request: pytest.FixtureRequest, database_servers: dict[str, Server]) -> Server:
    """Each kind of database server in turn."""
    return _server(request.param, database_servers)


@pytest.fixture
def database_url(database_server: Server) -> Iterator[str]:
    """A fresh database with all tables, of each kind in turn."""
    url = database_server.fresh()
    yield url
    database_server.drop(url)


@pytest.fixture
def empty_database_url(database_server: Server) -> Iterator[str]:
    """A database without tables, of each kind in turn."""
    url = database_server.empty()
    yield url
    database_server.drop(url)


@pytest.fixture
def sqlite_url(database_servers: dict[str, Server]) -> Iterator[str]:
    """A fresh SQLite database with all tables."""
    server = _server("sqlite", database_servers)
    url = server.fresh()
    yield url
    server.drop(url)


@pytest.fixture
def postgresql_url(database_servers: dict[str, Server]) -> Iterator[str]:
    """A fresh PostgreSQL database with all tables."""
    server = _server("postgresql", database_servers)
    url = server.fresh()
    yield url
    server.drop(url)


@pytest.fixture
def empty_postgresql_url(database_servers: dict[str, Server]) -> Iterator[str]:
    """A PostgreSQL database without tables."""
    server = _server("postgresql", database_servers)
    url = server.empty()
    yield url
    server.drop(url)


@pytest.fixture
def engine(database_url: str) -> Iterator[sa.Engine]:
    """An engine on a fresh database, of each kind in turn."""
    engine = open_engine(database_url)
    yield engine
    engine.dispose()


@pytest.fixture
def store(engine: sa.Engine) -> Iterator[Store]:
    """A store on a fresh database, of each kind in turn."""
    store = Store(engine)
    yield store
    store.close()


@pytest.fixture
def clock() -> SetClock:
    """Noon of 2 March 2026 on the farm's clock, until moved."""
    return SetClock()


@pytest.fixture
def gateway_http() -> Iterator[GatewayServer]:
    """A gateway that answers over HTTP."""
    with gateway_server() as server:
        yield server
