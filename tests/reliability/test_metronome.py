"""The metronome beats on: one beat at a time, past faults, and no text of a fault in the log."""

from __future__ import annotations

import logging
import threading
import time
from collections.abc import Callable
from types import SimpleNamespace
from zoneinfo import ZoneInfo

import pytest

from scheduler import runner


class Heart:
    """What the metronome drives: each beat does the next of *deeds*, the last one ever after."""

    def __init__(self, *deeds: Callable[[], None]) -> None:
        self.settings = SimpleNamespace(zone=ZoneInfo("Africa/Dar_es_Salaam"))
        self.beats = 0
        self.at_once = 0
        self.most_at_once = 0
        self.enough = threading.Event()
        self._deeds = deeds

    def heartbeat(self) -> None:
        self.beats += 1
        self.at_once += 1
        self.most_at_once = max(self.most_at_once, self.at_once)
        try:
            self._deeds[min(self.beats, len(self._deeds)) - 1]()
        finally:
            self.at_once -= 1
            if self.beats >= 3:
                self.enough.set()


def rest() -> None:
    """Nothing to do."""


def fail() -> None:
    raise ValueError("MAZIWA NEEMA 6")


def beat_thrice(heart: Heart) -> None:
    beating = runner.start(heart)  # type: ignore[arg-type]
    try:
        assert heart.enough.wait(30)
    finally:
        beating.shutdown()


def test_a_beat_that_fails_is_told_to_the_log_and_the_next_one_comes(
    caplog: pytest.LogCaptureFixture,
) -> None:
    with caplog.at_level(logging.DEBUG):
        beat_thrice(Heart(fail, rest))
    assert "a heartbeat failed: ValueError <- " in caplog.text
    assert "NEEMA" not in caplog.text


def test_a_long_beat_is_not_overtaken_and_beats_missed_are_made_up_for_by_one() -> None:
    heart = Heart(lambda: time.sleep(3.2), rest)
    beat_thrice(heart)
    assert heart.most_at_once == 1
    assert heart.beats <= 4
