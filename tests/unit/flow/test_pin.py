"""The secret number before money and people, and that it stands readable nowhere."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest
import sqlalchemy as sa

from service.records import tables
from tests.support.village import HELPER, OWNER, Village

PIN = "4821"


@pytest.fixture
def guarded(village: Village) -> Village:
    assert "PIN is set" in village.tell(OWNER, f"SET PIN {PIN}")
    return village


def asks(said: str) -> bool:
    return "Send the farm's PIN" in said


@pytest.mark.parametrize("answer", [PIN, f"PIN {PIN}", f"pin: {PIN}."])
def test_what_was_asked_for_follows_on_the_number(guarded: Village, answer: str) -> None:
    assert asks(guarded.tell(OWNER, "PEOPLE"))
    assert "Who can write" in guarded.tell(OWNER, answer)


@pytest.mark.parametrize(
    "text",
    ["PEOPLE", "WHO OWES", "my vet is Musa 0755555555", f"ADD HELPER {HELPER} JUMA", "ALLOW JUMA MONEY"],
)
def test_money_and_people_want_the_number(guarded: Village, text: str) -> None:
    assert asks(guarded.tell(OWNER, text))
    assert guarded.standing("contact") == []
    assert guarded.notices(HELPER) == []


def test_a_contact_is_written_once_the_number_is_given(guarded: Village) -> None:
    guarded.tell(OWNER, "my vet is Musa 0755555555")
    guarded.tell(OWNER, PIN)
    assert [one["name"] for one in guarded.standing("contact")] == ["Musa"]


def test_the_cows_want_no_number(guarded: Village) -> None:
    guarded.tell(OWNER, "Neema 6")
    assert guarded.milk() == [("Neema", 6, "morning")]


def test_a_wrong_number_is_counted_and_the_fifth_locks_for_an_hour(guarded: Village) -> None:
    guarded.tell(OWNER, "PEOPLE")
    lefts = [guarded.tell(OWNER, "0000") for _ in range(4)]
    assert ["4" in lefts[0], "1" in lefts[3]] == [True, True]
    assert "locked until 8" in guarded.tell(OWNER, "0000")
    assert "locked" in guarded.tell(OWNER, "PEOPLE")
    guarded.clock.move(timedelta(hours=1, minutes=1))
    assert asks(guarded.tell(OWNER, "PEOPLE"))
    assert "Who can write" in guarded.tell(OWNER, PIN)


def test_the_owner_hears_of_a_lock_that_another_phone_brought_about(village: Village) -> None:
    village.with_helper().tell(OWNER, "ALLOW JUMA MONEY")
    village.tell(OWNER, f"SET PIN {PIN}")
    village.tell(HELPER, "WHO OWES")
    for _ in range(5):
        village.tell(HELPER, "0000")
    assert "locked" in village.notices(OWNER)[-1]
    assert "Juma" in village.notices(OWNER)[-1]


def test_a_right_number_ends_the_count(guarded: Village) -> None:
    for _ in range(3):
        guarded.tell(OWNER, "PEOPLE")
        guarded.tell(OWNER, "0000")
        guarded.tell(OWNER, "0001")
        assert "Who can write" in guarded.tell(OWNER, PIN)


def test_it_is_changed_and_taken_away_only_with_itself(guarded: Village) -> None:
    assert "present PIN" in guarded.tell(OWNER, "SET PIN 7733")
    assert "not right" in guarded.tell(OWNER, "CHANGE PIN 0000 7733")
    assert "PIN is set" in guarded.tell(OWNER, f"CHANGE PIN {PIN} 7733")
    assert "not right" in guarded.tell(OWNER, f"CLEAR PIN {PIN}")
    assert "taken away" in guarded.tell(OWNER, "CLEAR PIN 7733")
    assert not asks(guarded.tell(OWNER, "PEOPLE"))


@pytest.mark.parametrize("code", ["123", "1234567"])
def test_a_number_too_short_or_long_is_none(village: Village, code: str) -> None:
    assert "4 to 6 digits" in village.tell(OWNER, f"SET PIN {code}")


def test_it_stands_readable_nowhere(guarded: Village, tmp_path: Path) -> None:
    guarded.tell(OWNER, "PEOPLE")
    guarded.tell(OWNER, "9317")
    guarded.tell(OWNER, PIN)
    guarded.tell(OWNER, f"CHANGE PIN {PIN} 7733")
    kept = [row.text for row in guarded.rows(sa.select(tables.TextIn.text))]
    written = f"{kept} {guarded.events} {guarded.exported()}"
    assert not any(code in written for code in (PIN, "7733", "9317"))
    files = [file.read_bytes() for file in tmp_path.glob("village.db*")]
    assert files
    assert not any(f" {code}".encode() in file for file in files for code in (PIN, "7733"))


def test_digits_that_answer_another_question_are_kept_as_they_came(guarded: Village) -> None:
    guarded.tell(OWNER, "bought feed")
    guarded.tell(OWNER, "5000")
    assert "5000" in [row.text for row in guarded.rows(sa.select(tables.TextIn.text))]
