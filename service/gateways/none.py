"""No gateway: what is used until an address is set."""

from __future__ import annotations

from service.gateways.interface import GatewayUnreachable, Sent

NOT_SET = "No gateway address is set; outgoing texts wait."
UNSIGNED = "The gateway's secret is not set; outgoing texts wait."


class NoGateway:
    """Accepts nothing, so that every text waits for a gateway to be set. *why*: what is not set."""

    at_once = 1

    def __init__(self, why: str = NOT_SET) -> None:
        self._why = why

    def send(self, id: str, to: str, text: str) -> Sent:
        raise GatewayUnreachable(self._why)

    def health(self) -> str:
        return self._why

    def check(self) -> str:
        return self._why
