"""
Money between the farm and those who buy from it: who owes what since when, and the prices last paid.

Pure functions over entries. A buyer is one by the name as told, capitals and spaces aside: "Asha" and
"Mama Asha" are two. Sums are :class:`Money`, never rounded twice; of several currencies each stands alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from service.husbandry.forms import Entry
from service.husbandry.kinds.herd_book import AnimalSale
from service.husbandry.kinds.trade import Expense, MilkSale, Payment
from service.husbandry.units import Money

NOTHING = Decimal(0)

# --- who owes --------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Debt:
    """
    What one buyer has not paid. ``buyer`` None: none was named.

    ``litres`` and ``animals`` were taken on credit with no sum told and stand beside ``owed``;
    ``ahead`` was paid over what is owed.
    """

    buyer: str | None
    owed: Money
    since: date  # day of the oldest sale not fully paid
    litres: Decimal = NOTHING
    animals: tuple[str, ...] = ()
    ahead: Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Accounts:
    """The debts, the oldest first; ``unplaced``: payments of which it is not known whose they are."""

    debts: tuple[Debt, ...]
    unplaced: tuple[Payment, ...] = ()

    def of(self, buyer: str | None) -> Debt | None:
        """What *buyer* owes; None: nothing."""
        return next((debt for debt in self.debts if folded(debt.buyer) == folded(buyer)), None)


def folded(name: str | None) -> str:
    """What makes a buyer's name the same, however it is typed; no name is one of its own."""
    return " ".join((name or "").casefold().split())


@dataclass(slots=True)
class _Account:
    """One buyer's sales on credit that are not fully paid, oldest first."""

    buyer: str | None
    currency: str
    open: list[tuple[date, Decimal]] = field(default_factory=list)
    unpriced: list[tuple[date, Entry]] = field(default_factory=list)
    ahead: Decimal = NOTHING

    @property
    def owes(self) -> bool:
        return bool(self.open or self.unpriced)

    def take(self, on: date, amount: Decimal) -> None:
        """A sale on credit; what was paid ahead counts against it."""
        used = min(self.ahead, amount)
        self.ahead -= used
        if amount > used:
            self.open.append((on, amount - used))

    def pay(self, amount: Decimal) -> None:
        """A payment: the oldest sale first."""
        while self.open and amount:
            on, left = self.open.pop(0)
            used = min(left, amount)
            amount -= used
            if left > used:
                self.open.insert(0, (on, left - used))
        self.ahead += amount

    def debt(self) -> Debt:
        return Debt(
            buyer=self.buyer,
            owed=Money.of(sum((left for _, left in self.open), NOTHING), self.currency),
            since=min(on for on, _ in (*self.open, *self.unpriced)),
            litres=sum((s.litres or NOTHING for _, s in self.unpriced if isinstance(s, MilkSale)), NOTHING),
            animals=tuple(s.animal for _, s in self.unpriced if isinstance(s, AnimalSale)),
            ahead=Money.of(self.ahead, self.currency),
        )


def accounts(entries: Iterable[Entry], until: date, *, currency: str = "TZS") -> Accounts:
    """
    Who owes what at the end of the day *until*, whatever the order in which *entries* were told.

    A sale on credit and a payment of one day count in this order. A payment with no buyer named is that
    of the only one who owes on its day; where several owe, or none, it is ``unplaced``.

    Args:
        entries: Standing entries of any kinds; those that are neither credit nor payment are passed over.
        until: The last day that counts.
        currency: What is owed in, where nothing but goods without a sum was told.
    """
    book: dict[tuple[str, str], _Account] = {}
    unplaced = []
    for entry in sorted(_counting(entries, until), key=lambda e: (e.happened_on, isinstance(e, Payment))):
        if not isinstance(entry, Payment):
            _on_credit(book, entry, currency)
        elif not _paid(book, entry):
            unplaced.append(entry)
    owing = sorted((one.debt() for one in book.values() if one.owes), key=lambda debt: debt.since)
    return Accounts(debts=tuple(owing), unplaced=tuple(unplaced))


def debts(entries: Iterable[Entry], until: date) -> tuple[Debt, ...]:
    """What each buyer owes at the end of the day *until*, the oldest debt first."""
    return accounts(entries, until).debts


def _counting(entries: Iterable[Entry], until: date) -> Iterable[Entry]:
    return (e for e in entries if e.happened_on <= until and (isinstance(e, Payment) or is_on_credit(e)))


def is_on_credit(entry: Entry) -> bool:
    """Whether *entry* is a sale that was not paid at once."""
    return bool(getattr(entry, "credit", False))


def _on_credit(book: dict[tuple[str, str], _Account], entry: Entry, currency: str) -> None:
    amount: Money | None = getattr(entry, "amount", None)
    buyer: str | None = getattr(entry, "buyer", None)
    account = _account(book, buyer, currency if amount is None else amount.currency)
    if amount is None:
        account.unpriced.append((entry.happened_on, entry))
    else:
        account.take(entry.happened_on, amount.amount)


def _paid(book: dict[tuple[str, str], _Account], payment: Payment) -> bool:
    """Take a payment in; False where it is not known whose it is."""
    amount = payment.amount
    if payment.buyer is not None:
        _account(book, payment.buyer, amount.currency).pay(amount.amount)
        return True
    owing = [one for one in book.values() if one.owes and one.currency == amount.currency]
    if len(owing) != 1:
        return False
    owing[0].pay(amount.amount)
    return True


def _account(book: dict[tuple[str, str], _Account], buyer: str | None, currency: str) -> _Account:
    account = book.setdefault((folded(buyer), currency), _Account(buyer, currency))
    account.buyer = buyer or account.buyer  # spelled as told last
    return account


# --- prices ----------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What was paid for one litre, or for a feed as told, on its latest day."""

    what: str | None  # the buyer, the feed
    price: Money
    on: date


def last_price(sales: Iterable[Entry], buyer: str | None) -> Price | None:
    """The price of a litre that *buyer* paid last; where he has paid none yet, the farm's last."""
    told = [_price_of(sale) for sale in sales if isinstance(sale, MilkSale) and sale.price is not None]
    his = [price for price in told if buyer is not None and folded(price.what) == folded(buyer)]
    return _latest(his or told) if told else None


def _latest(told: list[Price]) -> Price:
    """The latest; of one day, the one told last."""
    return max(enumerate(told), key=lambda pair: (pair[1].on, pair[0]))[1]


def _price_of(sale: MilkSale) -> Price:
    assert sale.price is not None  # noqa: S101 - asked for by the caller
    return Price(what=sale.buyer, price=sale.price, on=sale.on)


def milk_prices(sales: Iterable[Entry]) -> tuple[Price, ...]:
    """The price of a litre that each buyer paid last, the latest first."""
    return _by_name(_price_of(s) for s in sales if isinstance(s, MilkSale) and s.price is not None)


def feed_prices(entries: Iterable[Entry], is_feed: Callable[[str], bool]) -> tuple[Price, ...]:
    """What was paid last for each feed bought, as told; *is_feed* says which purchases are feed."""
    bought = (e for e in entries if isinstance(e, Expense))
    return _by_name(Price(what=e.what, price=e.amount, on=e.on) for e in bought if e.what and is_feed(e.what))


def _by_name(told: Iterable[Price]) -> tuple[Price, ...]:
    latest: dict[str, list[Price]] = {}
    for price in told:
        latest.setdefault(folded(price.what), []).append(price)
    return tuple(sorted(map(_latest, latest.values()), key=lambda price: price.on, reverse=True))


LEAST_PRICE, MOST_PRICE = Decimal(100), Decimal(4_000)
"""Shillings (TZS) between which a litre's price lies, widely; common practice, no source."""


def as_price(told: Money, litres: Decimal | None) -> Money | None:
    """
    The price of a litre in a bare sum that answers "at what price?".

    A sum too high for one litre that would be likely for all is the whole: its share is the price. None:
    it can be neither, so it answers something else.
    """
    if told.currency != "TZS" or LEAST_PRICE <= told.amount <= MOST_PRICE:
        return told
    each = Money.of(told.amount / litres, told.currency) if litres else told
    return each if LEAST_PRICE <= each.amount <= MOST_PRICE and told.amount > MOST_PRICE else None
