"""Milk handed in at the centre against what the centre lists and pays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import reduce

import sqlalchemy as sa

from dialogs.answers_money import answer_pay
from dialogs.confirm.trade import reconciled
from dialogs.reading import Problem
from service.flow.kept import kept
from service.flow.telling import Telling
from service.husbandry.centre_pay import paid_of
from service.husbandry.herd import Told
from service.husbandry.kinds.instructions import Ask
from service.husbandry.kinds.trade import Delivery, MilkPay
from service.husbandry.months import months_after
from service.husbandry.reconcile import Quantity, Reconciled, compare, quantity
from service.records import centre, ledger

PAID_WITHIN = timedelta(days=366)
"""How long after a month a payment of it is looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """A month's pay, as the centre's list has it, else as the farm told it, and the comparison."""

    month: date  # its first day
    pays: tuple[MilkPay, ...]
    told: tuple[MilkPay, ...]  # what the farm told of it, where the list is what counts
    compared: Reconciled


def pays_of(conn: sa.Connection, farm_id: int, since: date) -> tuple[Told, ...]:
    """The payments of the year from the day *since*: those for its month among them."""
    return ledger.on_days(conn, farm_id, MilkPay.KIND, since, since + PAID_WITHIN)


def month_of(conn: sa.Connection, farm_id: int, month: date) -> Month:
    """The month that begins on the day *month*: handed in, listed, paid."""
    last = months_after(month, 1) - timedelta(days=1)
    handed = ledger.on_days(conn, farm_id, Delivery.KIND, month, last)
    pays, told = paid_of(pays_of(conn, farm_id, month), month)
    delivered = [(on, amount) for on, amount in map(_handed, handed) if amount is not None]
    compared = compare(delivered, centre.listed(conn, farm_id, month, last), _paid(pays))
    return Month(month=month, pays=pays, told=told, compared=compared)


def _handed(told: Told) -> tuple[date, Quantity | None]:
    """The day of a delivery and what was taken; nothing where it was turned back."""
    entry = told.entry
    if not isinstance(entry, Delivery) or entry.rejected:
        return entry.happened_on, None
    return entry.on, quantity(entry.litres, entry.kg)


def _paid(pays: Sequence[MilkPay]) -> Quantity | None:
    """For how much milk was paid in all; None where one of the payments does not say."""
    said = [quantity(pay.litres, pay.kg) for pay in pays]
    known = [one for one in said if one is not None]
    return reduce(_plus, known) if known and len(known) == len(said) else None


def _plus(one: Quantity, other: Quantity) -> Quantity:
    return Quantity(one.amount + other.in_unit(one.unit), one.unit)


# --- what is asked for, and what a reply adds ------------------------------------------------------


def wanted_reason(telling: Telling, told: Told) -> Problem | None:
    """Why a load was turned back: it says what to look at before the next milking."""
    entry = told.entry
    if not isinstance(entry, Delivery) or not entry.rejected or entry.reason is not None:
        return None
    return kept(entry, field="reason", amends=told.id)


def wanted_month(telling: Telling, told: Told) -> Problem | None:
    """Which month was paid for; the month before the payment is offered."""
    pay = told.entry
    if not isinstance(pay, MilkPay) or pay.month is not None:
        return None
    before = months_after(pay.on.replace(day=1), -1)
    return kept(pay, field="month", amends=told.id, offer={"month": before})


def after_pay(telling: Telling) -> None:
    """Beside a payment told: whether it is for all that was handed in."""
    for told in telling.recorded:
        pay = told.entry
        if not isinstance(pay, MilkPay) or pay.month is None:
            continue
        month = month_of(telling.conn, telling.book.farm_id, pay.month)
        telling.follow(told, *reconciled(month.compared))


def paid_before(telling: Telling, pay: MilkPay) -> bool:
    """Whether a payment for the same month stands already, told or listed."""
    if pay.month is None:
        return False
    return any(paid_of(pays_of(telling.conn, telling.book.farm_id, pay.month), pay.month))


def pay(telling: Telling, ask: Ask) -> None:
    """A month's milk: handed in, listed, paid, kept back. No month named: the latest one paid for."""
    month = ask.month or _latest(telling)
    found = month_of(telling.conn, telling.book.farm_id, month)
    telling.answers.append(answer_pay(found.month, found.pays, found.told, found.compared, telling.language))


def _latest(telling: Telling) -> date:
    """The latest month that was paid for, else the month before this one."""
    today = telling.local.date()
    paid = pays_of(telling.conn, telling.book.farm_id, today - PAID_WITHIN)
    months = [
        one.entry.month for one in paid if isinstance(one.entry, MilkPay) and one.entry.month is not None
    ]
    return max(months, default=months_after(today.replace(day=1), -1))
