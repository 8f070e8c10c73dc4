"""
How well a corpus is read: what share exactly, by kind and by language, and which kind is read for which.

    python -m tests.reading tests/corpus/fourth.jsonl

Prints two Markdown tables, as docs/reference/reading.md shows them. A message counts as right where all it
tells was read and nothing else, each field as expected; of several accepted readings any one does.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from dialogs.reading import as_json
from tests.unit.dialogs.grammar.reading import reading

Case = Mapping[str, Any]

ASKED, NOTHING = "(asked)", "(nothing)"
"""What stands in the place of a kind: a question was asked; nothing was read."""


def agrees(expected: Any, got: Any) -> bool:
    """Whether *got* has all that *expected* has; a key left out is not compared."""
    if isinstance(expected, dict):
        return isinstance(got, dict) and all(k in got and agrees(v, got[k]) for k, v in expected.items())
    if isinstance(expected, list):
        return isinstance(got, list) and len(got) == len(expected) and all(map(agrees, expected, got))
    return bool(expected == got)


def read_now(case: Case) -> Mapping[str, Any]:
    """What the present code makes of *case*, as the contract's JSON."""
    got = reading(case["text"], now=datetime.fromisoformat(case["now"]), language=case["language"])
    return as_json(case["text"], got, ask=lambda problem: problem.ask.key)


def is_right(case: Case, got: Mapping[str, Any]) -> bool:
    accepted = [case, *({**case, **other} for other in case.get("also", ()))]
    return any(
        agrees({k: other[k] for k in ("entries", "problem") if k in other}, got)
        and (other.get("problem") is None) == (got["problem"] is None)
        for other in accepted
    )


def cases(file: Path) -> Iterator[Case]:
    for line in file.read_text("utf-8").splitlines():
        if line.strip():
            yield json.loads(line)


@dataclass(slots=True)
class Score:
    """Counts over a corpus. ``of``: messages; ``right``: those read exactly; keyed by kind or language."""

    of: Counter[str] = field(default_factory=Counter)
    right: Counter[str] = field(default_factory=Counter)
    confused: Counter[tuple[str, str]] = field(default_factory=Counter)  # (meant, read), of the others

    def add(self, case: Case, got: Mapping[str, Any]) -> None:
        good = is_right(case, got)
        meant, read = _kinds(case), _kinds(got)
        for key in {case["language"], "all", *meant}:
            self.of[key] += 1
            self.right[key] += good
        if not good:
            self.confused.update(_pairs(meant, read))


def _kinds(told: Mapping[str, Any]) -> list[str]:
    kinds = [entry["kind"] for entry in told.get("entries", ())]
    return kinds or [ASKED if told.get("problem") is not None else NOTHING]


def _pairs(meant: Sequence[str], read: Sequence[str]) -> Iterator[tuple[str, str]]:
    """What was read for what was meant; equal kinds first: there a field differs."""
    rest_meant, rest_read = list(meant), list(read)
    for kind in meant:
        if kind in rest_read:
            rest_meant.remove(kind)
            rest_read.remove(kind)
            yield kind, kind
    for place in range(max(len(rest_meant), len(rest_read))):
        yield (
            rest_meant[place] if place < len(rest_meant) else NOTHING,
            rest_read[place] if place < len(rest_read) else NOTHING,
        )


def score(file: Path) -> Score:
    made = Score()
    for case in cases(file):
        made.add(case, read_now(case))
    return made


def tables(made: Score) -> str:
    """The shares and the confusions of *made* in Markdown."""
    shares = [
        f"| {key} | {made.right[key]} of {of} | {100 * made.right[key] / of:.1f} % |"
        for key, of in sorted(made.of.items(), key=lambda one: (one[0] != "all", -one[1], one[0]))
    ]
    confused = [
        f"| {meant} | {'a field differs' if meant == read else read} | {count} |"
        for (meant, read), count in sorted(made.confused.items(), key=lambda one: (-one[1], one[0]))
    ]
    return "\n".join(
        ["| meant | right | share |", "| --- | --- | --- |", *shares, "",
         "| meant | read | in how many |", "| --- | --- | --- |", *confused]
    )  # fmt: skip


if __name__ == "__main__":
    for name in sys.argv[1:]:
        print(f"{tables(score(Path(name)))}\n")
