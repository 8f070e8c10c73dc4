"""Feed, milk and money that change hands."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
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
    """Milk sold; any two of litres, price (of one litre) and amount (the whole) give the third."""

    KIND: ClassVar[str] = "milk_sale"
    PLANS: ClassVar[bool] = False

    litres: Decimal | None = forms.quantity(0, 10000)
    price: Money | None = forms.money()
    amount: Money | None = forms.money()
    buyer: str | None = forms.words()
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
    """Money spent."""

    KIND: ClassVar[str] = "expense"
    PLANS: ClassVar[bool] = False

    what: str | None = forms.words()
    amount: Money = forms.money(needed=True)
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
