"""Days open, services, from calf to calf."""

from __future__ import annotations

from service.husbandry.fertility import calving_interval, conceive_by, days_open, fertility, heats_served
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from tests.unit.husbandry.book import Book, at, day


def cow(name: str = "Neema") -> NewAnimal:
    return NewAnimal(name=name, sex="female", status="milking", on=day("2025-06-01"))


def served(on: str) -> Service:
    return Service(animal="Neema", on=day(on), method="ai")


def test_the_days_of_the_worked_example() -> None:
    # Conceived 2026-06-04 and calved 2027-03-10: days open 140, gestation 279, interval 419 (computed).
    calved = day("2026-01-15")
    assert days_open(calved, day("2026-06-04")) == 140
    assert calving_interval([calved, day("2027-03-10")]) == 419


def test_for_a_calf_a_year_she_must_conceive_by_day_86() -> None:
    # Calved 2026-01-15, gestation 279: by 2026-04-11, for an interval of 400 by 2026-05-16 (computed).
    assert conceive_by(day("2026-01-15"), 279) == day("2026-04-11")
    assert conceive_by(day("2026-01-15"), 279, 400) == day("2026-05-16")


def test_two_services_of_one_heat_count_once() -> None:
    days = [day("2026-03-01"), day("2026-03-02"), day("2026-03-22"), day("2026-04-12")]
    assert heats_served(days) == 3
    assert heats_served([]) == 0


def test_a_cow_in_calf_tells_when_she_conceived_and_when_the_next_calf_comes() -> None:
    book = Book(
        cow(),
        Calving(animal="Neema", on=day("2026-01-15")),
        served("2026-06-04"),
        PregnancyCheck(animal="Neema", on=day("2026-08-10"), result="pregnant"),
    )
    found = fertility(book.animal("Neema"), book.told, day("2026-09-01"))
    assert found is not None
    assert (found.open_days, found.conceive_by, found.services) == (140, None, 1)
    assert (found.interval, found.next_interval) == (None, 140 + 282)


def test_three_services_that_did_not_hold_are_a_repeat_breeder() -> None:
    book = Book(cow(), Calving(animal="Neema", on=day("2026-01-15")))
    for on in ("2026-04-01", "2026-04-22", "2026-05-13"):
        book.tell(served(on))
    waiting = fertility(book.animal("Neema"), book.told, day("2026-05-20"))
    assert waiting is not None
    assert not waiting.repeats
    book.tell(Heat(animal="Neema", first_seen=at("2026-06-03 06:00")))
    failed = fertility(book.animal("Neema"), book.told, day("2026-06-03"))
    assert failed is not None
    assert (failed.repeats, failed.services, failed.open_days) == (True, 3, 139)


def test_a_calving_begins_the_count_anew() -> None:
    book = Book(cow(), served("2025-06-04"), Calving(animal="Neema", on=day("2026-03-10")))
    found = fertility(book.animal("Neema"), book.told, day("2026-03-20"))
    assert found is not None
    assert (found.services, found.open_days, found.repeats) == (0, 10, False)


def test_a_heifer_never_served_tells_nothing() -> None:
    book = Book(NewAnimal(name="Pendo", sex="female", status="heifer", on=day("2026-01-01"), price=None))
    assert fertility(book.animal("Pendo"), book.told, day("2026-03-01")) is None
