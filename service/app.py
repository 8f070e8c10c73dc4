"""``create_app(runtime)``: the web side of a running service."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import Flask, Response

from service.web.errors import handle_errors
from service.web.health import health
from service.web.inbound import doors

if TYPE_CHECKING:
    from service.bootstrap import Runtime

LARGEST_BODY = 16 * 1024
"""Bytes; the contract's."""

HEADERS = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}
"""What every answer carries that does not say otherwise: phones and sums of money belong in no cache."""


def create_app(runtime: Runtime) -> Flask:
    """The gateway's doors and the health of *runtime*, as a WSGI application."""
    app = Flask(__name__, static_folder=None)
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    app.register_blueprint(doors(runtime))
    app.register_blueprint(health(runtime))
    app.after_request(_with_headers)
    handle_errors(app)
    return app


def _with_headers(response: Response) -> Response:
    for name, value in HEADERS.items():
        response.headers.setdefault(name, value)
    return response
