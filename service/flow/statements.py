"""The farm's month or year in milk and money, and what one cow earned: read from the ledger and answered."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import sqlalchemy as sa

from dialogs.answers_statement import answer_cow, answer_statement
from dialogs.costs import SORTING
from dialogs.statement_page import page
from dialogs.values import dialled
from service.flow.finding import find_present
from service.flow.telling import Telling
from service.husbandry import statement
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import AnimalSale, Death, NewAnimal
from service.husbandry.kinds.instructions import Ask
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.one_day import DryingOff
from service.husbandry.kinds.service import Service
from service.husbandry.kinds.trade import Delivery, Expense, Feeding, MilkPay, MilkSale, OtherIncome
from service.husbandry.months import months_after
from service.husbandry.replay import replay
from service.husbandry.statement import Books, Statement
from service.husbandry.task import day_of
from service.records import farms, ledger, people
from service.records import plan as plans

OF_THE_DAYS = tuple(kind.KIND for kind in (Milk, Delivery, Feeding, Service, NewAnimal, AnimalSale))
"""Kinds that count in the months they are told of and nowhere else."""

EVER = tuple(kind.KIND for kind in (MilkPay, Expense, OtherIncome, DryingOff, Calving, Death))
"""Kinds of which earlier ones tell prices, what is left of a loan, and whether a cow is dry."""

PRICES_FROM = timedelta(days=366)
"""How long before a month sales are looked at for the price of its milk."""

NEW_MONTH_DAYS = 10
"""So many days into a month, who names none means the month before; Byreline's own choice."""


@dataclass(frozen=True, slots=True)
class Desk:
    """Whose statement, on which day, in which currency."""

    conn: sa.Connection
    farm_id: int
    today: date
    currency: str


def books(desk: Desk, first: date) -> Books:
    """What statements of months from the day *first* on, and of the month before it, are made from."""
    since = months_after(first, -1)
    told = (
        *ledger.of_kinds(desk.conn, desk.farm_id, OF_THE_DAYS, since, desk.today),
        *ledger.of_kinds(desk.conn, desk.farm_id, (MilkSale.KIND,), since - PRICES_FROM, desk.today),
        *ledger.of_kinds(desk.conn, desk.farm_id, EVER, date.min, desk.today),
        *ledger.owing(desk.conn, desk.farm_id, desk.today),
    )
    return Books(
        told=tuple({one.id: one for one in told}.values()),
        today=desk.today,
        begun=ledger.first_day(desk.conn, desk.farm_id, Milk.KIND),
        currency=desk.currency,
        sorting=SORTING,
    )


def of_month(desk: Desk, first: date) -> tuple[Statement, Statement]:
    """The month that begins on the day *first*, and the one before it."""
    found = books(desk, first)
    return statement.month(found, first), statement.month(found, months_after(first, -1))


def of_year(desk: Desk, number: int) -> Statement:
    return statement.year(books(desk, date(number, 1, 1)), number)


# --- printed ----------------------------------------------------------------------------------------


class NoSuchFarm(Exception):
    """No farm has the phone; the message says so in one line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which page: of a *month* (its first day) or a *year*, else of the month of today."""

    month: date | None = None
    year: int | None = None
    language: str | None = None  # else the owner's


def printed(conn: sa.Connection, phone: str, wanted: Wanted, today: date, currency: str) -> str:
    """
    The statement of the farm of *phone* as a page of plain text.

    Raises:
        NoSuchFarm: *phone* is no farm's.
    """
    farm_id = people.farm_of(conn, phone)
    if farm_id is None:
        raise NoSuchFarm(f"no farm has the phone {phone}")
    owner = next(one for one in people.of_farm(conn, farm_id) if one.role == farms.OWNER)
    desk = Desk(conn, farm_id, today, currency)
    if wanted.year is not None:
        found, before = of_year(desk, wanted.year), None
    else:
        found, before = of_month(desk, wanted.month or today.replace(day=1))
    animals = replay(ledger.read(conn, farm_id)).animals
    names = {cow: animal.name for cow, animal in animals.items()}
    whose = f"{owner.name} {dialled(phone)}" if owner.name else dialled(phone)
    return page(found, before, whose, names, wanted.language or owner.language)


# --- asked for by text ------------------------------------------------------------------------------


def answer(telling: Telling, ask: Ask) -> None:
    """A month's statement, or a year's, or what one cow of the farm earned in it."""
    today = telling.local.date()
    desk = Desk(telling.conn, telling.book.farm_id, today, telling.house.place.currency)
    found, before = _asked_for(desk, ask)
    telling.answers.append(_worded(telling, ask, found, before))
    _not_told_of_again(telling)


def _asked_for(desk: Desk, ask: Ask) -> tuple[Statement, Statement | None]:
    """The statement, and that of the month before; a month named goes over a year."""
    if ask.month is not None:
        return of_month(desk, ask.month)
    return _latest(desk) if ask.year is None else (of_year(desk, int(ask.year)), None)


def _worded(telling: Telling, ask: Ask, found: Statement, before: Statement | None) -> str:
    farm = telling.book.farm
    if ask.animal is None:
        names = {cow: animal.name for cow, animal in farm.animals.items()}
        offered = "statement" not in farm.asked_on and not found.is_year
        return answer_statement(found, before, names, telling.language, offered=offered)
    animal = find_present(farm, ask.animal)
    if animal is None:
        animal = next((one for one in farm.animals.values() if ask.animal in one.names), None)
    return answer_cow(found, animal, telling.language)


def _latest(desk: Desk) -> tuple[Statement, Statement]:
    """This month, or in its first days the one before, where anything was told of that."""
    this = desk.today.replace(day=1)
    found = books(desk, months_after(this, -1))
    now, before, third = (statement.month(found, months_after(this, -back)) for back in range(3))
    if desk.today.day <= NEW_MONTH_DAYS and not before.figures.is_empty:
        return before, third
    return now, before


def _not_told_of_again(telling: Telling) -> None:
    """Who has read the statement is not reminded of it once more."""
    for kept in plans.open_tasks(telling.conn, telling.book.farm_id):
        if kept.task.key.task == "statement" and day_of(kept.task.due) <= telling.local.date():
            plans.remind_again(telling.conn, kept.id, None, told=False)
