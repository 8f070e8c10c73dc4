"""
What counts as paid by the centre for a month: its own list, else what the farm told.

A month's pay can be known twice, from the list that the office took in and from the farm itself. Both
stay in the ledger; only one of them is ever counted.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from service.husbandry.herd import Told
from service.husbandry.kinds.trade import MilkPay
from service.husbandry.months import months_after

OFFICE = "office"
"""Who told what the cooperative's lists have, in the place of a phone."""

Pays = tuple[MilkPay, ...]


def paid_of(told: Iterable[Told], month: date) -> tuple[Pays, Pays]:
    """
    What counts as paid for *month* (its first day), and what the farm told beside it.

    The centre's list goes over what the farm told.
    """
    of_month = [(one.told_by == OFFICE, one.entry) for one in told if isinstance(one.entry, MilkPay)]
    mine = [(listed, pay) for listed, pay in of_month if pay.month == month]
    listed = tuple(pay for by_office, pay in mine if by_office)
    own = tuple(pay for by_office, pay in mine if not by_office)
    return (listed, own) if listed else (own, ())


def month_paid(pay: MilkPay) -> date:
    """The month that *pay* is for; one that names none is for the month before its day, as is offered."""
    return pay.month or months_after(pay.on.replace(day=1), -1)


def placed(told: Told) -> Told:
    """*told* with the month that its pay is for."""
    pay = told.entry
    if not isinstance(pay, MilkPay) or pay.month is not None:
        return told
    return replace(told, entry=replace(pay, month=month_paid(pay)))
