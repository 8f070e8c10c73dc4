"""What goes into a turn of the menu and what comes out: the caller, the place reached, the turn."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from typing import Any

from service.husbandry.forms import Entry
from service.husbandry.herd import Herd


class At(StrEnum):
    """What is being answered."""

    MENU = "menu"  # choosing in a branch of the menu
    ASK = "ask"  # a question about a record
    TASKS = "tasks"  # the numbered list of work
    TASK = "task"  # one line of it: done, or later
    LATEST = "latest"  # the entries told last: which is to be put right
    FIELD = "field"  # ... and what of it
    QUESTION = "question"  # what was told has raised a question, to be answered as by text
    READ = "read"  # a long answer is being read, page by page
    AFTER = "after"  # the reply has been shown: go on?
    INVITATION = "invitation"  # an unknown phone
    OWNER = "owner"  # ... and its owner's name
    OVER = "over"  # nothing more is awaited


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """
    A place in the menu, with all that was answered on the way to it; survives as JSON.

    ``branches`` are the branches passed through, the present one last. Of a record being told:
    ``item`` is the line of the menu it began with, ``values`` are as ``forms.dump_values`` writes them,
    ``trail`` the questions answered or skipped, in that order, ``question`` the one being asked,
    ``picked`` what is ticked so far where several may be. Of an entry being put right: ``amends`` is its
    id; ``offered`` the ids of those that were there to choose from. ``leaves`` are the pages of an answer
    that one screen cannot hold.
    """

    at: At = At.MENU
    branches: tuple[str, ...] = ("main",)
    page: int = 0
    item: str | None = None
    values: Mapping[str, Any] = field(default_factory=dict)
    trail: tuple[str, ...] = ()
    question: str | None = None
    picked: tuple[str, ...] = ()
    details: bool = False  # the optional questions were asked for
    told: tuple[str, ...] = ()  # animals told of by this item in this session already
    number: int | None = None  # the line chosen in the list of work
    amends: int | None = None
    offered: tuple[int, ...] = ()
    leaves: tuple[str, ...] = ()
    language: str | None = None  # as chosen when joining

    def to_json(self) -> dict[str, Any]:
        """The state as JSON-ready values; what is at its default is left out."""
        default = State()
        every = {name: getattr(self, name) for name in self.__slots__}
        return {
            name: list(value) if isinstance(value, tuple) else value
            for name, value in every.items()
            if value != getattr(default, name)
        }

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> State:
        """The inverse of :meth:`to_json`."""
        values: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in stored.items()}
        values["at"] = At(values.get("at", At.MENU))
        return cls(**values)


@dataclass(frozen=True, slots=True)
class Join:
    """
    An unknown phone wants to join, with its owner's name and the language to write in.

    ``name`` is None where it agrees to help with the farm that asks it to.
    """

    name: str | None
    language: str


@dataclass(frozen=True, slots=True)
class Helper:
    """Someone who may tell of the farm, or is invited to."""

    phone: str
    name: str  # or the number as it is dialled


@dataclass(frozen=True, slots=True)
class Latest:
    """One of the entries told last, and what it says in few words."""

    id: int
    entry: Entry
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Caller:
    """
    Who is calling, and what the menu has to know of the farm.

    ``now`` is aware, in the farm's zone. ``recent`` names animals, the last told of first. ``tasks``
    are the lines of the numbered list that the phone is about to be shown, without their numbers.
    ``asked_by`` is the owner who asks an unknown phone to help.
    ``helpers`` and ``latest`` (the entries that the caller may put right, the last told first) are looked
    up only where they are shown.
    """

    language: str
    now: datetime
    herd: Herd = Herd(())
    recent: tuple[str, ...] = ()
    tasks: tuple[str, ...] = ()
    known: bool = True
    asked_by: str | None = None
    currency: str = "TZS"
    region: str = "TZ"
    helpers: Callable[[], tuple[Helper, ...]] = tuple
    latest: Callable[[], tuple[Latest, ...]] = tuple


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """
    One screen, and what is to be done because of the answer before it.

    ``effects`` (one record or several alike, or one instruction) are empty on all but a record's last
    answer; then ``text`` is empty too, and what the screen says is the reply to them (see
    ``menu.closing``). ``amends``: the id of the entry in whose place the record is told.
    """

    text: str
    more: bool
    state: State
    effects: tuple[Entry | Join, ...] = ()
    amends: int | None = None
