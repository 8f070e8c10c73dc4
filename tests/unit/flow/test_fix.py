"""Corrections: what goes in the place of what, and what stays."""

from __future__ import annotations

from datetime import timedelta

from tests.support.village import HELPER, OWNER, Village


def test_a_correction_takes_the_place_of_the_same_milking(village: Village) -> None:
    village.tell(OWNER, "Neema 6. Tausi 5")
    said = village.tell(OWNER, "FIX NEEMA MILK 7")
    assert village.milk() == [("Tausi", 5, "morning"), ("Neema", 7, "morning")]
    assert "6 l" in said
    assert "7 l" in said


def test_it_is_undone_and_then_recorded(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.events.clear()
    village.tell(OWNER, "FIX NEEMA MILK 7")
    kinds = [event["event"] for event in village.events if event["event"] in ("undone", "recorded")]
    assert kinds == ["undone", "recorded"]


def test_a_milking_of_the_morning_is_corrected_in_the_evening(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.clock.move(timedelta(hours=11))
    village.tell(OWNER, "FIX NEEMA MILK 7")
    assert village.milk() == [("Neema", 7, "morning")]


def test_a_session_that_is_named_is_the_one_meant(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.clock.move(timedelta(hours=11))
    asked = village.tell(OWNER, "FIX NEEMA MILK EVENING 7")
    assert "There is: Neema, 6 l of milk, this morning" in asked
    assert village.milk() == [("Neema", 6, "morning")]
    village.tell(OWNER, "yes")
    assert village.milk() == [("Neema", 6, "morning"), ("Neema", 7, "evening")]


def test_a_service_keeps_what_the_correction_leaves_out(village: Village) -> None:
    village.tell(OWNER, "Neema served by AI, bull Simba")
    before = village.standing("service")[0]
    village.tell(OWNER, "FIX NEEMA SERVED YESTERDAY")
    after = village.standing("service")
    assert after == [{**before, "on": "2026-03-01"}]


def test_a_price_that_is_put_right_gives_the_whole_anew(village: Village) -> None:
    village.tell(OWNER, "sold 10 litres at 1200")
    village.tell(OWNER, "FIX sold 12 litres")
    sale = village.standing("milk_sale")[0]
    assert (sale["litres"], sale["price"]["amount"], sale["amount"]["amount"]) == (12, "1200.00", "14400.00")


def test_a_helper_corrects_her_own_and_no_other(village: Village) -> None:
    village.with_helper().tell(OWNER, "Neema 6")
    assert "Rehema told" in village.tell(HELPER, "FIX NEEMA MILK 7")
    village.tell(HELPER, "1")
    assert village.milk() == [("Neema", 6, "morning")]
    village.tell(HELPER, "Tausi 5")
    village.tell(HELPER, "FIX TAUSI MILK 4")
    assert village.milk() == [("Neema", 6, "morning"), ("Tausi", 4, "morning")]


def test_the_owner_corrects_what_a_helper_told(village: Village) -> None:
    village.with_helper().tell(HELPER, "Neema 6")
    village.tell(OWNER, "FIX NEEMA MILK 7")
    assert village.milk() == [("Neema", 7, "morning")]


def test_undoing_a_correction_leaves_nothing_and_says_so(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.tell(OWNER, "FIX NEEMA MILK 7")
    assert "not come back" in village.tell(OWNER, "UNDO")
    assert village.milk() == []


def test_a_correction_delivered_twice_is_made_once(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.again(OWNER, "FIX NEEMA MILK 7", "fix")
    village.again(OWNER, "FIX NEEMA MILK 7", "fix")
    assert village.milk() == [("Neema", 7, "morning")]


def test_a_question_within_a_correction_still_ends_in_its_place(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.tell(OWNER, "FIX NEEMA MILK 30")
    village.tell(OWNER, "yes")
    assert village.milk() == [("Neema", 30, "morning")]


def test_what_was_told_of_the_wrong_cow_is_put_right(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    village.tell(OWNER, "FIX TAUSI MILK 6")
    assert village.milk() == [("Tausi", 6, "morning")]


def test_other_litres_of_another_cow_are_asked_about(village: Village) -> None:
    village.tell(OWNER, "Neema 6")
    assert "YES" in village.tell(OWNER, "FIX TAUSI MILK 5")
    assert village.milk() == [("Neema", 6, "morning")]
