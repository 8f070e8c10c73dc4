"""The shapes that travel between floors: texts in and out, menu inputs and screens, what is said."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from typing import Any


@dataclass(frozen=True, slots=True)
class Say:
    """One text or part of one, to be rendered by ``dialogs.texts`` in the reader's language."""

    key: str
    values: Mapping[str, Any] = field(default_factory=dict)


def say(key: str, **values: Any) -> Say:
    return Say(key, values)


@dataclass(frozen=True, slots=True, kw_only=True)
class InboundText:
    """A text as the gateway hands it over. ``id`` is the gateway's; ``sent_at`` aware."""

    id: str
    sender: str  # as given: a phone, a short code or a name
    recipient: str
    text: str
    sent_at: datetime


class Kept(StrEnum):
    """What becomes of an inbound text: safe on disk now, or already before."""

    KEPT = "kept"
    KEPT_BEFORE = "kept_before"


@dataclass(frozen=True, slots=True, kw_only=True)
class MenuInput:
    """One step of a menu session; ``typed`` None on dialling."""

    session: str
    step: int
    sender: str
    typed: str | None


@dataclass(frozen=True, slots=True)
class Screen:
    text: str
    more: bool  # is an answer awaited


class Purpose(StrEnum):
    """Why a text goes out."""

    REPLY = "reply"
    REMINDER = "reminder"
    ALERT = "alert"
    STATEMENT = "statement"
    NOTICE = "notice"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutboundText:
    """
    A text to a phone, before it has a place in the outbox.

    Unasked texts (reminders) carry ``not_after``, the moment after which they help no more, and of a
    numbered list ``items``: the task ids under each number, in order.
    """

    phone: str  # E.164
    text: str
    purpose: Purpose
    farm: int | None = None
    task_ids: tuple[int, ...] = ()
    items: tuple[tuple[int, ...], ...] = ()
    not_after: datetime | None = None
    in_reply_to: str | None = None


Event = dict[str, Any]
"""One thing that happened, as the contract's log has it: ``at``, ``event`` and that event's keys."""

Listener = Callable[[Event], None]
