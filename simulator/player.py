"""
Plays conversation scripts: each against a service of its own, through the doors it really has.

``play`` is what the command ``byreline play`` runs.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TextIO

import sqlalchemy as sa

from service.messages import Listener
from service.records.tables import Farm
from service.settings import Settings, SettingsError
from simulator.clock import VirtualClock
from simulator.gateway import SimulatedGateway
from simulator.performer import Failure, Performer
from simulator.stage import Stage
from simulator.steps import Script
from simulator.transcript import ScriptError, read_script

GOOD, FAILED, WRONG = 0, 1, 2
"""Exit codes: every expectation held; one did not; the call or a script was wrong."""


SECRET = "simulated"  # noqa: S105 - both sides of it are in this process
"""What the simulated gateway signs with."""


class NotPlayable(Exception):
    """The call was wrong: nothing was played."""


def play(
    paths: Sequence[str | Path],
    log: str | Path | None = None,
    database: str | None = None,
    out: TextIO | None = None,
) -> int:
    """
    Play each script against a fresh service and print what was said on *out* (default: standard output).

    Args:
        paths: The scripts, played in this order.
        log: File for the events, one JSON object a line.
        database: SQLAlchemy URL of a database that holds no farm yet, for one script; else each script
            gets a temporary SQLite file.

    Returns:
        0 when every expectation held, 1 when one did not, 2 when the call or a script was wrong (said in
        one line on standard error).
    """
    out = out or sys.stdout
    try:
        settings = simulated_settings(database)
        scripts = [read_script(Path(path), settings.zone) for path in paths]
        if database is not None and len(scripts) != 1:
            raise NotPlayable("with a database of your own, one script can be played at a time")
        with _event_log(log) as listener:
            failures = [
                failure
                for script in scripts
                for failure in _play_alone(script, settings, listener, database, out)
            ]
    except (ScriptError, NotPlayable, SettingsError) as error:
        print(error, file=sys.stderr)
        return WRONG
    _print_outcome(scripts, failures, out)
    return FAILED if failures else GOOD


def simulated_settings(database_url: str | None = None) -> Settings:
    """
    The settings in force (place, zone, currency), but for the simulated gateway's secret and *database_url*.

    Raises:
        SettingsError: One of them cannot be used.
    """
    own = {"BYRELINE_GATEWAY_SECRET": SECRET, "BYRELINE_DATABASE_URL": database_url or ""}
    return Settings.from_env({**os.environ, **own})


def _play_alone(
    script: Script, settings: Settings, listener: Listener, database: str | None, out: TextIO
) -> list[Failure]:
    """One script on *database*, or on one that is gone afterwards."""
    print(f"== {script.file}", file=out)
    if database is not None:
        return _play_on(script, settings, listener, out)
    with tempfile.TemporaryDirectory(prefix="byreline-play-") as folder:
        own = replace(settings, database_url=f"sqlite:///{folder}/play.db")
        return _play_on(script, own, listener, out)


def _play_on(script: Script, settings: Settings, listener: Listener, out: TextIO) -> list[Failure]:
    clock = VirtualClock(script.begins_at)
    gateway = SimulatedGateway(clock, settings.region)
    stage = _stage(settings, clock, gateway, listener)
    try:
        _refuse_farms(stage)
        performer = Performer(stage, listener, out)
        gateway.reached = performer.heard
        return performer.play(script)
    finally:
        stage.switch_off()


def _stage(settings: Settings, clock: VirtualClock, gateway: SimulatedGateway, listener: Listener) -> Stage:
    try:
        return Stage(settings, clock, gateway, listener)
    except sa.exc.SQLAlchemyError as error:
        raise NotPlayable(f"the database cannot be used: {str(error).splitlines()[0]}") from None


def _refuse_farms(stage: Stage) -> None:
    assert stage.runtime is not None  # noqa: S101 - it was just built
    count = sa.select(sa.func.count()).select_from(Farm)
    if stage.runtime.store.read(lambda connection: connection.scalar(count)):
        raise NotPlayable("the database holds a farm already; a script is played on an empty one")


@contextmanager
def _event_log(path: str | Path | None) -> Iterator[Listener]:
    """A listener that writes each event as one line, at once: the log is complete whatever follows."""
    with ExitStack() as stack:
        if path is None:
            yield lambda event: None
            return
        try:
            file = stack.enter_context(Path(path).open("w", encoding="utf-8"))
        except OSError as error:
            raise NotPlayable(f"the log cannot be written: {path}: {error.strerror}") from None
        yield lambda event: print(json.dumps(event, ensure_ascii=False), file=file, flush=True)


def _print_outcome(scripts: Sequence[Script], failures: Sequence[Failure], out: TextIO) -> None:
    if not failures:
        print(f"All that was expected came: {len(scripts)} script(s).", file=out)
        return
    print(f"{len(failures)} expectation(s) did not hold:", file=out)
    for failure in failures:
        print(f"  {failure}", file=out)
