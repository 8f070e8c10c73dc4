"""Sales on credit and what is paid of them: whose, how much is left, who owes."""

from __future__ import annotations

from datetime import date

from dialogs.answers_money import answer_owed
from dialogs.asking import numbered
from dialogs.reading import Problem
from service.flow.kept import kept
from service.flow.telling import Telling
from service.husbandry.dairy_accounts import Accounts, accounts, folded, is_on_credit
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.instructions import Ask
from service.husbandry.kinds.trade import Payment
from service.messages import Say, say
from service.records import ledger
from service.sms import septets

ROOM = 90
"""Septets for the debtors offered for choice: what a segment has beside the question and the record."""


def wanted_buyer(telling: Telling, told: Told) -> Problem | None:
    """Who took it on credit: without a name nobody can be asked to pay."""
    entry = told.entry
    if not is_on_credit(entry) or getattr(entry, "buyer", None) is not None:
        return None
    return kept(entry, field="buyer", amends=told.id)


def wanted_payer(telling: Telling, told: Told) -> Problem | None:
    """Whose payment it is, where no name is told and several owe, or none owes under the name told."""
    payment = told.entry
    if not isinstance(payment, Payment) or not telling.shows_money:
        return None
    before = _accounts(telling, payment.on, without=told.id)
    names = tuple(debt.buyer for debt in before.debts if debt.buyer is not None)
    plain = payment.buyer is None and len(before.debts) < 2
    if plain or not names or (payment.buyer is not None and before.of(payment.buyer) is not None):
        return None
    return kept(payment, field="buyer", amends=told.id, options=_choices(names))


def _choices(names: tuple[str, ...]) -> tuple[str, ...]:
    """As many of *names* as there is room for; the others can be written out."""
    count = next((n for n in range(len(names), 0, -1) if septets(numbered(names[:n])) <= ROOM), 0)
    return names[:count]


def after_payment(telling: Telling) -> None:
    """Beside a payment: what is left of that buyer's debt."""
    for told in telling.recorded if telling.shows_money else ():
        if isinstance(told.entry, Payment):
            left = _left(telling, told.entry, told.id)
            if left is not None:
                telling.follow(told, left)


def _left(telling: Telling, payment: Payment, entry_id: int) -> Say | None:
    """What is left after *payment*; None where it is not known whose it is."""
    before = _accounts(telling, payment.on, without=entry_id)
    buyer = payment.buyer
    if buyer is None:
        if len(before.debts) != 1:
            return None
        buyer = before.debts[0].buyer
    if before.of(buyer) is None:
        return say("payment.no_debt", name=buyer or "")
    debt = _accounts(telling, telling.local.date()).of(buyer)
    name = say("buyer.unnamed") if buyer is None else say("buyer", name=buyer)
    if debt is None:
        return say("payment.all", name=name)
    return say("payment.left", name=name, amount=debt.owed) if debt.owed.amount else None


def _accounts(telling: Telling, until: date, *, without: int | None = None) -> Accounts:
    told = ledger.owing(telling.conn, telling.book.farm_id, until)
    entries = [one.entry for one in told if one.id != without]
    return accounts(entries, until, currency=telling.house.place.currency)


def owed(telling: Telling, _: Ask) -> None:
    """Who owes the farm, how much and since when."""
    found = _accounts(telling, telling.local.date())
    telling.answers.append(answer_owed(found, telling.language))


def paid_before(telling: Telling, payment: Payment) -> bool:
    """Whether the same payment was told of that day before."""
    day = payment.on
    earlier = ledger.on_days(telling.conn, telling.book.farm_id, Payment.KIND, day, day)
    return any(_same(one.entry, payment) for one in earlier)


def _same(one: Entry, payment: Payment) -> bool:
    if not isinstance(one, Payment) or one.amount != payment.amount:
        return False
    return folded(one.buyer) == folded(payment.buyer)
