"""The plan of a farm, its difference from what is open, and when to remind."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

import pytest

from scheduler.planning import Cause, Open, difference, plan, remind_at
from service.husbandry.forms import Calf, Entry
from service.husbandry.herd import Farm
from service.husbandry.intervals import Intervals
from service.husbandry.kinds.body import Girth
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Done, Setting
from service.husbandry.kinds.health import Deworming, Disinfection, Spraying, Vaccination
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death, NewAnimal
from service.husbandry.kinds.one_day import DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.task import Key, Point, Task, Why
from tests.unit.husbandry.book import ZONE, Book, at, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-01-01"))


def heat(when: str, *, bleeding: bool = False) -> Heat:
    return Heat(animal="Neema", first_seen=at(when), bleeding=bleeding)


def service(on: str) -> Service:
    return Service(animal="Neema", on=day(on))


# --- the plan ----------------------------------------------------------------------------------------


def test_a_farm_without_animals_has_nothing_to_do_and_never_will() -> None:
    empty = plan(Farm(), at("2026-03-02 06:00"))
    assert (empty.tasks, empty.changes_at) == ((), None)


def test_tasks_come_soonest_first() -> None:
    tasks = Book(COW, service("2026-03-01"), Spraying(on=day("2026-03-10"))).plan("2026-03-10 06:00").tasks
    names = ["spray", "return_heat", "pregnancy_check", "dry_off", "steam_up", "calving"]
    assert [task.key.task for task in tasks] == names


def test_the_intervals_given_count_and_the_farms_own_go_over_them() -> None:
    book = Book(Spraying(on=day("2026-03-02")))
    changed = Intervals.of({"spray_days": 5})
    assert plan(book.farm, at("2026-03-02 06:00"), changed).tasks[0].due == day("2026-03-07")
    book.tell(Setting(task="spray", every_days=Decimal(14), on=day("2026-03-02")))
    assert plan(book.farm, at("2026-03-02 06:00"), changed).tasks[0].due == day("2026-03-16")


@pytest.mark.parametrize(
    ("now", "changes"),
    [
        ("2026-03-01 07:00", "2026-03-01 22:31"),  # the serve window is over, the watch begins
        ("2026-03-01 22:31", "2026-03-26 00:00"),  # the watch is over
        ("2026-03-26 00:00", None),
    ],
)
def test_a_plan_says_when_time_alone_changes_it(now: str, changes: str | None) -> None:
    expected = None if changes is None else at(changes)
    assert Book(COW, heat("2026-03-01 06:30")).plan(now).changes_at == expected


def test_an_overdue_calving_begins_when_the_watch_ends() -> None:
    assert Book(COW, service("2026-03-01")).plan("2026-12-20 06:00").changes_at == at("2026-12-22 00:00")


def test_what_was_told_done_changes_nothing_when_its_window_ends() -> None:
    book = Book(COW, Calving(animal="Neema", on=day("2026-01-15")))
    assert book.plan("2026-03-02 06:00").changes_at == at("2026-04-16 00:00")
    book.tell(Done(task="heat_after_calving", animals=("Neema",), on=day("2026-03-02")))
    assert book.plan("2026-03-02 06:00").changes_at is None


def test_a_moment_without_a_zone_is_refused() -> None:
    with pytest.raises(ValueError, match="no zone"):
        plan(Book(COW, service("2026-03-01")).farm, at("2026-03-02 06:00").replace(tzinfo=None))


# --- the difference ----------------------------------------------------------------------------------


def opened(book: Book, now: str) -> list[Open]:
    return [Open(number, task) for number, task in enumerate(book.plan(now).tasks, start=1)]


def dropped(book: Book, now: str, *entries: Entry, before: str | None = None) -> dict[str, Why]:
    """Why which task is dropped when *entries* are told *now*, of those open just *before*."""
    kept = opened(book, before or now)
    told = [book.tell(entry) for entry in entries]
    change = difference(kept, book.plan(now).tasks, Cause.recorded(told, at(now)))
    names = {one.id: one.task.key.task for one in kept}
    return {names[number]: why for number, why in change.drop}


def test_the_same_plan_twice_makes_no_difference() -> None:
    book = Book(COW, service("2026-03-01"))
    change = difference(
        opened(book, "2026-03-02 06:00"),
        book.plan("2026-03-02 06:00").tasks,
        Cause.clock(at("2026-03-02 06:00")),
    )
    assert (change.drop, change.add) == ((), ())


def test_what_moves_is_dropped_and_planned_anew() -> None:
    book = Book(COW, service("2026-03-01"))
    kept = opened(book, "2026-03-05 06:00")
    told = book.tell(service("2026-03-05"))
    change = difference(
        kept, book.plan("2026-03-05 06:00").tasks, Cause.recorded([told], at("2026-03-05 06:00"))
    )
    assert change.drop == tuple((one.id, Why.REPLACED) for one in kept)
    assert {task.key.task for task in change.add} == {one.task.key.task for one in kept}


@pytest.mark.parametrize(
    ("before", "told", "now", "task"),
    [
        ([heat("2026-03-01 06:00")], service("2026-03-01"), "2026-03-01 18:00", "serve"),
        ([service("2026-03-01")], heat("2026-03-20 06:00"), "2026-03-20 07:00", "return_heat"),
        ([service("2026-03-01")], service("2026-03-20"), "2026-03-20 07:00", "return_heat"),
        (
            [service("2026-03-01")],
            PregnancyCheck(animal="Neema", on=day("2026-05-01"), result="pregnant"),
            "2026-05-01 07:00",
            "pregnancy_check",
        ),
        (
            [service("2026-03-01")],
            PregnancyCheck(animal="Neema", on=day("2026-05-01"), result="unsure"),
            "2026-05-01 07:00",
            "pregnancy_check",
        ),
        (
            [service("2026-03-01")],
            DryingOff(animal="Neema", on=day("2026-10-10")),
            "2026-10-10 07:00",
            "dry_off",
        ),
        (
            [service("2026-03-01")],
            Calving(animal="Neema", on=day("2026-12-05")),
            "2026-12-05 07:00",
            "calving",
        ),
        (
            [service("2026-03-01")],
            Calving(animal="Neema", on=day("2026-12-05")),
            "2026-12-05 07:00",
            "steam_up",
        ),
        (
            [service("2026-03-01")],
            Calving(animal="Neema", on=day("2026-12-24")),
            "2026-12-24 07:00",
            "calving_overdue",
        ),
        (
            [Calving(animal="Neema", on=day("2026-01-15"))],
            heat("2026-02-20 06:00"),
            "2026-02-20 07:00",
            "heat_after_calving",
        ),
        ([Spraying(on=day("2026-03-01"))], Spraying(on=day("2026-03-07")), "2026-03-07 07:00", "spray"),
        (
            [Disinfection(on=day("2026-03-01"))],
            Disinfection(on=day("2026-03-08")),
            "2026-03-08 07:00",
            "disinfect",
        ),
        ([Deworming(on=day("2026-03-01"))], Deworming(on=day("2026-06-01")), "2026-06-01 07:00", "deworm"),
        (
            [Vaccination(animals=("Neema",), disease="fmd", on=day("2026-03-01"))],
            Vaccination(animals=("*",), disease="fmd", on=day("2026-09-01")),
            "2026-09-01 07:00",
            "vaccinate",
        ),
        (
            [Setting(task="weigh", every_days=Decimal(30), on=day("2026-03-01"))],
            Girth(animal="Neema", cm=Decimal(165), on=day("2026-03-31")),
            "2026-03-31 07:00",
            "weigh",
        ),
        (
            [service("2026-03-01")],
            Done(task="return_heat", animals=("Neema",), on=day("2026-03-20")),
            "2026-03-20 07:00",
            "return_heat",
        ),
    ],
)
def test_a_task_is_done_by_the_record_it_asks_for(
    before: list[Entry], told: Entry, now: str, task: str
) -> None:
    assert dropped(Book(COW, *before), now, told)[task] is Why.DONE


def test_a_weaning_is_what_a_weaning_task_asks_for() -> None:
    book = Book(COW, Calving(animal="Neema", on=day("2026-02-10"), calves=(Calf(),)))
    weaned = Weaning(animal="Neema calf", on=day("2026-05-05"))
    assert dropped(book, "2026-05-05 12:00", weaned) == {"weaning": Why.DONE}


def test_a_record_of_another_kind_only_moves_what_is_planned() -> None:
    book = Book(COW, service("2026-03-01"))
    calved = Calving(animal="Neema", on=day("2026-03-10"))
    why = dropped(book, "2026-03-10 12:00", calved)
    assert (why["dry_off"], why["return_heat"], why["calving"]) == (Why.REPLACED, Why.REPLACED, Why.DONE)
    book = Book(COW, heat("2026-03-01 06:00"))
    assert dropped(book, "2026-03-01 09:00", heat("2026-03-01 08:00", bleeding=True)) == {
        "serve": Why.REPLACED
    }


def test_a_record_of_another_animal_or_disease_does_not_make_a_task_done() -> None:
    other = NewAnimal(name="Tausi", sex="female", status="milking", on=day("2025-01-01"))
    book = Book(COW, other, Deworming(animals=("Neema",), on=day("2026-03-01")))
    assert dropped(book, "2026-03-02 12:00", Deworming(animals=("Tausi",), on=day("2026-03-02"))) == {}
    book = Book(COW, Vaccination(animals=("Neema",), disease="fmd", on=day("2026-03-01")))
    rabies = Vaccination(animals=("Neema",), disease="rabies", on=day("2026-03-02"))
    assert dropped(book, "2026-03-02 12:00", rabies) == {}


@pytest.mark.parametrize(
    "leaving", [Death(animal="Neema", on=day("2026-03-02")), AnimalSale(animal="Neema", on=day("2026-03-02"))]
)
def test_the_tasks_of_an_animal_that_leaves_are_gone(leaving: Entry) -> None:
    book = Book(COW, service("2026-03-01"), Spraying(on=day("2026-03-01")))
    why = dropped(book, "2026-03-02 12:00", leaving)
    assert set(why.values()) == {Why.GONE}
    assert "spray" not in why


def test_what_a_telling_taken_back_had_planned_is_undone() -> None:
    book = Book(COW, service("2026-03-01"))
    kept = opened(book, "2026-03-02 06:00")
    del book.told[-1]
    change = difference(kept, book.plan("2026-03-02 06:00").tasks, Cause.undone(at("2026-03-02 06:00")))
    assert {why for _, why in change.drop} == {Why.UNDONE}


def test_what_the_clock_ends_is_expired() -> None:
    book = Book(COW, service("2026-03-01"))
    kept = opened(book, "2026-03-25 23:59")
    now = "2026-03-26 00:00"
    change = difference(kept, book.plan(now).tasks, Cause.clock(at(now)))
    assert [why for _, why in change.drop] == [Why.EXPIRED]


def test_what_the_clock_moves_within_its_window_is_replaced() -> None:
    book = Book(COW, service("2026-03-01"), heat("2026-03-10 06:00"))
    kept = opened(book, "2026-03-10 22:00")
    now = "2026-03-10 22:01"
    change = difference(kept, book.plan(now).tasks, Cause.clock(at(now)))
    names = {one.id: one.task.key.task for one in kept}
    assert {names[number]: why for number, why in change.drop} == {
        "serve": Why.EXPIRED,
        "return_heat": Why.REPLACED,
    }


# --- reminders ---------------------------------------------------------------------------------------


def task(due: Point, until: Point | None) -> Task:
    return Task(key=Key(task="any", animal=1), due=due, until=until, since=day("2026-03-01"))


def reminder(due: str, until: str | None, now: str, hour: int) -> datetime | None:
    last = None if until is None else day(until)
    return remind_at(task(day(due), last), at(now), hour, ZONE)


@pytest.mark.parametrize(
    ("now", "hour", "expected"),
    [
        ("2026-03-02 12:00", 6, "2026-03-19 06:00"),
        ("2026-03-02 12:00", 12, "2026-03-19 12:00"),
        ("2026-03-02 12:00", 13, "2026-03-18 13:00"),  # the evening before
        ("2026-03-02 12:00", 18, "2026-03-18 18:00"),
        ("2026-03-19 06:00", 6, "2026-03-20 06:00"),
        ("2026-03-19 06:01", 6, "2026-03-20 06:00"),  # planned later: the next morning
        ("2026-03-20 05:00", 6, "2026-03-20 06:00"),
        ("2026-03-18 19:00", 18, "2026-03-19 18:00"),
        ("2026-03-25 05:00", 6, "2026-03-25 06:00"),
        ("2026-03-25 06:01", 6, None),  # the window is over before the next morning
        ("2026-03-25 18:01", 18, None),
    ],
)
def test_a_days_task_is_told_at_the_farms_hour(now: str, hour: int, expected: str | None) -> None:
    told = None if expected is None else at(expected)
    assert reminder("2026-03-19", "2026-03-25", now, hour) == told


def test_a_task_without_end_can_always_be_told() -> None:
    assert reminder("2026-03-09", None, "2026-07-01 12:00", 6) == at("2026-07-02 06:00")


def test_a_task_of_one_day_can_be_told_on_it_in_the_evening() -> None:
    assert reminder("2026-03-09", "2026-03-09", "2026-03-08 20:00", 18) == at("2026-03-09 18:00")


@pytest.mark.parametrize(
    ("first_seen", "now", "expected"),
    [
        ("2026-03-01 06:30", "2026-03-01 07:00", "2026-03-01 12:30"),  # when the window opens
        ("2026-03-01 06:30", "2026-03-01 12:30", "2026-03-01 12:30"),
        ("2026-03-01 06:30", "2026-03-01 13:00", "2026-03-01 18:30"),  # told late: at the best time
        ("2026-03-01 06:30", "2026-03-01 18:31", None),
        ("2026-03-01 14:00", "2026-03-01 14:30", "2026-03-01 20:00"),
        ("2026-03-01 14:30", "2026-03-01 15:00", "2026-03-01 20:00"),  # 20:30 is night; 05:00 leaves 1.5 h
        ("2026-03-01 14:30", "2026-03-01 20:10", "2026-03-02 05:00"),
        ("2026-03-01 15:59", "2026-03-01 16:10", "2026-03-01 20:00"),  # 05:00 leaves less than 3 h
        ("2026-03-01 16:00", "2026-03-01 16:10", "2026-03-02 05:00"),  # 05:00 leaves 3 h
        ("2026-03-01 21:00", "2026-03-01 21:10", "2026-03-02 05:00"),
        ("2026-03-01 22:59", "2026-03-01 23:10", "2026-03-02 05:00"),
        ("2026-03-01 23:00", "2026-03-01 23:10", "2026-03-02 05:00"),
        ("2026-03-01 12:00", "2026-03-01 19:00", "2026-03-01 20:00"),  # the best time is midnight
        ("2026-03-01 12:00", "2026-03-01 20:30", None),
        ("2026-03-01 20:00", "2026-03-02 05:30", "2026-03-02 08:00"),
    ],
)
def test_a_serve_window_is_told_when_it_opens_and_never_in_the_night(
    first_seen: str, now: str, expected: str | None
) -> None:
    (serve,) = Book(COW, heat(first_seen)).plan(now).tasks
    told = None if expected is None else at(expected)
    assert remind_at(serve, at(now), 6, ZONE) == told
