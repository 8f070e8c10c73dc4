"""The docs are held to the code: what the code lists stands in them, and what they show is so."""

from __future__ import annotations

import importlib.util
import io
import json
import re
import tomllib
from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path

import pytest

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.reading import Code
from scheduler.rules import HERD_RULES, RULES
from service.app import create_app
from service.bootstrap import build
from service.clock import SystemClock
from service.gateways.none import NoGateway
from service.husbandry.forms import form
from service.husbandry.herd import Herd, Known, Sex, Status
from service.husbandry.intervals import Intervals
from service.husbandry.kinds import KINDS
from service.husbandry.task import Why
from service.messages import Purpose
from service.settings import CONFIG, SETTINGS, Settings
from simulator.player import GOOD, play
from tests import reference

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(DOCS.rglob("*.md"))]


def page(name: str) -> str:
    return (DOCS / name).read_text()


def name_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize(("where", "part"), list(reference.PARTS))
def test_a_written_part_is_up_to_date(where: str, part: str) -> None:
    assert reference.written(where, part) == reference.PARTS[where, part](), "run: python -m tests.reference"


def test_every_kind_and_every_field_has_its_place() -> None:
    sections = dict(re.findall(r"^### `(\w+)`\n(.*?)(?=^### |\Z)", page("reference/records.md"), re.M | re.S))
    assert {kind.KIND for kind in KINDS} == set(sections)
    for kind in KINDS:
        assert all(f"| `{field.name}` |" in sections[kind.KIND] for field in form(kind))


def test_every_task_has_its_row() -> None:
    rows = re.findall(r"^\| ((?:`\w+`(?:, )?)+) \| (?:animal|herd)", page("reference/tasks.md"), re.M)
    told = {task for row in rows for task in re.findall(r"\w+", row)}
    assert told == {rule.__name__ for rule in (*RULES, *HERD_RULES)}


def test_every_interval_that_a_task_names_is_one() -> None:
    tasks = page("reference/tasks.md").partition("## The intervals")[0]
    named = set(re.findall(r"`(\w+_(?:days|hours|months))`", tasks))
    assert named
    assert named <= set(Intervals.__dataclass_fields__)


def test_every_reason_for_closing_a_task_is_told() -> None:
    for name in ("reference/tasks.md", "reference/commands.md"):
        assert all(f"`{why}`" in page(name) for why in Why)


def test_every_setting_is_told() -> None:
    assert all(f"`{setting.variable}`" in page("reference/settings.md") for setting in SETTINGS)
    assert CONFIG in page("reference/settings.md")


def test_every_command_is_told_with_its_options() -> None:
    told = page("reference/commands.md")
    for name, parser in reference.command_parsers().items():
        assert f"### `byreline {name}`" in told
        options = [o for action in parser._actions for o in action.option_strings if o.startswith("--")]
        assert all(option in told for option in options if option != "--help")


def test_every_purpose_of_a_text_is_told() -> None:
    assert all(f"`{purpose}`" in page("reference/commands.md") for purpose in Purpose)


def test_every_problem_is_told() -> None:
    table = page("reference/messages.md").partition("## Problems")[2]
    assert set(re.findall(r"^\| `(\w+)` \|", table, re.M)) == set(Code)


def test_every_door_is_told(tmp_path: Path) -> None:
    settings = Settings.from_env({"BYRELINE_DATABASE_URL": f"sqlite:///{tmp_path}/doors.db"})
    runtime = build(settings, clock=SystemClock(), gateway=NoGateway())
    doors = {
        f"{method} {rule.rule}"
        for rule in create_app(runtime).url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }
    runtime.close()
    told = set(re.findall(r"^### `(\w+ \S+)`", page("reference/doors.md"), re.M))
    assert doors == told


def examples() -> Iterator[tuple[str, str, str]]:
    """Kind, language and text of each example of messages.md."""
    rows = re.findall(r"^\| `(\w+)` \| (.+?) \| (.+?) \|$", page("reference/messages.md"), re.M)
    for kind, swahili, english in rows:
        yield kind, "sw", swahili
        yield kind, "en", english


def herd() -> Herd:
    """The herd of the corpus."""
    animals = json.loads((ROOT / "tests" / "corpus" / "herd.json").read_text())["animals"]
    return Herd(
        tuple(
            Known(
                name=animal["name"],
                names=(animal["name"],),
                sex=Sex(animal["sex"]),
                status=Status(animal["status"]),
                born=date.fromisoformat(animal["born"]),
                in_calf=animal["status"] == Status.IN_CALF_HEIFER,
            )
            for animal in animals
        )
    )


@pytest.mark.parametrize(("kind", "language", "text"), list(examples()))
def test_an_example_is_read_as_what_it_is_an_example_of(kind: str, language: str, text: str) -> None:
    now = datetime.fromisoformat("2026-03-02T12:40+03:00")
    reading = read(text, herd(), now=now, language=language, place=Place())
    assert ([entry.KIND for entry in reading.entries], reading.problems) == ([kind], ())


def test_every_kind_that_can_be_told_has_an_example() -> None:
    assert {kind for kind, _, _ in examples()} == {kind.KIND for kind in KINDS}


def shown_conversations() -> Iterator[tuple[str, str]]:
    """Every conversation that a page shows, with the place where it stands."""
    for path in PAGES:
        text = path.read_text()
        for block in re.finditer(r"^```\w*\n(.*?)^```", text, re.M | re.S):
            line = text.count("\n", 0, block.start()) + 2
            if re.search(r"^clock \d{4}-", block[1], re.M):
                yield f"{name_of(path)}:{line}", block[1]
    for path in sorted(DOCS.rglob("*.talk")):
        yield name_of(path), path.read_text()


SHOWN = dict(shown_conversations())


@pytest.mark.parametrize("place", SHOWN)
def test_a_conversation_that_is_shown_goes_as_shown(place: str, tmp_path: Path) -> None:
    script = tmp_path / "shown.talk"
    script.write_text(SHOWN[place])
    said = io.StringIO()
    assert play([script], out=said) == GOOD, said.getvalue()


def test_the_readme_shows_a_conversation_and_the_two_commands() -> None:
    readme = (ROOT / "README.md").read_text()
    assert any(place.startswith("README.md") for place in SHOWN)
    assert "byreline demo" in readme
    assert "bash tests/run" in readme


def test_every_floor_is_told_from_the_top() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    layers = next(contract["layers"] for contract in contracts if contract["type"] == "layers")
    table = (ROOT / "DEVELOPERS.md").read_text().partition("| floor, from the top |")[2].partition("\n\n")[0]
    rows = [row.split("|")[1] for row in table.splitlines() if row.startswith("| `")]
    told = [set(re.findall(r"`([\w.]+)`", row)) for row in rows]
    assert [{name.strip() for name in layer.split("|")} for layer in layers] == told


def test_every_dependency_says_why_it_is_here() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    needed = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    names = {re.match(r"[\w-]+", requirement)[0] for requirement in needed}  # type: ignore[index]
    assert set(re.findall(r"^- `([\w-]+)`: .+", page("dependencies.md"), re.M)) == names


def links() -> Iterator[tuple[str, str]]:
    for path in PAGES:
        for target in re.findall(r"\]\(([^)#\s]+)(?:#[^)]*)?\)", path.read_text()):
            if "://" not in target:
                yield name_of(path), target


@pytest.mark.parametrize(("where", "target"), list(links()))
def test_a_link_leads_somewhere(where: str, target: str) -> None:
    assert (ROOT / where).parent.joinpath(target).exists()


def named_in_backticks(pattern: str) -> list[tuple[str, str]]:
    return [
        (name_of(path), name)
        for path in PAGES
        if path.name != "texts.md"  # its names are keys of texts
        for name in sorted(set(re.findall(rf"`({pattern})`", path.read_text())))
    ]


@pytest.mark.parametrize(
    ("where", "module"), named_in_backticks(r"(?:service|dialogs|scheduler|simulator)(?:\.\w+)+")
)
def test_a_module_that_is_named_exists(where: str, module: str) -> None:
    assert importlib.util.find_spec(module) is not None


@pytest.mark.parametrize(
    ("where", "path"), named_in_backticks(r"(?:service|dialogs|scheduler|simulator|tests|docs)/[\w./-]*\w/?")
)
def test_a_file_that_is_named_exists(where: str, path: str) -> None:
    assert path.endswith("/x.py") or (ROOT / path).exists()


def test_the_decisions_are_numbered_in_a_row() -> None:
    numbers = [int(path.name[:4]) for path in sorted((DOCS / "decisions").glob("*.md"))]
    assert numbers == list(range(1, len(numbers) + 1))


@pytest.mark.parametrize("path", sorted(DOCS.rglob("*.md")), ids=name_of)
def test_a_page_can_be_reached(path: Path) -> None:
    reached = {(ROOT / where).parent.joinpath(target).resolve() for where, target in links()}
    folders = {target for target in reached if target.is_dir()}
    assert path in reached or path.parent in folders or path.name == "README.md"
