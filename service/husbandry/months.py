"""Calendar months: the same day of a later month, clipped to that month's end."""

from __future__ import annotations

from calendar import monthrange
from datetime import date


def months_after(day: date, months: int) -> date:
    """
    The same day *months* calendar months later, or the last day of a month that is too short.

    31 August + 6 months is 28 February (29 in a leap year). Negative *months* go back.
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def younger_than(born: date, months: int, on: date) -> bool:
    """Whether an animal *born* that day is under *months* calendar months of age *on* a day."""
    return on < months_after(born, months)
