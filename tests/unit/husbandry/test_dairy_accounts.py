"""Who owes what since when, and prices: worked by hand."""

from __future__ import annotations

from decimal import Decimal
from itertools import permutations
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.husbandry.dairy_accounts import (
    accounts,
    as_price,
    debts,
    feed_prices,
    last_price,
    milk_prices,
)
from service.husbandry.forms import Entry
from service.husbandry.kinds.herd_book import AnimalSale
from service.husbandry.kinds.trade import Expense, MilkSale, Payment, disagree, third
from service.husbandry.units import Money
from tests.unit.husbandry.book import day

MARCH = "2026-03-{:02d}"
END = day("2026-03-31")


def tzs(amount: str | int) -> Money:
    return Money.of(amount, "TZS")


def sold(
    on: int, buyer: str | None, amount: int | None = None, *, credit: bool = True, **more: Any
) -> MilkSale:
    whole = None if amount is None else tzs(amount)
    return MilkSale(on=day(MARCH.format(on)), buyer=buyer, amount=whole, credit=credit, **more)


def paid(on: int, buyer: str | None, amount: int) -> Payment:
    return Payment(on=day(MARCH.format(on)), buyer=buyer, amount=tzs(amount))


def owed(*entries: Entry) -> list[tuple[str | None, str, int]]:
    return [(debt.buyer, str(debt.owed.amount), debt.since.day) for debt in debts(entries, END)]


def test_milk_on_credit_is_owed_since_its_day() -> None:
    assert owed(sold(3, "Mama Asha", 12000), sold(5, "Mama Asha", 6000)) == [("Mama Asha", "18000.00", 3)]


def test_milk_paid_at_once_is_no_debt() -> None:
    assert owed(sold(3, "Mama Asha", 12000, credit=False)) == []


def test_a_payment_settles_the_oldest_sale_first() -> None:
    told = (sold(3, "Asha", 12000), sold(9, "Asha", 6000), paid(12, "Asha", 13000))
    assert owed(*told) == [("Asha", "5000.00", 9)]


def test_who_has_paid_all_owes_nothing() -> None:
    assert owed(sold(3, "Asha", 12000), paid(3, "Asha", 12000)) == []


def test_what_is_paid_ahead_counts_against_the_next_sale() -> None:
    assert owed(sold(3, "Asha", 4000), paid(4, "Asha", 10000), sold(8, "Asha", 9000)) == [
        ("Asha", "3000.00", 8)
    ]


def test_a_name_is_the_same_in_capitals_and_another_with_a_word_more() -> None:
    told = (sold(3, "Asha", 1000), sold(4, "ASHA ", 2000), sold(5, "Mama Asha", 4000))
    assert owed(*told) == [("ASHA ", "3000.00", 3), ("Mama Asha", "4000.00", 5)]


def test_a_payment_without_a_name_is_that_of_the_only_one_who_owes() -> None:
    assert owed(sold(3, "Juma", 5000), paid(6, None, 2000)) == [("Juma", "3000.00", 3)]


def test_a_payment_without_a_name_is_nobodys_where_several_owe() -> None:
    found = accounts([sold(3, "Juma", 5000), sold(3, "Asha", 1000), paid(6, None, 1000)], END)
    assert [debt.owed.amount for debt in found.debts] == [5000, 1000]
    assert [payment.amount.amount for payment in found.unplaced] == [1000]


def test_a_cow_sold_on_credit_is_owed_too() -> None:
    cow = AnimalSale(animal="Neema", amount=tzs(800000), buyer="Juma", credit=True, on=day("2026-02-01"))
    (debt,) = debts([cow, paid(1, "juma", 300000)], END)
    assert (debt.owed, debt.since) == (tzs(500000), day("2026-02-01"))


def test_goods_without_a_sum_stand_beside_the_debt() -> None:
    told = (sold(3, "Asha", litres=Decimal(3)), sold(4, "Asha", litres=Decimal("2.5")), sold(5, "Asha", 1000))
    (debt,) = debts(told, END)
    assert (debt.owed, debt.litres, debt.since.day) == (tzs(1000), Decimal("5.5"), 3)


def test_what_happens_after_the_last_day_does_not_count() -> None:
    told = (sold(3, "Asha", 1000), sold(20, "Asha", 4000), paid(25, "Asha", 5000))
    assert [debt.owed for debt in debts(told, day("2026-03-19"))] == [tzs(1000)]


def test_the_order_of_telling_changes_nothing() -> None:
    told = (sold(3, "Asha", 12000), paid(12, "Asha", 13000), sold(9, "Asha", 6000), paid(12, "Juma", 10))
    assert len({str(owed(*order)) for order in permutations(told)}) == 1


SUMS = st.lists(st.tuples(st.integers(1, 28), st.integers(1, 50000), st.booleans()), max_size=20)


@given(SUMS)
def test_a_debt_is_what_was_taken_less_what_was_paid(told: list[tuple[int, int, bool]]) -> None:
    entries = [paid(on, "Asha", sum_) if is_paid else sold(on, "Asha", sum_) for on, sum_, is_paid in told]
    balance = sum(-sum_ if is_paid else sum_ for _, sum_, is_paid in told)
    found = debts(entries, END)
    assert sum(debt.owed.amount for debt in found) == max(balance, 0)


# --- prices ----------------------------------------------------------------------------------------


def at(on: int, buyer: str | None, price: int) -> MilkSale:
    return MilkSale(on=day(MARCH.format(on)), buyer=buyer, litres=Decimal(5), price=tzs(price))


def test_the_last_price_is_that_of_the_buyer_before_that_of_the_farm() -> None:
    sales = [at(3, "Asha", 1000), at(4, "Juma", 1200)]
    assert [p.price if p else None for p in (last_price(sales, "asha"), last_price(sales, "Neema"))] == [
        tzs(1000), tzs(1200),
    ]  # fmt: skip
    assert last_price([], "Asha") is None


def test_of_two_prices_of_one_day_the_one_told_last_counts() -> None:
    price = last_price([at(3, "Asha", 1000), at(3, "Asha", 1100)], None)
    assert price is not None
    assert price.price == tzs(1100)


def test_each_buyer_has_a_price_of_his_own() -> None:
    prices = milk_prices([at(3, "Asha", 1000), at(5, None, 1300), at(4, "ASHA", 1100)])
    assert [(p.what, p.price) for p in prices] == [(None, tzs(1300)), ("ASHA", tzs(1100))]


def test_a_feeds_price_is_what_was_paid_for_it_last() -> None:
    told = [
        Expense(what="pumba", amount=tzs(20000), on=day("2026-03-01")),
        Expense(what="Pumba", amount=tzs(22000), on=day("2026-03-08")),
        Expense(what="dawa", amount=tzs(5000), on=day("2026-03-09")),
    ]
    assert [(p.what, p.price) for p in feed_prices(told, lambda what: what.casefold() == "pumba")] == [
        ("Pumba", tzs(22000)),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("told", "litres", "price"),
    [
        ("1200", 10, "1200"),
        ("12000", 10, "1200"),
        ("6", 10, None),
        ("12000", None, None),
        ("90000000", 10, None),
    ],
)
def test_a_bare_sum_is_a_price_or_the_whole_or_no_answer(
    told: str, litres: int | None, price: str | None
) -> None:
    found = as_price(tzs(told), None if litres is None else Decimal(litres))
    assert found == (None if price is None else tzs(price))


# --- the third of a sale ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("told", "whole"),
    [
        ({"litres": Decimal(10), "price": tzs(1200)}, (Decimal(10), tzs(1200), tzs(12000))),
        ({"litres": Decimal(8), "amount": tzs(9600)}, (Decimal(8), tzs(1200), tzs(9600))),
        ({"price": tzs(1400), "amount": tzs(14000)}, (Decimal(10), tzs(1400), tzs(14000))),
        ({"litres": Decimal(3), "amount": tzs(1000)}, (Decimal(3), tzs("333.33"), tzs(1000))),
        ({"litres": Decimal(0), "amount": tzs(1000)}, (Decimal(0), None, tzs(1000))),
        ({"litres": Decimal(10)}, (Decimal(10), None, None)),
        ({"amount": tzs(1000)}, (None, None, tzs(1000))),
    ],
)
def test_any_two_of_a_sale_give_the_third(told: dict[str, Any], whole: tuple[Any, ...]) -> None:
    sale = MilkSale(on=END, **told)
    assert (sale.litres, sale.price, sale.amount) == whole
    assert not disagree(*whole)


def test_a_third_that_disagrees_is_noticed_but_not_a_rounded_one() -> None:
    assert disagree(Decimal(10), tzs(1200), tzs(15000))
    assert not disagree(Decimal(3), tzs(333), tzs(1000))
    assert third(Decimal(10), tzs(1200), tzs(15000)) == {}
