"""A farm that staff move to another number."""

from __future__ import annotations

import pytest

from service.flow import moving
from tests.support.village import HELPER, NEIGHBOUR, OWNER, Village

NEW = "+255688123456"


def move(village: Village, old: str = OWNER, new: str = NEW, *, clear_pin: bool = False) -> None:
    now = village.clock.now()
    village.runtime.store.write(lambda conn: moving.move(conn, old, new, clear_pin=clear_pin, now=now))


def test_the_new_number_goes_on_where_the_old_one_stopped(village: Village) -> None:
    village.tell(OWNER, "milk 6")
    move(village)
    village.tell(NEW, "Neema")
    assert village.milk() == [("Neema", 6, "morning")]
    assert "now on this number" in village.notices(NEW)[0]


def test_what_the_old_number_told_can_be_taken_back_and_is_told_by_the_same_person(village: Village) -> None:
    village.with_helper().tell(OWNER, "Neema 6")
    move(village)
    assert "Rehema told" in village.tell(HELPER, "Neema 6")
    village.tell(NEW, "UNDO")
    assert village.milk() == []
    told = [line["told_by"] for line in village.exported(NEW) if line.get("kind") == "milk"]
    assert told == [OWNER]


def test_the_old_number_is_a_strangers(village: Village) -> None:
    move(village)
    assert "Byreline" in village.tell(OWNER, "Neema 6")
    assert village.milk() == []


def test_a_number_of_a_farm_is_no_place_to_move_to(village: Village) -> None:
    village.runtime.register_farm(NEIGHBOUR, "Asha", "en")
    with pytest.raises(moving.NoSuchFarm, match="belongs to a farm"):
        move(village, new=NEIGHBOUR)
    with pytest.raises(moving.NoSuchFarm, match="no farm has"):
        move(village, old=NEW, new=HELPER)


def test_a_forgotten_number_is_taken_away(village: Village) -> None:
    village.tell(OWNER, "SET PIN 4821")
    move(village, clear_pin=True)
    assert "Who can write" in village.tell(NEW, "PEOPLE")
