"""What is known of a cow's milk beside the litres."""

from __future__ import annotations

from datetime import timedelta

from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import AnimalSale, NewAnimal
from service.husbandry.kinds.milk import MilkReason
from service.husbandry.kinds.one_day import DryingOff
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.milk_course import course_of, course_of_sum
from tests.unit.husbandry.book import Book, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-06-01"))


def test_calvings_and_drying_off_are_hers_alone() -> None:
    other = NewAnimal(name="Tausi", sex="female", status="milking", on=day("2025-06-01"))
    book = Book(
        COW,
        other,
        Calving(animal="Neema", on=day("2026-01-15")),
        Calving(animal="Tausi", on=day("2026-02-15")),
        DryingOff(animal="Tausi", on=day("2026-01-02")),
    )
    course = course_of(book.animal("Neema"), book.told, [])
    assert (list(course.calved_on), course.dried_on) == ([day("2026-01-15")], None)


def test_found_in_calf_less_milk_is_wanted_from_the_time_for_drying_off_on() -> None:
    served = Service(animal="Neema", on=day("2026-01-01"), method="ai")
    book = Book(COW, served)
    assert course_of(book.animal("Neema"), book.told, []).drying_from is None  # only served
    book.tell(PregnancyCheck(animal="Neema", on=day("2026-03-10"), result="pregnant"))
    course = course_of(book.animal("Neema"), book.told, [])
    due = day("2026-01-01") + timedelta(days=282)
    assert course.drying_from == due - timedelta(days=60)
    assert course.counts(due - timedelta(days=61))
    assert not course.counts(due - timedelta(days=60))


def test_a_day_on_which_the_calf_sucked_is_left_out_and_the_level_begins_anew() -> None:
    book = Book(COW)
    told = [
        book.tell(MilkReason(animal="Neema", on=day("2026-03-02"), reason=reason))
        for reason in ("calf", "weather")
    ]
    course = course_of(book.animal("Neema"), book.told, told)
    assert not course.counts(day("2026-03-02"))
    assert course.level_since(day("2026-03-05")) == day("2026-03-02")
    assert course_of(book.animal("Neema"), book.told, told[1:]).counts(day("2026-03-02"))


def test_the_sum_of_the_herd_begins_anew_where_a_cow_leaves_it_and_is_left_out_while_one_is_dried() -> None:
    other = NewAnimal(name="Tausi", sex="female", status="milking", on=day("2025-06-01"))
    calf = NewAnimal(name="Kito", sex="male", status="calf", on=day("2026-02-20"))
    book = Book(
        COW,
        other,
        calf,
        DryingOff(animal="Neema", on=day("2026-03-10")),
        AnimalSale(animal="Tausi", on=day("2026-03-20")),
    )
    course = course_of_sum(book.farm, book.told, [], day("2026-02-01"), day("2026-03-31"))
    assert {day("2026-03-03"), day("2026-03-10")} <= set(course.left_out)
    assert not {day("2026-03-02"), day("2026-03-11")} & set(course.left_out)
    assert {day("2026-03-10"), day("2026-03-20")} <= set(course.anew)
    assert day("2026-02-20") not in course.anew
