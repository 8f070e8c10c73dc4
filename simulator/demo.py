"""The demo: the whole service in one process, with an invented cooperative already in it."""

from __future__ import annotations

import os
import signal
import socket
import tempfile
from collections.abc import Callable, Iterable
from importlib.resources import as_file, files
from typing import Any

import waitress
from flask import Flask, Response

from service.settings import SettingsError
from simulator.page import PREFIX, page
from simulator.player import simulated_settings
from simulator.steps import Script
from simulator.transcript import read_script
from simulator.village import Village

HOST = "127.0.0.1"
"""The demo answers this machine only: whoever opens its page holds all its phones."""

THREADS = 4

STOPPED = Response("The service is stopped.\n", status=503, mimetype="text/plain")
"""What every door of the service answers while it is switched off."""

Wsgi = Callable[[dict[str, Any], Any], Iterable[bytes]]


def serve(port: int) -> None:
    """
    Play the history, then serve the demo's page on *port* until interrupted; its database is gone afterwards.

    Raises:
        SettingsError: The port cannot be had, or a setting in force cannot be used.
    """
    for end in (signal.SIGINT, signal.SIGTERM):
        signal.signal(end, _stop)  # quietly, and with the database put away, at whatever moment it comes
    listening = _listen(port)
    with listening, tempfile.TemporaryDirectory(prefix="byreline-demo-") as folder:
        print("Byreline: the cooperative's last months are being told ...", flush=True)
        village = open_village(folder)
        server = waitress.create_server(application(village), sockets=[listening], threads=THREADS)
        print(f"Open http://{HOST}:{port}/ in a browser. Stop with Ctrl-C.", flush=True)
        try:
            server.run()
        finally:
            server.close()
            village.stage.switch_off()


def _listen(port: int) -> socket.socket:
    """The port, taken before the history is played: whoever cannot have it is told at once."""
    try:
        return socket.create_server((HOST, port))
    except OSError as error:
        raise SettingsError(f"Port {port} cannot be used: {os.strerror(error.errno or 0)}.") from error


def _stop(_signal: int, _frame: object) -> None:
    raise SystemExit(0)


def open_village(folder: str) -> Village:
    """The demo's village, its database a new file in *folder*."""
    settings = simulated_settings(f"sqlite:///{folder}/demo.db")
    with as_file(files("simulator") / "demo.talk") as path:
        history: Script = read_script(path, settings.zone)
    return Village(settings, history)


def application(village: Village) -> Wsgi:
    """The page at ``/``; every other path is one of the service's own."""
    front = Flask("simulator")
    front.register_blueprint(page(village))

    def answer(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        path = str(environ.get("PATH_INFO", ""))
        with village.lock:
            app = front if path == "/" or path.startswith(PREFIX) else village.stage.app or STOPPED
            return app(environ, start_response)

    return answer
