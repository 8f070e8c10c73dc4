"""The farm's day and hour follow from the moment and the zone."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from freezegun import freeze_time

from service.clock import SystemClock, farm_date, farm_time

ZONE = ZoneInfo("Africa/Dar_es_Salaam")


def test_the_system_clock_shows_aware_utc() -> None:
    with freeze_time("2026-03-02 15:00:00"):
        assert SystemClock().now() == datetime(2026, 3, 2, 15, tzinfo=UTC)


def test_a_farms_day_begins_at_its_own_midnight() -> None:
    assert farm_date(datetime(2026, 3, 2, 20, 59, tzinfo=UTC), ZONE) == date(2026, 3, 2)
    assert farm_date(datetime(2026, 3, 2, 21, 0, tzinfo=UTC), ZONE) == date(2026, 3, 3)


def test_a_farms_time_carries_its_offset() -> None:
    assert farm_time(datetime(2026, 3, 2, 15, tzinfo=UTC), ZONE).isoformat() == "2026-03-02T18:00:00+03:00"
