"""
The simulated gateway: carries texts between simulated phones and the service, and misbehaves on request.

Outward it is a :class:`service.gateways.interface.Gateway`; inward it knocks at the doors the service
really has (signed JSON over HTTP), so that nothing of the path of a text is left out of a play.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from uuid import uuid4

import phonenumbers

from service.clock import Clock
from service.gateways.interface import GatewayUnreachable, Sent
from service.messages import Screen
from simulator.doors import Doors
from simulator.steps import Network

SERVICE_NUMBER = "+255600000000"
"""The number that phones write to; invented."""


class NoSession(Exception):
    """Nothing can be typed: no menu session is open on this phone."""


@dataclass(slots=True)
class _Session:
    """An open menu session of one phone; ``steps`` inputs have been sent so far."""

    id: str
    steps: int = 0


class SimulatedGateway:
    """Keeps a phone's texts while the service is down, in order; drops a text that it has accepted before."""

    at_once = 1  # a play is the same each time

    def __init__(self, clock: Clock, region: str) -> None:
        self.network = Network.FINE
        self.reached: Callable[[str, str], None] | None = None
        """Called with the number and the text whenever a text has reached a phone."""
        self._clock = clock
        self._region = region
        self._inboxes: defaultdict[str, deque[str]] = defaultdict(deque)
        self._doors: Doors | None = None
        self._kept: deque[dict[str, Any]] = deque()
        self._accepted: set[str] = set()
        self._sessions: dict[str, _Session] = {}
        self._run = uuid4().hex[:12]  # message ids stay unique when a database is played on again
        self._count = 0

    # service to phones

    def send(self, id: str, to: str, text: str) -> Sent:
        """
        Bring a text to a phone; one whose *id* was accepted before is not brought again.

        Raises:
            GatewayUnreachable: The network loses texts at present.
        """
        if self.network is Network.LOSES:
            raise GatewayUnreachable("the simulated network loses texts")
        if id not in self._accepted:
            self._accepted.add(id)
            self._inboxes[to].append(text)
            if self.reached:
                self.reached(to, text)
        return Sent(id)

    def health(self) -> str:
        return "ok"

    def check(self) -> str:
        return "ok"

    def inbox(self, number: str) -> deque[str]:
        """What has reached a phone and waits to be looked at, the oldest first."""
        return self._inboxes[self.e164(number)]

    def e164(self, number: str) -> str:
        """*number* in the international form; short codes and names as they are."""
        try:
            parsed = phonenumbers.parse(number, self._region)
        except phonenumbers.NumberParseException:
            return number
        if not phonenumbers.is_possible_number(parsed):
            return number
        return phonenumbers.format_number(parsed, phonenumbers.PhoneNumberFormat.E164)

    # phones to service

    def connect(self, doors: Doors | None) -> None:
        """The service is reached through *doors* from now on; None: it is down."""
        self._doors = doors

    def keep(self, sender: str, text: str) -> None:
        """Take a text from a phone, to be delivered by :meth:`deliver`."""
        self._kept.append(
            {
                "id": self._new_id("text"),
                "from": sender,
                "to": SERVICE_NUMBER,
                "text": text,
                "sent_at": _moment(self._clock.now()),
            }
        )

    def deliver(self, after_each: Callable[[], None]) -> None:
        """
        Hand the kept texts to the service, the oldest first, if it is up.

        Raises:
            DoorFailed: The service failed over a text; that text is not delivered again.
        """
        while self._kept and self._doors is not None:
            body = self._kept.popleft()
            for _ in range(2 if self.network is Network.REPEATS else 1):
                self._doors.text(body)
                after_each()

    def dial(self, sender: str) -> Screen | None:
        """Open a menu session, in place of any other; its first screen, None while the service is down."""
        self._sessions[sender] = _Session(self._new_id("menu"))
        return self._input(sender, None)

    def type(self, sender: str, typed: str) -> Screen | None:
        """
        Answer the screen before; the next screen, None while the service is down.

        Raises:
            NoSession: None is open on this phone.
        """
        if sender not in self._sessions:
            raise NoSession
        return self._input(sender, typed)

    def hang_up(self, sender: str) -> None:
        """End the menu session, if one is open. The service is not told, as in life."""
        self._sessions.pop(sender, None)

    def _input(self, sender: str, typed: str | None) -> Screen | None:
        session = self._sessions[sender]
        if self._doors is None:
            return None
        screen = self._doors.menu(
            {"session": session.id, "step": session.steps, "from": sender, "input": typed}
        )
        session.steps += 1
        if not screen.more:
            self.hang_up(sender)
        return screen

    def _new_id(self, what: str) -> str:
        self._count += 1
        return f"{what}-{self._run}-{self._count}"


def _moment(moment: datetime) -> str:
    return moment.isoformat(timespec="seconds")
