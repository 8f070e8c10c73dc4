"""Like illness on several farms: staff know, and may warn the neighbours without a name."""

from __future__ import annotations

from datetime import timedelta

import pytest
import sqlalchemy as sa

from service.flow.concerns import NotToWarnOf, warn_neighbours
from service.records import concerns, tables
from service.records.base import Store
from tests.support.clocks import SetClock
from tests.support.village import OWNER, Village

SECOND, THIRD, FOURTH = "+255622000002", "+255622000003", "+255622000004"
NOON = SetClock().now()


@pytest.fixture
def ward(village: Village) -> Village:
    """Four farms of one ward."""
    for number, phone in enumerate((SECOND, THIRD, FOURTH), 2):
        village.runtime.register_farm(phone, f"Farmer {number}", "en")
        village.tell(phone, "New cow Neema, milking. New cow Tausi, milking")
    village.runtime.store.write(lambda conn: conn.execute(sa.update(tables.Farm).values(ward="Ilembo")))
    return village


def raised(village: Village) -> list[dict[str, object]]:
    about = sa.select(tables.Concern.about).where(tables.Concern.kind == "illness_near")
    return [row.about for row in village.rows(about)]


def test_three_farms_with_like_signs_are_a_concern_once_a_week(ward: Village) -> None:
    ward.tell(OWNER, "Neema has mouth sores")
    ward.tell(SECOND, "Neema drools")
    assert raised(ward) == []
    ward.tell(THIRD, "Tausi has mouth sores")
    expected = {"ward": "Ilembo", "group": "mouth", "sign": "mouth_sores", "farms": 3, "animals": 3}
    assert raised(ward) == [expected]
    ward.tell(FOURTH, "Tausi has mouth sores")
    assert raised(ward) == [expected]


def test_what_was_taken_back_does_not_count(ward: Village) -> None:
    ward.tell(OWNER, "Neema has mouth sores")
    ward.tell(OWNER, "UNDO")
    ward.tell(SECOND, "Neema has mouth sores")
    ward.tell(THIRD, "Tausi has mouth sores")
    assert raised(ward) == []


def test_a_week_later_it_counts_no_more(ward: Village) -> None:
    ward.tell(OWNER, "Neema has mouth sores")
    ward.tell(SECOND, "Neema has mouth sores")
    ward.clock.move(timedelta(days=7))
    ward.tell(THIRD, "Tausi has mouth sores")
    assert raised(ward) == []


def test_farms_of_another_ward_do_not_count(ward: Village) -> None:
    elsewhere = sa.update(tables.Farm).where(tables.Farm.name == "Farmer 2").values(ward="Igurusi")
    ward.runtime.store.write(lambda conn: conn.execute(elsewhere))
    for phone in (OWNER, SECOND, THIRD):
        ward.tell(phone, "Neema has mouth sores")
    assert raised(ward) == []


def test_neighbours_are_warned_once_without_a_name_and_not_who_has_left(ward: Village) -> None:
    for phone in (OWNER, SECOND, THIRD):
        ward.tell(phone, "Neema has mouth sores")
    ward.tell(FOURTH, "STOP")
    told = ward.runtime.store.write(lambda conn: warn_neighbours(conn, 1, ward.clock.now()))
    assert told == 3
    (warning,) = ward.notices(THIRD)
    assert warning.startswith("Cattle near you are ill: has mouth sores.")
    assert not any(name in warning for name in ("Rehema", "Farmer"))
    assert ward.notices(FOURTH) == []
    assert ward.runtime.store.write(lambda conn: warn_neighbours(conn, 1, ward.clock.now())) == 0
    assert len(ward.notices(THIRD)) == 1


def test_of_another_concern_nobody_is_warned(ward: Village) -> None:
    ward.tell(OWNER, "NO ANSWER")
    for number in (1, 99):
        with pytest.raises(NotToWarnOf):
            ward.runtime.store.write(lambda conn, n=number: warn_neighbours(conn, n, ward.clock.now()))


def test_a_thing_is_raised_once_by_its_mark(village: Village) -> None:
    store: Store = village.runtime.store

    def raise_(mark: str) -> int | None:
        return store.write(lambda conn: concerns.raise_(conn, 1, None, "kind", {"a": 1}, mark, NOON))

    first = raise_("x")
    assert first is not None
    assert raise_("x") is None
    assert raise_("y") not in (None, first)
    kept = store.read(lambda conn: concerns.of(conn, first))
    assert kept is not None
    assert (kept.about, kept.raised_at, kept.settled_at) == ({"a": 1}, NOON, None)
