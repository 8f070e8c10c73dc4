"""Answers about money: who owes, prices last paid, what the centre took and paid. One to three segments."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from dialogs import texts
from dialogs.answers import ROOM, listed
from dialogs.confirm.trade import amount, dates, reconciled
from dialogs.grammar.items import read_items
from dialogs.grammar.names import Names
from dialogs.values import WORDS_ROOM
from service.husbandry.dairy_accounts import Accounts, Debt, Price, feed_prices, milk_prices
from service.husbandry.forms import Entry
from service.husbandry.kinds.trade import MilkPay
from service.husbandry.reconcile import Reconciled
from service.husbandry.units import Money
from service.messages import Say, say

# --- who owes --------------------------------------------------------------------------------------


def answer_owed(found: Accounts, language: str) -> str:
    """Who owes what since when, the oldest first, and the sum; payments of which nobody knows whose."""
    if not found.debts:
        return texts.render(say("owed.none"), language)
    lines = [texts.render(_owes(debt), language) for debt in found.debts]
    lines += [texts.render(say("owed.total", amount=sum_), language) for sum_ in _totals(found.debts)]
    lines += [
        texts.render(say("owed.unplaced", amount=payment.amount, on=payment.on), language)
        for payment in found.unplaced
    ]
    return listed(say("owed.head"), lines, language, tail=_paid_example(found.debts))


def _owes(debt: Debt) -> Say:
    who = say("buyer.unnamed") if debt.buyer is None else say("buyer", name=debt.buyer)
    parts = [say("plain_sum", amount=debt.owed)] if debt.owed.amount else []
    if debt.litres:
        parts.append(say("owed.litres", litres=debt.litres))
    if debt.animals:
        parts.append(say("names", names=debt.animals))
    if debt.ahead.amount:
        parts.append(say("owed.ahead", amount=debt.ahead))
    return say("owed.row", name=who, what=parts_of(parts), on=debt.since)


def parts_of(parts: Sequence[Say]) -> Say:
    """Up to three phrases as one, with commas."""
    if len(parts) < 2:
        return parts[0] if parts else say("plain", words="")
    return say("and_also", first=parts[0], what=parts_of(parts[1:]))


def _totals(debts: Sequence[Debt]) -> list[Money]:
    """The sum in each currency; nothing where one buyer alone owes, whose line says it."""
    sums: dict[str, Decimal] = {}
    for debt in debts:
        sums[debt.owed.currency] = sums.get(debt.owed.currency, Decimal(0)) + debt.owed.amount
    return [Money.of(sum_, currency) for currency, sum_ in sums.items() if sum_] if len(debts) > 1 else []


def _paid_example(debts: Sequence[Debt]) -> Say | None:
    """How to tell of a payment, by the first who has a name."""
    name = next((d.buyer for d in debts if d.buyer is not None and len(d.buyer) <= WORDS_ROOM), None)
    return None if name is None else say("owed.end", name=name)


# --- prices ----------------------------------------------------------------------------------------


def answer_price(sold: Sequence[Entry], bought: Sequence[Entry], language: str) -> str:
    """What a litre was sold for last, by buyer, and what was paid last for each feed."""
    milk, feed = milk_prices(sold), feed_prices(bought, is_feed)
    if not milk and not feed:
        return texts.render(say("answer.not_kept.price"), language)
    lines = [texts.render(_milk_price(price), language) for price in milk]
    lines += [
        texts.render(say("price.feed", feed=price.what, price=price.price, on=price.on), language)
        for price in feed
    ]
    return listed(say("price.head"), lines, language)


def _milk_price(price: Price) -> Say:
    who = say("price.anyone") if price.what is None else say("buyer", name=price.what)
    return say("price.milk", name=who, price=price.price, on=price.on)


def is_feed(what: str) -> bool:
    """Whether what was bought is feed, by the words that farmers call it."""
    return any(item.has("feed") for item in read_items(what, Names.of(None)).items)


# --- what the centre paid --------------------------------------------------------------------------


def answer_pay(
    month: date, pays: Sequence[MilkPay], told: Sequence[MilkPay], found: Reconciled, language: str
) -> str:
    """
    A month at the centre: handed in, listed, paid for, the price of a litre, what was kept back and for what.

    Args:
        month: Its first day.
        pays: The payments that count.
        told: What the farm told beside the centre's own list.
        found: Handed in against listed and paid.
        language: sw, en.
    """
    if not pays and not found.days and not found.has_list:
        return texts.render(say("pay.nothing", month=month), language)
    says = (*_compared(found), *_days_apart(found), *_sums(pays, found.unit), *_told_too(pays, told))
    head = say("pay.head", month=month)
    shown = list(says)
    while shown and not texts.fits(texts.compose(head, *shown, language=language, room=ROOM), ROOM):
        shown.pop()
    return texts.compose(head, *shown, language=language, room=ROOM)


def _compared(found: Reconciled) -> tuple[Say, ...]:
    """What was handed in, beside what was paid for where that is told."""
    if not found.days:
        return (say("pay.none_told"),)
    return reconciled(found) or (say("pay.delivered", delivered=amount(found.delivered, found.unit)),)


def _days_apart(found: Reconciled) -> list[Say]:
    """Days on which the centre's list has something else than was told."""
    says = []
    if found.missing and found.short <= 0:  # else the comparison names them
        says.append(say("pay.not_listed", dates=dates(found.missing)))
    if found.less and (found.missing or found.short <= 0):
        says.append(say("pay.listed_less", dates=dates(tuple(found.less))))
    if found.more:
        says.append(say("pay.listed_more", dates=dates(tuple(found.more))))
    return [*says, *([say("pay.converted")] if found.converted else [])]


def _sums(pays: Sequence[MilkPay], unit: str) -> list[Say]:
    """What was paid, for one litre or kilogram, and after what was kept back."""
    sums = [pay.amount for pay in pays if pay.amount is not None]
    if not sums:
        return []
    whole = Money.of(sum((sum_.amount for sum_ in sums), Decimal(0)), sums[0].currency)
    says = [say("pay.sum", amount=whole)]
    counted = [pay.kg if unit == "kg" else pay.litres for pay in pays]
    known = sum((one for one in counted if one is not None), Decimal(0))
    if known and None not in counted:
        each = Money.of(whole.amount / known, whole.currency)
        says.append(say("pay.each_kg" if unit == "kg" else "pay.each", price=each))
    return [*says, *_kept_back(pays, whole)]


def _kept_back(pays: Sequence[MilkPay], whole: Money) -> list[Say]:
    """Each deduction by its name, and what remains."""
    kept = [deduction for pay in pays for deduction in pay.deductions]
    if not kept:
        return []
    total = sum((one.amount.amount for one in kept), Decimal(0))
    named = parts_of([say("pay.deduction", feed=one.what, amount=one.amount) for one in kept])
    left = Money.of(whole.amount - total, whole.currency)
    return [say("pay.deductions", what=named), say("pay.left", amount=left)]


def _told_too(pays: Sequence[MilkPay], told: Sequence[MilkPay]) -> list[Say]:
    """That the farm told another sum than the centre's list has."""
    others = [pay for pay in told if not any(_same(pay, listed) for listed in pays)]
    return [say("pay.you_told", amount=pay.amount) for pay in others if pay.amount is not None]


def _same(one: MilkPay, other: MilkPay) -> bool:
    return (one.amount, one.litres, one.kg) == (other.amount, other.litres, other.kg)
