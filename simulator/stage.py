"""A whole service under a virtual clock, with the simulated gateway and its phones before it."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import Protocol

from flask import Flask

from dialogs.grammar.place import Place
from service.app import create_app
from service.bootstrap import Runtime, build
from service.clock import farm_time
from service.flow.lists import Office, load
from service.messages import Listener, Screen
from service.settings import Settings
from simulator.clock import VirtualClock
from simulator.doors import Doors
from simulator.gateway import SimulatedGateway

METRONOME = timedelta(minutes=1)
"""When work is left over at one moment, the next pass comes this much later, as it does in real use."""

PASSES_AT_ONCE = 20
"""Passes at the same moment before the rest waits for the next beat: more than any real day needs."""


class Heart(Protocol):
    """What the clock drives: the scheduler's side of a running service."""

    def next_due(self) -> datetime | None: ...

    def heartbeat(self) -> None: ...


def live_until(heart: Heart, clock: VirtualClock, moment: datetime) -> None:
    """
    Move *clock* towards *moment*, with a heartbeat at each moment at which something is due.

    It ends at the last of them; one that leaves work over for ever does not hold the clock up.
    """
    passes = 0
    while (due := heart.next_due()) is not None and due <= moment:
        if due > clock.now():
            passes = 0
        elif passes == PASSES_AT_ONCE:
            due, passes = clock.now() + METRONOME, 0
            if due > moment:
                return
        clock.set(due)
        heart.heartbeat()
        passes += 1


class Stage:
    """
    The service and what is around it.

    Texts and menu inputs go through the service's HTTP doors; the scheduler's heartbeat is driven by the
    clock. Switched off, the service is gone at once; switched on, it is built again on its database.
    """

    def __init__(
        self, settings: Settings, clock: VirtualClock, gateway: SimulatedGateway, listener: Listener
    ) -> None:
        self.settings = settings
        self.clock = clock
        self.gateway = gateway
        self.runtime: Runtime | None = None
        self.app: Flask | None = None
        self._listener = listener
        self.switch_on()

    def local_now(self) -> datetime:
        """Now, in the farm's zone."""
        return farm_time(self.clock.now(), self.settings.zone)

    def switch_on(self) -> None:
        """Start the service on its database; the texts that the gateway kept come in first, in order."""
        if self.runtime is None:
            self.runtime = build(
                self.settings, clock=self.clock, gateway=self.gateway, listener=self._listener
            )
            self.app = create_app(self.runtime)
            self.gateway.connect(Doors(self.app, self.settings.gateway_secret or ""))
            self.gateway.deliver(self.heartbeat)
            self.heartbeat()

    def switch_off(self) -> None:
        """Stop the service without warning: nothing is finished, only files are let go."""
        self.gateway.connect(None)
        if self.runtime is not None:
            self.runtime.close()
            self.runtime = self.app = None

    def heartbeat(self) -> None:
        """One pass of the scheduler, if the service is up."""
        if self.runtime is not None:
            self.runtime.heartbeat()

    def next_due(self) -> datetime | None:
        """When the scheduler next has something to do, in the farm's zone; None: nothing, or it is down."""
        due = self.runtime.next_due() if self.runtime is not None else None
        return farm_time(due, self.settings.zone) if due is not None else None

    def move_to(self, moment: datetime) -> None:
        """Move the clock forward; what falls due on the way happens in order, each at its own moment."""
        if self.runtime is not None:
            live_until(self.runtime, self.clock, moment)
        self.clock.set(moment)
        self.heartbeat()

    def register_farm(self, number: str, name: str, language: str) -> None:
        """
        Register the farm of a phone as if its owner had answered the questions of joining.

        Raises:
            RuntimeError: The service is down.
        """
        if self.runtime is None:
            raise RuntimeError("the service is down")
        self.runtime.register_farm(number, name, language)

    def load(self, name: str, file: Path) -> None:
        """
        Load a list of the cooperative, as its office would.

        Raises:
            Unreadable: The file is no such list.
            WrongLines: Some of its lines are wrong.
            RuntimeError: The service is down.
        """
        if self.runtime is None:
            raise RuntimeError("the service is down")
        place = Place(region=self.settings.region, currency=self.settings.currency)
        office = Office(cooperative=None, place=place, now=self.local_now())
        self.runtime.store.write(lambda conn: load(conn, name, file, office))

    def text(self, number: str, text: str) -> None:
        """
        A phone sends a text; the replies go out at once.

        Raises:
            DoorFailed: The service failed over it.
        """
        self.gateway.keep(number, text)
        self.gateway.deliver(self.heartbeat)

    def dial(self, number: str) -> Screen | None:
        """
        A phone opens the menu; the first screen, None while the service is down.

        Raises:
            DoorFailed: The service failed over it.
        """
        screen = self.gateway.dial(number)
        self.heartbeat()
        return screen

    def type(self, number: str, typed: str) -> Screen | None:
        """
        A phone answers a screen; the next one, None while the service is down.

        Raises:
            NoSession: No menu is open on that phone.
            DoorFailed: The service failed over it.
        """
        screen = self.gateway.type(number, typed)
        self.heartbeat()
        return screen
