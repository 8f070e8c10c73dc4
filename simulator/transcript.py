"""
Conversation scripts (``*.talk``): a text file in, typed steps out.

Everything that can be wrong with a script is found here, before a word of it is played: forms, phones
that were never introduced, patterns that do not compile, a clock that would run backwards. Where each
``clock`` step leads is worked out here too, so that a step holds a moment, not a sum.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from service.flow.lists import LISTS
from simulator.steps import (
    Dial,
    Expected,
    ExpectScreen,
    ExpectText,
    Form,
    HangUp,
    LoadList,
    MoveClock,
    NamePhone,
    Network,
    RegisterFarm,
    Script,
    SendText,
    SetNetwork,
    Step,
    SwitchService,
    TypeAnswer,
)


class ScriptError(Exception):
    """A script that cannot be read: where (line 0: the file as a whole), and why in one sentence."""

    def __init__(self, file: str, line: int, why: str) -> None:
        place = f"{file}:{line}" if line else file
        super().__init__(f"{place}: {why}")
        self.file = file
        self.line = line
        self.why = why


def read_script(path: Path, zone: ZoneInfo) -> Script:
    """
    The script in the file *path*, its times in *zone*.

    Raises:
        ScriptError: It cannot be read.
    """
    try:
        source = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise ScriptError(str(path), 0, f"cannot be opened: {error.strerror}") from None
    except UnicodeDecodeError:
        raise ScriptError(str(path), 0, "is not UTF-8 text") from None
    return parse(source, str(path), zone)


def parse(source: str, file: str, zone: ZoneInfo) -> Script:
    """
    The script *source*; *file* is only named in errors.

    Raises:
        ScriptError: It cannot be read.
    """
    parser = _Parser(file, zone)
    steps = tuple(parser.step(number, text) for number, text in _lines(source, file))
    if not steps:
        raise ScriptError(file, 1, "there is no step in it; the first must be a clock step")
    return Script(file, steps)


def _lines(source: str, file: str) -> Iterator[tuple[int, str]]:
    """Line number and text of each step, continuation lines joined to what they continue."""
    started: tuple[int, str] | None = None
    for number, raw in enumerate(source.split("\n"), start=1):
        line = raw.strip()
        if not line or line.startswith("#"):
            continue
        if not line.startswith("|"):
            if started:
                yield started
            started = (number, line)
        elif started is None:
            raise ScriptError(file, number, "there is no line above that | could continue")
        else:
            started = (started[0], f"{started[1]}\n{line[1:].strip()}")
    if started:
        yield started


_SPOKEN = re.compile(r"(?P<name>[^\s<>#=|]+)\s*(?P<mark>[<>#=])(?P<rest>.*)", re.DOTALL)
_MOMENT = re.compile(r"(\d{4}-\d{2}-\d{2})[ T]+(\d{1,2}:\d{2})")
_HOURS = re.compile(r"\+(\d{1,6})h")
_DAYS = re.compile(r"\+(\d{1,5})d(?:\s+(\d{1,2}:\d{2}))?")
_E164 = re.compile(r"\+[1-9]\d{6,14}")
_LANGUAGES = ("sw", "en")


@dataclass(slots=True)
class _Parser:
    """Reads the lines of one script in order; it knows the time and the phones as the script goes on."""

    file: str
    zone: ZoneInfo
    now: datetime | None = None
    phones: dict[str, str] = field(default_factory=dict)
    up: bool = True

    def step(self, line: int, text: str) -> Step:
        spoken = _SPOKEN.fullmatch(text)
        if spoken is None and "\n" in text:
            raise self._wrong(line, "only what is said or expected can be continued with |")
        verb, rest = _first_word(text)
        if self.now is None and (spoken or verb != "clock"):
            raise self._wrong(line, "the first step must be a clock step, such as: clock 2026-03-02 06:10")
        if spoken:
            return self._spoken(line, spoken["name"], spoken["mark"], spoken["rest"].strip())
        read = self._verbs().get(verb)
        if read is None:
            raise self._wrong(line, f"no such step: {text}")
        return read(line, rest)

    def _verbs(self) -> dict[str, Callable[[int, str], Step]]:
        return {
            "clock": self._clock,
            "phone": self._phone,
            "farm": self._farm,
            "load": self._load,
            "service": self._service,
            "network": self._network,
        }

    def _wrong(self, line: int, why: str) -> ScriptError:
        return ScriptError(self.file, line, why)

    # what is told to the stage

    def _clock(self, line: int, rest: str) -> Step:
        to = self._moment(line, rest)
        if self.now is not None and to < self.now:
            raise self._wrong(line, f"the clock would run backwards, from {self.now:%Y-%m-%d %H:%M}")
        self.now = to
        return MoveClock(line=line, to=to)

    def _moment(self, line: int, rest: str) -> datetime:
        try:
            if moment := _MOMENT.fullmatch(rest):
                return self._at(date.fromisoformat(moment[1]), _time(moment[2]))
            if self.now is None:
                raise self._wrong(line, "the first clock step must give a date and a time")
            if hours := _HOURS.fullmatch(rest):
                later = self.now.astimezone(UTC) + timedelta(hours=int(hours[1]))
                return later.astimezone(self.zone)
            if days := _DAYS.fullmatch(rest):
                at = _time(days[2]) if days[2] else self.now.time()
                return self._at(self.now.date() + timedelta(days=int(days[1])), at)
        except (ValueError, OverflowError):
            raise self._wrong(line, f"there is no such date or time: {rest}") from None
        raise self._wrong(line, f"not a date and time, hours (+12h) or days (+3d, +3d 07:00): {rest}")

    def _at(self, day: date, at: time) -> datetime:
        return datetime.combine(day, at, self.zone)

    def _phone(self, line: int, rest: str) -> Step:
        name, number = _first_word(rest)
        if not number or re.search(r"[<>#=|]", name):
            raise self._wrong(line, "a phone step gives a name and a number: phone rehema +255621234567")
        if self.phones.get(name, number) != number:
            raise self._wrong(line, f"{name} has another number already: {self.phones[name]}")
        self.phones[name] = number
        return NamePhone(line=line, name=name, number=number)

    def _farm(self, line: int, rest: str) -> Step:
        name, language = _first_word(rest)
        if language not in _LANGUAGES:
            raise self._wrong(line, "a farm step gives a phone's name and sw or en: farm rehema sw")
        number = self._known(line, name)
        if not _E164.fullmatch(number):
            raise self._wrong(line, f"{number} is not a number that a farm can have")
        if not self.up:
            raise self._wrong(line, "no farm can be registered while the service is down")
        return RegisterFarm(line=line, phone=name, language=language)

    def _load(self, line: int, rest: str) -> Step:
        name, file = _first_word(rest)
        if name not in LISTS or not file:
            known = ", ".join(LISTS)
            raise self._wrong(line, f"a load step gives a list ({known}) and a file: load people p.csv")
        path = Path(self.file).parent / file
        if not path.is_file():
            raise self._wrong(line, f"there is no file {file} beside the script")
        if not self.up:
            raise self._wrong(line, "no list can be loaded while the service is down")
        return LoadList(line=line, name=name, file=path)

    def _service(self, line: int, rest: str) -> Step:
        if rest not in ("down", "up"):
            raise self._wrong(line, "the service goes down or up")
        self.up = rest == "up"
        return SwitchService(line=line, up=self.up)

    def _network(self, line: int, rest: str) -> Step:
        if rest not in list(Network):
            raise self._wrong(line, f"the network is one of {', '.join(Network)}")
        return SetNetwork(line=line, network=Network(rest))

    # what is said and expected

    def _spoken(self, line: int, name: str, mark: str, rest: str) -> Step:
        self._known(line, name)
        match mark:
            case ">":
                return SendText(line=line, phone=name, text=rest)
            case "<":
                return ExpectText(line=line, phone=name, expected=self._expected(line, rest))
            case "=":
                return ExpectScreen(line=line, phone=name, expected=self._expected(line, rest))
        return self._menu(line, name, rest)

    def _known(self, line: int, name: str) -> str:
        if name not in self.phones:
            raise self._wrong(line, f"no phone is called {name}; a phone step must come before")
        return self.phones[name]

    def _menu(self, line: int, name: str, rest: str) -> Step:
        if not rest or "\n" in rest:
            raise self._wrong(line, "a menu step is: dial, an answer in one line, or: hang up")
        if rest == "dial":
            return Dial(line=line, phone=name)
        if rest.split() == ["hang", "up"]:
            return HangUp(line=line, phone=name)
        return TypeAnswer(line=line, phone=name, typed=rest)

    def _expected(self, line: int, rest: str) -> Expected:
        if not rest:
            raise self._wrong(line, "what is expected? a text, /a pattern/, * for anything, - for nothing")
        if rest == "*":
            return Expected(Form.ANYTHING)
        if rest == "-":
            return Expected(Form.NOTHING)
        if rest.startswith("/"):
            return self._pattern(line, rest)
        return Expected(Form.EXACTLY, rest)

    def _pattern(self, line: int, rest: str) -> Expected:
        if len(rest) < 2 or not rest.endswith("/"):
            raise self._wrong(line, f"the pattern is not closed with a /: {rest}")
        try:
            re.compile(rest[1:-1])
        except re.error as error:
            raise self._wrong(line, f"not a regular expression ({error}): {rest}") from None
        return Expected(Form.MATCHES, rest[1:-1])


def _first_word(text: str) -> tuple[str, str]:
    """The first word of *text*, and the rest; either may be empty."""
    words = text.split(maxsplit=1)
    return words[0] if words else "", words[1] if len(words) > 1 else ""


def _time(written: str) -> time:
    """
    ``7:00`` or ``07:00`` as a time of day.

    Raises:
        ValueError: There is no such time.
    """
    hour, minute = written.split(":")
    return time(int(hour), int(minute))
