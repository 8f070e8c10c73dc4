"""What a gateway is to the rest of the house, and how it says that a text did not go."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol


@dataclass(frozen=True, slots=True)
class Sent:
    """The gateway has accepted the text *id* and answers for it from here on."""

    id: str


class GatewayError(Exception):
    """A text was not accepted. The message never holds the text, the phone or the secret."""


class GatewayRefused(GatewayError):
    """The gateway refuses this text for good: trying again is of no use."""


class GatewayUnreachable(GatewayError):
    """The gateway did not accept this text now; the same text may be accepted later."""


class GatewayUnauthorised(GatewayUnreachable):
    """The gateway does not believe our signature; the texts wait until someone has put that right."""


class Gateway(Protocol):
    """A way out for texts."""

    at_once: int
    """How many texts may be on their way at the same time, each in a thread of its own."""

    def send(self, id: str, to: str, text: str) -> Sent:
        """
        Hand over *text* for the phone *to* (E.164) under our own *id*, which makes a repeat harmless.

        Raises:
            GatewayRefused: For good.
            GatewayUnauthorised: Our signature is not accepted; later again.
            GatewayUnreachable: Not now; later again. It may nevertheless have been accepted.
        """
        ...

    def health(self) -> str:
        """``ok``, or a sentence saying what is wrong, as far as known without asking anyone."""
        ...

    def check(self) -> str:
        """``ok``, or a sentence saying what is wrong, after trying to reach the gateway."""
        ...
