"""When a reminder nobody answered is given once more."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from scheduler.again import again_at
from service.husbandry.intervals import DEFAULTS, Intervals
from service.husbandry.task import Key, Point, Task

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
TODAY = datetime(2026, 3, 19, 6, 0, tzinfo=ZONE)


def _task(due: Point, until: Point | None) -> Task:
    return Task(key=Key(task="any", animal=1), due=due, until=until, since=date(2026, 3, 1))


def _at(day: date, hour: int = 6) -> datetime:
    return datetime(day.year, day.month, day.day, hour, tzinfo=ZONE)


@pytest.mark.parametrize(
    ("until", "again"),
    [
        (date(2026, 3, 25), date(2026, 3, 22)),  # half of six days
        (date(2026, 3, 21), date(2026, 3, 21)),  # no sooner than two days, and inside the window
        (date(2026, 3, 20), None),  # nothing left of it by then
        (date(2026, 6, 30), date(2026, 4, 2)),  # no later than two weeks
        (None, date(2026, 3, 22)),
    ],
)
def test_the_second_telling_comes_half_way_to_the_end(until: date | None, again: date | None) -> None:
    """Common practice, no source."""
    expected = None if again is None else _at(again)
    assert again_at(_task(date(2026, 3, 19), until), 1, TODAY, 6, ZONE) == expected


def test_after_the_second_telling_it_rests() -> None:
    assert again_at(_task(date(2026, 3, 19), None), 2, TODAY, 6, ZONE) is None


def test_a_serve_window_is_told_of_once() -> None:
    window = _task(TODAY, TODAY + timedelta(hours=10))
    assert again_at(window, 1, TODAY, 6, ZONE) is None


def test_it_comes_at_the_hour_of_the_farm() -> None:
    assert again_at(_task(date(2026, 3, 19), None), 1, TODAY, 18, ZONE) == _at(date(2026, 3, 22), 18)


def test_the_vets_hour_of_an_afterbirth_is_the_cooperatives_own() -> None:
    """The vet's 12 hours (the default; common practice, no source), or as many as the cooperative has set."""
    asked = Task(
        key=Key(task="afterbirth", animal=1),
        due=TODAY,
        until=TODAY + timedelta(hours=30),
        since=date(2026, 3, 19),
    )
    own = Intervals.of({"afterbirth_asked_hours": 8, "afterbirth_vet_hours": 10})
    assert again_at(asked, 1, TODAY, 6, ZONE, own) == TODAY + timedelta(hours=2)
    assert again_at(asked, 1, TODAY, 6, ZONE) == TODAY + timedelta(
        hours=DEFAULTS.afterbirth_vet_hours - DEFAULTS.afterbirth_asked_hours
    )
