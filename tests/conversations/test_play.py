"""Every conversation beside this file is played, and must go as it is written."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from simulator.player import GOOD, play

HERE = Path(__file__).parent
SCRIPTS = sorted(HERE.rglob("*.talk"))


every_script = pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: str(script.relative_to(HERE)))


@every_script
def test_the_conversation_goes_as_written(script: Path) -> None:
    said = io.StringIO()
    assert play([script], out=said) == GOOD, said.getvalue()


@every_script
def test_it_goes_the_same_on_postgresql(script: Path, postgresql_url: str) -> None:
    said = io.StringIO()
    assert play([script], database=postgresql_url, out=said) == GOOD, said.getvalue()


def test_both_languages_have_conversations() -> None:
    assert {script.parent.name for script in SCRIPTS} == {"en", "sw"}
