"""A village to try the service in: its history was played, and its phones go on from there."""

from __future__ import annotations

import io
import threading
from dataclasses import dataclass
from datetime import timedelta

from service.messages import Screen
from service.settings import Settings
from simulator.clock import VirtualClock
from simulator.diary import Diary
from simulator.gateway import SimulatedGateway
from simulator.performer import Performer
from simulator.stage import METRONOME, Stage
from simulator.steps import NamePhone, Network, RegisterFarm, Script

PATIENCE = timedelta(days=31)
"""How far the clock goes to find the next text; a farm with cattle has something to do each month."""


@dataclass(frozen=True, slots=True)
class Phone:
    """A simulated phone; ``language`` is that of its farm where the history registered one, else empty."""

    name: str
    number: str  # E.164
    language: str = ""


class Village:
    """
    The service with its phones, to be used by one caller at a time (hold ``lock``).

    Every change goes the way it goes in a script, so that what can be tried here can be written down there.
    """

    def __init__(self, settings: Settings, history: Script) -> None:
        """
        Play *history* on the database of *settings*.

        Raises:
            RuntimeError: It does not go as its script says.
        """
        self.lock = threading.RLock()
        self.diary = Diary()
        self.screens: dict[str, Screen] = {}  # the open menu screen of each phone
        clock = VirtualClock(history.begins_at)
        self.stage = Stage(settings, clock, SimulatedGateway(clock, settings.region), self.diary)
        failures = Performer(self.stage, self.diary, io.StringIO()).play(history)
        if failures:
            raise RuntimeError("; ".join(str(failure) for failure in failures))
        self.phones = _phones_of(history)

    def add_phone(self, number: str) -> None:
        """Put one more phone, unknown to the service, beside the others."""
        number = self.stage.gateway.e164(number)
        if all(phone.number != number for phone in self.phones):
            self.phones.append(Phone(number, number))

    def text(self, number: str, text: str) -> None:
        """A phone sends a text."""
        self.stage.text(number, text)

    def dial(self, number: str) -> None:
        """A phone opens the menu."""
        self._show(number, self.stage.dial(number))

    def type(self, number: str, typed: str) -> None:
        """
        A phone answers the screen it shows.

        Raises:
            NoSession: It shows none that awaits an answer.
        """
        self._show(number, self.stage.type(number, typed))

    def hang_up(self, number: str) -> None:
        """A phone closes the menu."""
        self.stage.gateway.hang_up(number)
        self.screens.pop(number, None)

    def move(self, *, hours: int = 0, days: int = 0) -> None:
        """The clock goes forward by *hours*, or by *days* to the same time of day."""
        self.stage.move_to(self.stage.local_now() + timedelta(days=days, hours=hours))

    def move_to_next_text(self) -> None:
        """The clock goes forward until the service writes to a phone, or else for :data:`PATIENCE`."""
        end = self.stage.local_now() + PATIENCE
        before = self.diary.came
        while (due := self.stage.next_due()) is not None and due < end:
            self.stage.move_to(max(due, self.stage.local_now() + METRONOME))
            if self.diary.came > before:
                return
        self.stage.move_to(end)

    def set_network(self, network: Network) -> None:
        """The network behaves, repeats or loses from here on."""
        self.stage.gateway.network = network
        self.stage.heartbeat()

    def _show(self, number: str, screen: Screen | None) -> None:
        if screen is None:
            self.screens.pop(number, None)
        else:
            self.screens[number] = screen


def _phones_of(history: Script) -> list[Phone]:
    registered = {step.phone: step.language for step in history.steps if isinstance(step, RegisterFarm)}
    return [
        Phone(step.name.capitalize(), step.number, registered.get(step.name, ""))
        for step in history.steps
        if isinstance(step, NamePhone)
    ]
