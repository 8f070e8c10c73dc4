"""A fall of milk goes out beside the reply, once, with a question that only its milkings keep open."""

from __future__ import annotations

from datetime import timedelta

import pytest
import sqlalchemy as sa

from service import sms
from service.records import tables
from tests.support.village import OWNER, Village

USUAL = ("9", "9.5", "9", "9", "8.5", "9", "9", "9.5", "9", "9")


def summed(village: Village, *litres: str) -> None:
    """Of each day, the last one today, the milk of all in one sum."""
    for one in litres:
        village.clock.move(timedelta(days=1))
        village.tell(OWNER, f"milk of all {one}")


def alerts(village: Village) -> list[str]:
    sent = (
        sa.select(tables.TextOut.text).where(tables.TextOut.purpose == "alert").order_by(tables.TextOut.seq)
    )
    return [row.text for row in village.rows(sent)]


def days(village: Village, *litres: str, cow: str = "NEEMA") -> None:
    for one in litres:
        village.tell(OWNER, f"{cow} {one}")
        village.clock.move(timedelta(days=1))


@pytest.fixture
def milked(village: Village) -> Village:
    """Ten ordinary mornings of Neema's milk, and one low one."""
    days(village, *USUAL, "6")
    return village


def test_one_low_day_is_no_alarm_and_the_second_is_one(milked: Village) -> None:
    assert alerts(milked) == []
    reply = milked.tell(OWNER, "NEEMA 6")
    assert reply.startswith("Written down: Neema, 6 l of milk")
    (alert,) = alerts(milked)
    assert alert.startswith("Neema: 6 l in place of 9, day 2. Feel her udder.")
    assert sms.septets(alert) <= 160


def test_it_is_told_of_once(milked: Village) -> None:
    days(milked, "6", "6", "6", "6")
    assert len(alerts(milked)) == 1


def test_a_milking_told_late_for_a_week_ago_raises_none(village: Village) -> None:
    days(village, *USUAL)
    village.clock.move(timedelta(days=8))
    village.tell(OWNER, "Neema 3 litres 7 days ago")
    assert alerts(village) == []


def test_the_milking_taken_back_nothing_is_asked(milked: Village) -> None:
    milked.tell(OWNER, "NEEMA 6")
    milked.tell(OWNER, "UNDO")
    milked.tell(OWNER, "5")
    assert milked.standing("milk_reason") == []
    milked.tell(OWNER, "NEEMA 9")
    assert len(alerts(milked)) == 1


def test_a_correction_to_another_low_figure_does_not_tell_of_it_again(milked: Village) -> None:
    milked.tell(OWNER, "NEEMA 6")
    milked.tell(OWNER, "Correction: Neema 6.5 not 6")
    assert len(alerts(milked)) == 1
    assert [litres for _, litres, _ in milked.milk()][-1] == 6.5


@pytest.mark.parametrize(
    ("answer", "kind", "told"),
    [
        ("1", "heat", {"signs": ["milk_drop"]}),
        ("2", "illness", {"signs": ["off_feed", "milk_drop"]}),
        ("not eating", "illness", {"signs": ["off_feed", "milk_drop"]}),
        ("4", "milk_reason", {"reason": "feed_water"}),
        ("5", "milk_reason", {"reason": "calf"}),
        ("calf sucked", "milk_reason", {"reason": "calf"}),
        ("6", "milk_reason", {"reason": "unknown"}),
    ],
)
def test_the_answer_becomes_an_entry(
    milked: Village, answer: str, kind: str, told: dict[str, object]
) -> None:
    milked.tell(OWNER, "NEEMA 6")
    milked.tell(OWNER, answer)
    (kept,) = milked.standing(kind)
    assert {"animal": "Neema", **told}.items() <= kept.items()


@pytest.mark.parametrize(
    ("answer", "signs"),
    [("1", ["udder_hard"]), ("clots", ["udder_clots"]), ("3", ["udder_hard", "udder_clots"])],
)
def test_of_the_udder_it_is_asked_what_is_seen(milked: Village, answer: str, signs: list[str]) -> None:
    milked.tell(OWNER, "NEEMA 6")
    asked = milked.tell(OWNER, "3")
    assert "DON'T sell or drink her milk" in asked
    milked.tell(OWNER, answer)
    (ill,) = milked.standing("illness")
    assert ill["signs"] == [*signs, "milk_drop"]


def test_what_is_told_by_itself_settles_it(milked: Village) -> None:
    milked.tell(OWNER, "NEEMA 6")
    milked.tell(OWNER, "Neema is coughing")
    milked.tell(OWNER, "4")
    assert milked.standing("milk_reason") == []


def test_another_milking_leaves_the_question_open(milked: Village) -> None:
    milked.tell(OWNER, "NEEMA 6")
    milked.tell(OWNER, "TAUSI 7")
    milked.tell(OWNER, "4")
    assert [kept["reason"] for kept in milked.standing("milk_reason")] == ["feed_water"]


def test_in_the_time_for_drying_off_less_milk_raises_none(village: Village) -> None:
    days(village, *USUAL)
    village.tell(OWNER, "Neema in calf 8 months")
    days(village, "7", "6", "4", "3")
    assert alerts(village) == []


def test_the_whole_herd_told_in_one_sum_falls_as_one(village: Village) -> None:
    summed(village, "18", "19", "18", "18", "17", "18", "19", "18", "12", "12")
    (alert,) = alerts(village)
    assert alert.startswith("Milk of all: 12 l in place of 18, day 2.")
    village.tell(OWNER, "2")
    (kept,) = village.standing("milk_reason")
    assert (kept["animal"], kept["reason"]) == ("*", "weather")


def test_the_answer_that_some_are_sick_says_what_to_do(village: Village) -> None:
    summed(village, "18", "19", "18", "18", "17", "18", "19", "18", "12", "12")
    assert village.tell(OWNER, "3").startswith("Who is sick, with what signs?")
