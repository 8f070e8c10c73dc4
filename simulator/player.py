"""
Plays conversation scripts: each against a service of its own, through the doors it really has.

``play`` is what the command ``byreline play`` runs; ``Player`` performs one script on a stage.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TextIO

import sqlalchemy as sa

from service.messages import Listener, Screen
from service.records.tables import Farm
from service.settings import Settings, SettingsError
from simulator.clock import VirtualClock
from simulator.doors import DoorFailed
from simulator.gateway import NoSession, SimulatedGateway
from simulator.stage import Stage
from simulator.transcript import (
    Dial,
    Expected,
    ExpectScreen,
    ExpectText,
    HangUp,
    MoveClock,
    NamePhone,
    RegisterFarm,
    Script,
    ScriptError,
    SendText,
    SetNetwork,
    Step,
    SwitchService,
    TypeAnswer,
    read_script,
)

GOOD, FAILED, WRONG = 0, 1, 2
"""Exit codes: every expectation held; one did not; the call or a script was wrong."""


SECRET = "simulated"  # noqa: S105 - both sides of it are in this process
"""What the simulated gateway signs with."""


class NotPlayable(Exception):
    """The call was wrong: nothing was played."""


@dataclass(frozen=True, slots=True)
class Failure:
    """An expectation that did not hold, or a call over which the service failed."""

    file: str
    line: int
    expected: str
    came: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: expected {self.expected}; came {self.came}"


class Player:
    """Performs the steps of one script on a stage and compares what comes with what was expected."""

    def __init__(self, stage: Stage, listener: Listener, out: TextIO) -> None:
        self.stage = stage
        self.failures: list[Failure] = []
        self._listener = listener
        self._out = out
        self._numbers: dict[str, str] = {}
        self._screens: dict[str, _Shown] = {}
        self._file = ""
        self._last_moment = ""

    def play(self, script: Script) -> list[Failure]:
        """Every step, to the end, whatever fails; the failures in order."""
        self._file = script.file
        for step in script.steps:
            try:
                self._perform(step)
            except (DoorFailed, NoSession) as error:
                self._fail(step, "the service to take it", str(error) or "no menu is open on this phone")
        return self.failures

    def heard(self, number: str, text: str) -> None:
        """A text has reached a phone (E.164)."""
        names = [name for name, its in self._numbers.items() if self.stage.gateway.e164(its) == number]
        self._say(names[0] if names else number, "<", text)

    def _perform(self, step: Step) -> None:
        stage = self.stage
        match step:
            case MoveClock(to=to):
                stage.move_to(to)
            case NamePhone(name=name, number=number):
                self._numbers[name] = number
            case RegisterFarm(phone=name, language=language):
                stage.register_farm(self._numbers[name], name.capitalize(), language)
            case SendText(phone=name, text=text):
                self._say(name, ">", text)
                stage.text(self._numbers[name], text)
            case ExpectText(phone=name, expected=expected):
                self._compare(step, expected, self._oldest_text(name, expected))
            case Dial(phone=name):
                self._say(name, "#", "dial")
                self._show(name, stage.dial(self._numbers[name]))
            case TypeAnswer(phone=name, typed=typed):
                self._say(name, "#", typed)
                self._show(name, stage.type(self._numbers[name], typed))
            case HangUp(phone=name):
                self._say(name, "#", "hang up")
                self._screens.pop(name, None)
                stage.gateway.hang_up(self._numbers[name])
            case ExpectScreen(phone=name, expected=expected):
                self._compare(step, expected, self._screen(name, expected))
            case SwitchService(up=up):
                self._note("service up" if up else "service down")
                (stage.switch_on if up else stage.switch_off)()
            case SetNetwork(network=network):
                self._note(f"network {network}")
                stage.gateway.network = network
                stage.heartbeat()

    # what came, and what should have

    def _oldest_text(self, name: str, expected: Expected) -> str | None:
        """The oldest waiting text; it is taken away unless silence was expected."""
        inbox = self.stage.gateway.inbox(self._numbers[name])
        if not inbox:
            return None
        return inbox[0] if expected.is_silence else inbox.popleft()

    def _show(self, name: str, screen: Screen | None) -> None:
        if screen is None:
            self._screens.pop(name, None)
            return
        self._screens[name] = _Shown(screen.text)
        self._say(name, "=", screen.text)
        at = self.stage.local_now().isoformat(timespec="minutes")
        number = self.stage.gateway.e164(self._numbers[name])
        self._listener(
            {"at": at, "event": "screen", "phone": number, "text": screen.text, "more": screen.more}
        )

    def _screen(self, name: str, expected: Expected) -> str | None:
        """The screen on the phone; where none is expected, only one not yet looked at counts."""
        shown = self._screens.get(name)
        if shown is None or (expected.is_silence and shown.seen):
            return None
        shown.seen = shown.seen or not expected.is_silence
        return shown.text

    def _compare(self, step: Step, expected: Expected, came: str | None) -> None:
        if not expected.met_by(came):
            self._fail(step, str(expected), "nothing" if came is None else repr(came))

    def _fail(self, step: Step, expected: str, came: str) -> None:
        failure = Failure(self._file, step.line, expected, came)
        self.failures.append(failure)
        self._note(f"FAILED {failure}")

    # what is printed

    def _say(self, name: str, mark: str, text: str) -> None:
        first, *more = text.split("\n")
        self._print(f"  {name}{mark} {first}")
        for line in more:
            self._print(f"  {' ' * len(name)}| {line}")

    def _note(self, text: str) -> None:
        self._print(f"  ({text})")

    def _print(self, line: str) -> None:
        moment = f"{self.stage.local_now():%a %Y-%m-%d %H:%M}"
        if moment != self._last_moment:
            self._last_moment = moment
            print(moment, file=self._out)
        print(line, file=self._out)


@dataclass(slots=True)
class _Shown:
    """The screen on a phone, and whether the script has looked at it."""

    text: str
    seen: bool = False


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
        player = Player(stage, listener, out)
        gateway.reached = player.heard
        return player.play(script)
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
