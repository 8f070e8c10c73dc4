"""
An unknown phone texts: it is invited, and joins by yes and at most two answers.

Until it has joined there is no farm, person or entry; only its texts are kept, for 30 days, and where
the talk stands. A phone that an owner has asked to help says yes or no to that first.
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
from dialogs.values import dialled
from service.husbandry.herd import Herd
from service.messages import OutboundText, Purpose, Say
from service.records import conversations, farms, outbox, people
from service.records.conversations import Talk
from service.records.people import Invited, Member

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
    asked_to_help = people.invitation(conn, stranger.phone)
    if asked_to_help is not None and stage.get("join") not in ("name", "language"):
        return _helping(conn, stranger, asked_to_help, stage, language)
    match stage.get("join"):
        case "invited":
            return _invited(conn, stranger, language)
        case "name":
            return _named(conn, stranger, stage)
        case "language":
            return _spoken(conn, stranger, stage)
    return _invite(conn, stranger, language), None


def _helping(
    conn: sa.Connection, stranger: Stranger, asked: Invited, stage: Mapping[str, Any], language: str | None
) -> tuple[str, int | None]:
    """The answer to an owner's invitation; a yes to ours, given before hers came, is not one."""
    owner = people.owner_of(conn, asked.farm_id)
    agreed = None if stage.get("join") == "invited" else read_yes_no(stranger.text)
    if owner is None:
        people.answered(conn, stranger.phone)
        return _invite(conn, stranger, language), None
    language = YES_IN.get(stranger.text.strip(" .!").casefold(), language) or owner.language
    name = owner.name or dialled(owner.phone)
    if agreed is None:
        _stage(conn, stranger, join="helper", language=language)
        return render(Say("helper.invitation", {"owner": name}), language), None
    conversations.keep(conn, stranger.phone, Talk())
    if agreed:
        people.add_helper(conn, asked, language=language, now=stranger.now)
    else:
        people.answered(conn, stranger.phone)
    _tell_of_answer(conn, stranger, asked, owner, agreed=agreed)
    reply = Say("helper.welcome" if agreed else "helper.declined", {"owner": name})
    return render(reply, language), asked.farm_id if agreed else None


def _tell_of_answer(
    conn: sa.Connection, stranger: Stranger, asked: Invited, owner: Member, *, agreed: bool
) -> None:
    if owner.state == farms.STOPPED:
        return
    words = Say(
        "helper.has_joined" if agreed else "helper.has_declined", {"by": asked.name or dialled(asked.phone)}
    )
    notice = OutboundText(
        phone=owner.phone, text=render(words, owner.language), purpose=Purpose.NOTICE, farm=asked.farm_id
    )
    outbox.add(conn, notice, now=stranger.now)


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
