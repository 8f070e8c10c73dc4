"""
What tellings of the herd enter: a farm's first ones, and later ones of a herd that has animals.

The tables hold a telling a line, then what it enters: name, F or M, status ("-": none told), and what else;
"!" marks a question. "\\n" stands for a new line.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from dialogs.reading import Problem
from service.husbandry.forms import dump
from service.husbandry.herd import Herd
from tests.unit.dialogs.grammar.reading import EMPTY, HERD, MORNING, reading

HERE = Path(__file__).parent


def table(name: str) -> list[tuple[str, str]]:
    lines = (HERE / name).read_text("utf-8").splitlines()
    cut = [line.replace("\\n", "\n").partition(" | ") for line in lines]
    return [(text, told.strip()) for text, _, told in cut]


def told(text: str, herd: Herd) -> str:
    read = reading(text, herd=herd, now=MORNING)
    return "; ".join([*(short(dump(entry)) for entry in read.entries), *map(asked, read.problems)])


def short(entry: dict[str, Any]) -> str:
    match entry["kind"]:
        case "new_animal":
            sex = {"female": "F", "male": "M"}[entry["sex"]]
            more = [f"{key}={entry[key]}" for key in ("breed", "born", "dam") if entry[key]]
            price = [f"price={entry['price']['amount']}"] if entry["price"] else []
            return " ".join([entry["name"], sex, entry["status"] or "-", *more, *price])
        case "milk":
            return f"milk {entry['animal']} {entry['litres']}"
        case "pregnancy_check":
            months = f" {entry['months']}" if entry["months"] else ""
            return f"preg {entry['animal']} {entry['result']}{months}"
        case "ask":
            return f"ask {entry['topic']}"
    return f"{entry['kind']} {entry['animal']}"


def asked(problem: Problem) -> str:
    name = (problem.draft.values.get("name") if problem.draft else None) or problem.name or ""
    return f"!{problem.code.value} {problem.field or ''} {name}".rstrip()


@pytest.mark.parametrize(("text", "enters"), table("herd_first.txt"))
def test_a_first_telling_enters_each_animal_with_what_is_told_of_her(text: str, enters: str) -> None:
    assert told(text, EMPTY) == enters


@pytest.mark.parametrize(("text", "enters"), table("herd_later.txt"))
def test_a_later_telling_enters_only_the_animals_that_are_new(text: str, enters: str) -> None:
    assert told(text, HERD) == enters


def test_a_dam_named_in_the_same_telling_is_the_calfs() -> None:
    assert told("ng'ombe Kalunde anakamuliwa, ndama jike wa Kalunde", EMPTY) == (
        "Kalunde F milking; Ndama F calf dam=Kalunde"
    )


def test_one_price_for_several_is_of_none_of_them() -> None:
    assert "price" not in told("nimenunua ng'ombe jike wawili Kalunde na Mboni laki 16", EMPTY)
