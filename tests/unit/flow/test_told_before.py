"""The same event told by two people: asked about, never counted twice."""

from __future__ import annotations

import pytest

from tests.support.village import HELPER, OWNER, Village


def test_the_question_names_who_told_it_and_when(village: Village) -> None:
    village.with_helper().tell(HELPER, "Neema 6")
    asked = village.tell(OWNER, "Neema 6")
    assert "Juma told 7 am: Neema, 6 l of milk" in asked
    assert village.milk() == [("Neema", 6, "morning")]


@pytest.mark.parametrize(
    ("answer", "litres"),
    [("1", [6]), ("2", [6.5]), ("3", [6, 6.5])],
)
def test_of_two_values_the_owner_says_which_is_right(
    village: Village, answer: str, litres: list[float]
) -> None:
    village.with_helper().tell(HELPER, "Neema 6")
    village.tell(OWNER, "Neema 6.5")
    village.tell(OWNER, answer)
    assert [one for _, one, _ in village.milk()] == litres


@pytest.mark.parametrize(("answer", "count"), [("1", 1), ("yes", 1), ("2", 2), ("no", 2)])
def test_a_helper_says_whether_it_is_another(village: Village, answer: str, count: int) -> None:
    village.with_helper().tell(OWNER, "Neema 6")
    village.tell(HELPER, "Neema 7")
    village.tell(HELPER, answer)
    assert len(village.milk()) == count


def test_an_answer_that_completes_a_telling_is_doubted_too(village: Village) -> None:
    village.with_helper().tell(OWNER, "Neema 6")
    village.tell(HELPER, "milk 6")
    assert "Rehema told" in village.tell(HELPER, "Neema")
    assert len(village.milk()) == 1


def test_a_calving_told_by_two_has_one_calf(village: Village) -> None:
    village.with_helper().tell(OWNER, "Neema calved a heifer calf yesterday")
    assert "Rehema told" in village.tell(HELPER, "Neema calved a heifer calf")
    village.tell(HELPER, "1")
    calves = [line for line in village.exported() if line["what"] == "animal" and line["dam"] == "Neema"]
    assert len(calves) == 1


def test_a_heat_seen_by_two_within_a_day_is_one_heat(village: Village) -> None:
    village.with_helper().tell(OWNER, "Neema is on heat, standing")
    assert "Rehema told" in village.tell(HELPER, "Neema is on heat")
    assert len(village.standing("heat")) == 1


def test_new_signs_of_a_heat_are_written_at_once(village: Village) -> None:
    village.with_helper().tell(OWNER, "Neema is restless, bellowing, on heat")
    village.tell(HELPER, "Neema on heat, clear mucus")
    assert len(village.standing("heat")) == 2


def test_the_same_sale_told_by_two_is_asked_about(village: Village) -> None:
    village.with_helper().tell(OWNER, "sold 10 litres for 12000")
    assert "Rehema told" in village.tell(HELPER, "sold 10 litres for 12000")
    assert len(village.standing("milk_sale")) == 1


def test_feed_and_expenses_come_in_parts(village: Village) -> None:
    village.with_helper().tell(OWNER, "bought feed 20000")
    village.tell(HELPER, "bought feed 20000")
    assert len(village.standing("expense")) == 2
