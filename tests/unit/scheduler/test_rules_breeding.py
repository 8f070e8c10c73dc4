"""
The rules about heat, service, pregnancy and calving, told entry by entry.

Where a number comes from is said beside it in intervals.py; the windows here are the contract's.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.forms import Calf
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.one_day import Abortion, DryingOff
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from tests.unit.husbandry.book import Book, at, day

COW = NewAnimal(name="Neema", sex="female", status="milking", on=day("2025-01-01"))

FROM_SERVICE = {
    "return_heat": ("2026-03-19", "2026-03-25"),
    "pregnancy_check": ("2026-04-30", "2026-05-30"),
    "dry_off": ("2026-10-09", "2026-10-23"),
    "steam_up": ("2026-11-17", "2026-12-08"),
    "calving": ("2026-11-28", "2026-12-21"),
}
"""Served 2026-03-01, no breed told: expected 2026-12-08 (282 d); computed."""


def heat(when: str, *, bleeding: bool = False) -> Heat:
    return Heat(animal="Neema", first_seen=at(when), bleeding=bleeding)


def service(on: str, *, about: bool = False) -> Service:
    return Service(animal="Neema", on=day(on), about=about)


def check(on: str, result: str, months: str | None = None) -> PregnancyCheck:
    told = None if months is None else Decimal(months)
    return PregnancyCheck(animal="Neema", on=day(on), result=result, months=told)


def without(*tasks: str) -> dict[str, tuple[str, str]]:
    return {task: window for task, window in FROM_SERVICE.items() if task not in tasks}


# --- heat --------------------------------------------------------------------------------------------


def test_a_heat_is_served_six_to_sixteen_hours_after_its_first_sign() -> None:
    book = Book(COW, heat("2026-03-01 06:30"))
    assert book.tasks("2026-03-01 07:00", "Neema") == {"serve": ("2026-03-01 12:30", "2026-03-01 22:30")}


def test_a_heat_not_served_is_looked_for_again_once_its_window_is_over() -> None:
    book = Book(COW, heat("2026-03-01 06:30"))
    assert "return_heat" not in book.tasks("2026-03-01 22:30", "Neema")
    after = {"return_heat": ("2026-03-19", "2026-03-25")}
    assert book.tasks("2026-03-01 22:31", "Neema") == after
    assert book.tasks("2026-03-25 23:59", "Neema") == after
    assert book.tasks("2026-03-26 00:00", "Neema") == {}


def test_a_heat_told_after_its_window_is_not_served_any_more() -> None:
    book = Book(COW, heat("2026-02-27 06:30"))
    assert book.tasks("2026-03-01 07:00", "Neema") == {"return_heat": ("2026-03-17", "2026-03-23")}


def test_signs_told_again_within_the_window_are_of_the_same_heat() -> None:
    book = Book(COW, heat("2026-03-01 12:00"), heat("2026-03-01 06:00"))
    assert book.tasks("2026-03-01 13:00", "Neema") == {"serve": ("2026-03-01 12:00", "2026-03-01 22:00")}


def test_a_heat_after_the_window_of_another_is_a_heat_of_its_own() -> None:
    book = Book(COW, heat("2026-03-01 06:00"), heat("2026-03-20 06:00"))
    assert book.tasks("2026-03-20 07:00", "Neema") == {"serve": ("2026-03-20 12:00", "2026-03-20 22:00")}


def test_after_blood_she_is_not_served_and_the_next_heat_comes_sooner() -> None:
    """Blood 4 Mar: next heat from 19 Mar; common practice, no source."""
    book = Book(COW, heat("2026-03-04 08:00", bleeding=True))
    assert book.tasks("2026-03-04 09:00", "Neema") == {"return_heat": ("2026-03-19", "2026-03-27")}
    book.tell(heat("2026-03-04 06:00"))
    assert book.tasks("2026-03-04 09:00", "Neema") == {"return_heat": ("2026-03-19", "2026-03-27")}


# --- service -----------------------------------------------------------------------------------------


def test_from_the_service_on_everything_to_the_calving_is_planned() -> None:
    book = Book(COW, heat("2026-03-01 06:00"), service("2026-03-01"))
    assert book.tasks("2026-03-01 12:00", "Neema") == FROM_SERVICE


@pytest.mark.parametrize(
    ("breed", "expected"),
    [("Friesian", "2026-12-06"), ("Jersey", "2026-12-05"), ("zebu", "2026-12-11"), (None, "2026-12-08")],
)
def test_the_breed_moves_what_is_counted_from_the_calving(breed: str | None, expected: str) -> None:
    cow = NewAnimal(name="Neema", sex="female", status="milking", breed=breed, on=day("2025-01-01"))
    tasks = Book(cow, service("2026-03-01")).tasks("2026-03-01 12:00", "Neema")
    assert tasks["steam_up"][1] == expected
    assert tasks["pregnancy_check"] == FROM_SERVICE["pregnancy_check"]


def test_the_last_service_counts() -> None:
    book = Book(COW, service("2026-02-27"), service("2026-03-01"))
    assert book.tasks("2026-03-01 12:00", "Neema") == FROM_SERVICE


def test_a_service_of_about_a_day_widens_the_watch_over_the_calving_only() -> None:
    tasks = Book(COW, service("2026-03-01", about=True)).tasks("2026-03-01 12:00", "Neema")
    assert tasks == FROM_SERVICE | {"calving": ("2026-11-13", "2027-01-05")}
    overdue = Book(COW, service("2026-03-01", about=True)).tasks("2027-01-06 00:00", "Neema")
    assert overdue == {"calving_overdue": ("2027-01-06", None)}


def test_a_heifer_before_her_first_calving_is_not_dried_off() -> None:
    heifer = NewAnimal(name="Neema", sex="female", status="heifer", on=day("2025-01-01"))
    assert Book(heifer, service("2026-03-01")).tasks("2026-03-01 12:00", "Neema") == without("dry_off")


def test_a_cow_that_is_dry_is_not_dried_off_again() -> None:
    book = Book(COW, service("2026-03-01"), DryingOff(animal="Neema", on=day("2026-03-20")))
    assert "dry_off" not in book.tasks("2026-03-20 12:00", "Neema")
    dry = NewAnimal(name="Neema", sex="female", status="dry", on=day("2025-01-01"))
    assert "dry_off" not in Book(dry, service("2026-03-01")).tasks("2026-03-01 12:00", "Neema")


def test_after_the_next_calving_she_is_dried_off_anew() -> None:
    book = Book(COW, DryingOff(animal="Neema", on=day("2025-11-01")))
    book.tell(Calving(animal="Neema", on=day("2025-12-20")))
    book.tell(service("2026-03-01"))
    assert book.tasks("2026-03-01 12:00", "Neema") == FROM_SERVICE


@pytest.mark.parametrize("seen", ["2026-03-01 18:00", "2026-03-05 18:00"])
def test_a_heat_within_four_days_of_a_service_is_the_heat_that_was_served(seen: str) -> None:
    """Under 5 d: the same heat or an error; common practice, no source."""
    book = Book(COW, service("2026-03-01"), heat(seen))
    assert book.tasks(seen, "Neema") == FROM_SERVICE


def test_a_heat_from_five_days_on_can_be_served_and_does_not_end_the_plan_before_the_18th() -> None:
    book = Book(COW, service("2026-03-01"), heat("2026-03-06 06:00"))
    serve = {"serve": ("2026-03-06 12:00", "2026-03-06 22:00")}
    assert book.tasks("2026-03-06 07:00", "Neema") == FROM_SERVICE | serve
    book = Book(COW, service("2026-03-01"), heat("2026-03-18 06:00"))
    assert book.tasks("2026-03-18 07:00", "Neema").keys() == FROM_SERVICE.keys() | {"serve"}


def test_a_short_heat_not_served_moves_the_watch() -> None:
    book = Book(COW, service("2026-03-01"), heat("2026-03-10 06:00"))
    moved = {"return_heat": ("2026-03-28", "2026-04-03")}
    assert book.tasks("2026-03-11 07:00", "Neema") == FROM_SERVICE | moved


def test_a_heat_from_the_18th_day_on_ends_the_plan_of_the_service() -> None:
    """Cycle 18-24 d, eXtension; verified."""
    book = Book(COW, service("2026-03-01"), heat("2026-03-19 06:00"))
    assert book.tasks("2026-03-19 07:00", "Neema") == {"serve": ("2026-03-19 12:00", "2026-03-19 22:00")}
    assert book.tasks("2026-03-20 07:00", "Neema") == {"return_heat": ("2026-04-06", "2026-04-12")}


def test_blood_from_the_18th_day_on_ends_it_too() -> None:
    book = Book(COW, service("2026-03-01"), heat("2026-03-22 06:00", bleeding=True))
    assert book.tasks("2026-03-22 07:00", "Neema") == {"return_heat": ("2026-04-06", "2026-04-14")}


def test_blood_within_three_days_of_a_service_keeps_its_watch_and_later_moves_it() -> None:
    """Bleeding 1-3 d after heat; village-vet manual, verified."""
    kept = Book(COW, service("2026-03-01"), heat("2026-03-04 06:00", bleeding=True))
    assert kept.tasks("2026-03-04 07:00", "Neema") == FROM_SERVICE
    moved = Book(COW, service("2026-03-01"), heat("2026-03-05 06:00", bleeding=True))
    window = {"return_heat": ("2026-03-20", "2026-03-28")}
    assert moved.tasks("2026-03-05 07:00", "Neema") == FROM_SERVICE | window


# --- pregnancy check ---------------------------------------------------------------------------------


def test_found_in_calf_she_keeps_the_date_of_the_service() -> None:
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "pregnant"))
    assert book.tasks("2026-05-01 12:00", "Neema") == without("return_heat", "pregnancy_check")
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "pregnant", "3"))
    assert book.tasks("2026-05-01 12:00", "Neema") == without("return_heat", "pregnancy_check")


def test_months_that_no_service_told_can_explain_stand_for_themselves() -> None:
    """Five months on 2026-05-01 is 152 d before: 2025-11-30; expected 2026-09-08 (282 d); computed."""
    by_months = {
        "dry_off": ("2026-07-10", "2026-07-24"),
        "steam_up": ("2026-08-18", "2026-09-08"),
        "calving": ("2026-08-14", "2026-10-06"),
    }
    book = Book(COW, check("2026-05-01", "pregnant", "5"))
    assert book.tasks("2026-05-01 12:00", "Neema") == by_months
    book = Book(COW, service("2026-04-20"), check("2026-05-01", "pregnant", "5"))
    assert book.tasks("2026-05-01 12:00", "Neema") == by_months


def test_a_heat_of_a_cow_found_in_calf_changes_nothing() -> None:
    """Heat is shown by 14.4 % of animals in calf; Hall et al., verified."""
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "pregnant"), heat("2026-05-03 06:00"))
    assert book.tasks("2026-05-03 07:00", "Neema") == without("return_heat", "pregnancy_check")


def test_a_service_that_a_heat_seemed_to_end_holds_after_all_if_a_check_says_so() -> None:
    book = Book(COW, service("2026-03-01"), heat("2026-03-20 06:00"), check("2026-05-01", "pregnant"))
    tasks = book.tasks("2026-05-01 12:00", "Neema")
    assert tasks == {
        "dry_off": FROM_SERVICE["dry_off"],
        "steam_up": FROM_SERVICE["steam_up"],
        "calving": ("2026-11-13", "2027-01-05"),  # as a guess: the heat may have been served unseen
    }


def test_found_empty_she_is_watched_for_heat_from_that_day() -> None:
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "empty"))
    assert book.tasks("2026-05-01 12:00", "Neema") == {"return_heat": ("2026-05-01", "2026-05-25")}
    book.tell(heat("2026-05-10 06:00"))
    assert book.tasks("2026-05-10 07:00", "Neema") == {"serve": ("2026-05-10 12:00", "2026-05-10 22:00")}
    assert book.tasks("2026-05-11 07:00", "Neema") == {"return_heat": ("2026-05-28", "2026-06-03")}


def test_an_unsure_check_is_made_again_and_the_plan_stands() -> None:
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "unsure"))
    again = {"pregnancy_check": ("2026-05-31", "2026-06-30")}
    assert book.tasks("2026-05-01 12:00", "Neema") == without("return_heat") | again
    book.tell(check("2026-06-05", "pregnant"))
    assert book.tasks("2026-06-05 12:00", "Neema") == without("return_heat", "pregnancy_check")


def test_a_service_after_a_check_begins_anew() -> None:
    book = Book(COW, check("2026-02-20", "empty"), service("2026-03-01"))
    assert book.tasks("2026-03-01 12:00", "Neema") == FROM_SERVICE
    book = Book(COW, check("2026-02-20", "pregnant", "2"), service("2026-03-01"))
    assert book.tasks("2026-03-01 12:00", "Neema") == FROM_SERVICE


def test_an_abortion_ends_the_pregnancy() -> None:
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "pregnant"))
    book.tell(Abortion(animal="Neema", on=day("2026-06-01")))
    assert book.tasks("2026-06-01 12:00", "Neema") == {}


def test_a_heifer_entered_in_calf_has_dates_once_her_service_is_told() -> None:
    subira = NewAnimal(name="Neema", sex="female", status="in_calf_heifer", on=day("2026-05-01"))
    book = Book(subira)
    assert book.tasks("2026-05-01 12:00", "Neema") == {}
    book.tell(service("2026-03-01"))
    tasks = book.tasks("2026-05-01 12:00", "Neema")
    assert tasks == without("return_heat", "pregnancy_check", "dry_off")


# --- calving -----------------------------------------------------------------------------------------


def test_a_calving_that_does_not_come_is_overdue_the_day_after_its_watch() -> None:
    book = Book(COW, service("2026-03-01"))
    assert book.tasks("2026-12-21 23:59", "Neema") == {"calving": ("2026-11-28", "2026-12-21")}
    assert book.tasks("2026-12-22 00:00", "Neema") == {"calving_overdue": ("2026-12-22", None)}
    assert book.tasks("2027-06-01 00:00", "Neema") == {"calving_overdue": ("2026-12-22", None)}


def test_a_calving_begins_a_new_milking_without_any_service_told() -> None:
    """Calved 2026-01-15: 45 d are 2026-03-01, 90 d 2026-04-15; computed."""
    book = Book(COW, Calving(animal="Neema", on=day("2026-01-15")))
    assert book.tasks("2026-01-15 12:00", "Neema") == {
        "afterbirth": ("2026-01-16", "2026-01-16"), "heat_after_calving": ("2026-03-01", "2026-04-15"),
    }  # fmt: skip


def test_a_calving_ends_all_that_was_planned_for_it() -> None:
    book = Book(COW, service("2026-03-01"), check("2026-05-01", "pregnant"))
    book.tell(Calving(animal="Neema", on=day("2026-12-05"), calves=(Calf(sex="male"),)))
    assert book.tasks("2026-12-05 12:00", "Neema") == {
        "afterbirth": ("2026-12-06", "2026-12-06"), "heat_after_calving": ("2027-01-19", "2027-03-05"),
    }  # fmt: skip


@pytest.mark.parametrize("told", [heat("2026-02-10 06:00"), service("2026-02-10")])
def test_heat_after_calving_ends_with_any_heat_or_service(told: Heat | Service) -> None:
    book = Book(COW, Calving(animal="Neema", on=day("2026-01-15")), told)
    assert "heat_after_calving" not in book.tasks("2026-02-12 06:00", "Neema")


def test_a_heat_before_the_calving_does_not_end_it() -> None:
    book = Book(COW, heat("2026-01-10 06:00"), Calving(animal="Neema", on=day("2026-01-15")))
    assert book.tasks("2026-01-15 12:00", "Neema").keys() == {"afterbirth", "heat_after_calving"}


def test_a_service_told_late_of_a_day_before_the_calving_plans_nothing() -> None:
    book = Book(COW, Calving(animal="Neema", on=day("2026-01-15")), service("2025-04-08"))
    assert book.tasks("2026-01-16 12:00", "Neema").keys() == {"afterbirth", "heat_after_calving"}


# --- first service -----------------------------------------------------------------------------------


def test_a_heifer_comes_of_age_at_fifteen_months() -> None:
    """Born 2026-02-10: 15 months are 2027-05-10, 18 are 2027-08-10; computed."""
    heifer = NewAnimal(
        name="Neema", sex="female", born=day("2026-02-10"), status="heifer", on=day("2027-01-01")
    )
    book = Book(heifer)
    assert book.tasks("2027-01-01 12:00", "Neema") == {"first_service": ("2027-05-10", "2027-08-10")}
    assert book.tasks("2027-08-11 00:00", "Neema") == {}
    book.tell(service("2027-05-12"))
    assert "first_service" not in book.tasks("2027-05-12 12:00", "Neema")


@pytest.mark.parametrize(
    "other",
    [
        {"sex": "male", "born": day("2026-02-10")},
        {"sex": "female", "born": None, "status": "heifer"},
        {"sex": "female", "born": day("2026-02-10"), "status": "in_calf_heifer"},
    ],
)
def test_no_first_service_of_a_male_of_unknown_age_or_in_calf(other: dict[str, object]) -> None:
    book = Book(NewAnimal(name="Neema", on=day("2027-01-01"), **other))
    assert "first_service" not in book.tasks("2027-01-01 12:00", "Neema")


# --- done --------------------------------------------------------------------------------------------


def test_a_plain_done_closes_what_it_was_told_of_and_not_the_next_time() -> None:
    book = Book(
        COW, service("2026-03-01"), Done(task="return_heat", animals=("Neema",), on=day("2026-03-20"))
    )
    assert book.tasks("2026-03-20 12:00", "Neema") == without("return_heat")
    book.tell(service("2026-03-21"))
    assert book.tasks("2026-03-21 12:00", "Neema")["return_heat"] == ("2026-04-08", "2026-04-14")


def test_a_watch_that_was_done_turns_overdue_all_the_same() -> None:
    book = Book(COW, service("2026-03-01"), Done(task="calving", animals=("Neema",), on=day("2026-12-01")))
    assert book.tasks("2026-12-01 12:00", "Neema").keys() == {"steam_up"}
    assert book.tasks("2026-12-22 12:00", "Neema").keys() == {"calving_overdue"}
