"""What the reader's tests share: the sample herd, and short ways to read a text."""

from __future__ import annotations

import json
from datetime import date, datetime
from pathlib import Path
from typing import Any

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.reading import Reading
from service.husbandry.forms import dump
from service.husbandry.herd import Herd, Known, Sex, Status

CORPUS = Path(__file__).parents[3] / "corpus"
EVENING = datetime.fromisoformat("2026-03-02T18:15+03:00")  # a Monday
MORNING = datetime.fromisoformat("2026-03-02T06:40+03:00")


def _known(told: dict[str, Any]) -> Known:
    return Known(
        name=told["name"],
        names=(told["name"],),
        sex=Sex(told["sex"]),
        status=Status(told["status"]),
        born=date.fromisoformat(told["born"]),
        in_calf=told["status"] == "in_calf_heifer",
    )


HERD = Herd(tuple(_known(a) for a in json.loads((CORPUS / "herd.json").read_text("utf-8"))["animals"]))
EMPTY = Herd(())


def reading(text: str, *, now: datetime = EVENING, herd: Herd | None = HERD, language: str = "sw") -> Reading:
    return read(text, herd, now=now, language=language, place=Place())


def entries(text: str, **how: Any) -> list[dict[str, Any]]:
    """The entries that stand, as the contract's JSON without what was not told."""
    told = [dump(entry) for entry in reading(text, **how).entries]
    return [{key: value for key, value in entry.items() if value not in (None, [], False)} for entry in told]


def entry(text: str, **how: Any) -> dict[str, Any]:
    """The one entry of a text that raises no question."""
    found = reading(text, **how)
    assert found.problems == (), found.problems
    (only,) = entries(text, **how)
    return only


def problem(text: str, **how: Any) -> tuple[str, str | None]:
    """Code and, where the contract names one, field of the first problem."""
    first = reading(text, **how).problems[0]
    return first.code.value, first.field if first.code.value in ("missing", "out_of_range") else None
