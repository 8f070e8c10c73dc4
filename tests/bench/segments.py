"""Segments a text, over every conversation of the suite."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.bench.report import Figure, at_most
from tests.bench.servers import BYRELINE

ROOT = Path(__file__).resolve().parents[2]
SCRIPTS = sorted((ROOT / "tests" / "conversations").rglob("*.talk"))


def _sent() -> Iterator[int]:
    """The segments of each text that any conversation sends."""
    with TemporaryDirectory(prefix="byreline-bench-") as folder:
        log = Path(folder) / "log.jsonl"
        play = [*BYRELINE, "play", *map(str, SCRIPTS), "--log", str(log)]
        subprocess.run(
            play, stdout=subprocess.DEVNULL, cwd=ROOT
        )  # whether they go as written is another test
        for line in log.read_text().splitlines():
            event = json.loads(line)
            if event["event"] == "sent":
                yield event["segments"]


def measure() -> list[Figure]:
    """The mean; how many texts take more than one segment beside it."""
    sent = list(_sent())
    longer = sum(segments > 1 for segments in sent)
    detail = f"{len(sent)} texts of {len(SCRIPTS)} conversations, {longer} longer than one segment"
    return [at_most("segments a text", sum(sent) / len(sent), 1.0, detail)]
