"""A cooperative's list of semen, taken in and asked about."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from dialogs.grammar.place import Place
from service.flow.lists import Office, Unreadable, WrongLines, load
from service.husbandry.semen import Bull
from service.husbandry.units import Money
from service.records import semen
from tests.support.village import Village

HEAD = "code,bull,breed,milk,calving_ease,reliability,price,straws,sire"
GOOD = "IG-101,Kilele,Friesian,2.1,-0.5,80,18000,12,Zamani"


def load_list(village: Village, tmp_path: Path, text: str) -> int:
    file = tmp_path / "semen.csv"
    file.write_text(text, encoding="utf-8")
    office = Office(cooperative=None, place=Place(), now=village.clock.now())
    return village.runtime.store.write(lambda conn: load(conn, "semen", file, office))


def listed(village: Village) -> tuple[Bull, ...]:
    return village.runtime.store.write(lambda conn: semen.catalogue(conn, 1))


def test_a_list_of_semen_is_taken_in_as_it_stands(village: Village, tmp_path: Path) -> None:
    assert load_list(village, tmp_path, f'{HEAD}\n{GOOD}\nIG-102,Mlima,Jersey,,,55,"12,500",0,\n') == 2
    assert listed(village) == (
        Bull(
            code="IG-101", name="Kilele", breed="Friesian",
            values={"milk": Decimal("2.1"), "calving_ease": Decimal("-0.5")},
            reliability=Decimal("0.8"), price=Money.of(18000, "TZS"), straws=12, sire="Zamani",
        ),
        Bull(
            code="IG-102", name="Mlima", breed="Jersey", values={}, reliability=Decimal("0.55"),
            price=Money.of(12500, "TZS"), straws=0,
        ),
    )  # fmt: skip


def test_a_new_list_takes_the_place_of_the_old(village: Village, tmp_path: Path) -> None:
    load_list(village, tmp_path, f"{HEAD}\n{GOOD}\n")
    load_list(village, tmp_path, f"{HEAD}\n{GOOD.replace('101', '909')}\n")
    assert [bull.code for bull in listed(village)] == ["IG-909"]


@pytest.mark.parametrize(
    ("line", "why"),
    [
        (",Mlima,Jersey,1,1,80,1000,1,", "code is empty"),
        ("--,Mlima,Jersey,1,1,80,1000,1,", "code has neither letters nor figures"),
        ("ig-101,Mlima,Jersey,1,1,80,1000,1,", "ig-101 is in line 2 already"),
        ("X1,,Jersey,1,1,80,1000,1,", "bull is empty"),
        (f"X1,{'M' * 17},Jersey,1,1,80,1000,1,", "has more than 16 characters"),
        (f"{'X' * 13},Mlima,Jersey,1,1,80,1000,1,", "has more than 12 characters"),
        ("X1,Mlima,Unicorn,1,1,80,1000,1,", "breed Unicorn is not known"),
        ("X1,Mlima,Jersey,450,1,80,1000,1,", "milk 450 is no standardised value from -5 to 5"),
        ("X1,Mlima,Jersey,5.1,1,80,1000,1,", "milk 5.1 is no standardised value"),
        ("X1,Mlima,Jersey,1,easy,80,1000,1,", "calving_ease easy is no standardised value"),
        ("X1,Mlima,Jersey,1,1,101,1000,1,", "reliability 101 is no whole number from 0 to 100"),
        ("X1,Mlima,Jersey,1,1,0.8,1000,1,", "reliability 0.8 is no whole number"),
        ("X1,Mlima,Jersey,1,1,,1000,1,", "reliability is empty"),
        ("X1,Mlima,Jersey,1,1,80,dear,1,", "price dear is no sum"),
        ("X1,Mlima,Jersey,1,1,80,-5,1,", "price -5 is no sum"),
        ("X1,Mlima,Jersey,1,1,80,1000,,", "straws is empty"),
        ("X1,Mlima,Jersey,1,1,80,1000,some,", "straws some is no whole number from 0 to 100000"),
    ],
)
def test_a_wrong_line_is_named_and_nothing_changes(
    village: Village, tmp_path: Path, line: str, why: str
) -> None:
    load_list(village, tmp_path, f"{HEAD}\n{GOOD.replace('101', '909')}\n")
    with pytest.raises(WrongLines) as caught:
        load_list(village, tmp_path, f"{HEAD}\n{GOOD}\n{line}\n")
    (sentence,) = caught.value.sentences
    assert sentence.startswith("semen.csv:3: ")
    assert why in sentence
    assert [bull.code for bull in listed(village)] == ["IG-909"]


def test_every_wrong_line_is_named(village: Village, tmp_path: Path) -> None:
    text = f"{HEAD}\n{GOOD}\nX1,Mlima,Unicorn,1,1,80,1000,1,\nX2,Bonde,Jersey,9,1,80,1000,1,\n"
    with pytest.raises(WrongLines) as caught:
        load_list(village, tmp_path, text)
    assert [sentence.split(": ")[0] for sentence in caught.value.sentences] == ["semen.csv:3", "semen.csv:4"]


def test_a_list_without_a_column_that_is_needed_is_none(village: Village, tmp_path: Path) -> None:
    with pytest.raises(Unreadable, match="has no column price"):
        load_list(village, tmp_path, "code,bull,breed,reliability,straws\n")
