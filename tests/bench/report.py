"""What was measured, and the page it is written to."""

from __future__ import annotations

import os
import platform
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

from tests.reference import table

PAGE = Path(__file__).resolve().parents[2] / "docs" / "reference" / "benchmarks.md"
LIBRARIES = ("flask", "sqlalchemy", "apscheduler", "waitress", "psycopg", "babel", "rapidfuzz")

INTRODUCTION = """\
# Benchmarks

Written by `python -m tests.bench`, which anyone can run: it takes two minutes, some 500 MB of the
temporary folder, and talks to 127.0.0.1 only.
`pytest -m bench` runs the same and fails where a goal is not met.
Name measurements to run only some of them: `python -m tests.bench reading start`.
The page is then left as it is.

Compare the ratios: each comes from one run in which the thing and its yardstick took turns.
The absolute figures are of the machine below and travel badly.

*B* is the yardstick of `tests/bench/baseline.py`: Flask on waitress, one durable transaction of four
statements a request through SQLAlchemy Core, one writer that commits what has gathered (SQLite).
It reads, plans and answers nothing.
"""


@dataclass(frozen=True, slots=True)
class Figure:
    """One measured thing. *value* is what the goal is about; *detail* the figures behind it."""

    what: str
    value: str
    goal: str = ""
    met: bool | None = None
    detail: str = ""

    def row(self) -> tuple[str, ...]:
        verdict = {None: "", True: "met", False: "**not met**"}[self.met]
        return (self.what, self.value, self.goal, verdict, self.detail)


def at_least(what: str, value: float, goal: float, detail: str = "") -> Figure:
    """A figure that should not be below *goal*."""
    return Figure(what, f"{value:.2f}", f"at least {goal:.2f}", value >= goal, detail)


def at_most(what: str, value: float, goal: float, detail: str = "", unit: str = "") -> Figure:
    """A figure that should not be above *goal*."""
    return Figure(what, f"{value:.2f}{unit}", f"at most {goal:g}{unit}", value <= goal, detail)


def machine() -> str:
    """Cores, versions and the day."""
    libraries = ", ".join(f"{name} {version(name)}" for name in LIBRARIES)
    today = datetime.now(UTC).date()  # noqa: TID251 - the day of the measuring, not of a farm
    return (
        f"Measured on {today.isoformat()} with {os.cpu_count()} cores, {platform.system()} "
        f"{platform.machine()}, "
        f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}, {libraries}."
    )


def as_table(figures: Sequence[Figure]) -> str:
    return table(("what", "measured", "goal", "", "behind it"), [figure.row() for figure in figures])


def write(figures: Sequence[Figure]) -> None:
    """Write the page."""
    PAGE.write_text(f"{INTRODUCTION}\n{machine()}\n\n{as_table(figures)}\n")
