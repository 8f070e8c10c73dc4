"""The commands of a cooperative's office, called as staff calls them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from service.cli import main
from service.records import farms
from service.records.base import Store, open_engine


@pytest.fixture
def house(sqlite_url: str, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    monkeypatch.setenv("BYRELINE_DATABASE_URL", sqlite_url)
    store = Store(open_engine(sqlite_url))
    store.write(farms.ensure_cooperative)
    yield store
    store.close()


def people(house: Store) -> int:
    return len(house.read(lambda conn: farms.people_to_call(conn, 1, None)))


def test_a_list_is_taken_in(house: Store, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "people.csv"
    file.write_text("role,phone\nvet,0621000001\noffice,0621000009\n")
    assert main(["load", "people", str(file)]) == 0
    assert capsys.readouterr().out == "people: 2 line(s) taken in.\n"
    assert people(house) == 2


def test_each_wrong_line_is_named_and_the_exit_code_is_1(
    house: Store, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "people.csv"
    file.write_text("role,phone\nvet,0621000001\ndoctor,0621000002\nvet,7\n")
    assert main(["load", "people", str(file), "--cooperative", "Byreline"]) == 1
    assert capsys.readouterr().out == (
        "people.csv:3: role doctor is none of vet, technician, office\n"
        "people.csv:4: 7 is no phone number\n"
        "Nothing has changed.\n"
    )
    assert people(house) == 0


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (
            ["load", "cows", "x.csv"],
            "no list cows: people, products, words, wards, semen, advice",
        ),
        (["load", "people", "x.csv"], "x.csv cannot be opened"),
        (["load", "people"], "FILE.csv"),
        (["warn", "7"], "7 is no concern about illness on several farms"),
        (["warn", "soon"], "invalid int value"),
    ],
)
def test_a_wrong_call_is_told_in_one_line(
    house: Store, capsys: pytest.CaptureFixture[str], call: list[str], why: str
) -> None:
    assert main(call) == 2
    said = capsys.readouterr().err
    assert why in said
    assert said.count("\n") == 1
