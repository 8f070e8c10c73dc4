"""Milk handed in against what the centre listed and paid for: worked by hand."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from service.husbandry.reconcile import KG, LITRES, Quantity, compare, quantity, reconcile


def march(day: int) -> date:
    return date(2026, 3, day)


def days(**litres: str) -> dict[date, Decimal]:
    return {march(int(day.removeprefix("d"))): Decimal(amount) for day, amount in litres.items()}


MONTH = {march(day): Decimal(12) for day in range(1, 31)} | {march(31): Decimal(6)}
"""366 litres: thirty days of 12 l and one of 6."""

UNLISTED = {march(9): "5", march(17): "4.5", march(23): "4.5"}


def test_three_days_missing_from_the_list_are_named_and_make_the_difference() -> None:
    """28 days of 352 l on the list, three of 14 l that are not: 366 l handed in."""
    listed = {march(day): Decimal(13) for day in range(1, 31) if march(day) not in UNLISTED}
    listed[march(31)] = Decimal(1)
    delivered = listed | {day: Decimal(amount) for day, amount in UNLISTED.items()}
    found = reconcile(delivered, listed, Decimal(352))
    assert (found.delivered, found.short) == (Decimal(366), Decimal(14))
    assert [day.day for day in found.missing] == [9, 17, 23]
    assert (found.less, found.more, found.agrees) == ({}, {}, False)


def test_all_paid_for_agrees() -> None:
    found = reconcile(MONTH, MONTH, Decimal(366))
    assert (found.agrees, found.missing, found.short) == (True, (), 0)


def test_tenths_lost_by_writing_down_are_no_difference() -> None:
    assert reconcile(MONTH, {}, Decimal("364.9")).agrees
    assert not reconcile(MONTH, {}, Decimal(364)).agrees


def test_without_a_list_no_day_is_named() -> None:
    found = reconcile(MONTH, {}, Decimal(352))
    assert (found.short, found.has_list, found.missing, found.less) == (14, False, (), {})


def test_days_of_which_the_list_has_less_or_more_are_told_apart() -> None:
    found = reconcile(days(d1="10", d2="10", d3="10"), days(d1="8.5", d2="10", d3="11", d4="7"), None)
    assert found.less == days(d1="1.5")
    assert found.more == days(d3="1", d4="7")
    assert found.short == 0


def test_a_day_listed_with_nothing_is_missing() -> None:
    assert reconcile(days(d1="10", d2="9"), days(d1="10", d2="0"), None).missing == (march(2),)


def test_more_paid_than_told_is_below_zero() -> None:
    found = reconcile(days(d1="10"), {}, Decimal(30))
    assert (found.short, found.days) == (-20, 1)


# 2,518.5 kg = 2,445.15 l at 1.03 kg a litre (computed); 10 l = 10.30 kg.
@pytest.mark.parametrize(
    ("told", "unit", "amount"),
    [
        (Quantity(Decimal("2518.5"), KG), LITRES, "2445.15"),
        (Quantity(Decimal(10), LITRES), KG, "10.30"),
        (Quantity(Decimal(10), LITRES), LITRES, "10"),
    ],
)
def test_a_quantity_is_converted_only_into_the_other_unit(told: Quantity, unit: str, amount: str) -> None:
    assert told.in_unit(unit) == Decimal(amount)


def test_kilograms_are_compared_as_kilograms() -> None:
    load = Quantity(Decimal("20.6"), KG)
    found = compare([(march(1), load)], [(march(1), load)], Quantity(Decimal("20.6"), KG))
    assert (found.unit, found.delivered, found.converted, found.agrees) == (KG, Decimal("20.6"), False, True)


def test_litres_told_and_kilograms_paid_are_compared_in_kilograms_and_it_is_said() -> None:
    loads = [(march(1), Quantity(Decimal(12), LITRES)), (march(1), Quantity(Decimal(8), LITRES))]
    found = compare(loads, [], Quantity(Decimal("20.6"), KG))
    assert (found.unit, found.delivered, found.converted, found.agrees) == (KG, Decimal("20.60"), True, True)


def test_nothing_told_at_all_is_nothing() -> None:
    assert quantity(None, None) is None
    assert compare([], [], None).delivered == 0
