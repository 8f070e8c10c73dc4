"""A service in a process of its own, and farms for it."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.client import HTTPException
from pathlib import Path

from service.bootstrap import build
from service.settings import Settings
from tests.support.gateways import SECRET
from tests.support.service import Caller

ROOT = Path(__file__).parents[2]
PATIENCE = 60.0
"""Seconds that a busy machine may take to start a process."""


def settings_for(database_url: str, gateway_url: str, port: int = 8080) -> Settings:
    return Settings.from_env(environment(database_url, gateway_url, port))


def environment(database_url: str, gateway_url: str, port: int) -> dict[str, str]:
    return {
        "BYRELINE_DATABASE_URL": database_url,
        "BYRELINE_GATEWAY_URL": gateway_url,
        "BYRELINE_GATEWAY_SECRET": SECRET,
        "BYRELINE_PORT": str(port),
    }


def register(settings: Settings, *phones: str) -> None:
    """Farms of *phones*, in English."""
    runtime = build(settings)
    for phone in phones:
        runtime.register_farm(phone, f"Farm {phone[-4:]}", "en")
    runtime.close()


class Process:
    """``byreline run`` as a process of its own."""

    def __init__(self, database_url: str, gateway_url: str, *arguments: str) -> None:
        self.port = free_port()
        variables = {**os.environ, **environment(database_url, gateway_url, self.port)}
        command = "import sys; from service.cli import main; sys.exit(main())"
        self._popen = subprocess.Popen(
            [sys.executable, "-c", command, "run", *arguments], cwd=ROOT, env=variables
        )

    def ready(self) -> Process:
        """Wait until it answers."""
        end = time.monotonic() + PATIENCE
        while self._popen.poll() is None and time.monotonic() < end:
            caller = Caller(self.port)
            try:
                caller.raw("GET", "/health")
            except (OSError, HTTPException):
                time.sleep(0.05)
            else:
                return self
            finally:
                caller.close()
        raise AssertionError(f"the service does not answer (exit code {self._popen.poll()})")

    def kill(self) -> None:
        """Without warning, as when the power goes."""
        self._popen.kill()
        self._popen.wait()

    def stop(self) -> int:
        """As a service manager does; its exit code."""
        self._popen.send_signal(signal.SIGTERM)
        return self._popen.wait(PATIENCE)


@contextmanager
def process(database_url: str, gateway_url: str, *arguments: str) -> Iterator[Process]:
    """A process that is gone after the block, whatever happens in it."""
    running = Process(database_url, gateway_url, *arguments)
    try:
        yield running
    finally:
        running.kill()


def free_port() -> int:
    with socket.socket() as held:
        held.bind(("127.0.0.1", 0))
        port: int = held.getsockname()[1]
        return port
