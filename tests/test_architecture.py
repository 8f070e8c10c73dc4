"""
The house keeps its own rules: what import-linter cannot see of the floors, and what must be listed is listed.
"""

from __future__ import annotations

import ast
import dataclasses
import importlib
import inspect
import pkgutil
import tomllib
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path
from typing import Any

import pytest

from scheduler.rules import HERD_RULES, RULES
from scheduler.rules.answers import ANSWERS
from service.flow.orders import ORDERS
from service.husbandry.forms import Entry, form
from service.husbandry.kinds import BY_KEY, KINDS
from service.settings import SETTINGS, Settings

ROOT = Path(__file__).resolve().parent.parent
PACKAGES = ("service", "dialogs", "scheduler", "simulator")
TOP_LEVEL = {*PACKAGES, "tests", "docs", "README.md", "DEVELOPERS.md", "pyproject.toml"}
PROJECT: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text())
LAYERS = {
    module.strip()
    for contract in PROJECT["tool"]["importlinter"]["contracts"]
    if contract["type"] == "layers"
    for layer in contract["layers"]
    for module in layer.split("|")
}
WRITTEN_BY_HAND = {
    ".py",
    ".md",
    ".toml",
    ".talk",
    ".po",
    ".html",
    ".css",
    ".js",
    ".jsonl",
    ".json",
    ".mako",
    "",
}


def ignored() -> list[str]:
    """Patterns of what the tools leave behind."""
    return [line.rstrip("/") for line in (ROOT / ".gitignore").read_text().split()]


def own_files() -> Iterator[Path]:
    """Every file that somebody wrote, wherever it lies in the repository."""
    tops = [ROOT / name for name in (*TOP_LEVEL, ".ci")]
    for path in [p for top in tops for p in ([top] if top.is_file() else top.rglob("*"))]:
        parts = path.relative_to(ROOT).parts
        left_behind = any(fnmatch(part, pattern) for part in parts for pattern in ignored())
        if path.is_file() and not left_behind and path.suffix in WRITTEN_BY_HAND:
            yield path


def modules_in(package: str) -> list[str]:
    """Every module below *package*, by its full name."""
    found = importlib.import_module(package)
    return [module.name for module in pkgutil.walk_packages(found.__path__, f"{package}.")]


def floor_of(module: str) -> str | None:
    """The layer that *module* stands on, or is part of."""
    parts = module.split(".")
    names = (".".join(parts[:length]) for length in range(len(parts), 0, -1))
    return next((name for name in names if name in LAYERS), None)


def test_the_top_level_holds_only_what_belongs_there() -> None:
    names = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    strange = {name for name in names - TOP_LEVEL if not any(fnmatch(name, p) for p in ignored())}
    assert strange == set()


@pytest.mark.parametrize("package", ["service", "service/records", "service/flow", "scheduler", "dialogs"])
def test_a_package_that_others_import_through_holds_only_its_docstring(package: str) -> None:
    # Importing service.husbandry runs service/__init__.py, which the import graph does not count.
    body = ast.parse((ROOT / package / "__init__.py").read_text()).body
    assert all(isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) for node in body)


@pytest.mark.parametrize("package", PACKAGES)
def test_every_module_stands_on_some_floor(package: str) -> None:
    without = [
        module
        for module in modules_in(package)
        if floor_of(module) is None and not any(layer.startswith(f"{module}.") for layer in LAYERS)
    ]
    assert without == []


def test_every_floor_exists() -> None:
    known = {*PACKAGES, *(module for package in PACKAGES for module in modules_in(package))}
    assert known >= LAYERS


def test_nothing_depends_on_where_it_was_written() -> None:
    places = ("../" + "shared",)
    told = [
        str(path.relative_to(ROOT))
        for path in own_files()
        if any(place in path.read_text(errors="replace") for place in places)
    ]
    assert told == []


def test_no_text_file_is_left_with_a_conflict_or_a_placeholder() -> None:
    marks = ("<" * 7 + " ", ">" * 7 + " ", "TO" + "DO", "FIX" + "ME", "NotImplemented" + "Error")
    left = [
        str(path.relative_to(ROOT))
        for path in own_files()
        if any(mark in path.read_text(errors="replace") for mark in marks)
    ]
    assert left == []


def kinds_written() -> set[type[Entry]]:
    """Every class under service/husbandry/kinds that says what kind it is."""
    modules = [importlib.import_module(name) for name in modules_in("service.husbandry.kinds")]
    classes = [value for module in modules for value in vars(module).values() if isinstance(value, type)]
    return {cls for cls in classes if issubclass(cls, Entry) and cls.KIND}


def test_every_kind_is_listed_once() -> None:
    assert set(KINDS) == kinds_written()
    assert len(set(KINDS)) == len(KINDS) == len(BY_KEY)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.KIND)
def test_a_kind_says_what_it_is_and_declares_each_field(kind: type[Entry]) -> None:
    assert kind.__doc__
    assert "KIND" in vars(kind)
    for field in form(kind):
        assert field.low is None or field.high is None or field.low < field.high


def rules_written() -> set[object]:
    """Every function under scheduler/rules that takes an animal or a farm, and the intervals."""
    modules = [importlib.import_module(name) for name in modules_in("scheduler.rules")]
    functions = [value for module in modules for value in vars(module).values() if inspect.isfunction(value)]
    return {
        function
        for function in functions
        if not function.__name__.startswith("_")
        and list(inspect.signature(function).parameters) in (["animal", "intervals"], ["farm", "intervals"])
    }


def test_every_rule_is_listed_once() -> None:
    listed = [*RULES, *HERD_RULES]
    assert set(listed) == rules_written()
    assert len(set(listed)) == len(listed)


def test_what_a_record_answers_is_a_task_that_some_rule_plans() -> None:
    assert set(ANSWERS) <= {rule.__name__ for rule in (*RULES, *HERD_RULES)}


def test_every_setting_is_a_field_and_every_field_a_setting() -> None:
    assert [setting.name for setting in SETTINGS] == [field.name for field in dataclasses.fields(Settings)]


def test_every_instruction_is_carried_out() -> None:
    assert set(ORDERS) == {kind for kind in KINDS if kind.INSTRUCTION}
