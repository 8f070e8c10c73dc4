"""From the command to its first answer, against the imports that no web service is without."""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.bench.load import SECRET
from tests.bench.report import Figure, at_most
from tests.bench.servers import BYRELINE, free_port, served

IMPORTS = "import flask, sqlalchemy.orm, apscheduler.schedulers.background"
ROUNDS = 5


def _imports() -> float:
    started = time.perf_counter()
    subprocess.run([sys.executable, "-c", IMPORTS], check=True)
    return time.perf_counter() - started


def _first_answer(database: Path) -> float:
    port = free_port()
    settings = {
        "BYRELINE_DATABASE_URL": f"sqlite:///{database}",
        "BYRELINE_GATEWAY_SECRET": SECRET,
        "BYRELINE_PORT": str(port),
    }
    started = time.perf_counter()
    with served(*BYRELINE, "run", port=port, settings=settings):
        return time.perf_counter() - started


def measure() -> list[Figure]:
    """The ratio of medians; the first start, which makes the database, beside it."""
    with tempfile.TemporaryDirectory() as folder:
        database = Path(folder) / "start.db"
        _imports()
        first = _first_answer(database)
        rounds = [(_imports(), _first_answer(database)) for _ in range(ROUNDS)]
    imports, answer = (statistics.median(column) for column in zip(*rounds, strict=True))
    detail = f"{answer:.2f} s against {imports:.2f} s; {first:.2f} s when the database is made first"
    return [at_most("start to first answer, against the imports", answer / imports, 2.0, detail)]
