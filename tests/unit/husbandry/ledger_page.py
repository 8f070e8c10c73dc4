"""Entries as the ledger gives them, written short, and the books that a statement is made from."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from dialogs.costs import SORTING
from service.husbandry.forms import Deduction, Entry
from service.husbandry.herd import Told
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.trade import Expense, MilkPay
from service.husbandry.statement import Books
from service.husbandry.units import Money
from tests.unit.husbandry.book import PHONE, at

IDS = {"Neema": 1, "Zawadi": 2, "Zawadi calf": 3}

MARCH = date(2026, 3, 1)


def tzs(amount: int | str) -> Money:
    return Money.of(amount, "TZS")


def march(day: int) -> date:
    return MARCH.replace(day=day)


def milk(cow: str, litres: str, on: date, session: str = "day") -> Milk:
    return Milk(animal=cow, litres=Decimal(litres), session=session, on=on)


def spent(what: str, amount: int, on: date, kg: str | None = None) -> Expense:
    return Expense(what=what, amount=tzs(amount), on=on, kg=None if kg is None else Decimal(kg))


def paid(month: date, amount: int, litres: str, on: date, **kept: int) -> MilkPay:
    """A month's pay; ``feed=4000``: kept back for feed."""
    deductions = tuple(Deduction(what, tzs(sum_)) for what, sum_ in kept.items())
    return MilkPay(month=month, amount=tzs(amount), litres=Decimal(litres), on=on, deductions=deductions)


def told(entries: Iterable[Entry], *, by: str = PHONE, first_id: int = 1) -> tuple[Told, ...]:
    """Each with an id by its place, its animals resolved."""
    return tuple(
        Told(
            id=number,
            entry=entry,
            animals=tuple(IDS[name] for name in entry.named if name in IDS),
            told_at=at("2026-03-02 06:00"),
            told_by=by,
        )
        for number, entry in enumerate(entries, first_id)
    )


def books(those: tuple[Told, ...], today: date, begun: date | None = None) -> Books:
    return Books(told=those, today=today, begun=begun, currency="TZS", sorting=SORTING)
