"""A gateway behind an HTTP address: ``POST {address}/sms``, signed."""

from __future__ import annotations

import json
from http.client import HTTPConnection, HTTPException, HTTPSConnection
from urllib.parse import urlsplit

from service.gateways.interface import GatewayRefused, GatewayUnauthorised, GatewayUnreachable, Sent
from service.gateways.signature import HEADER, sign

TIMEOUT = 10.0
"""Seconds to wait for the network: a rural line is slow, but a stuck one must not hold up the rest."""

UNAUTHORISED = frozenset({401, 403})
AGAIN_LATER = frozenset({408, 425, 429})
"""The only refusals (4xx) that are about the moment and not about the text."""

NOT_BELIEVED = "The gateway does not accept our signature; the shared secret may be wrong."


class HttpGateway:
    """Sends to the gateway at *url* (http or https). Follows no redirect, uses no proxy."""

    at_once = 4  # a gateway far away answers slowly, but answers several; more would press a small one

    def __init__(self, url: str, secret: str, *, timeout: float = TIMEOUT) -> None:
        parts = urlsplit(url)
        self._secure = parts.scheme == "https"
        self._host, self._port = parts.hostname or "", parts.port
        self._path = parts.path.rstrip("/") + "/sms"
        self._secret = secret
        self._timeout = timeout
        self._believed = True

    def send(self, id: str, to: str, text: str) -> Sent:
        status = self._post(json.dumps({"id": id, "to": to, "text": text}).encode())
        if 200 <= status < 300:
            self._believed = True
            return Sent(id)
        if status in UNAUTHORISED:
            self._believed = False
            raise GatewayUnauthorised(NOT_BELIEVED)
        if 400 <= status < 500 and status not in AGAIN_LATER:
            raise GatewayRefused(f"The gateway refused the text ({status}).")
        raise GatewayUnreachable(f"The gateway did not accept the text now ({status}).")

    def health(self) -> str:
        return "ok" if self._believed else NOT_BELIEVED

    def check(self) -> str:
        connection = self._connection()
        try:
            connection.connect()
        except (OSError, HTTPException) as error:
            return f"The gateway cannot be reached ({type(error).__name__})."
        finally:
            connection.close()
        return self.health()

    def _connection(self) -> HTTPConnection:
        kind = HTTPSConnection if self._secure else HTTPConnection
        return kind(self._host, self._port, timeout=self._timeout)

    def _post(self, body: bytes) -> int:
        """The status of the answer to *body*."""
        headers = {"Content-Type": "application/json", HEADER: sign(self._secret, body)}
        connection = self._connection()
        try:
            connection.request("POST", self._path, body, headers)
            return connection.getresponse().status
        except (OSError, HTTPException) as error:
            raise GatewayUnreachable(f"The gateway gave no answer ({type(error).__name__}).") from error
        finally:
            connection.close()
