"""A line of a cooperative's list of semen, read."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

from service import sms
from service.flow.centre_lists import WRITTEN, WrongLine
from service.husbandry.breeds import parents
from service.husbandry.pedigree import plain
from service.husbandry.semen import HIGHEST, TRAITS, Bull
from service.husbandry.units import Money

NEEDED = ("code", "bull", "breed", "reliability", "price", "straws")
KIN = ("sire", "dam", "maternal_grandsire")
MORE = (*TRAITS, *KIN)

MOST_STRAWS = 100_000

LONGEST = {"bull": 16, "code": 12}
"""Characters of a name and of a code: with more, three bulls and why each fit no answer."""

VALUE = re.compile(r"[+-]?\d{1,2}(\.\d{1,4})?", re.ASCII)

Cell = Callable[[str], str | None]
"""A cell of the line by the name of its column; None where it is empty."""


def bull_of(cell: Cell, currency: str) -> Bull:
    """
    The bull of a line.

    Raises:
        WrongLine: A cell that is needed is empty, or one holds what it cannot.
    """
    straws = _whole(cell, "straws", MOST_STRAWS)
    return Bull(
        code=_name(cell, "code"),
        name=_name(cell, "bull"),
        breed=_breed(cell),
        values={trait: value for trait in TRAITS if (value := _value(cell, trait)) is not None},
        reliability=Decimal(_whole(cell, "reliability", 100)) / 100,
        price=_price(cell, currency),
        straws=straws,
        **{name: _kin(cell, name) for name in KIN},
    )


def _told(cell: Cell, name: str) -> str:
    told = cell(name)
    if told is None:
        raise WrongLine(f"{name} is empty")
    return told


def _name(cell: Cell, column: str) -> str:
    told = sms.plain(_told(cell, column))
    if sms.septets(told) > LONGEST[column]:
        raise WrongLine(f"{column} {told} has more than {LONGEST[column]} characters")
    if not plain(told):
        raise WrongLine(f"{column} has neither letters nor figures")
    return told


def _kin(cell: Cell, column: str) -> str | None:
    told = cell(column)
    return told if told is not None and plain(told) else None


def _breed(cell: Cell) -> str:
    told = _told(cell, "breed")
    if not parents(told):
        raise WrongLine(f"breed {told} is not known")
    return sms.plain(told)


def _value(cell: Cell, trait: str) -> Decimal | None:
    """A breeding value in standard deviations; it bears its sign, so that none is left in other units."""
    told = cell(trait)
    if told is None:
        return None
    if VALUE.fullmatch(told) is None or abs(Decimal(told)) > HIGHEST:
        raise WrongLine(f"{trait} {told} is no standardised value from -{HIGHEST} to {HIGHEST}")
    return Decimal(told)


def _price(cell: Cell, currency: str) -> Money:
    told = _told(cell, "price")
    if WRITTEN.fullmatch(told) is None:
        raise WrongLine(f"price {told} is no sum")
    return Money.of(told.replace(",", ""), currency)


def _whole(cell: Cell, name: str, most: int) -> int:
    told = _told(cell, name)
    if not (told.isascii() and told.isdigit()) or int(told) > most:
        raise WrongLine(f"{name} {told} is no whole number from 0 to {most}")
    return int(told)
