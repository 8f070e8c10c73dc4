"""Which statement is asked for: of a month, of a year, of one cow."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from dialogs.grammar.items import Item
from dialogs.grammar.when import Day, Period
from dialogs.grammar.whole import Whole, month_told

YEARS = range(2000, 2101)
"""Numbers that can name a year."""

_YEAR = ("mwaka", "miaka", "year", "yearly", "annual")
_BESIDE = frozenset((
    "ya", "za", "wa", "kwa", "la", "na", "mzima", "wote", "yote", "nzima", "huu", "hii", "for", "of", "the",
    "in", "my", "a", "full", "whole", "this", "please", "tafadhali", "naomba", "nipe", "nionyeshe",
    "onyesha", "show", "me", "give", "yangu", "zangu",
))  # fmt: skip
"""Words that may stand beside a statement asked for without telling of anything else."""

_EARNED = ("earn", "earned", "earns", "earning", "ameingiza", "anaingiza", "ananiingizia")
"""Asked of a cow: what she brought."""


def asked(whole: Whole) -> dict[str, Any] | None:
    """The fields of a statement asked for by a year or a cow; None: it is not, or only by month."""
    earned = whole.asks and any(item.word in _EARNED for item in whole.items)
    if not whole.has("statement") and not (earned and whole.animals):
        return None
    year, animal = _year(whole), _animal(whole)
    if year is None and animal is None:
        return None
    if not whole.asks and not all(_belongs(item, whole) for item in whole.items):
        return None
    fields = {"topic": "statement", "month": None if year is not None else month_told(whole)}
    return {**fields, "year": year, "animal": animal}


def _belongs(item: Item, whole: Whole) -> bool:
    if item.sort in ("mark", "when", "animal") or item.has("statement"):
        return True
    return _numbers_year(item) or item.word in (*_YEAR, *_BESIDE)


def _numbers_year(item: Item) -> bool:
    return item.sort == "number" and item.unit is None and item.value in YEARS


def _year(whole: Whole) -> Decimal | None:
    """The year told by its number, or as this or last year; None: no year is told."""
    today: date = whole.scene.now.date()
    for item in whole.items:
        if _numbers_year(item):
            return Decimal(item.value)
        written = whole.scene.text.written(item.start, item.end).lower()
        if item.sort != "when" and item.word in _YEAR:
            return Decimal(today.year)
        if item.sort == "when" and isinstance(item.value, Period) and item.value.name == "year":
            return Decimal(today.year)
        named = any(word in written.split() for word in _YEAR)
        if named and item.sort == "when" and isinstance(item.value, Day):
            return Decimal(item.value.on.year)
    return None


def _animal(whole: Whole) -> str | None:
    """The one animal that is named."""
    names = {(item.value or item.fits[0]).name for item in whole.animals if item.value or len(item.fits) == 1}
    return str(names.pop()) if len(names) == 1 and len(whole.animals) == 1 else None
