"""A gateway behind HTTP, in a thread of this process: keeps what it is sent, and misbehaves as told."""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from service.gateways.signature import HEADER, verify

SECRET = "a secret of the tests"

Answer = int | Callable[[], None]
"""A status, or what to do in the place of answering."""


@dataclass
class GatewayServer:
    """What the server knows. ``answers`` are given in turn, then ``usual`` to every call."""

    url: str = ""
    usual: Answer = 200
    answers: list[Answer] = field(default_factory=list)
    calls: list[dict[str, Any]] = field(default_factory=list)
    """Every body that came with a true signature, accepted or not, in order."""
    forged: int = 0
    lock: threading.Lock = field(default_factory=threading.Lock)

    def answer_to(self, body: bytes, signature: str | None) -> Answer:
        with self.lock:
            if not verify(SECRET, body, signature):
                self.forged += 1
                return 401
            self.calls.append(json.loads(body))
            return self.answers.pop(0) if self.answers else self.usual

    def wait_for(self, calls: int, patience: timedelta) -> bool:
        """Whether so many *calls* have come before *patience* is over."""
        end = time.monotonic() + patience.total_seconds()
        while len(self.calls) < calls and time.monotonic() < end:
            time.sleep(0.02)
        return len(self.calls) >= calls

    def ids(self) -> list[str]:
        """The id of each call, in order."""
        with self.lock:
            return [call["id"] for call in self.calls]

    def texts(self) -> list[str]:
        """The text of each call, in order."""
        with self.lock:
            return [call["text"] for call in self.calls]


class _Server(ThreadingHTTPServer):
    request_queue_size = 64
    daemon_threads = True


def _handler(server: GatewayServer) -> type[BaseHTTPRequestHandler]:
    class Handler(BaseHTTPRequestHandler):
        timeout = 10

        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["Content-Length"]))
            known = self.path == "/line/sms"
            answer = server.answer_to(body, self.headers[HEADER]) if known else 404
            if callable(answer):
                answer()
                self.close_connection = True
                return
            self.send_response(answer)
            if 300 <= answer < 400:
                self.send_header("Location", server.url + "/elsewhere")
            self.send_header("Content-Length", "2")
            self.end_headers()
            self.wfile.write(b"{}")

        def log_message(self, format: str, *args: Any) -> None:
            """Say nothing."""

    return Handler


@contextmanager
def gateway_server() -> Iterator[GatewayServer]:
    """A gateway at ``http://127.0.0.1:<port>/line`` while the block lasts."""
    known = GatewayServer()
    with _Server(("127.0.0.1", 0), _handler(known)) as http:
        known.url = f"http://127.0.0.1:{http.server_port}/line"
        thread = threading.Thread(target=http.serve_forever, kwargs={"poll_interval": 0.02})
        thread.start()
        try:
            yield known
        finally:
            http.shutdown()
            thread.join()
