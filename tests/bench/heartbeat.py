"""
One heartbeat with 1,000 reminders due among 1,000,000 open tasks, against the same among 10,000.

Two hundred farms, each of which had five cows served on one day, have five reminders due on the morning
of the eighteenth day after. All other open tasks, theirs and those of farms put in to fill the book, are
due later. Each beat is timed on a fresh copy of the database, the two sizes by turns.
"""

from __future__ import annotations

import shutil
import statistics
import time
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import sqlalchemy as sa

from service.records import tables
from service.records.base import open_engine
from simulator.clock import VirtualClock
from tests.bench import farms
from tests.bench.report import Figure, at_most

FARMS = 200
COWS = ("Neema", "Zawadi", "Pendo", "Tausi", "Malaika")
TELLINGS = (
    *(f"Ng'ombe mpya {cow}, anakamuliwa" for cow in COWS),
    *(f"{cow} amepandwa leo na K77" for cow in COWS),
)
SERVED = datetime(2026, 3, 2, 7, 0, tzinfo=farms.ZONE)
DUE = 1_000
SMALL, LARGE = 10_000, 1_000_000
FILLER_A_FARM = 20
ROUNDS = 3


def _url(path: Path) -> str:
    return f"sqlite:///{path}"


def _settle(path: Path) -> datetime:
    """The farms with their reminders; the moment at which these are due."""
    service = farms.runtime(_url(path), VirtualClock(SERVED))
    list(farms.settle(service, FARMS, TELLINGS, SERVED))
    service.close()
    engine = open_engine(_url(path))
    with engine.begin() as conn:
        reminders = sa.select(tables.Task.remind_at, sa.func.count()).where(tables.Task.state == "open")
        times = dict(conn.execute(reminders.group_by(tables.Task.remind_at)).tuples().all())
    engine.dispose()
    return min(at for at, count in times.items() if at is not None and count == DUE)


def _fill(path: Path, open_tasks: int, due_at: datetime) -> None:
    """Farms with tasks that are due later, until *open_tasks* are open."""
    engine = open_engine(_url(path))
    with engine.begin() as conn:
        missing = open_tasks - conn.execute(sa.select(sa.func.count()).select_from(tables.Task)).scalar_one()
        last = conn.execute(sa.select(sa.func.max(tables.Farm.id))).scalar_one()
        new = range(last + 1, last + 1 + -(-missing // FILLER_A_FARM))
        made = {"cooperative_id": 1, "name": "filler", "created_at": SERVED}
        conn.execute(sa.insert(tables.Farm), [{"id": number, **made} for number in new])
        conn.execute(sa.insert(tables.Task), list(_tasks(new, missing, due_at)))
        conn.exec_driver_sql("ANALYZE")
    engine.dispose()  # the last connection to close leaves everything in the one file that is copied


def _tasks(new: range, missing: int, due_at: datetime) -> Iterator[dict[str, object]]:
    """One task in three rests; the others want to be told of within the ten months after *due_at*."""
    for order in range(missing):
        later = due_at + timedelta(days=1 + order % 300, minutes=order % 60)
        yield {
            "farm_id": new[order // FILLER_A_FARM],
            "task": "spray",
            "due": later.date().isoformat(),
            "since": SERVED.date(),
            "about": False,
            "state": "open",
            "planned_at": SERVED,
            "remind_at": later if order % 3 else None,
        }


def _beat(path: Path, now: datetime) -> float:
    """Seconds of one heartbeat on a copy of the database at *path*."""
    copy = path.with_suffix(".copy")
    shutil.copyfile(path, copy)
    service = farms.runtime(_url(copy), VirtualClock(now))
    started = time.perf_counter()
    service.heartbeat()
    took = time.perf_counter() - started
    service.close()
    _check(copy)
    for left in (copy, Path(f"{copy}-wal"), Path(f"{copy}-shm")):
        left.unlink(missing_ok=True)
    return took


def _check(path: Path) -> None:
    """
    Raises:
        RuntimeError: The beat did not tell of all that was due.
    """
    engine = open_engine(_url(path))
    with engine.begin() as conn:
        told = conn.execute(sa.select(sa.func.count()).where(tables.Task.reminders > 0)).scalar_one()
    engine.dispose()
    if told != DUE:
        raise RuntimeError(f"{told} of {DUE} reminders went out")


def measure() -> list[Figure]:
    """The ratio of medians."""
    with TemporaryDirectory(prefix="byreline-bench-") as folder:
        small, large = Path(folder) / "small.db", Path(folder) / "large.db"
        now = _settle(small)
        shutil.copyfile(small, large)
        _fill(small, SMALL, now)
        _fill(large, LARGE, now)
        beats = [(_beat(large, now), _beat(small, now)) for _ in range(ROUNDS)]
    among_many, among_few = (statistics.median(column) for column in zip(*beats, strict=True))
    detail = f"{among_many:.2f} s against {among_few:.2f} s, sending included"
    what = "a heartbeat with 1,000 due among 1,000,000 open tasks, against the same among 10,000"
    return [at_most(what, among_many / among_few, 1.5, detail)]
