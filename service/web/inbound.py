"""What the gateway calls. Refusals in this order: too large, not signed, malformed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from flask import Blueprint, request

from service.gateways.signature import HEADER, verify
from service.web import bodies
from service.web.bodies import Body
from service.web.errors import Refused

if TYPE_CHECKING:
    from service.bootstrap import Runtime


def doors(runtime: Runtime) -> Blueprint:
    """The three calls of the gateway."""
    blueprint = Blueprint("gateway", __name__, url_prefix="/gateway")

    @blueprint.post("/sms")
    def sms() -> dict[str, Any]:
        text = bodies.inbound_text(_signed(runtime))
        return {"id": text.id, "status": runtime.sms(text).value}

    @blueprint.post("/menu")
    def menu() -> dict[str, Any]:
        screen = runtime.menu(bodies.menu_input(_signed(runtime)))
        return {"text": screen.text, "more": screen.more}

    @blueprint.post("/receipt")
    def receipt() -> dict[str, Any]:
        name, state = bodies.receipt(_signed(runtime))
        runtime.receipt(name, state)
        return {"id": name, "state": state}

    return blueprint


def _signed(runtime: Runtime) -> Body:
    """
    The body of this call, if the gateway signed it.

    Raises:
        RequestEntityTooLarge: It is over the limit that the app sets.
        Refused: It is not signed with the secret; without a secret no call is.
        BadBody: It is not a JSON object.
    """
    raw = request.get_data(cache=False)
    if not verify(runtime.settings.gateway_secret, raw, request.headers.get(HEADER)):
        raise Refused(401, "The signature is missing or not that of this body.")
    return bodies.read(raw)
