"""The commands by which staff move a farm and take its PIN away, called as staff calls them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from service.cli import main
from tests.support.village import NEIGHBOUR, OWNER, Village

NEW = "+255688123456"


@pytest.fixture
def village(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Village]:
    url = f"sqlite:///{tmp_path}/village.db"
    monkeypatch.setenv("BYRELINE_DATABASE_URL", url)
    village = Village(url)
    yield village
    village.close()


def test_a_farm_moves_while_the_service_runs(village: Village, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["move-farm", OWNER, "0688123456"]) == 0
    assert NEW in capsys.readouterr().out
    village.tell(NEW, "Neema 6")
    assert village.milk() == [("Neema", 6, "morning")]


def test_a_pin_is_taken_away(village: Village) -> None:
    village.tell(OWNER, "SET PIN 4821")
    assert main(["clear-pin", OWNER]) == 0
    assert "Who can write" in village.tell(OWNER, "PEOPLE")


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (["move-farm", OWNER, NEIGHBOUR], "belongs to a farm"),
        (["move-farm", NEW, "0688000111"], "no farm has"),
        (["move-farm", OWNER, "cows"], "no phone number"),
        (["clear-pin", NEW], "no farm has"),
    ],
)
def test_a_wrong_call_is_said_in_one_line(
    village: Village, capsys: pytest.CaptureFixture[str], call: list[str], why: str
) -> None:
    village.runtime.register_farm(NEIGHBOUR, "Asha", "en")
    assert main(call) == 2
    said = capsys.readouterr().err
    assert why in said
    assert said.count("\n") == 1
