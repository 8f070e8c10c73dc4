"""One shape for every error the outside sees: ``{"error": "a sentence"}``."""

from __future__ import annotations

import logging
from typing import Any

from flask import Flask, request
from werkzeug.exceptions import HTTPException

from service.faults import describe
from service.web.bodies import BadBody

log = logging.getLogger(__name__)

Answer = tuple[dict[str, Any], int]

CALM = "Something went wrong here; nothing is lost if the same call is made again later."

SENTENCES = {
    400: "The call is malformed.",
    404: "There is nothing at this address.",
    405: "This address does not take calls of this method.",
    413: "The body must not be over 16 KiB.",
}


class Refused(Exception):
    """A call that is not let in, with its status and one sentence."""

    def __init__(self, status: int, sentence: str) -> None:
        super().__init__(sentence)
        self.status = status


def handle_errors(app: Flask) -> None:
    """Let *app* answer whatever goes wrong in the one shape, and never with a traceback."""
    app.register_error_handler(BadBody, _malformed)
    app.register_error_handler(Refused, _refused)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(Exception, _fault)


def _malformed(error: BadBody) -> Answer:
    return {"error": str(error)}, 400


def _refused(error: Refused) -> Answer:
    return {"error": str(error)}, error.status


def _http(error: HTTPException) -> Any:
    if error.response is not None or error.code is None or error.code < 400:
        return error  # a redirect, or an answer ready made
    said = SENTENCES.get(error.code, f"{error.name}.")
    headers = [(name, value) for name, value in error.get_headers() if name == "Allow"]
    return {"error": said}, error.code, headers


def _fault(error: Exception) -> Answer:
    log.error("%s %s failed: %s", request.method, request.path, describe(error))
    return {"error": CALM}, 500
