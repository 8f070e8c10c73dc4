"""Serves the application: waitress, one process, threads."""

from __future__ import annotations

import logging
import signal
import sys
from typing import TYPE_CHECKING, Any

import waitress

from service.app import create_app

if TYPE_CHECKING:
    from flask import Flask

    from service.bootstrap import Runtime

THREADS = 8
"""They share the cost of a commit; more only wait for the database."""

LARGEST_READ = 1024 * 1024
"""Bytes of a body that the server reads before the application can refuse it."""


CONNECTIONS = 512
"""A gateway may hold many open; the server's own limit of 100 would leave the rest unanswered."""


def serve(runtime: Runtime) -> None:
    """
    Serve *runtime* at its host and port until the process is told to stop; calls under way are answered.

    Raises:
        OSError: The address is taken, or not ours.
    """
    server = server_of(create_app(runtime), runtime.settings.host, runtime.settings.port)
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))  # as an interrupt from the keyboard does
    try:
        server.run()
    finally:
        server.close()


def server_of(app: Flask, host: str, port: int) -> Any:
    """
    Waitress with *app*, listening at *host* and *port* (0: any free one, then its ``effective_port``).

    Raises:
        OSError: The address is taken, or not ours.
    """
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)  # it warns of every call that waits its turn
    return waitress.create_server(
        app,
        host=host,
        port=port,
        threads=THREADS,
        ident=None,
        max_request_body_size=LARGEST_READ,
        connection_limit=CONNECTIONS,
        asyncore_use_poll=True,
    )
