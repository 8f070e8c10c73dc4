"""Asking how an animal is that was told to be ill."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from scheduler.again import again_at
from scheduler.planning import Cause, Open, difference
from service.husbandry.kinds.health import Illness, Recovery, Treatment
from service.husbandry.kinds.herd_book import Death
from service.husbandry.replay import replay
from tests.unit.dialogs.farmhouse import new
from tests.unit.husbandry.book import ZONE, Book, at, day

ON = day("2026-03-02")


def ill(on: date = ON, *signs: str) -> Illness:
    return Illness(animal="Neema", on=on, signs=signs or ("off_feed",))


def check(book: Book, now: str = "2026-03-02 08:00") -> tuple[str, str | None] | None:
    return book.tasks(now, "Neema").get("illness_check")


def test_it_is_due_the_next_morning():
    assert check(Book(new("Neema"), ill())) == ("2026-03-03", "2026-03-16")


@pytest.mark.parametrize(
    "end",
    [
        Recovery(animal="Neema", on=ON),
        Recovery(animal="Neema", on=day("2026-03-05")),
        Treatment(animals=("Neema",), on=day("2026-03-03")),
        Death(animal="Neema", on=day("2026-03-03")),
    ],
    ids=lambda entry: f"{entry.KIND} {entry.happened_on}",
)
@pytest.mark.parametrize("first", ["illness", "end"])
def test_a_recovery_a_treatment_or_a_death_ends_it_in_any_order_of_telling(end, first):
    told = [ill(), end] if first == "illness" else [end, ill()]
    assert check(Book(new("Neema"), *told)) is None


def test_still_ill_moves_it_a_day():
    assert check(Book(new("Neema"), ill(), ill(day("2026-03-03")))) == ("2026-03-04", "2026-03-17")


def test_a_late_report_of_an_earlier_day_moves_nothing():
    later = Book(new("Neema"), ill(day("2026-03-03"), "cough"), ill())
    assert check(later) == ("2026-03-04", "2026-03-17")
    assert later.animal("Neema").ill_since == ON
    assert later.animal("Neema").ill_signs == ("cough",)


def test_ill_again_after_a_recovery_is_asked_about_again():
    book = Book(new("Neema"), ill(), Recovery(animal="Neema", on=day("2026-03-04")), ill(day("2026-03-05")))
    assert check(book) == ("2026-03-06", "2026-03-19")
    assert book.animal("Neema").ill_since == day("2026-03-05")


def test_ill_again_on_the_day_she_was_said_to_be_well_is_asked_about():
    book = Book(new("Neema"), ill())
    book.tell(Recovery(animal="Neema", on=ON))
    again = book.tell(ill(ON, "cough"))
    book.told[-1] = replace(again, told_at=again.told_at + timedelta(hours=8))
    assert check(book) is not None


def test_an_earlier_sick_day_told_late_does_not_undo_a_recovery():
    """Ill on the 3rd and well that evening; that she ailed on the 2nd already is told the day after."""
    book = Book(new("Neema"))
    for entry, told_at in (
        (ill(day("2026-03-03")), "2026-03-03 06:00"),
        (Recovery(animal="Neema", on=day("2026-03-03")), "2026-03-03 18:00"),
        (ill(ON), "2026-03-04 06:00"),
    ):
        book.tell(entry)
        book.told[-1] = replace(book.told[-1], told_at=at(told_at))
    assert check(book) is None


def test_taken_back_it_is_as_if_never_told():
    book = Book(new("Neema"), ill(), Recovery(animal="Neema", on=day("2026-03-03")))
    book.told.pop()
    assert check(book) == ("2026-03-03", "2026-03-16")
    book.told.pop()
    assert check(book) is None


@pytest.mark.parametrize("sign", ["ticks", "sudden_death"])
def test_after_ticks_or_a_sudden_death_nobody_asks_how_she_is(sign):
    assert check(Book(new("Neema"), ill(ON, sign))) is None


def test_signs_of_one_day_are_put_together():
    assert Book(new("Neema"), ill(), ill(ON, "cough")).animal("Neema").ill_signs == ("off_feed", "cough")


def test_what_is_told_long_after_is_another_illness():
    book = Book(new("Neema"), ill(), ill(day("2026-03-17"), "cough"))
    assert book.animal("Neema").ill_since == day("2026-03-17")


def test_the_task_closes_for_its_reason():
    book = Book(new("Neema"), ill())
    (task,) = (t for t in book.plan("2026-03-02 08:00").tasks if t.key.task == "illness_check")
    now = at("2026-03-03 08:00")
    for entry, why in [
        (Recovery(animal="Neema", on=day("2026-03-03")), "done"),
        (Death(animal="Neema", on=day("2026-03-03")), "gone"),
        (ill(day("2026-03-03")), "replaced"),
    ]:
        told = Book(new("Neema"), ill())
        cause = Cause.recorded([told.tell(entry)], now)
        dropped = difference([Open(7, task)], told.plan("2026-03-03 08:00").tasks, cause).drop
        assert [(number, reason.value) for number, reason in dropped] == [(7, why)]


def test_it_is_asked_on_three_mornings_and_then_rests():
    tasks = Book(new("Neema"), ill()).plan("2026-03-02 08:00").tasks
    (task,) = (one for one in tasks if one.key.task == "illness_check")
    asked = [again_at(task, times, at(f"2026-03-0{times + 2} 06:00"), 6, ZONE) for times in (1, 2, 3)]
    assert asked == [at("2026-03-04 06:00"), at("2026-03-05 06:00"), None]


def test_the_state_follows_from_the_entries_alone():
    book = Book(new("Neema"), ill(), ill(day("2026-03-03"), "cough"))
    assert replay(reversed(book.told)) == book.farm
