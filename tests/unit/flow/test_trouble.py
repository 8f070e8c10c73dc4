"""What repeats on a farm is put before staff, once."""

from __future__ import annotations

from datetime import timedelta

import sqlalchemy as sa

from service.records import tables
from tests.support.village import OWNER, Village


def raised(village: Village) -> list[tuple[str, object]]:
    rows = village.rows(sa.select(tables.Concern.kind, tables.Concern.about).order_by(tables.Concern.id))
    return [(row.kind, row.about["count"]) for row in rows if row.kind in ("milk_rejected", "calves_die")]


def test_milk_turned_back_on_three_days_is_a_concern_once(village: Village) -> None:
    village.clock.move(timedelta(days=1))  # a Tuesday
    for _ in range(2):
        village.tell(OWNER, "milk rejected at the centre, 10 litres")
        village.clock.move(timedelta(days=1))
    assert raised(village) == []
    for _ in range(2):
        village.tell(OWNER, "milk rejected at the centre, 10 litres")
        village.clock.move(timedelta(days=1))
    assert raised(village) == [("milk_rejected", 3)]


def test_two_calves_dead_in_a_season_are_a_concern_and_what_is_taken_back_is_none(village: Village) -> None:
    village.tell(OWNER, "new calf Kito male, new calf Pili female")
    village.tell(OWNER, "Kito died")
    village.tell(OWNER, "UNDO")
    village.tell(OWNER, "Pili died")
    assert raised(village) == []
    village.tell(OWNER, "Kito died")
    assert raised(village) == [("calves_die", 2)]
