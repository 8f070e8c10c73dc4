"""The commands of a campaign, called as staff calls them."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
import sqlalchemy as sa

from service.cli import main
from service.clock import SystemClock
from service.records import campaigns, farms, tables
from service.records.base import Store, open_engine
from tests.unit.husbandry.book import PHONE

DAY = ("--on", "2099-03-20", "--hour", "8", "--place", "Kituo cha Ilembo")


@pytest.fixture
def house(sqlite_url: str, monkeypatch: pytest.MonkeyPatch) -> Iterator[Store]:
    """One farm of the ward Ilembo."""
    monkeypatch.setenv("BYRELINE_DATABASE_URL", sqlite_url)
    store = Store(open_engine(sqlite_url))

    def begin(conn: sa.Connection) -> None:
        farms.ensure_cooperative(conn)
        joined = {"phone": PHONE, "name": "Rehema", "language": "sw", "now": SystemClock().now()}
        farms.join(conn, cooperative_id=farms.cooperative_of(conn, ""), **joined)  # type: ignore[arg-type]
        conn.execute(sa.update(tables.Farm).values(ward="Ilembo"))

    store.write(begin)
    yield store
    store.close()


def texts(store: Store) -> int:
    counted = sa.select(sa.func.count(tables.TextOut.seq))
    return store.read(lambda conn: conn.execute(counted).scalar_one())


def test_a_dry_run_shows_texts_and_keeps_nothing(house: Store, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["announce", "fmd", *DAY, "--ward", "ilembo", "--dry-run"]) == 0
    said = capsys.readouterr().out.splitlines()
    assert said[0].startswith(f"{PHONE}\tChanjo ya midomo na miguu: Ijumaa 20 Machi, saa 2 asubuhi")
    assert said[-1] == "would be sent: texts 1, segments 1"
    assert texts(house) == 0
    assert house.read(lambda conn: campaigns.get(conn, 1)) is None


def test_announced_twice_it_is_laid_once(house: Store, capsys: pytest.CaptureFixture[str]) -> None:
    for said in ("texts 1, segments 1", "texts 0, segments 0"):
        assert main(["announce", "fmd", *DAY]) == 0
        assert capsys.readouterr().out == f"campaign 1, laid in the outbox: {said}\n"
    assert texts(house) == 1


def test_gathered_farms_are_listed_and_told_the_day(house: Store, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["announce", "ecf", "--gather"]) == 0
    house.write(lambda conn: campaigns.answer(conn, 1, 1, 3, SystemClock().now()))
    capsys.readouterr()
    assert main(["willing", "1"]) == 0
    assert capsys.readouterr().out == f"Rehema\t{PHONE}\t3\nfarms 1, animals 3\n"
    assert main(["announce", "ecf", "--campaign", "1", *DAY]) == 0
    assert capsys.readouterr().out == "campaign 1, laid in the outbox: texts 1, segments 1\n"
    assert texts(house) == 2


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (["fmd", "--on", "2099-03-20"], "needs --on, --hour and --place, or --gather"),
        (["fmd", "--gather", *DAY], "--gather has no day"),
        (["fmd", "--on", "2020-03-20", "--hour", "8", "--place", "Ilembo"], "is past"),
        (["fmd", "--on", "Friday"], "Friday is no day"),
        (["fmd", "--on", "2099-03-20", "--hour", "21"], "21 is no hour"),
        (["fmd", *DAY[:5], "Kituo kikubwa cha maziwa cha Ilembo"], "1 to 24 characters"),
        (["fmd", *DAY, "--ward", "Mbeya"], "no farm is in the ward Mbeya"),
        (["fmd", *DAY, "--cooperative", "Umoja"], "--cooperative is one of: Byreline"),
        (["fmd", *DAY, "--campaign", "9"], "there is no campaign 9 against fmd"),
        (["fmd", *DAY, "--campaign", "9", "--ward", "Ilembo"], "has its ward and cooperative already"),
        (["mastitis", *DAY], "invalid choice"),
    ],
)
def test_a_wrong_call_is_told_in_one_line(
    house: Store, capsys: pytest.CaptureFixture[str], call: list[str], why: str
) -> None:
    assert main(["announce", *call]) == 2
    said = capsys.readouterr().err
    assert why in said
    assert said.count("\n") == 1
    assert texts(house) == 0


def test_an_unknown_campaign_has_no_willing(house: Store, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["willing", "9"]) == 2
    assert capsys.readouterr().err == "byreline: there is no campaign 9\n"
