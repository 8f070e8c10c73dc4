"""What a cow gave since she calved, what is to come, and its shape."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from service.husbandry.herd import Animal
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.one_day import DryingOff
from service.husbandry.lactation import Level
from service.husbandry.lactation_so_far import Lactation, lactation_so_far
from service.husbandry.wood import Peak
from tests.unit.husbandry.book import Book, day

CALVED = day("2026-01-01")
MONTHLY = (
    (20, 9),
    (50, 12),
    (80, 11),
    (110, 10),
    (140, 9),
    (170, 8),
    (200, 7.5),
    (230, 7),
    (260, 6),
    (290, 5),
)
"""Kilograms of a smallholder's cow: the first example of docs/trade/milk.md."""


def cow(*more: DryingOff, status: str = "heifer") -> Animal:
    entered = NewAnimal(name="Neema", sex="female", status=status, on=day("2025-06-01"))
    return Book(entered, Calving(animal="Neema", on=CALVED), *more).animal("Neema")


def milk(after: int, kg: float) -> Milk:
    litres = (Decimal(str(kg)) / Decimal("1.03")).quantize(Decimal("0.01"))
    return Milk(animal="Neema", litres=litres, session="day", on=CALVED + timedelta(days=after))


def told(tests: int, animal: Animal) -> Lactation:
    found = lactation_so_far(animal, [milk(*one) for one in MONTHLY[:tests]])
    assert found is not None
    return found


def test_the_example_told_in_litres_comes_to_what_it_does_in_kilograms() -> None:
    # 1440.0 kg to day 140, and by day 305 2580.0 kg (docs/trade/milk.md; computed).
    found = told(5, cow(status="milking"))
    assert (found.days, round(found.litres * Decimal("1.03"), -1)) == (140, 1440)
    assert abs(found.whole * Decimal("1.03") - 2580) < 2 * found.error
    assert 100 < found.error < 200


def test_two_records_or_a_fortnight_tell_nothing_yet() -> None:
    assert lactation_so_far(cow(), [milk(*one) for one in MONTHLY[:2]]) is None
    assert lactation_so_far(cow(), [milk(n, 9) for n in range(5, 20)]) is None


def test_months_without_a_record_tell_nothing() -> None:
    assert lactation_so_far(cow(), [milk(20, 9), milk(110, 9), milk(140, 9)]) is None


def test_dried_off_nothing_is_projected() -> None:
    dried = DryingOff(animal="Neema", on=CALVED + timedelta(days=230))
    found = told(8, cow(dried))
    assert (found.days, found.whole) == (230, found.litres)


def test_the_peak_is_told_where_there_is_one_and_a_level_cow_has_none() -> None:
    rising = [milk(*one) for one in MONTHLY]
    found = lactation_so_far(cow(), rising)
    assert found is not None
    assert isinstance(found.shape, Peak)
    assert 45 < found.shape.t < 75  # day 61.9 (docs/trade/milk.md; computed)
    level = lactation_so_far(cow(), [milk(n, 7 + (n % 3 - 1) / 2) for n in range(5, 150, 2)])
    assert level is not None
    assert isinstance(level.shape, Level)


def test_without_a_calving_there_is_no_lactation() -> None:
    entered = Book(NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-06-01")))
    assert lactation_so_far(entered.animal("Neema"), [milk(*one) for one in MONTHLY]) is None
