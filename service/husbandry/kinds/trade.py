"""Feed, milk and money that change hands."""

from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import ClassVar

from service.husbandry import forms
from service.husbandry.forms import Deduction
from service.husbandry.signs import SESSIONS
from service.husbandry.units import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding(forms.Entry):
    """Feed given; ``kg`` for all the animals named together."""

    KIND: ClassVar[str] = "feeding"
    PLANS: ClassVar[bool] = False

    animals: tuple[str, ...] = forms.animals(needed=False)
    on: date = forms.day()
    feed: str | None = forms.words()
    kg: Decimal | None = forms.quantity(0, 100000)
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class MilkSale(forms.Entry):
    """Milk sold, paid or on ``credit``; any two of litres, price (of one) and amount give the third."""

    KIND: ClassVar[str] = "milk_sale"
    PLANS: ClassVar[bool] = False

    litres: Decimal | None = forms.quantity(0, 10000)
    price: Money | None = forms.money()
    amount: Money | None = forms.money()
    buyer: str | None = forms.words()
    credit: bool = forms.flag()
    on: date = forms.day()
    about: bool = forms.flag()

    def __post_init__(self) -> None:
        """Whoever tells a sale, by text, menu or answer: the third follows from the other two."""
        for name, value in third(self.litres, self.price, self.amount).items():
            object.__setattr__(self, name, value)


_ROUNDED = Decimal(1)
"""What the price of a litre may be off by, in the currency's unit, where a whole sum was shared out."""


def third(litres: Decimal | None, price: Money | None, amount: Money | None) -> dict[str, Decimal | Money]:
    """Of litres, price of one and the whole: the one that the other two give; nothing where they do not."""
    if litres is not None and price is not None and amount is None:
        return {"amount": Money.of(litres * price.amount, price.currency)}
    if litres and amount is not None and price is None:
        return {"price": Money.of(amount.amount / litres, amount.currency)}
    if litres is None and price is not None and amount is not None and price.amount:
        return {"litres": (amount.amount / price.amount).quantize(Decimal("0.01"), ROUND_HALF_UP)}
    return {}


def disagree(litres: Decimal | None, price: Money | None, amount: Money | None) -> bool:
    """Whether all three of a sale are told and one of them must be wrong."""
    if litres is None or price is None or amount is None:
        return False
    return abs(litres * price.amount - amount.amount) > max(litres, Decimal(1)) * _ROUNDED


@dataclass(frozen=True, slots=True, kw_only=True)
class Payment(forms.Entry):
    """A buyer on credit paid what was owed, or part of it."""

    KIND: ClassVar[str] = "payment"
    PLANS: ClassVar[bool] = False

    buyer: str | None = forms.words()
    amount: Money = forms.money(needed=True)
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery(forms.Entry):
    """Milk handed in at the cooperative's centre, in litres or kilograms as told."""

    KIND: ClassVar[str] = "delivery"
    PLANS: ClassVar[bool] = False

    litres: Decimal | None = forms.quantity(0, 10000)
    kg: Decimal | None = forms.quantity(0, 10000)
    session: str | None = forms.choice(*SESSIONS)
    rejected: bool = forms.flag()
    reason: str | None = forms.words()
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class MilkPay(forms.Entry):
    """What the centre paid for a month."""

    KIND: ClassVar[str] = "milk_pay"
    PLANS: ClassVar[bool] = False

    month: date | None = forms.month()
    litres: Decimal | None = forms.quantity(0, 100000)
    kg: Decimal | None = forms.quantity(0, 100000)
    amount: Money | None = forms.money()
    deductions: tuple[Deduction, ...] = forms.deductions()
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class Expense(forms.Entry):
    """Money spent; ``kg`` where the weight of what was bought is told."""

    KIND: ClassVar[str] = "expense"
    PLANS: ClassVar[bool] = False

    what: str | None = forms.words()
    amount: Money = forms.money(needed=True)
    kg: Decimal | None = forms.quantity("0.1", 100000)
    on: date = forms.day()
    about: bool = forms.flag()


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherIncome(forms.Entry):
    """Money earned by something else than milk or animals."""

    KIND: ClassVar[str] = "other_income"
    PLANS: ClassVar[bool] = False

    what: str | None = forms.words()
    amount: Money = forms.money(needed=True)
    on: date = forms.day()
    about: bool = forms.flag()
