"""What repeats on one farm."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from service.husbandry.kinds.herd_book import AnimalSale, Death, NewAnimal
from service.husbandry.kinds.trade import Delivery
from service.husbandry.trouble import calves_dead, rejected_days
from tests.unit.husbandry.book import Book, day

TODAY = day("2026-05-20")


def delivery(days_ago: int, *, rejected: bool = True) -> Delivery:
    on = TODAY - timedelta(days=days_ago)
    return Delivery(litres=Decimal(10), session=None, rejected=rejected, on=on)


def test_days_with_milk_turned_back_are_those_of_a_fortnight() -> None:
    loads = [delivery(ago) for ago in (0, 0, 5, 13, 14)]
    told = [Book().tell(one) for one in (*loads, delivery(3, rejected=False))]
    assert rejected_days(told, TODAY) == tuple(TODAY - timedelta(days=ago) for ago in (13, 5, 0))


def calves(*deaths: tuple[str, str, str | None]) -> Book:
    book = Book()
    for name, on, reason in deaths:
        book.tell(
            NewAnimal(name=name, sex="male", status="calf", born=day("2026-02-01"), on=day("2026-02-01"))
        )
        book.tell(Death(animal=name, on=day(on), reason=reason))
    return book


def test_calves_that_died_of_late_are_counted_the_first_first() -> None:
    book = calves(("Kito", "2026-05-10", None), ("Pili", "2026-04-01", "sick"), ("Tatu", "2026-02-10", None))
    assert [calf.name for calf in calves_dead(book.farm, TODAY)] == ["Pili", "Kito"]


@pytest.mark.parametrize("reason", ["slaughtered", "lost", "stolen", "accident"])
def test_a_calf_that_left_otherwise_is_none(reason: str) -> None:
    assert calves_dead(calves(("Kito", "2026-05-10", reason)).farm, TODAY) == ()


def test_a_cow_or_a_calf_sold_is_none() -> None:
    book = Book(NewAnimal(name="Neema", sex="female", status="milking", on=day("2026-01-01")))
    book.tell(Death(animal="Neema", on=day("2026-05-10"), reason="sick"))
    book.tell(NewAnimal(name="Kito", sex="male", status="calf", born=day("2026-03-01"), on=day("2026-03-01")))
    book.tell(AnimalSale(animal="Kito", on=day("2026-05-10")))
    assert calves_dead(book.farm, TODAY) == ()
