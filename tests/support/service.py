"""An application that really listens, and the gateway's side to call it."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from http.client import HTTPConnection, HTTPException
from typing import Any

from flask import Flask

from service.gateways.signature import HEADER, sign
from service.wsgi import server_of
from tests.support.gateways import SECRET

NUMBER = "+255600000000"
Answer = tuple[int, dict[str, Any]]


class Caller:
    """The gateway's side of the doors at *port*. One for each thread."""

    def __init__(self, port: int, timeout: float = 30) -> None:
        self._connection = HTTPConnection("127.0.0.1", port, timeout=timeout)

    def sms(self, id: str, sender: str, text: str, sent_at: datetime | None = None) -> Answer:
        moment = (sent_at or datetime.now(UTC)).isoformat()  # noqa: TID251 - the service is on the real clock
        return self.post(
            "/gateway/sms", {"id": id, "from": sender, "to": NUMBER, "text": text, "sent_at": moment}
        )

    def post(self, path: str, body: dict[str, Any]) -> Answer:
        raw = json.dumps(body).encode()
        return self.raw("POST", path, raw, {HEADER: sign(SECRET, raw)})

    def raw(self, method: str, path: str, body: Any = None, headers: dict[str, str] | None = None) -> Answer:
        """
        Any call; its status and the JSON that came back.

        Raises:
            OSError, HTTPException: No whole answer came.
        """
        try:
            self._connection.request(method, path, body, headers or {})
            response = self._connection.getresponse()
            return response.status, json.loads(response.read())
        except (OSError, HTTPException):
            self._connection.close()
            raise

    def close(self) -> None:
        self._connection.close()


@contextmanager
def listening(app: Flask) -> Iterator[int]:
    """*app* behind waitress in a thread of this process; its port."""
    server = server_of(app, "127.0.0.1", 0)
    thread = threading.Thread(target=server.run)
    thread.start()
    try:
        yield server.effective_port
    finally:
        server.trigger.pull_trigger(lambda: server.asyncore.close_all(server._map))  # in the server's thread
        thread.join()
        server.task_dispatcher.shutdown()
