"""Nobody answers: who is next, and what staff are told."""

from __future__ import annotations

from pathlib import Path

import pytest
import sqlalchemy as sa

from dialogs.grammar.place import Place
from service.flow.calls import next_of, role_called
from service.flow.lists import Office, load
from service.husbandry.herd import Person
from service.records import tables
from tests.support.village import NEIGHBOUR, OWNER, Village

VETS = tuple(Person(role="vet", name=name, phone=f"+25562100000{n}") for n, name in enumerate(("A", "B"), 1))
JUMA = Person(role="technician", name="Juma", phone="+255621000004")
DESK = Person(role="office", name=None, phone="+255621000009")
EVERYONE = (*VETS, JUMA, DESK)


@pytest.mark.parametrize(
    ("called", "role"),
    [
        ((), "vet"),
        ((JUMA.phone,), "technician"),
        ((VETS[0].phone, JUMA.phone), "vet"),
        (("+255699999999",), "vet"),
        ((JUMA.phone, DESK.phone), "technician"),
    ],
)
def test_who_was_called_tells_whose_stand_in_is_next(called, role):
    assert role_called(EVERYONE, called) == role


def test_stand_ins_come_in_their_order_and_the_office_last():
    called: tuple[str | None, ...] = ()
    order = []
    while (person := next_of(EVERYONE, "vet", called)) is not None:
        order.append(person)
        called = (*called, person.phone)
    assert order == [*VETS, DESK]


def concerns(village: Village) -> list[tuple[str, int | None]]:
    columns = tables.Concern.kind, tables.Concern.farm_id
    return [tuple(row) for row in village.rows(sa.select(*columns).order_by(tables.Concern.id))]


def alerts(village: Village, phone: str) -> list[str]:
    sent = sa.select(tables.TextOut.text).where(
        tables.TextOut.phone == phone, tables.TextOut.purpose == "alert"
    )
    return [row.text for row in village.rows(sent.order_by(tables.TextOut.seq))]


@pytest.fixture
def listed(village: Village, tmp_path: Path) -> Village:
    file = tmp_path / "people.csv"
    file.write_text(
        "role,phone,name,rank\nvet,0621000001,Sanga,1\nvet,0621000002,Mbise,2\noffice,0621000009,,\n"
    )
    office = Office(cooperative=None, place=Place(), now=village.clock.now())
    village.runtime.store.write(lambda conn: load(conn, "people", file, office))
    return village


def test_the_farms_own_vet_comes_before_the_list(listed: Village) -> None:
    listed.tell(OWNER, "Vet Amani 0621000022")
    assert "Amani 0621000022" in listed.tell(OWNER, "Neema cannot stand")
    assert "Sanga 0621000001" in listed.tell(OWNER, "NO ANSWER")
    assert "Mbise 0621000002" in listed.tell(OWNER, "NO ANSWER")
    assert "0621000009" in listed.tell(OWNER, "NO ANSWER")
    assert "no other number" in listed.tell(OWNER, "NO ANSWER")


def test_each_who_does_not_answer_is_a_concern_once_a_day(listed: Village) -> None:
    for _ in range(2):
        listed.tell(OWNER, "Neema cannot stand")
        listed.tell(OWNER, "NO ANSWER")
    assert concerns(listed) == [("no_answer", 1)]
    (text,) = alerts(listed, DESK.phone or "")
    assert text.startswith("Rehema 0621234567 hampati Sanga 0621000001")


def test_where_nobody_nearer_is_known_the_office_is_called(village: Village, tmp_path: Path) -> None:
    file = tmp_path / "people.csv"
    file.write_text("role;phone\noffice;0621000009\n")
    office = Office(cooperative=None, place=Place(), now=village.clock.now())
    village.runtime.store.write(lambda conn: load(conn, "people", file, office))
    assert "Call NOW the office 0621000009" in village.tell(OWNER, "Neema cannot stand")


def test_a_reminder_that_names_the_vet_counts_as_naming_him(listed: Village) -> None:
    listed.tell(OWNER, "Neema is not eating")
    listed.tell(OWNER, "TASKS")
    listed.clock.set(listed.clock.now().replace(day=3, hour=3, minute=0))
    listed.runtime.heartbeat()
    assert "Mbise 0621000002" in listed.tell(OWNER, "NO ANSWER")


def test_a_stranger_is_told_of_no_concern(listed: Village) -> None:
    listed.tell(OWNER, "Neema cannot stand")
    listed.tell(OWNER, "NO ANSWER")
    assert alerts(listed, NEIGHBOUR) == []
