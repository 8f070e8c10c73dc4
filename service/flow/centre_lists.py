"""
The centre's lists, taken in: what it measured of each farm on each day, and what it paid for a month.

A list is a table of rows by column name; blank rows are passed over. Lines that are right are written and
the others named: whoever loads the list takes all of it back where a line is wrong. The same list again
changes nothing, a corrected line goes in the place of what it had before.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from uuid import uuid4

import sqlalchemy as sa

from dialogs.grammar.place import Place
from service.flow.centre import pays_of
from service.husbandry.centre_pay import OFFICE
from service.husbandry.forms import Deduction
from service.husbandry.herd import Farm, Told
from service.husbandry.kinds.trade import MilkPay
from service.husbandry.signs import SESSIONS
from service.husbandry.units import Money
from service.phones import phone_of
from service.records import centre, farms, ledger, texts
from service.records.farms import Caller
from service.records.ledger import Book

LIST = "list"
"""The channel of what the cooperative loads, as against a phone's text."""

MOST = Decimal(100_000)
"""More milk than a line can have: litres or kilograms."""

WRITTEN = re.compile(r"(\d+|\d{1,3}(,\d{3})+)(\.\d+)?", re.ASCII)
"""A number from 0 on."""

Row = Mapping[str, str]
Wrong = tuple[int, str]
"""The line in the file (its head is line 1) and what is wrong with it."""


class WrongLine(Exception):
    """A line cannot be taken; the message is the sentence that says why."""


@dataclass(frozen=True, slots=True)
class Desk:
    """The office at work on one list. *now*: aware, in the farms' zone."""

    conn: sa.Connection
    cooperative_id: int
    place: Place
    now: datetime


@dataclass(frozen=True, slots=True)
class Line:
    """A line that is right: what it is about, for which a list may have no second, and how it is written."""

    about: str
    write: Callable[[], None]


def load_centre(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """
    Take in the centre's list of days: ``phone``, ``date``, ``session`` (may be empty), ``litres`` or ``kg``.

    Returns:
        The lines that could not be taken, with a sentence for each.
    """
    return _load(Desk(conn, cooperative_id, place, now), rows, _day)


def load_pay(
    conn: sa.Connection, cooperative_id: int, rows: Sequence[Row], place: Place, now: datetime
) -> list[Wrong]:
    """
    Take in the centre's list of pay: ``phone``, ``month``, ``litres`` or ``kg``, ``amount``, ``deductions``.

    Deductions are ``what:amount``, with semicolons between. Each line is kept as a record of the farm told
    by the office; what the farm told of the month itself stays beside it and is counted no more.

    Returns:
        The lines that could not be taken, with a sentence for each.
    """
    return _load(Desk(conn, cooperative_id, place, now), rows, _pay)


def _load(desk: Desk, rows: Sequence[Row], read: Callable[[Desk, Caller, Row], Line]) -> list[Wrong]:
    """Each line by itself; of two about the same the first stands, and the second is said to be wrong."""
    wrong: list[Wrong] = []
    taken: dict[tuple[int, str], int] = {}
    for number, row in enumerate(rows, 2):
        if not any(cell.strip() for cell in row.values()):
            continue
        try:
            caller = _farm(desk, row)
            line = read(desk, caller, row)
            before = taken.setdefault((caller.farm_id, line.about), number)
            if before != number:
                raise WrongLine(f"{line.about} of this farm is in line {before} already")
        except WrongLine as error:
            wrong.append((number, str(error)))
        else:
            line.write()
    return wrong


def _farm(desk: Desk, row: Row) -> Caller:
    told = _cell(row, "phone")
    phone = phone_of(told, desk.place.region)
    caller = None if phone is None else farms.caller(desk.conn, phone)
    if caller is None or caller.cooperative_id != desk.cooperative_id:
        raise WrongLine(f"{told or 'an empty phone'} is no farm's phone of this cooperative")
    return caller


# --- days ------------------------------------------------------------------------------------------


def _day(desk: Desk, caller: Caller, row: Row) -> Line:
    on, session = _date(desk, row), _cell(row, "session").casefold() or "day"
    if session not in SESSIONS:
        raise WrongLine(f"session {session} is none of {', '.join(SESSIONS)}")
    litres, kg = _milk(row)
    if litres is None and kg is None:
        raise WrongLine("neither litres nor kg are given")
    return Line(
        f"{on.isoformat()} {session}",
        lambda: centre.keep(desk.conn, caller.farm_id, on, session, litres=litres, kg=kg),
    )


def _date(desk: Desk, row: Row) -> date:
    try:
        on = date.fromisoformat(_cell(row, "date"))
    except ValueError:
        raise WrongLine("date is not written as 2026-03-09") from None
    if on > desk.now.date():
        raise WrongLine(f"{on.isoformat()} is still to come")
    return on


def _milk(row: Row) -> tuple[Decimal | None, Decimal | None]:
    """Litres and kilograms of a line, of which at most one is given."""
    litres, kg = (_number(row, name, MOST) for name in ("litres", "kg"))
    if litres is not None and kg is not None:
        raise WrongLine("litres and kg are both given: one is the other converted")
    return litres, kg


# --- pay -------------------------------------------------------------------------------------------


def _pay(desk: Desk, caller: Caller, row: Row) -> Line:
    litres, kg = _milk(row)
    pay = MilkPay(
        month=_month(desk, row),
        litres=litres,
        kg=kg,
        amount=_money(desk, _cell(row, "amount"), "amount"),
        deductions=tuple(
            _deduction(desk, part) for part in _cell(row, "deductions").split(";") if part.strip()
        ),
        on=desk.now.date(),
    )
    return Line(_cell(row, "month"), lambda: _keep_pay(desk, caller, pay))


def _month(desk: Desk, row: Row) -> date:
    try:
        month = date.fromisoformat(f"{_cell(row, 'month')}-01")
    except ValueError:
        raise WrongLine("month is not written as 2026-03") from None
    if month > desk.now.date():
        raise WrongLine(f"{_cell(row, 'month')} is still to come")
    return month


def _deduction(desk: Desk, told: str) -> Deduction:
    what, colon, sum_ = told.partition(":")
    if not colon or not what.strip():
        raise WrongLine(f"deduction {told.strip()} is not written as feed:20000")
    return Deduction(what.strip(), _money(desk, sum_, f"deduction {what.strip()}"))


def _keep_pay(desk: Desk, caller: Caller, pay: MilkPay) -> None:
    """Record *pay* in the place of what the list had of that month before; nothing where it is the same."""
    assert pay.month is not None  # noqa: S101 - read from the line
    before = [one for one in pays_of(desk.conn, caller.farm_id, pay.month) if one.told_by == OFFICE]
    if any(_same(one, pay) for one in before):
        return
    text_id = _keep_line(desk, caller, pay)
    for one in before:
        ledger.undo_one(desk.conn, caller.farm_id, one.id, text_id=text_id, now=desk.now)
    # A payment names no animal: what the herd is like is of no account.
    book = Book(caller.farm_id, caller.version, (), Farm())
    ledger.append(desk.conn, book, [pay], text_id=text_id, told_by=OFFICE, told_at=desk.now)


def _same(told: Told, pay: MilkPay) -> bool:
    return isinstance(told.entry, MilkPay) and replace(told.entry, on=pay.on) == pay


def _keep_line(desk: Desk, caller: Caller, pay: MilkPay) -> str:
    """Keep the line among what came in, so that the record says where it is from; its id."""
    text_id = f"{LIST}:{uuid4().hex}"
    texts.take(
        desk.conn,
        id=text_id,
        sender=OFFICE,
        recipient="",
        text=_written(pay),
        sent_at=desk.now,
        arrived_at=desk.now,
        channel=LIST,
        farm_id=caller.farm_id,
    )
    return text_id


def _written(pay: MilkPay) -> str:
    """The line as it was listed."""
    kept = ";".join(f"{one.what}:{one.amount.amount}" for one in pay.deductions)
    cells = (pay.month, pay.litres, pay.kg, pay.amount.amount if pay.amount is not None else None, kept)
    return ",".join("" if cell is None else str(cell) for cell in cells)


# --- cells -----------------------------------------------------------------------------------------


def _cell(row: Row, name: str) -> str:
    return (row.get(name) or "").strip()


def _number(row: Row, name: str, most: Decimal) -> Decimal | None:
    told = _cell(row, name)
    if not told:
        return None
    number = _decimal(told)
    if number is None or number > most:
        raise WrongLine(f"{name} {told} is no number from 0 to {most}")
    return number


def _money(desk: Desk, told: str, name: str) -> Money:
    number = _decimal(told)
    if number is None:
        raise WrongLine(f"{name} {told.strip() or 'left empty'} is no sum")
    return Money.of(number, desk.place.currency)


def _decimal(told: str) -> Decimal | None:
    """A number as spreadsheets write it, with commas between thousands or none; "12,5" is not guessed at."""
    plain = told.strip()
    return Decimal(plain.replace(",", "")) if WRITTEN.fullmatch(plain) else None
