"""Whatever was told and in whatever order: months add up to the year, and each shilling counts once."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from functools import reduce
from operator import add
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from service.husbandry.centre_pay import OFFICE
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.trade import Delivery, Expense, MilkPay, MilkSale, OtherIncome, Payment
from service.husbandry.statement import month, year
from tests.unit.husbandry.ledger_page import books, milk, paid, spent, told, tzs

FIRST, LAST = date(2026, 1, 1), date(2026, 12, 31)
MONTHS = [date(2026, number, 1) for number in range(1, 13)]

days = st.integers(0, 364).map(lambda n: FIRST + timedelta(days=n))
sums = st.integers(0, 90_000)
litres = st.integers(1, 400).map(Decimal)

entries = st.one_of(
    st.builds(milk, st.sampled_from(["Neema", "Zawadi", "*"]), st.sampled_from(["4", "6.5", "11"]), days,
              st.sampled_from(["morning", "evening", "day"])),
    st.builds(lambda of, a, c, on: MilkSale(litres=of, amount=tzs(a), credit=c, buyer="Juma", on=on),
              litres, sums, st.booleans(), days),
    st.builds(lambda of, on: MilkSale(litres=of, on=on), litres, days),
    st.builds(lambda of, bad, on: Delivery(litres=of, rejected=bad, on=on), litres, st.booleans(), days),
    st.builds(lambda a, on: Payment(buyer="Juma", amount=tzs(a), on=on), sums, days),
    st.builds(lambda what, a, on: OtherIncome(what=what, amount=tzs(a), on=on),
              st.sampled_from(["mbolea", "dume", "mkopo", "kitu"]), sums, days),
    st.builds(spent, st.sampled_from(["pumba", "mkopo", "vet", "ng'ombe", "hisa", "kitu"]), sums, days),
    st.builds(lambda m, a, of, kept: paid(m, a, str(of), LAST, pumba=kept, mkopo=kept),
              st.sampled_from(MONTHS), sums, litres, st.integers(0, 900)),
)  # fmt: skip
farms = st.lists(st.tuples(entries, st.booleans()), max_size=25)


def ledger(those: list[tuple[Entry, bool]]) -> tuple[Told, ...]:
    """Each entry; of the pays, some are those of the centre's own list."""
    return tuple(
        one
        for number, (entry, listed) in enumerate(those, 1)
        for one in told(
            (entry,),
            by=OFFICE if listed and isinstance(entry, MilkPay) else "+255621234567",
            first_id=number,
        )
    )


def counted_pays(those: tuple[Told, ...]) -> list[MilkPay]:
    """The pays that count: of a month that the centre listed, those of the list."""
    pays = [(one.told_by == OFFICE, one.entry) for one in those if isinstance(one.entry, MilkPay)]
    listed = {pay.month for by_office, pay in pays if by_office}
    return [pay for by_office, pay in pays if by_office or pay.month not in listed]


@settings(max_examples=60, deadline=None)
@given(farms)
def test_the_months_of_a_year_add_up_to_it(those: list[tuple[Entry, bool]]) -> None:
    kept = books(ledger(those), LAST, begun=FIRST)
    assert reduce(add, (month(kept, first).figures for first in MONTHS)) == year(kept, 2026).figures


@settings(max_examples=60, deadline=None)
@given(farms)
def test_each_shilling_told_counts_once(those: list[tuple[Entry, bool]]) -> None:
    kept = ledger(those)
    figures = year(books(kept, LAST, begun=FIRST), 2026).figures
    pays = counted_pays(kept)
    taken_in = [one.entry.amount for one in kept if isinstance(one.entry, MilkSale | OtherIncome)]
    taken_in += [pay.amount for pay in pays]
    paid_out = [one.entry.amount for one in kept if isinstance(one.entry, Expense)]
    paid_out += [one.amount for pay in pays for one in pay.deductions]
    income = figures.sales + figures.pay + sum(figures.income.values(), Decimal(0))
    assert income == sum((sum_.amount for sum_ in taken_in if sum_ is not None), Decimal(0))
    assert sum(figures.spent.values(), Decimal(0)) == sum(sum_.amount for sum_ in paid_out)
    paid_for = {pay.month for pay in pays}
    waiting = [
        one.entry.litres or Decimal(0)
        for one in kept
        if isinstance(one.entry, Delivery) and not one.entry.rejected
        and one.entry.on.replace(day=1) not in paid_for
    ]  # fmt: skip
    unpriced_sales = [
        one.entry.litres or Decimal(0)
        for one in kept
        if isinstance(one.entry, MilkSale) and one.entry.amount is None
    ]
    guessed = figures.awaited_litres + figures.unpriced
    assert sum(waiting, Decimal(0)) <= guessed <= sum((*waiting, *unpriced_sales), Decimal(0))


@settings(max_examples=60, deadline=None)
@given(farms, st.randoms(use_true_random=False))
def test_the_order_in_which_the_ledger_is_read_does_not_matter(
    those: list[tuple[Entry, bool]], random: Random
) -> None:
    kept = list(ledger(those))
    before = year(books(tuple(kept), LAST, begun=FIRST), 2026)
    random.shuffle(kept)
    assert year(books(tuple(kept), LAST, begun=FIRST), 2026) == before
