"""The statement printed at the office, called as staff calls it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from service.cli import main
from tests.support.village import OWNER, Village


@pytest.fixture
def office(sqlite_url: str, monkeypatch: pytest.MonkeyPatch) -> Iterator[Village]:
    monkeypatch.setenv("BYRELINE_DATABASE_URL", sqlite_url)
    village = Village(sqlite_url)
    village.tell(OWNER, "NEEMA 6")
    village.tell(OWNER, "sold 5 litres at 1200")
    village.tell(OWNER, "bought bran 2000")
    yield village
    village.close()


@pytest.mark.parametrize("span", [["--month", "2026-03"], ["--year", "2026"]])
def test_a_month_or_year_is_printed(
    office: Village, capsys: pytest.CaptureFixture[str], span: list[str]
) -> None:
    assert main(["statement", "0621234567", *span]) == 0
    printed = capsys.readouterr().out
    assert printed.startswith("Rehema 0621234567\nStatement: ")
    lines = [line.split() for line in printed.splitlines()]
    assert next(line[:2] for line in lines if line[-1:] == ["6,000/="]) == ["Milk", "sold"]
    assert ["Left", "4,000/="] in [[line[0], line[-1]] for line in lines if line]


def test_the_language_can_be_chosen(office: Village, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["statement", OWNER, "--month", "2026-03", "--language", "sw"]) == 0
    assert "Hesabu: Machi 2026" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (["statement", "7"], "7 is no phone number"),
        (["statement", "+255621000999"], "no farm has the phone +255621000999"),
        (["statement", OWNER, "--month", "March"], "March is no month (YYYY-MM)"),
        (["statement", OWNER, "--year", "26"], "26 is no year (2000 to 2100)"),
        (["statement", OWNER, "--year", "2026", "--month", "2026-03"], "not allowed with"),
    ],
)
def test_a_wrong_call_is_told_in_one_line(
    office: Village, capsys: pytest.CaptureFixture[str], call: list[str], why: str
) -> None:
    assert main(call) == 2
    error = capsys.readouterr().err
    assert why in error
    assert error.count("\n") == 1
