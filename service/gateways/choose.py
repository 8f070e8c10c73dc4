"""Which gateway the settings ask for."""

from __future__ import annotations

from service.gateways.http import HttpGateway
from service.gateways.interface import Gateway
from service.gateways.none import UNSIGNED, NoGateway
from service.settings import Settings


def gateway_of(settings: Settings) -> Gateway:
    """The gateway at the address that is set, or one that lets texts wait."""
    if settings.gateway_url is None:
        return NoGateway()
    if settings.gateway_secret is None:
        return NoGateway(UNSIGNED)
    return HttpGateway(settings.gateway_url, settings.gateway_secret)
