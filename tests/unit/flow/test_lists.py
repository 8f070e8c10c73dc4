"""A cooperative's lists: every line is looked at first, and where one is wrong nothing changes."""

from __future__ import annotations

from pathlib import Path

import pytest
import sqlalchemy as sa

from dialogs.grammar.place import Place
from service.flow.lists import LISTS, Office, UnknownCooperative, Unreadable, WrongLines, load
from service.records import lists as kept
from service.records import tables
from tests.support.village import OWNER, Village


def load_list(village: Village, tmp_path: Path, name: str, text: str, cooperative: str | None = None) -> int:
    file = tmp_path / f"{name}.csv"
    file.write_text(text, encoding="utf-8")
    office = Office(cooperative=cooperative, place=Place(), now=village.clock.now())
    return village.runtime.store.write(lambda conn: load(conn, name, file, office))


def people(village: Village) -> list[tuple[object, ...]]:
    person = tables.PersonToCall
    columns = person.ward, person.role, person.name, person.phone, person.rank
    return [tuple(row) for row in village.rows(sa.select(*columns).order_by(person.id))]


@pytest.mark.parametrize(
    "text",
    [
        "ward,role,name,phone,rank\nIlembo,Vet,Sanga,0621000001,1\n\n,office,,0621000009,\n",
        "\ufeffRole;Phone;Ward;Name;Rank\nvet;+255621000001;Ilembo;Sanga;1\noffice;0621000009;;;\n",
    ],
    ids=["commas", "semicolons, another order, a byte order mark"],
)
def test_a_list_of_people_is_taken_in(village: Village, tmp_path: Path, text: str) -> None:
    assert load_list(village, tmp_path, "people", text) == 2
    assert people(village) == [
        ("Ilembo", "vet", "Sanga", "+255621000001", 1),
        (None, "office", None, "+255621000009", 0),
    ]


def test_a_new_list_takes_the_place_of_the_old(village: Village, tmp_path: Path) -> None:
    load_list(village, tmp_path, "people", "role,phone\nvet,0621000001\n")
    load_list(village, tmp_path, "people", "role,phone\nvet,0621000002\n")
    assert [row[3] for row in people(village)] == ["+255621000002"]


@pytest.mark.parametrize(
    ("name", "head", "line", "why"),
    [
        ("people", "role,phone", "doctor,0621000001", "role doctor is none of vet, technician, office"),
        ("people", "role,phone", "vet,12", "12 is no phone number"),
        ("people", "role,phone", "vet,", "phone is empty"),
        ("people", "role,phone,rank", "vet,0621000001,first", "rank first is no whole number from 0 to 1000"),
        ("people", "role,phone", "vet,0621000007", "is in line 2 already"),
        ("people", "role,phone,name", f"vet,0621000001,{'x' * 61}", "name has more than 60 characters"),
        ("products", "name,milk_days", "penicillin,three", "three is no whole number from 0 to 365"),
        ("products", "name,milk_days", "penicillin,400", "400 is no whole number from 0 to 365"),
        ("products", "name,dry_cow", "tube,maybe", "dry_cow maybe is neither yes nor no"),
        ("words", "group,meaning,word", "cue,nonsense,amata", "no meaning nonsense in the group cue"),
        ("wards", "phone,ward", "0699999999,Ilembo", "no farm of this cooperative has the phone 0699999999"),
        ("wards", "phone,ward", f"{OWNER},", "ward is empty"),
    ],
)
def test_a_wrong_line_is_named_and_nothing_changes(village, tmp_path, name, head, line, why):
    good = {
        "people": "vet,0621000007", "products": "albendazole", "words": "cue,milk,amata",
        "wards": f"{OWNER},Ilembo",
    }  # fmt: skip
    text = f"{head}\n{good[name]}{',' * (head.count(',') - good[name].count(','))}\n{line}\n"
    with pytest.raises(WrongLines) as caught:
        load_list(village, tmp_path, name, text)
    assert caught.value.sentences == (f"{name}.csv:3: {caught.value.sentences[0].partition(': ')[2]}",)
    assert why in caught.value.sentences[0]
    tables_of = {"people": tables.PersonToCall, "products": tables.Product, "words": tables.LocalWord}
    if name in tables_of:
        assert village.rows(sa.select(sa.func.count()).select_from(tables_of[name]))[0][0] == 0
    else:
        assert village.rows(sa.select(tables.Farm.ward))[0].ward is None


def test_products_keep_what_the_label_says_none_of_and_what_it_does_not_say(village, tmp_path):
    text = "name,milk_days,meat_days,dry_cow\nPenicillin  LA,4,28,\nIvermectin,0,,no\nTube,,,yes\n"
    assert load_list(village, tmp_path, "products", text) == 3
    product = tables.Product
    columns = product.name, product.milk_days, product.meat_days, product.dry_cow
    assert [tuple(row) for row in village.rows(sa.select(*columns).order_by(product.name))] == [
        ("ivermectin", 0, None, False), ("penicillin la", 4, 28, False), ("tube", None, None, True),
    ]  # fmt: skip


def test_words_are_kept_under_their_meaning(village, tmp_path):
    load_list(village, tmp_path, "words", "group,meaning,word\ncue,milk,Amata\n")
    assert village.runtime.store.read(lambda conn: kept.words(conn, 1)) == (("cue", "milk", "amata"),)


def test_a_ward_is_put_to_the_farm_of_a_phone(village, tmp_path):
    assert load_list(village, tmp_path, "wards", f"phone,ward\n{OWNER},Ilembo\n") == 1
    assert village.rows(sa.select(tables.Farm.ward))[0].ward == "Ilembo"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("role,name\nvet,Sanga\n", "has no column phone"),
        ("role,phone,village\nvet,0621000001,x\n", "has a column that this list has not: village"),
        ("", "has no column role, phone"),
    ],
)
def test_what_is_no_such_list_is_not_read(village, tmp_path, text, why):
    with pytest.raises(Unreadable, match=why):
        load_list(village, tmp_path, "people", text)


def test_a_file_that_is_not_there_or_not_utf_8_is_said_to_be_so(village, tmp_path):
    office = Office(cooperative=None, place=Place(), now=village.clock.now())
    bad = tmp_path / "bad.csv"
    bad.write_bytes("role,phone\nvet,\xe9".encode("latin-1"))
    for path, why in ((tmp_path / "none.csv", "cannot be opened"), (bad, "is not UTF-8 text")):
        with pytest.raises(Unreadable, match=why):
            village.runtime.store.write(lambda conn, path=path: load(conn, "people", path, office))


def test_a_cooperative_is_found_by_its_name(village, tmp_path):
    assert load_list(village, tmp_path, "people", "role,phone\nvet,0621000001\n", "Byreline") == 1
    with pytest.raises(UnknownCooperative, match="there is no cooperative Umoja: Byreline"):
        load_list(village, tmp_path, "people", "role,phone\nvet,0621000001\n", "Umoja")


def test_every_list_says_its_columns():
    assert all(one.needed and not set(one.needed) & set(one.more) for one in LISTS.values())
