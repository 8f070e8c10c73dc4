"""The service's own HTTP doors, knocked at in this process: signed JSON in, JSON out."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from flask import Flask

from service.gateways.signature import HEADER, sign
from service.messages import Screen


class DoorFailed(Exception):
    """The service answered a call with something other than 200."""

    def __init__(self, path: str, status: int, said: str) -> None:
        super().__init__(f"{path} answered {status}: {said}")
        self.status = status


class Doors:
    """The gateway's calls of one running service."""

    def __init__(self, app: Flask, secret: str) -> None:
        self._client = app.test_client()
        self._secret = secret

    def text(self, body: Mapping[str, Any]) -> str:
        """
        ``POST /gateway/sms``: ``kept`` or ``kept_before``.

        Raises:
            DoorFailed: The text was not kept.
        """
        return str(self._post("/gateway/sms", body)["status"])

    def menu(self, body: Mapping[str, Any]) -> Screen:
        """
        ``POST /gateway/menu``: the next screen.

        Raises:
            DoorFailed: No screen came.
        """
        answer = self._post("/gateway/menu", body)
        return Screen(str(answer["text"]), bool(answer["more"]))

    def _post(self, path: str, body: Mapping[str, Any]) -> dict[str, Any]:
        raw = json.dumps(body, ensure_ascii=False).encode()
        response = self._client.post(
            path, data=raw, headers={HEADER: sign(self._secret, raw), "Content-Type": "application/json"}
        )
        if response.status_code != 200:
            raise DoorFailed(path, response.status_code, response.get_data(as_text=True).strip()[:200])
        answer: dict[str, Any] = response.get_json()
        return answer
