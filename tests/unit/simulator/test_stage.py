"""How the clock drives the scheduler: everything due on the way, in order, each at its own moment."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from simulator.clock import VirtualClock
from simulator.stage import METRONOME, PASSES_AT_ONCE, live_until

START = datetime(2026, 3, 2, 3, 10, tzinfo=UTC)


class Alarms:
    """A scheduler that has something to do at certain moments, and notes when it did."""

    def __init__(self, clock: VirtualClock, *hours: int) -> None:
        self.clock = clock
        self.waiting = [START + timedelta(hours=hour) for hour in hours]
        self.rung: list[datetime] = []

    def next_due(self) -> datetime | None:
        return min(self.waiting, default=None)

    def heartbeat(self) -> None:
        self.rung.append(self.clock.now())
        self.waiting = [alarm for alarm in self.waiting if alarm > self.clock.now()]


class Stuck(Alarms):
    """A scheduler that never gets its work done."""

    def heartbeat(self) -> None:
        self.rung.append(self.clock.now())


def test_what_falls_due_on_the_way_happens_in_order_at_its_own_moment() -> None:
    clock = VirtualClock(START)
    alarms = Alarms(clock, 5, 2, 30)
    live_until(alarms, clock, START + timedelta(hours=12))
    assert alarms.rung == [START + timedelta(hours=2), START + timedelta(hours=5)]


def test_what_is_due_at_the_very_end_happens() -> None:
    clock = VirtualClock(START)
    alarms = Alarms(clock, 12)
    live_until(alarms, clock, START + timedelta(hours=12))
    assert alarms.rung == [START + timedelta(hours=12)]


def test_what_was_due_before_happens_now() -> None:
    clock = VirtualClock(START)
    alarms = Alarms(clock, -3)
    live_until(alarms, clock, START + timedelta(hours=1))
    assert alarms.rung == [START]


def test_what_a_heartbeat_makes_due_on_the_way_happens_too() -> None:
    clock = VirtualClock(START)

    class Chain(Alarms):
        def heartbeat(self) -> None:
            super().heartbeat()
            self.waiting.append(self.clock.now() + timedelta(hours=4))

    chain = Chain(clock, 1)
    live_until(chain, clock, START + timedelta(hours=10))
    assert chain.rung == [START + timedelta(hours=hour) for hour in (1, 5, 9)]


def test_work_that_is_never_done_does_not_hold_the_clock_up() -> None:
    clock = VirtualClock(START)
    stuck = Stuck(clock, 0)
    live_until(stuck, clock, START + 3 * METRONOME)
    assert clock.now() == START + 3 * METRONOME
    assert len(stuck.rung) == 4 * PASSES_AT_ONCE
