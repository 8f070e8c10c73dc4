"""
An unknown phone texts: it is invited, and joins by yes and at most two answers.

Until it has joined there is no farm, person or entry; only its texts are kept, for 30 days, and where
the talk stands.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

import sqlalchemy as sa

from dialogs.grammar.answers import read_yes_no
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.texts import render
from service.husbandry.herd import Herd
from service.messages import Say
from service.records import conversations, farms
from service.records.conversations import Talk

NAME_LENGTH = 30
"""Longest name kept of a person, in characters."""

LANGUAGE_WORDS = {
    "1": "sw", "kiswahili": "sw", "swahili": "sw", "sw": "sw",
    "2": "en", "kiingereza": "en", "english": "en", "en": "en",
}  # fmt: skip

YES_IN = {"ndiyo": "sw", "ndio": "sw", "eeh": "sw", "naam": "sw", "yes": "en", "yeah": "en", "ok": "en"}
"""Words of consent that also tell the language."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stranger:
    """A text of an unknown phone. ``now``: when it arrived, in the zone of the place."""

    phone: str
    text: str
    recipient: str
    now: datetime
    place: Place


def welcome(conn: sa.Connection, stranger: Stranger) -> tuple[str, int | None]:
    """The reply to a stranger's text, and the farm's id where he has joined by it."""
    talk = conversations.of(conn, stranger.phone)
    stage: Mapping[str, Any] = talk.questions[0] if talk.questions else {}
    language = _language_of(stranger) or stage.get("language")
    match stage.get("join"):
        case "invited":
            return _invited(conn, stranger, language)
        case "name":
            return _named(conn, stranger, stage)
        case "language":
            return _spoken(conn, stranger, stage)
    return _invite(conn, stranger, language), None


def _invite(conn: sa.Connection, stranger: Stranger, language: str | None) -> str:
    _stage(conn, stranger, join="invited", language=language)
    return render(Say("join.invite"), language or "sw")


def _invited(conn: sa.Connection, stranger: Stranger, language: str | None) -> tuple[str, int | None]:
    agreed = read_yes_no(stranger.text)
    if agreed is None:
        return _invite(conn, stranger, language), None
    language = YES_IN.get(stranger.text.strip(" .!").casefold(), language)
    if not agreed:
        conversations.keep(conn, stranger.phone, Talk())
        return render(Say("join.declined"), language or "sw"), None
    _stage(conn, stranger, join="name", language=language)
    return render(Say("join.ask_name"), language or "sw"), None


def _named(conn: sa.Connection, stranger: Stranger, stage: Mapping[str, Any]) -> tuple[str, int | None]:
    name = " ".join(stranger.text.split())[:NAME_LENGTH].strip(" .,!")
    if not any(letter.isalpha() for letter in name):
        return render(Say("join.ask_name"), stage["language"] or "sw"), None
    if stage["language"] is None:
        _stage(conn, stranger, join="language", language=None, name=name)
        return render(Say("join.ask_language"), "sw"), None
    return _joined(conn, stranger, name, stage["language"])


def _spoken(conn: sa.Connection, stranger: Stranger, stage: Mapping[str, Any]) -> tuple[str, int | None]:
    language = LANGUAGE_WORDS.get(stranger.text.strip(" .!").casefold()) or _language_of(stranger)
    if language is None:
        return render(Say("join.ask_language"), "sw"), None
    return _joined(conn, stranger, stage["name"], language)


def _joined(conn: sa.Connection, stranger: Stranger, name: str, language: str) -> tuple[str, int]:
    farm_id = farms.join(
        conn,
        phone=stranger.phone,
        name=name,
        language=language,
        cooperative_id=farms.cooperative_of(conn, stranger.recipient),
        now=stranger.now,
    )
    conversations.keep(conn, stranger.phone, Talk())
    return render(Say("join.welcome", {"name": first_name(name)}), language), farm_id


def first_name(name: str) -> str:
    """What a person is greeted by."""
    return name.split()[0]


def _stage(conn: sa.Connection, stranger: Stranger, **stage: Any) -> None:
    conversations.keep(conn, stranger.phone, Talk(questions=(stage,), asked_at=stranger.now))


def _language_of(stranger: Stranger) -> str | None:
    """The language of the text, where it is plain."""
    reading = read(stranger.text, Herd(()), now=stranger.now, language="", place=stranger.place)
    return reading.language or None
