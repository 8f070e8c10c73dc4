"""
How long milk and meat are held back after a drug.

The product's label decides, never Byreline. The clock starts at the last dose, a new dose starts it
again, and of several drugs the latest end counts. 0 days is a label that says "none"; None is a label
that nobody read out, which ends no hold and begins none that could be planned.
"""

from __future__ import annotations

import math
from datetime import date, timedelta
from decimal import Decimal


def first_sale(on: date, hold_days: Decimal | None) -> date | None:
    """
    First day on which milk or meat may be sold after a dose *on* a day; None if there is no known hold.

    The hour of the dose is not kept, so the day of the dose counts whole: on + days + 1.
    """
    return on + timedelta(math.ceil(hold_days) + 1) if hold_days else None


def latest(held_until: date | None, on: date, hold_days: Decimal | None) -> date | None:
    """The end of the hold that lasts longest: the one that ran (*held_until*) or the new one."""
    ends = [end for end in (held_until, first_sale(on, hold_days)) if end is not None]
    return max(ends, default=None)
