"""Farms to measure on: each joined and told of by texts, through the service itself."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from zoneinfo import ZoneInfo

from service.bootstrap import Runtime, build
from service.clock import Clock
from service.gateways.interface import Gateway, Sent
from service.messages import Event, InboundText
from service.settings import Settings
from tests.bench.load import SECRET

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
LINE = "+255600000000"


class AcceptingGateway:
    """Takes every text at once."""

    at_once = 1

    def send(self, id: str, to: str, text: str) -> Sent:
        return Sent(id)

    def health(self) -> str:
        return "ok"

    def check(self) -> str:
        return "ok"


def nobody_listens(event: Event) -> None:
    """A listener that the measuring is not about."""


def settings(url: str, port: int = 8080) -> dict[str, str]:
    """The environment of a service on *url*."""
    return {
        "BYRELINE_DATABASE_URL": url,
        "BYRELINE_GATEWAY_SECRET": SECRET,
        "BYRELINE_PORT": str(port),
    }


def runtime(url: str, clock: Clock, gateway: Gateway | None = None) -> Runtime:
    """A service on *url* in this process."""
    return build(
        Settings.from_env(settings(url)),
        clock=clock,
        gateway=gateway or AcceptingGateway(),
        listener=nobody_listens,
    )


def phone(number: int) -> str:
    """The phone of the farm of that *number* (invented)."""
    return f"+2557{number:08d}"


def text(sender: str, words: str, id: str, sent_at: datetime) -> InboundText:
    return InboundText(id=id, sender=sender, recipient=LINE, text=words, sent_at=sent_at)


def settle(service: Runtime, count: int, tellings: tuple[str, ...], now: datetime) -> Iterator[str]:
    """Register *count* farms, each of which sends the *tellings*; yields their phones."""
    for number in range(count):
        sender = phone(number)
        service.register_farm(sender, f"farm {number}", "sw")
        for order, words in enumerate(tellings):
            service.sms(text(sender, words, f"seed-{number}-{order}", now))
        yield sender
