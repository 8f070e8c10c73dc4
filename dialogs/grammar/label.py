"""What a label says of holding milk and meat back, as the answer to the question for it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal

from dialogs.grammar import slots
from dialogs.grammar.items import Item, read_items
from dialogs.grammar.names import Names
from dialogs.grammar.normalise import clean
from dialogs.grammar.read import prepare
from dialogs.grammar.when import collect

NO_HOLD = frozenset({"hakuna", "hamna", "haizuii", "hazizuii", "none", "nil", "zero", "sifuri", "nothing"})
"""Words by which the label says that nothing need be held."""

NOT_KNOWN = (
    "sijui", "sifahamu", "sielewi", "sina uhakika", "sina chupa", "haisemi", "haijaandikwa", "hapana",
    "dont know", "do not know", "not sure", "no idea", "no label", "not written", "unknown", "no",
)  # fmt: skip
"""What says that the label cannot be told; "no" to "how many days?" must not be taken for none."""

SHORT = 4
"""Words of an answer that can still be no more than "none"."""

LENGTHS = (None, "day", "hour", "week", "month")
"""Units of a length of time; a bare number is days."""

MILK, MEAT = "milk_hold_days", "meat_hold_days"


def label_not_known(text: str) -> bool:
    """Whether a short reply says that what was asked for is not known."""
    told = _plain(text)
    return not _no_hold(told) and any(f" {words} " in f" {told} " for words in NOT_KNOWN)


def _plain(text: str) -> str:
    bare = clean(text[:60]).replace("'", "").replace("’", "").replace(",", " ")
    return " ".join(bare.strip(" .!?").split())


def _no_hold(told: str) -> bool:
    words = set(told.split())
    said = bool(words & NO_HOLD) or "no hold" in told
    return said and len(words) <= SHORT and not words & {"sijui", "know"}


def read_label(text: str, *, now: datetime) -> dict[str, Decimal]:
    """
    Hold days by field (``milk_hold_days``, ``meat_hold_days``) as a short reply gives them; {}: none.

    ``4``, ``siku 4``, ``masaa 72``, ``4 na nyama 28``, ``hakuna``; hours are days rounded up.
    """
    items = prepare(read_items(text, Names.of(None)), now)
    numbers = [item for item in items if item.sort == "number"]
    if not numbers:
        return {MILK: Decimal(0)} if _no_hold(_plain(text)) else {}
    if any(item.unit not in LENGTHS for item in numbers) or collect(items).part is not None:
        return {}
    return dict(zip(_fields(items, numbers), map(slots.days, numbers), strict=False))


def _fields(items: Sequence[Item], numbers: Sequence[Item]) -> tuple[str, ...]:
    """What each of the numbers is of, in their order."""
    milk, meat = _first(items, "milk", "milk_word"), _first(items, "meat")
    if len(numbers) == 1:
        return (MILK,) if meat is None else (MEAT,)
    meat_leads = meat is not None and meat < items.index(numbers[0]) and (milk is None or meat < milk)
    return (MEAT, MILK) if meat_leads else (MILK, MEAT)


def _first(items: Sequence[Item], *concepts: str) -> int | None:
    return next((place for place, item in enumerate(items) if item.has(*concepts)), None)
