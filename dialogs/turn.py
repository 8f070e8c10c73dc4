"""What a text makes of a conversation, and what it is read against."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from dialogs.grammar.place import Place
from dialogs.reading import Problem
from service.husbandry.forms import Entry
from service.husbandry.herd import Herd
from service.husbandry.kinds.farm import Done
from service.messages import Say


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """
    What a text comes to. ``say``: a fixed sentence, where neither records nor a question answer it.

    ``shaky``: some of it was read with doubt; ``unread``: the part that came to nothing, as written.
    """

    language: str  # of the text
    entries: tuple[Entry, ...] = ()  # to be recorded
    instructions: tuple[Entry, ...] = ()  # to be carried out
    questions: tuple[Problem, ...] = ()  # to be asked, the first of them now
    waiting: tuple[Problem, ...] = ()  # asked before and still open; not asked again
    answered: bool = False  # the text was the answer to a question
    confirmed: bool = False  # what is unlikely about the entries was asked and is meant
    amends: int | None = None  # the entry that ``entries`` are told in place of
    say: Say | None = None
    shaky: bool = False
    unread: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What a text is read against. *now*: when it was sent, in the farm's zone."""

    herd: Herd
    now: datetime
    language: str
    place: Place


def to_carry_out(entry: Entry) -> bool:
    """Whether *entry* is no record, but something to be done."""
    # "done" is kept in the end, but as what its task stands for: only the farm's plan can tell.
    return entry.INSTRUCTION or isinstance(entry, Done)
