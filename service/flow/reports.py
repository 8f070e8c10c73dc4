"""
A technician's phone, which is no phone of the farm, reports a service or a check for a farm that named it.

The farm is the only one that named him, or the one he names, or the only one that has the animal; else he is
asked. The owner is told what was written down, and can say that it is not so.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

import sqlalchemy as sa

from dialogs.grammar.answers import read_choice, read_yes_no
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.phrases import summary
from dialogs.questions import QUESTION_LASTS
from dialogs.texts import render
from dialogs.values import dialled
from service import sms
from service.flow.people import REPORTED, name_of, tell_owner
from service.flow.telling import Telling
from service.husbandry.herd import Herd, Told
from service.husbandry.kinds.farm import Contact
from service.husbandry.kinds.instructions import Contest, Stop, Undo
from service.messages import OutboundText, Purpose, Say, say
from service.records import conversations, farms, ledger, outbox, people
from service.records.conversations import Talk
from service.records.farms import Caller
from service.records.people import Reported

CONTESTED_FOR = timedelta(days=7)
"""How long after it was told an owner can say that a report is not so."""

MOST_ASKED = 5
"""Farms to choose from by number in one text."""

# --- who reports for whom --------------------------------------------------------------------------


def keep_reporter(telling: Telling) -> None:
    """After a contact was told or taken back: the technician's phone is the one that may report."""
    if not any(isinstance(told.entry, Contact) for told in (*telling.recorded, *telling.undone)):
        return
    technician = telling.book.farm.people.get("technician")
    phone = None if technician is None else technician.phone
    people.set_reporter(telling.conn, telling.book.farm_id, phone)


def named_in(text: str, those: Iterable[Reported], cows: Collection[str]) -> tuple[Reported, ...]:
    """Those of the farms whose owner's name or number *text* holds; *cows*: names that are animals'."""
    return tuple(one for one in those if any(pattern.search(text) for pattern in _names(one, cows)))


def _names(one: Reported, cows: Collection[str]) -> list[re.Pattern[str]]:
    """The ways in which an owner is named: whole name, first name, number as dialled or in full."""
    spoken = [name for name in (one.owner, *one.owner.split()[:1]) if name.casefold() not in cows]
    numbers = [dialled(one.phone), one.phone]
    led = r"(?:\b(?:shamba la|ng'ombe wa|farm of|kwa|ya|wa|la|for|of|at)\s+)?"
    return [
        *(re.compile(rf"{led}\b{re.escape(name)}(?:'s)?\b", re.IGNORECASE) for name in spoken),
        *(re.compile(led + re.escape(number)) for number in numbers),
    ]


def without_owner(text: str, one: Reported, cows: Collection[str]) -> str:
    """*text* without the words that name its owner, which are no animal's."""
    for pattern in _names(one, cows):
        text = pattern.sub(" ", text)
    return " ".join(text.split())


# --- for which farm --------------------------------------------------------------------------------

JOIN = re.compile(r"\s*(?:na(?:taka|omba)\s+)?(?:ku)?(?:jiung[ae]|join)\b", re.IGNORECASE)
"""A technician who has cows himself asks to join as any stranger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Addressed:
    """
    What a technician's text is about: the farm as he may tell of it, and the text without its owner.

    ``sent_at``: when that text came, where another, the answer which farm, made it plain.
    """

    caller: Caller
    text: str
    sent_at: datetime | None = None


def addressed(
    conn: sa.Connection,
    phone: str,
    text: str,
    talk: Talk,
    own: Caller | None,
    *,
    now: datetime,
    place: Place,
) -> Addressed | Say | None:
    """
    The farm that a text of a technician's phone is about.

    Args:
        conn: The transaction.
        phone: His, E.164.
        text: As sent.
        talk: What he is being talked to about.
        own: His own farm, if he has one: then another is meant only where it is named.
        now: When the text came (aware).
        place: Where it is read.

    Returns:
        The farm and the text; what is asked or said where no farm is plain; None: it is about no such farm.
    """
    farms_of = people.reported_farms(conn, phone, but=None if own is None else own.farm_id)
    waiting = _waiting(talk, now)
    if not farms_of or (own is None and not waiting and _joins(talk, text)):
        return None
    cows = _cows(conn, farms_of, own)
    chosen = _by_number(waiting, text, farms_of)
    if chosen is not None:
        told = _of(conn, phone, chosen, str(waiting["text"]), cows=cows, now=now, place=place)
        return None if told is None else replace(told, sent_at=talk.asked_at)
    reading = read(text, Herd(()), now=now, language="", place=place)
    if own is None and any(isinstance(entry, Stop) for entry in reading.entries):
        return _of(conn, phone, farms_of[0], text, cows=cows, now=now, place=place)
    undoes = any(isinstance(entry, Undo) for entry in reading.entries)
    last = people.reported_last(conn, phone) if undoes else None
    fit = _fitting(conn, text, farms_of, waiting, own, cows, last)
    if len(fit) == 1:
        return _of(conn, phone, fit[0], text, cows=cows, now=now, place=place)
    if fit:
        return _which(conn, phone, text, fit, talk, now)
    return say("report.how") if own is None else None


def questions_of(talk: Talk, caller: Caller) -> tuple[Any, ...]:
    """What *caller* was asked of this farm: a technician's phone may be talked to about others."""
    farm_id = caller.farm_id if caller.role == farms.REPORTER else None
    return tuple(q for q in talk.questions if "code" in q and q.get("farm") == farm_id)


def _waiting(talk: Talk, now: datetime) -> Mapping[str, Any]:
    """What he was asked last, if that was about a farm and not too long ago."""
    asked = talk.questions[0] if talk.questions else {}
    lapsed = talk.asked_at is None or now - talk.asked_at > QUESTION_LASTS
    return {} if lapsed or not {"which", "farm"} & set(asked) else asked


def _joins(talk: Talk, text: str) -> bool:
    """Whether a technician without a farm answers an invitation, or asks for one."""
    stage = talk.questions[0].get("join") if talk.questions else None
    return stage in ("name", "language") or bool(JOIN.match(text)) or read_yes_no(text) is not None


def _by_number(waiting: Mapping[str, Any], text: str, those: Sequence[Reported]) -> Reported | None:
    """The farm that *text* chooses of those he was asked about, by its number or its owner's name."""
    asked = [one for farm_id in waiting.get("which", ()) for one in those if one.farm_id == farm_id]
    choice = read_choice(text, [one.owner for one in asked]) if asked else None
    return None if choice is None else asked[choice]


def _fitting(
    conn: sa.Connection,
    text: str,
    those: Sequence[Reported],
    waiting: Mapping[str, Any],
    own: Caller | None,
    cows: Collection[str],
    last: int | None,
) -> Sequence[Reported]:
    """
    The farms that *text* can be about: those named in it, else those that have its animals.

    *last*: the farm of his latest report, where *text* takes that back.
    """
    animals = people.animals_of(conn, [one.farm_id for one in those])
    said = {farm_id for farm_id, name in animals if _says(text, name)}
    named = named_in(text, those, cows)
    if named:
        return [one for one in named if one.farm_id in said] or named
    asked = [one for one in those if one.farm_id == waiting.get("farm") and (not said or one.farm_id in said)]
    if asked or own is not None:
        return asked
    return [one for one in those if one.farm_id in said or one.farm_id == last] or _only(those)


def _only(those: Sequence[Reported]) -> Sequence[Reported]:
    return those if len(those) == 1 else ()


def _says(text: str, name: str) -> bool:
    return re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE) is not None


def language_of(text: str, fallback: str, now: datetime, place: Place) -> str:
    """The language in which a technician is answered: that of his text, where it is plain."""
    return read(text, Herd(()), now=now, language="", place=place).language or fallback


def _cows(conn: sa.Connection, those: Sequence[Reported], own: Caller | None) -> frozenset[str]:
    """Names of animals that a text of his can be about: an owner's first name can be a cow's too."""
    ids = [one.farm_id for one in those] + ([] if own is None else [own.farm_id])
    return frozenset(name.casefold() for _, name in people.animals_of(conn, ids))


def _of(
    conn: sa.Connection,
    phone: str,
    one: Reported,
    text: str,
    *,
    cows: Collection[str],
    now: datetime,
    place: Place,
) -> Addressed | None:
    owner = farms.owner(conn, one.farm_id)
    if owner is None:
        return None
    spoken = language_of(text, owner.language, now, place)
    his = replace(
        owner, phone=phone, role=farms.REPORTER, name=None, may=(), earlier=(),
        language=spoken, state=farms.ACTIVE, guarded=False,
    )  # fmt: skip
    return Addressed(caller=his, text=without_owner(text, one, cows))


def _which(
    conn: sa.Connection, phone: str, text: str, fit: Sequence[Reported], talk: Talk, now: datetime
) -> Say:
    """Ask whose animal it is; the text waits for the answer."""
    asked = fit[:MOST_ASKED]
    stage = {"which": [one.farm_id for one in asked], "text": text}
    conversations.keep(conn, phone, replace(talk, questions=(stage,), asked_at=now))
    choices = " ".join(f"{number} {sms.cut(one.owner, 16)}" for number, one in enumerate(asked, 1))
    return say("report.which", choices=choices)


# --- what the owner is told ------------------------------------------------------------------------


def tell_of_report(telling: Telling) -> None:
    """The owner hears of what a technician told or took back, and how to say that it is not so."""
    if telling.caller.role != farms.REPORTER:
        return
    owner = people.owner_of(telling.conn, telling.book.farm_id)
    told = telling.recorded or telling.undone
    if owner is None or not told:
        return
    key = "report.told" if telling.recorded else "report.taken_back"
    what = summary(told[0].entry, owner.language)  # it may be read on another day
    more = say("noted.more", count=len(told) - 1) if len(told) > 1 else say("plain", words="")
    tell_owner(telling, say(key, by=name_of(telling, telling.caller.phone), what=what, more=more))


def stop(telling: Telling) -> None:
    """A technician who wants no texts reports for nobody, so that none is caused."""
    people.stop_reporting(telling.conn, telling.caller.phone)
    outbox.withdraw_unasked(telling.conn, telling.caller.phone)
    telling.say("report.stopped")


def contest(telling: Telling, _: Contest) -> None:
    """The owner says that the latest report is not so: it is taken out, and the technician told."""
    since = telling.now - CONTESTED_FOR
    members = people.of_farm(telling.conn, telling.book.farm_id)
    own = [phone for member in members for phone in (member.phone, *member.earlier)]
    kinds = [kind.KIND for kind in REPORTED]
    text_id = ledger.reported_by_others(telling.conn, telling.book.farm_id, kinds, own, since=since)
    if text_id is None:
        telling.say("contest.nothing")
        return
    telling.undo_text(text_id)
    _tell_reporter(telling, telling.undone)


def _tell_reporter(telling: Telling, undone: Sequence[Told]) -> None:
    phone = undone[0].told_by
    person = farms.caller(telling.conn, phone)
    reached = people.may_report(telling.conn, phone) if person is None else person.state != farms.STOPPED
    if not reached:
        return
    language = telling.language if person is None else person.language
    what = summary(undone[0].entry, language)
    words = say("contest.told", owner=name_of(telling, telling.caller.phone), what=what)
    notice = OutboundText(
        phone=phone, text=render(words, language), purpose=Purpose.NOTICE, farm=telling.book.farm_id
    )
    outbox.add(telling.conn, notice, now=telling.now)
