"""The virtual clock: it stands until it is moved, and only forward."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from simulator.clock import VirtualClock

NOON = datetime.fromisoformat("2026-03-02T12:00+03:00")


def test_the_clock_tells_utc() -> None:
    clock = VirtualClock(NOON)
    assert clock.now() == NOON
    assert clock.now().utcoffset() == timedelta(0)


def test_the_clock_never_goes_back() -> None:
    clock = VirtualClock(NOON)
    clock.set(NOON + timedelta(hours=1))
    clock.set(NOON)
    assert clock.now() == datetime(2026, 3, 2, 10, tzinfo=UTC)


def test_the_clock_refuses_a_naive_moment() -> None:
    with pytest.raises(ValueError, match="naive"):
        VirtualClock(NOON).set(NOON.replace(tzinfo=None))
