"""Servers as processes of their own, on free ports of 127.0.0.1, ended when the measuring is."""

from __future__ import annotations

import contextlib
import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator, Mapping

BYRELINE = (sys.executable, "-c", "import sys; from service.cli import main; sys.exit(main())")
"""The command, whether or not it is installed beside this Python."""

PATIENCE = 60.0
"""Seconds a server may take to answer for the first time."""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def wait_for(port: int, process: subprocess.Popen[bytes]) -> None:
    """
    Return as soon as the server at *port* answers anything.

    Raises:
        RuntimeError: It ended, or did not answer in time.
    """
    until = time.perf_counter() + PATIENCE
    while time.perf_counter() < until:
        if process.poll() is not None:
            raise RuntimeError(f"the server ended with {process.returncode}")
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{port}/health", timeout=5):
                return
        except urllib.error.HTTPError:
            return
        except OSError:
            time.sleep(0.005)
    raise RuntimeError("the server did not answer")


@contextlib.contextmanager
def served(*command: str, port: int, settings: Mapping[str, str] = {}) -> Iterator[int]:
    """A server started by *command* until it is no longer needed; gives its port once it answers."""
    process = subprocess.Popen(command, env={**os.environ, **settings}, stdout=subprocess.DEVNULL)
    try:
        wait_for(port, process)
        yield port
    finally:
        process.terminate()
        process.wait(10)
