"""The steps of a conversation script, as values."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from pathlib import Path


class Form(StrEnum):
    """How an expectation compares."""

    EXACTLY = "exactly"
    MATCHES = "matches"
    ANYTHING = "anything"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Expected:
    """What should have come; ``text`` is the exact text, or the source of the regular expression."""

    form: Form
    text: str = ""

    @property
    def is_silence(self) -> bool:
        return self.form is Form.NOTHING

    def met_by(self, came: str | None) -> bool:
        """Whether *came* (None: nothing came) is what was expected."""
        match self.form:
            case Form.NOTHING:
                return came is None
            case Form.ANYTHING:
                return came is not None
            case Form.EXACTLY:
                return came == self.text
            case Form.MATCHES:
                return came is not None and re.search(self.text, came) is not None

    def __str__(self) -> str:
        match self.form:
            case Form.NOTHING:
                return "nothing"
            case Form.ANYTHING:
                return "anything"
            case Form.EXACTLY:
                return repr(self.text)
            case Form.MATCHES:
                return f"something that matches /{self.text}/"


class Network(StrEnum):
    """How the simulated gateway treats texts."""

    FINE = "fine"
    REPEATS = "repeats"  # every text of a phone is delivered twice, with the same message id
    LOSES = "loses"  # every attempt to send to a phone fails


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a script (with those that continue it)."""

    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveClock(Step):
    """The clock goes forward to ``to`` (aware, in the farm's zone)."""

    to: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class NamePhone(Step):
    name: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RegisterFarm(Step):
    phone: str
    language: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadList(Step):
    """The cooperative's office loads one of its lists from a file."""

    name: str
    file: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class SendText(Step):
    phone: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectText(Step):
    phone: str
    expected: Expected


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial(Step):
    phone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TypeAnswer(Step):
    phone: str
    typed: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HangUp(Step):
    phone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectScreen(Step):
    phone: str
    expected: Expected


@dataclass(frozen=True, slots=True, kw_only=True)
class SwitchService(Step):
    up: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SetNetwork(Step):
    network: Network


@dataclass(frozen=True, slots=True)
class Script:
    """A script that can be played: its first step sets the clock."""

    file: str
    steps: tuple[Step, ...]

    @property
    def begins_at(self) -> datetime:
        first = self.steps[0]
        assert isinstance(first, MoveClock)  # noqa: S101 - parse() has seen to it
        return first.to
