"""Reading a text: microseconds at the median, over the texts of the corpus."""

from __future__ import annotations

import json
import statistics
import time
from datetime import date, datetime
from pathlib import Path

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from service.husbandry.herd import Herd, Known, Sex, Status
from tests.bench.report import Figure, at_most

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
ROUNDS = 5


def _herd() -> Herd:
    animals = json.loads((CORPUS / "herd.json").read_text())["animals"]
    return Herd(
        tuple(
            Known(
                name=a["name"],
                names=(a["name"],),
                sex=Sex(a["sex"]),
                status=Status(a["status"]),
                born=date.fromisoformat(a["born"]) if a.get("born") else None,
            )
            for a in animals
        )
    )


def measure() -> list[Figure]:
    """The median of the texts' own best of a few rounds; the slowest in a hundred beside it."""
    lines = [json.loads(line) for line in (CORPUS / "samples.jsonl").read_text().splitlines()]
    texts = [(line["text"], datetime.fromisoformat(line["now"]), line["language"]) for line in lines]
    herd, place = _herd(), Place()
    best = [min(_microseconds(*text, herd, place) for _ in range(ROUNDS)) for text in texts]
    slow = sorted(best)[int(len(best) * 0.99)]
    detail = f"{len(best)} texts of the samples, p99 {slow:.0f} µs"
    return [at_most("reading a text, at the median", statistics.median(best), 100, detail, " µs")]


def _microseconds(text: str, now: datetime, language: str, herd: Herd, place: Place) -> float:
    started = time.perf_counter_ns()
    read(text, herd, now=now, language=language, place=place)
    return (time.perf_counter_ns() - started) / 1000
