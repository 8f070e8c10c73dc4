"""The prices that the farm was paid before: offered where a sale names none, and told when asked for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from dialogs.answers_money import answer_price
from dialogs.reading import Problem
from service.flow.kept import kept
from service.flow.telling import Telling
from service.husbandry.dairy_accounts import Price, last_price
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.instructions import Ask
from service.husbandry.kinds.trade import Expense, MilkSale
from service.husbandry.units import Money
from service.messages import say
from service.records import ledger

PRICE_LASTS = timedelta(days=92)
"""A price older than a quarter is not offered: milk is dear in the dry months and cheap in the rains.
Byreline's own choice."""

ASKED_IN_A_ROW = 2
"""After so many sales in a row whose price was asked for and not told, it is not asked for again."""

LOOKED_BACK = timedelta(days=366)
"""Purchases and sales of which the latest prices are told."""


def wanted(telling: Telling, told: Told) -> Problem | None:
    """The price of milk sold, so that the month can be summed up; the last one is offered."""
    sale = told.entry
    if not isinstance(sale, MilkSale) or sale.price is not None or not sale.litres:
        return None
    before = _sales_before(telling, told)
    if len(_unpriced_end(before)) >= ASKED_IN_A_ROW:
        return None
    price = last_price(before, sale.buyer) if telling.shows_money else None
    offer = None if price is None else {"price": price.price, "amount": _sum(sale, price)}
    return kept(sale, field="price", amends=told.id, offer=offer)


def at_last_price(telling: Telling) -> None:
    """Beside milk sold with no price told: what it comes to at the last one."""
    for told in telling.recorded if telling.shows_money else ():
        sale = told.entry
        if not isinstance(sale, MilkSale) or sale.price is not None or not sale.litres:
            continue
        price = last_price(_sales_before(telling, told), sale.buyer)
        if price is not None:
            comes_to = say("sale.at_last_price", price=price.price, amount=_sum(sale, price))
            telling.follow(told, comes_to)


def _sum(sale: MilkSale, price: Price) -> Money:
    return Money.of((sale.litres or 0) * price.price.amount, price.price.currency)


def _sales_before(telling: Telling, told: Told) -> list[Entry]:
    """Milk sold up to the day of the sale *told*, without it, oldest first."""
    on = told.entry.happened_on
    sales = ledger.on_days(telling.conn, telling.book.farm_id, MilkSale.KIND, on - PRICE_LASTS, on)
    return [one.entry for one in sales if one.id != told.id]


def _unpriced_end(sales: Sequence[Entry]) -> list[Entry]:
    """The latest of *sales* as far back as none has a price."""
    unpriced: list[Entry] = []
    for sale in reversed(sales):
        if not isinstance(sale, MilkSale) or sale.price is not None or not sale.litres:
            break
        unpriced.append(sale)
    return unpriced


def prices(telling: Telling, _: Ask) -> None:
    """The latest prices: of milk by buyer, of feed bought."""
    today = telling.local.date()
    sold, bought = (_of_kind(telling, kind, today) for kind in (MilkSale.KIND, Expense.KIND))
    telling.answers.append(answer_price(sold, bought, telling.language))


def _of_kind(telling: Telling, kind: str, today: date) -> list[Entry]:
    told = ledger.on_days(telling.conn, telling.book.farm_id, kind, today - LOOKED_BACK, today)
    return [one.entry for one in told]
