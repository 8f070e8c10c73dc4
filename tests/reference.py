"""
The parts of docs/reference that follow from the code: ``python -m tests.reference`` writes them anew.

A page keeps its own words; between ``<!-- NAME: written by python -m tests.reference -->`` and
``<!-- end of NAME -->`` stands what the function of that name in ``PARTS`` makes. ``test_docs.py`` fails
when a page and the code differ.
"""

from __future__ import annotations

import argparse
import dataclasses
import re
from collections.abc import Callable, Iterable
from inspect import cleandoc
from pathlib import Path

from service import cli
from service.husbandry.forms import Entry, Field, Sort, form
from service.husbandry.intervals import Intervals
from service.husbandry.kinds import KINDS
from service.settings import SETTINGS

DOCS = Path(__file__).resolve().parent.parent / "docs"

HOLDS = {
    Sort.ANIMAL: "the name of an animal",
    Sort.ANIMALS: 'names of animals, or `["*"]` for all',
    Sort.DAY: "a date",
    Sort.MOMENT: "a moment",
    Sort.MONTH: "a month",
    Sort.NUMBER: "a number",
    Sort.CHOICE: "one of",
    Sort.SEVERAL: "any of",
    Sort.WORDS: "words, as written",
    Sort.NAME: "a name, 1 to 12 characters",
    Sort.PHONE: "a phone, E.164",
    Sort.MONEY: "a sum of money",
    Sort.FLAG: "true or false",
    Sort.CALVES: "a list of calves",
    Sort.DEDUCTIONS: "a list of deductions",
    Sort.NUMBERS: "numbers of items of the last list",
}


def table(head: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    """A Markdown table."""
    lines = [head, ("---",) * len(head), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)


def holds(field: Field) -> str:
    """What may stand in *field*, in words."""
    if field.options:
        return f"{HOLDS[field.sort]} " + ", ".join(f"`{option}`" for option in field.options)
    if field.low is None or field.high is None:
        return HOLDS[field.sort]
    usual = "" if field.usual is None else f"; above {field.usual} it is asked about first"
    return f"{HOLDS[field.sort]}, {field.low} to {field.high}{usual}"


def kind_section(kind: type[Entry]) -> str:
    """One kind, with its fields as declared."""
    kept = "\n\nAn instruction: carried out, not kept." if kind.INSTRUCTION else ""
    rows = [(f"`{f.name}`", holds(f), "yes" if f.needed else "") for f in form(kind)]
    fields = f"\n\n{table(('field', 'holds', 'needed'), rows)}" if rows else ""
    return f"### `{kind.KIND}`\n\n{cleandoc(kind.__doc__ or '').replace('``', '`')}{kept}{fields}"


def kinds() -> str:
    return "\n\n".join(kind_section(kind) for kind in KINDS)


def settings() -> str:
    rows = [(f"`{s.variable}`", f"`{s.default}`" if s.default else "", s.help) for s in SETTINGS]
    return table(("variable", "default", "what it is"), rows)


def intervals() -> str:
    """Every interval: its default, unit and source."""
    rows = [
        (f"`{field.name}`", str(field.default), field.metadata["unit"], field.metadata["source"])
        for field in dataclasses.fields(Intervals)
    ]
    return table(("interval", "default", "unit", "source"), rows)


def _option(action: argparse.Action) -> tuple[str, ...]:
    name = ", ".join(action.option_strings) or str(action.metavar)
    value = action.metavar if action.option_strings and action.nargs != 0 else None
    taken = " or ".join(map(str, action.choices)) if action.choices else value
    default = "" if action.default in (None, argparse.SUPPRESS) else f"`{action.default}`"
    return (f"`{name} {taken}`" if taken else f"`{name}`", default, action.help or "")


def command_section(name: str, parser: argparse.ArgumentParser) -> str:
    """One command: what it does, its options, its example."""
    said = (parser.description or "").strip()
    rows = [_option(action) for action in parser._actions if action.dest != "help"]
    options = f"\n\n{table(('option', 'default', 'what it is'), rows)}" if rows else ""
    example = (parser.epilog or "").removeprefix("example: ")
    return f"### `byreline {name}`\n\n{said[:1].upper()}{said[1:]}.{options}\n\n    {example}"


def command_parsers() -> dict[str, argparse.ArgumentParser]:
    """Every command by its name, as the command line declares it."""
    actions = cli._parser()._actions
    [commands] = [action for action in actions if isinstance(action, argparse._SubParsersAction)]
    return dict(commands.choices)


def commands() -> str:
    return "\n\n".join(command_section(name, parser) for name, parser in command_parsers().items())


PARTS: dict[tuple[str, str], Callable[[], str]] = {
    ("reference/commands.md", "commands"): commands,
    ("reference/records.md", "kinds"): kinds,
    ("reference/settings.md", "settings"): settings,
    ("reference/tasks.md", "intervals"): intervals,
}


def between(name: str) -> re.Pattern[str]:
    """Finds the part *name* of a page: its first line, what stands in it, its last line."""
    first = f"<!-- {name}: written by python -m tests.reference -->\n"
    return re.compile(f"({re.escape(first)})(.*?)(<!-- end of {re.escape(name)} -->)", re.DOTALL)


def written(page: str, name: str) -> str:
    """What stands in the part *name* of a page now."""
    found = between(name).search((DOCS / page).read_text())
    if found is None:
        raise LookupError(f"docs/{page} has no part {name}")
    return found[2].strip()


def write() -> None:
    """Bring every part up to date."""
    for (page, name), make in PARTS.items():
        path = DOCS / page
        first, last = between(name).sub("\\1\\n\0\\n\\n\\3", path.read_text()).split("\0")
        path.write_text(first + make() + last)


if __name__ == "__main__":
    write()
