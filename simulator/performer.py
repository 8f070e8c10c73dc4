"""Performs one conversation script on a stage, and compares what comes with what should."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TextIO

from service.flow.lists import Unreadable, WrongLines
from service.messages import Listener, Screen
from simulator.doors import DoorFailed
from simulator.gateway import NoSession
from simulator.stage import Stage
from simulator.steps import (
    Dial,
    Expected,
    ExpectScreen,
    ExpectText,
    HangUp,
    LoadList,
    MoveClock,
    NamePhone,
    RegisterFarm,
    Script,
    SendText,
    SetNetwork,
    Step,
    SwitchService,
    TypeAnswer,
)


@dataclass(frozen=True, slots=True)
class Failure:
    """An expectation that did not hold, or a call over which the service failed."""

    file: str
    line: int
    expected: str
    came: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: expected {self.expected}; came {self.came}"


class Performer:
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
            except (Unreadable, WrongLines) as error:
                self._fail(step, "the list to be taken in", str(error))
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
            case LoadList(name=name, file=file):
                stage.load(name, file)
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
