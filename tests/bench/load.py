"""
A lean HTTP client for timings: a fixed number of connections, each with one request under way.

One thread and plain sockets, so that the client takes as little as it can of the cores it shares with
the server it times.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import selectors
import socket
import statistics
import time
from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

SECRET = "the secret of the bench"


@dataclass(frozen=True, slots=True)
class Timing:
    """What a round of requests took: seconds in all, and of each request, sorted."""

    seconds: float
    each: tuple[float, ...]

    @property
    def rate(self) -> float:
        """Requests a second."""
        return len(self.each) / self.seconds

    @property
    def median(self) -> float:
        return statistics.median(self.each)

    @property
    def p99(self) -> float:
        return self.each[min(len(self.each) - 1, int(len(self.each) * 0.99))]

    @classmethod
    def together(cls, rounds: Sequence[Timing]) -> Timing:
        """Several rounds as one."""
        return cls(sum(r.seconds for r in rounds), tuple(sorted(t for r in rounds for t in r.each)))


def request(path: str, body: Mapping[str, Any]) -> bytes:
    """A signed POST of *body*, ready to be sent."""
    raw = json.dumps(body).encode()
    signature = hmac.new(SECRET.encode(), raw, hashlib.sha256).hexdigest()
    head = (
        f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
        f"Byreline-Signature: {signature}\r\nContent-Length: {len(raw)}\r\n\r\n"
    )
    return head.encode() + raw


class _Line:
    """One connection and the answer that is coming in on it."""

    def __init__(self, port: int) -> None:
        self.socket = socket.create_connection(("127.0.0.1", port))
        self.socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self.coming = b""
        self.sent_at = 0.0

    def send(self, raw: bytes) -> None:
        self.coming = b""
        self.sent_at = time.perf_counter()
        self.socket.sendall(raw)

    def answer_complete(self) -> bool:
        """
        Take in what has come.

        Raises:
            RuntimeError: The answer was not 200, or the server hung up.
        """
        more = self.socket.recv(65536)
        self.coming += more
        head, blank, body = self.coming.partition(b"\r\n\r\n")
        if not more or (blank and not head.startswith(b"HTTP/1.1 200")):
            raise RuntimeError(f"not answered with 200: {self.coming[:300]!r}")
        return bool(blank) and len(body) >= _length(head)


def _length(head: bytes) -> int:
    for line in head.lower().split(b"\r\n"):
        if line.startswith(b"content-length:"):
            return int(line.partition(b":")[2])
    raise RuntimeError(f"an answer of unknown length: {head!r}")


def drive(port: int, requests: Sequence[bytes], *, connections: int = 8) -> Timing:
    """
    Send *requests* over *connections* connections, the next as soon as one is answered.

    Raises:
        RuntimeError: A request was not answered with 200.
    """
    waiting, took = deque(requests), []
    lines = [_Line(port) for _ in range(min(connections, len(requests)))]
    with selectors.DefaultSelector() as ready:
        started = time.perf_counter()
        for line in lines:
            ready.register(line.socket, selectors.EVENT_READ, line)
            line.send(waiting.popleft())
        while len(took) < len(requests):
            for key, _ in ready.select(timeout=30) or _nothing():
                line = key.data
                if line.answer_complete():
                    took.append(time.perf_counter() - line.sent_at)
                    if waiting:
                        line.send(waiting.popleft())
        seconds = time.perf_counter() - started
    for line in lines:
        line.socket.close()
    return Timing(seconds, tuple(sorted(took)))


def _nothing() -> Any:
    raise RuntimeError("no answer within 30 seconds")
