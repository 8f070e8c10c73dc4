"""
A farm's month or year in milk and money, from its entries; the formulas are in docs/trade/money.md.

Each shilling counts once. Milk handed in at the centre earns what the centre paid for its month once that
is told, before that the last price; a sale on credit counts on its day and not again when it is paid.
Farm prices only. Animals bought and sold, loans and savings stand apart from the business of milk. A year
is the sum of its months. Litres and sums are Decimal, sums in the farm's one currency.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from functools import reduce
from operator import add

from service.husbandry.centre_pay import Pays, month_paid, paid_of, placed
from service.husbandry.dairy_accounts import Accounts, accounts, last_price
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.herd_book import AnimalSale, NewAnimal
from service.husbandry.kinds.service import Service
from service.husbandry.kinds.trade import Delivery, Expense, Feeding, MilkPay, MilkSale, OtherIncome
from service.husbandry.milk_made import DayMade, made, nobody_milked
from service.husbandry.months import months_after
from service.husbandry.reconcile import LITRES, quantity
from service.husbandry.statement_figures import (
    ANIMAL,
    FEED,
    LOAN,
    NOTHING,
    SERVED,
    CowFigures,
    Figures,
)
from service.husbandry.units import Money, litres_of_kg

# --- what goes in and what comes out ----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Sorting:
    """What the farmer's words mean: the sort of a cost and of an income, milk as feed, a feed's one name."""

    cost: Callable[[str | None], str]
    income: Callable[[str | None], str]
    is_milk: Callable[[str], bool]
    feed: Callable[[str], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Books:
    """
    What a statement is made from.

    ``told``: standing entries in any order, at least all of the months asked for, prices and pays of the
    months before and after, and all credit, payments and loans ever. ``today``: the last day that counts.
    ``begun``: the first day of which the farm told milk; None: it never did.
    """

    told: tuple[Told, ...]
    today: date
    begun: date | None
    currency: str
    sorting: Sorting


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """
    The figures of the days *first* to *last*; ``until``: the last of them that counts, *last* or today.

    ``owed`` and ``loan_left`` (None: no loan was told of) are of today. ``elsewhere``: sums told in other
    currencies, in no figure.
    """

    first: date
    last: date
    until: date
    currency: str
    figures: Figures
    owed: Accounts
    loan_left: Decimal | None = None
    elsewhere: tuple[Money, ...] = ()

    @property
    def is_over(self) -> bool:
        return self.until == self.last

    @property
    def is_year(self) -> bool:
        return (self.first.year, self.first.month) != (self.last.year, self.last.month)

    def money(self, amount: Decimal) -> Money:
        return Money.of(amount, self.currency)


def month(books: Books, first: date) -> Statement:
    """The statement of the month that begins on the day *first*."""
    return _statement(books, [first], months_after(first, 1) - timedelta(days=1))


def year(books: Books, number: int) -> Statement:
    """The statement of a calendar year: the sum of its months so far."""
    months = [date(number, one, 1) for one in range(1, 13)]
    begun = [first for first in months if first <= books.today]
    return _statement(books, begun or months[:1], date(number, 12, 31))


def _statement(books: Books, months: Sequence[date], last: date) -> Statement:
    told = tuple(placed(one) for one in sorted(books.told, key=lambda one: (one.entry.happened_on, one.id)))
    ordered = replace(books, told=told)
    entries = [one.entry for one in told]
    return Statement(
        first=months[0],
        last=last,
        until=min(last, books.today),
        currency=books.currency,
        figures=reduce(add, (_figures(ordered, first) for first in months)),
        owed=accounts(entries, books.today, currency=books.currency),
        loan_left=_loan_left(ordered),
        elsewhere=_elsewhere(entries, months[0], last, books.currency),
    )


# --- one month --------------------------------------------------------------------------------------


def _figures(books: Books, first: date) -> Figures:
    last = months_after(first, 1) - timedelta(days=1)
    mine = [one for one in books.told if first <= one.entry.happened_on <= last]
    entries = [one.entry for one in mine]
    days = made(mine)
    figures = reduce(
        add,
        (
            Figures(made=sum((day.litres for day in days.values()), NOTHING), days=len(days)),
            Figures(missing=_missing(days, first, min(last, books.today), books)),
            _sold(entries, books, last),
            _delivered(entries, books, first, last),
            _other(entries, books),
            Figures(calves=_given_to_calves(entries, books.sorting)),
        ),
    )
    return replace(figures, cows=_cows(mine, days, _price(figures, books, first, last), books, last))


def _missing(days: Mapping[date, DayMade], first: date, until: date, books: Books) -> int:
    """
    Days before today of which no milk was told, from the farm's first on; 0 in a month without any.

    Days on which all cows were dry are not missing.
    """
    if books.begun is None or not days:
        return 0
    begin, end = max(first, books.begun), min(until, books.today - timedelta(days=1))
    between = ((begin + timedelta(days=n)) for n in range((end - begin).days + 1))
    idle = nobody_milked(books.told)
    return sum(1 for day in between if day not in days and not idle(day))


def _in(amount: Money | None, currency: str) -> Decimal | None:
    """*amount* where it is told in that currency."""
    return amount.amount if amount is not None and amount.currency == currency else None


def _sold(entries: Sequence[Entry], books: Books, last: date) -> Figures:
    return reduce(add, (_sale(one, books, last) for one in entries if isinstance(one, MilkSale)), Figures())


def _sale(sale: MilkSale, books: Books, last: date) -> Figures:
    litres = sale.litres or NOTHING
    told = _in(sale.amount, books.currency)
    if told is not None:
        priced = told if sale.litres is not None else NOTHING
        return Figures(sold=litres, sales=told, priced=priced, priced_litres=litres)
    if sale.amount is not None:
        return Figures(sold=litres)  # in another currency: it stands beside
    price = _sale_price(books, sale.buyer, last)
    if price is None:
        return Figures(sold=litres, unpriced=litres)
    sum_ = Money.of(litres * price, books.currency).amount
    return Figures(sold=litres, sales_at_last=sum_, priced=sum_, priced_litres=litres)


def _sale_price(books: Books, buyer: str | None, last: date) -> Decimal | None:
    """The price of a litre that the buyer, else anyone, paid last up to the day *last*."""
    sales = [one.entry for one in books.told if one.entry.happened_on <= last]
    found = last_price((s for s in sales if _is_priced(s, books.currency)), buyer)
    return None if found is None else found.price.amount


def _is_priced(entry: Entry, currency: str) -> bool:
    return isinstance(entry, MilkSale) and _in(entry.price, currency) is not None


def _delivered(entries: Sequence[Entry], books: Books, first: date, last: date) -> Figures:
    """What the centre took, and what it paid for it, or would pay at the last price."""
    handed = [one for one in entries if isinstance(one, Delivery)]
    taken = sum((_litres(one) for one in handed if not one.rejected), NOTHING)
    back = sum((_litres(one) for one in handed if one.rejected), NOTHING)
    pays, _ = paid_of(books.told, first)
    paid = [pay for pay in pays if _in(pay.amount, books.currency) is not None]
    if paid:
        return Figures(turned_back=back) + _paid(paid, taken, books)
    if any(pay.amount is not None for pay in pays):
        return Figures(delivered=taken, turned_back=back)  # paid in another currency
    return Figures(delivered=taken, turned_back=back) + _awaited(taken, books, first, last)


def _litres(of: Delivery | MilkPay) -> Decimal:
    told = quantity(of.litres, of.kg)
    return NOTHING if told is None else told.in_unit(LITRES)


def _paid(pays: Sequence[MilkPay], taken: Decimal, books: Books) -> Figures:
    amount = sum((_in(pay.amount, books.currency) or NOTHING for pay in pays), NOTHING)
    said = sum((_litres(pay) for pay in pays), NOTHING)
    litres = said or taken
    spent: dict[str, Decimal] = defaultdict(Decimal)
    for kept in (one for pay in pays for one in pay.deductions):
        spent[books.sorting.cost(kept.what)] += _in(kept.amount, books.currency) or NOTHING
    return Figures(
        delivered=max(taken, said),
        pay=amount,
        kept_back=sum(spent.values(), NOTHING),
        priced=amount if litres else NOTHING,
        priced_litres=litres,
        spent=dict(spent),
    )


def _awaited(taken: Decimal, books: Books, first: date, last: date) -> Figures:
    """Milk handed in and not paid for yet: at the centre's last price, else at that of other buyers."""
    price = _centre_price(books, first)
    if price is None:
        price = _sale_price(books, None, last)
    if price is None or not taken:
        return Figures(unpriced=taken)
    sum_ = Money.of(taken * price, books.currency).amount
    return Figures(awaited=sum_, awaited_litres=taken, priced=sum_, priced_litres=taken)


def _centre_price(books: Books, before: date) -> Decimal | None:
    """What the centre paid for a litre of the latest month before that one."""
    pays = (one.entry for one in books.told if isinstance(one.entry, MilkPay))
    months = {month_paid(pay) for pay in pays}
    for earlier in sorted((one for one in months if one < before), reverse=True):
        price = _paid_a_litre(paid_of(books.told, earlier)[0], books.currency)
        if price is not None:
            return price
    return None


def _paid_a_litre(pays: Pays, currency: str) -> Decimal | None:
    """What a litre of a month's milk brought; None where one of the pays does not say for how much."""
    sums, litres = [_in(pay.amount, currency) for pay in pays], [_litres(pay) for pay in pays]
    if not pays or None in sums or not all(litres):
        return None
    return sum((one or NOTHING for one in sums), NOTHING) / sum(litres, NOTHING)


def _other(entries: Iterable[Entry], books: Books) -> Figures:
    """Other income and spending by sort; animals under a sort of their own."""
    income: dict[str, Decimal] = defaultdict(Decimal)
    spent: dict[str, Decimal] = defaultdict(Decimal)
    for entry in entries:
        match entry:
            case OtherIncome():
                income[books.sorting.income(entry.what)] += _in(entry.amount, books.currency) or NOTHING
            case Expense():
                spent[books.sorting.cost(entry.what)] += _in(entry.amount, books.currency) or NOTHING
            case Service():
                spent[SERVED] += _in(entry.cost, books.currency) or NOTHING
            case AnimalSale():
                income[ANIMAL] += _in(entry.amount, books.currency) or NOTHING
            case NewAnimal():
                spent[ANIMAL] += _in(entry.price, books.currency) or NOTHING
    return Figures(income=_some(income), spent=_some(spent))


def _some(sums: Mapping[str, Decimal]) -> dict[str, Decimal]:
    return {sort: sum_ for sort, sum_ in sums.items() if sum_}


def _given_to_calves(entries: Iterable[Entry], sorting: Sorting) -> Decimal:
    """Litres of milk told as fed."""
    fed = (one for one in entries if isinstance(one, Feeding) and one.feed and sorting.is_milk(one.feed))
    return sum((litres_of_kg(one.kg) for one in fed if one.kg is not None), NOTHING)


# --- each cow ---------------------------------------------------------------------------------------


def _price(figures: Figures, books: Books, first: date, last: date) -> Decimal | None:
    """What a litre of the month's milk is worth: its average price, else the last one known."""
    if figures.average_price is not None:
        return figures.average_price
    centre = _centre_price(books, first)
    return centre if centre is not None else _sale_price(books, None, last)


def _cows(
    mine: Sequence[Told], days: Mapping[date, DayMade], price: Decimal | None, books: Books, last: date
) -> dict[int, CowFigures]:
    cows: dict[int, CowFigures] = defaultdict(CowFigures)
    for day in days.values():
        for cow, litres in day.cows.items():
            cows[cow] += CowFigures(litres=litres, earned=litres * (price or NOTHING), days=1)
    for one in mine:
        if isinstance(one.entry, Feeding) and one.entry.kg is not None and one.entry.feed:
            for cow, fed in _fed(one, one.entry, books, last):
                cows[cow] += fed
    return dict(cows)


def _fed(told: Told, feeding: Feeding, books: Books, last: date) -> Iterator[tuple[int, CowFigures]]:
    """What each of the cows named got, in equal shares; of feed for all of them nothing is any one's."""
    feed, kg = feeding.feed or "", feeding.kg or NOTHING
    if feeding.named == (EVERY_ANIMAL,) or not told.animals or books.sorting.is_milk(feed):
        return
    share, price = kg / len(told.animals), _kg_price(books, feed, last)
    for cow in told.animals:
        yield cow, CowFigures(unpriced_kg=share) if price is None else CowFigures(fed=share * price)


def _kg_price(books: Books, feed: str, last: date) -> Decimal | None:
    """What a kilogram of *feed* cost when it was bought last, up to the day *last*."""
    name = books.sorting.feed(feed)
    bought = [
        one.entry
        for one in books.told
        if isinstance(one.entry, Expense) and one.entry.kg and one.entry.on <= last
        and one.entry.what and books.sorting.feed(one.entry.what) == name
        and _in(one.entry.amount, books.currency) is not None
    ]  # fmt: skip
    if not bought:
        return None
    latest = bought[-1]
    return latest.amount.amount / (latest.kg or Decimal(1))


# --- loans, other currencies ------------------------------------------------------------------------


def _loan_left(books: Books) -> Decimal | None:
    """What is left of loans told as taken, after all told as paid back; None where none was told."""
    taken, paid = Decimal(0), Decimal(0)
    entries = [one.entry for one in books.told]
    for entry in entries:
        if isinstance(entry, OtherIncome) and books.sorting.income(entry.what) == LOAN:
            taken += _in(entry.amount, books.currency) or NOTHING
        elif isinstance(entry, Expense) and books.sorting.cost(entry.what) == LOAN:
            paid += _in(entry.amount, books.currency) or NOTHING
    months = {month_paid(entry) for entry in entries if isinstance(entry, MilkPay)}
    for pay in (pay for month in months for pay in paid_of(books.told, month)[0]):
        for kept in pay.deductions:
            if books.sorting.cost(kept.what) == LOAN:
                paid += _in(kept.amount, books.currency) or NOTHING
    return max(taken - paid, NOTHING) if taken else None


def _elsewhere(entries: Iterable[Entry], first: date, last: date, currency: str) -> tuple[Money, ...]:
    """Sums told on the days in other currencies, one by one."""
    mine = (one for one in entries if first <= one.happened_on <= last)
    told = (getattr(one, name, None) for one in mine for name in ("amount", "cost"))
    return tuple(sum_ for sum_ in told if isinstance(sum_, Money) and sum_.currency != currency)


__all__ = ["FEED", "Books", "Sorting", "Statement", "month", "year"]
