"""
Bodies of the gateway's calls: bytes in, the shapes that travel out.

What is wrong is told in one sentence naming the field, and without what was in it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from service.messages import InboundText, MenuInput

Body = Mapping[str, Any]

LONGEST_NAME = 128
"""Most characters of an id, a session, a phone: far more than any gateway uses, and no burden to an index."""

LAST_STEP = 9_999
"""More inputs than any menu session has."""

YEARS = range(1970, 2200)
"""Years a gateway's clock may show, however wrong the phone's is."""

STATES = ("delivered", "failed", "expired")

_UNKEEPABLE = {0: "\ufffd", **dict.fromkeys(range(0xD800, 0xE000), "\ufffd")}
"""What one database or the other cannot keep: NUL, and halves of characters."""


class BadBody(Exception):
    """A body that is not as agreed; the message is one sentence for the gateway's side."""


def read(raw: bytes) -> Body:
    """
    The JSON object that *raw* is.

    Raises:
        BadBody: It is none.
    """
    try:
        body = json.loads(raw.decode())
    except (ValueError, RecursionError) as error:
        raise BadBody("The body must be a JSON object in UTF-8.") from error
    if not isinstance(body, dict):
        raise BadBody("The body must be a JSON object.")
    return body


def inbound_text(body: Body) -> InboundText:
    """
    The text of a call to ``/gateway/sms``.

    Raises:
        BadBody: A field is missing or not as agreed.
    """
    return InboundText(
        id=_name(body, "id"),
        sender=_name(body, "from"),
        recipient=_name(body, "to"),
        text=_text(body, "text"),
        sent_at=_moment(body, "sent_at"),
    )


def menu_input(body: Body) -> MenuInput:
    """
    The input of a call to ``/gateway/menu``.

    Raises:
        BadBody: A field is missing or not as agreed.
    """
    return MenuInput(
        session=_name(body, "session"),
        step=_count(body, "step"),
        sender=_name(body, "from"),
        typed=None if _field(body, "input") is None else _text(body, "input"),
    )


def receipt(body: Body) -> tuple[str, str]:
    """
    The id and the state of a call to ``/gateway/receipt``.

    Raises:
        BadBody: A field is missing or not as agreed.
    """
    name, state = _name(body, "id"), _field(body, "state")
    if state not in STATES:
        raise BadBody(f"state must be one of {', '.join(STATES)}.")
    return name, state


def _field(body: Body, field: str) -> Any:
    if field not in body:
        raise BadBody(f"{field} is missing.")
    return body[field]


def _text(body: Body, field: str) -> str:
    """A text with nothing in it that cannot be kept."""
    value = _field(body, field)
    if not isinstance(value, str):
        raise BadBody(f"{field} must be a text.")
    return value.translate(_UNKEEPABLE)


def _name(body: Body, field: str) -> str:
    """A short text that others know something by: kept as it is, or refused."""
    value = _text(body, field)
    if not 0 < len(value) <= LONGEST_NAME or not value.strip() or value != body[field]:
        raise BadBody(f"{field} must be a text of 1 to {LONGEST_NAME} characters.")
    return value


def _count(body: Body, field: str) -> int:
    value = _field(body, field)
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value <= LAST_STEP:
        raise BadBody(f"{field} must be a whole number from 0 to {LAST_STEP}.")
    return value


def _moment(body: Body, field: str) -> datetime:
    must = BadBody(f"{field} must be a moment in ISO 8601 with its offset, such as 2026-03-02T18:00+03:00.")
    value = _field(body, field)
    if not isinstance(value, str) or not value.isprintable():  # a NUL at its end would be read over
        raise must
    try:
        moment = datetime.fromisoformat(value)
    except ValueError:
        raise must from None
    if moment.tzinfo is None or moment.year not in YEARS:
        raise must
    return moment.astimezone(UTC)
