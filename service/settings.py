"""
Settings: one table of rows, read from the environment and a TOML file into a frozen object.

The environment wins over the file. In the file a setting goes by its name without the prefix, in lower
case: ``port = 8080``.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import SplitResult, urlsplit
from zoneinfo import ZoneInfo

import phonenumbers

PREFIX = "BYRELINE_"

DATABASES = ("sqlite", "sqlite+pysqlite", "postgresql", "postgresql+psycopg")
"""The schemes of a database address for which a driver comes with the package."""


class Setting(NamedTuple):
    """One row: its name, what holds when it is not set ("" for nothing), and what it is."""

    name: str
    default: str
    help: str

    @property
    def variable(self) -> str:
        """Its environment variable."""
        return PREFIX + self.name.upper()


SETTINGS = (
    Setting("database_url", "sqlite:///byreline.db", "Database, SQLite or PostgreSQL, as an SQLAlchemy URL."),
    Setting("gateway_url", "", "Address of the SMS gateway; without it outgoing texts wait."),
    Setting("gateway_secret", "", "Secret shared with the gateway; without it the doors stay shut."),
    Setting("host", "127.0.0.1", "Address to listen on."),
    Setting("port", "8080", "Port to listen on."),
    Setting("region", "TZ", "Country by which phone numbers are read (two letters)."),
    Setting("zone", "Africa/Dar_es_Salaam", "Time zone of the farms."),
    Setting("currency", "TZS", "Currency of sums of money (ISO 4217)."),
)

CONFIG = PREFIX + "CONFIG"
"""The environment variable that names the TOML file."""


class SettingsError(Exception):
    """A setting that cannot be used; the message is one plain sentence for whoever set it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """
    What was set, checked. What can hold a secret is kept out of ``repr``.

    ``gateway_url`` has no slash at its end; it and ``gateway_secret`` are None where not set.
    """

    database_url: str = field(repr=False)
    gateway_url: str | None
    gateway_secret: str | None = field(repr=False)
    host: str
    port: int
    region: str
    zone: ZoneInfo
    currency: str

    @classmethod
    def from_env(cls, environ: Mapping[str, str], toml_path: str | Path | None = None) -> Settings:
        """
        The settings of *environ*, then of the TOML file *toml_path* (or that ``BYRELINE_CONFIG`` names).

        Raises:
            SettingsError: The file cannot be read, or a value cannot be used.
        """
        given = _from_file(toml_path or environ.get(CONFIG))
        values = {
            row.name: environ.get(row.variable) or given.get(row.name) or row.default for row in SETTINGS
        }
        return cls(
            database_url=_database(values["database_url"]),
            gateway_url=_gateway(values["gateway_url"]),
            gateway_secret=_secret(values["gateway_secret"]),
            host=values["host"],
            port=_port(values["port"]),
            region=_region(values["region"]),
            zone=_zone(values["zone"]),
            currency=_currency(values["currency"]),
        )


def _from_file(path: str | Path | None) -> dict[str, str]:
    """What the file at *path* sets, by name; nothing where there is no path."""
    if not path:
        return {}
    try:
        given = tomllib.loads(Path(path).read_text(encoding="utf-8"))
    except OSError as error:
        raise SettingsError(f"The settings file {path} cannot be read: {error.strerror}.") from error
    except ValueError as error:  # not TOML, or not UTF-8
        raise SettingsError(f"The settings file {path} is not TOML: {error}.") from error
    return {name: _plain(name, value, path) for name, value in given.items()}


def _plain(name: str, value: Any, path: str | Path) -> str:
    if name not in {row.name for row in SETTINGS}:
        raise SettingsError(f"The settings file {path} sets {name}, which is no setting.")
    if not isinstance(value, str | int) or isinstance(value, bool):
        raise SettingsError(f"The settings file {path} must set {name} to a text or a whole number.")
    return str(value)


def _wrong(name: str, must: str) -> SettingsError:
    return SettingsError(f"{PREFIX}{name.upper()} must be {must}.")


def _split(name: str, value: str, must: str) -> SplitResult:
    """*value* taken apart; what is wrong is told without it, for it may hold a password."""
    try:
        parts = urlsplit(value)
        _ = parts.port  # looked at only when asked for
    except ValueError as error:
        raise _wrong(name, must) from error
    return parts


def _database(value: str) -> str:
    must = "the address of an SQLite or PostgreSQL database, such as sqlite:///byreline.db"
    parts = _split("database_url", value, must)
    if parts.scheme not in DATABASES or "://" not in value:
        raise _wrong("database_url", must)
    if parts.scheme.startswith("sqlite") and parts.path in ("", "/", "/:memory:"):
        raise _wrong("database_url", "a database on disk: one in memory would keep nothing")
    return value


def _gateway(value: str) -> str | None:
    if not value:
        return None
    must = "an address that begins with http:// or https://, without a question mark, user or password"
    parts = _split("gateway_url", value, must)
    usable = parts.scheme in ("http", "https") and parts.hostname and re.fullmatch(r"[!-~]+", value)
    if not usable or parts.query or parts.fragment or parts.username is not None:
        raise _wrong("gateway_url", must)
    return value.rstrip("/")


def _secret(value: str) -> str | None:
    try:
        value.encode()
    except UnicodeEncodeError as error:
        raise _wrong("gateway_secret", "a text in UTF-8") from error
    return value or None


def _port(value: str) -> int:
    if not re.fullmatch(r"[0-9]{1,5}", value) or not 1 <= int(value) <= 65535:
        raise _wrong("port", "a whole number from 1 to 65535")
    return int(value)


def _region(value: str) -> str:
    if value.upper() not in phonenumbers.SUPPORTED_REGIONS:
        raise _wrong("region", "a country of two letters, such as TZ")
    return value.upper()


def _zone(value: str) -> ZoneInfo:
    try:
        return ZoneInfo(value)
    except (KeyError, ValueError, OSError) as error:
        raise _wrong("zone", "a time zone, such as Africa/Dar_es_Salaam") from error


def _currency(value: str) -> str:
    if not re.fullmatch(r"[A-Za-z]{3}", value):
        raise _wrong("currency", "a currency of three letters, such as TZS")
    return value.upper()
