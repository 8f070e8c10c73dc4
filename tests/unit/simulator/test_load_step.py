"""The script step ``load``: what is wrong with it is found before anything is played."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from service.settings import Settings
from simulator.player import FAILED, GOOD, play
from simulator.steps import LoadList
from simulator.transcript import ScriptError, read_script

CLOCK = "clock 2026-03-02 07:00"
ZONE = Settings.from_env({}).zone


def script(folder: Path, *lines: str) -> Path:
    path = folder / "one.talk"
    path.write_text("\n".join((CLOCK, *lines)) + "\n")
    return path


def test_the_file_lies_beside_the_script(tmp_path: Path) -> None:
    file = tmp_path / "people.csv"
    file.write_text("role,phone\nvet,0621000001\n")
    step = read_script(script(tmp_path, "load people people.csv"), ZONE).steps[1]
    assert step == LoadList(line=2, name="people", file=file)
    assert play([script(tmp_path, "load people people.csv")], out=io.StringIO()) == GOOD


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (("load cows people.csv",), "a load step gives a list"),
        (("load people",), "a load step gives a list"),
        (("load people none.csv",), "there is no file none.csv beside the script"),
        (("service down", "load people people.csv"), "no list can be loaded while the service is down"),
    ],
)
def test_a_step_that_cannot_be_is_refused(tmp_path: Path, lines: tuple[str, ...], why: str) -> None:
    (tmp_path / "people.csv").write_text("role,phone\n")
    with pytest.raises(ScriptError, match=why):
        read_script(script(tmp_path, *lines), ZONE)


def test_a_list_with_a_wrong_line_is_an_expectation_that_failed(tmp_path: Path) -> None:
    (tmp_path / "people.csv").write_text("role,phone\ndoctor,0621000001\n")
    said = io.StringIO()
    assert play([script(tmp_path, "load people people.csv")], out=said) == FAILED
    assert "people.csv:2: role doctor is none of vet, technician, office" in said.getvalue()
