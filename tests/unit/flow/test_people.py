"""Several phones of one farm: who joins, who may what, and who hears of it."""

from __future__ import annotations

import pytest

from service.messages import Kept
from tests.support.village import HELPER, NEIGHBOUR, OWNER, Village


def test_a_helper_is_asked_and_must_agree_before_the_phone_belongs_to_the_farm(village: Village) -> None:
    assert "Juma" in village.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
    assert "Rehema asks you" in village.notices(HELPER)[0]
    village.tell(HELPER, "Neema 6")
    assert village.milk() == []
    assert "Rehema" in village.tell(HELPER, "YES")
    village.tell(HELPER, "Neema 6")
    assert village.milk() == [("Neema", 6, "morning")]
    assert "Juma has agreed" in village.notices(OWNER)[0]


def test_an_invitation_goes_out_once(village: Village) -> None:
    village.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
    assert "asked that number already" in village.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
    assert len(village.notices(HELPER)) == 1


def test_a_no_ends_the_invitation_and_the_owner_is_told(village: Village) -> None:
    village.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
    village.tell(HELPER, "NO")
    assert "did not agree" in village.notices(OWNER)[0]
    village.tell(HELPER, "Neema 6")
    assert village.milk() == []


def test_a_yes_to_joining_given_before_is_no_yes_to_helping(village: Village) -> None:
    village.tell(HELPER, "hello")  # invited to join as a farm of his own
    village.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
    assert "Rehema" in village.tell(HELPER, "YES")
    assert "YES" in village.tell(HELPER, "what?")
    village.tell(HELPER, "YES")
    village.tell(HELPER, "Neema 6")
    assert len(village.milk()) == 1


@pytest.mark.parametrize("phone", [OWNER, NEIGHBOUR])
def test_a_phone_of_a_farm_cannot_be_added(village: Village, phone: str) -> None:
    village.runtime.register_farm(NEIGHBOUR, "Asha", "en")
    village.tell(OWNER, f"ADD HELPER {phone} JUMA")
    assert village.notices(phone) == []


def test_the_same_acceptance_delivered_twice_adds_one_helper(village: Village) -> None:
    village.tell(OWNER, f"ADD HELPER {HELPER} JUMA")
    assert village.again(HELPER, "YES", "yes") is Kept.KEPT
    assert village.again(HELPER, "YES", "yes") is Kept.KEPT_BEFORE
    people = [line for line in village.exported() if line["what"] == "person"]
    assert [(p["phone"], p["role"], p["name"]) for p in people] == [
        (OWNER, "owner", "Rehema"), (HELPER, "helper", "Juma"),
    ]  # fmt: skip
    assert len(village.notices(OWNER)) == 1


def test_a_removed_helper_is_a_stranger_and_what_was_told_stays(village: Village) -> None:
    village.with_helper().tell(HELPER, "Neema 6")
    village.tell(OWNER, "REMOVE HELPER JUMA")
    assert "Byreline" in village.tell(HELPER, "Tausi 7")
    assert village.milk() == [("Neema", 6, "morning")]
    told = [line for line in village.exported() if line.get("kind") == "milk"]
    assert [(line["told_by"], line["channel"]) for line in told] == [(HELPER, "sms")]


@pytest.mark.parametrize(
    "text",
    [
        "Neema died", "Neema sold for 900000", "my vet is Musa 0755555555", f"ADD HELPER {NEIGHBOUR} ANNA",
        "SET PIN 4821", "WHO OWES", "PAY MARCH", "PEOPLE", "ALLOW JUMA MONEY", "REMOVE HELPER JUMA",
        "SPRAY EVERY 14", "NOT TRUE",
    ],
)  # fmt: skip
def test_what_is_the_owners_is_refused_to_a_helper_and_not_written(village: Village, text: str) -> None:
    village.with_helper()
    before = village.exported()
    assert "Rehema" in village.tell(HELPER, text)
    whats = ("entry", "person", "animal")
    assert [one for one in village.exported() if one["what"] in whats] == [
        one for one in before if one["what"] in whats
    ]


def test_the_owner_hears_of_a_death_that_a_helper_tells(village: Village) -> None:
    village.with_helper().tell(HELPER, "Neema died")
    assert "Neema" in village.notices(OWNER)[-1]
    assert "Juma" in village.notices(OWNER)[-1]


def test_an_owner_allows_and_forbids(village: Village) -> None:
    village.with_helper().tell(OWNER, "ALLOW JUMA MONEY")
    assert "Only the owner" not in village.tell(HELPER, "WHO OWES")
    village.tell(OWNER, "FORBID JUMA MONEY")
    assert "Only the owner" in village.tell(HELPER, "WHO OWES")


def test_a_helper_who_may_change_people_gives_no_rights(village: Village) -> None:
    village.with_helper().tell(OWNER, "ALLOW JUMA PEOPLE")
    assert "Rehema" in village.tell(HELPER, "ALLOW JUMA MONEY")
    people = [line for line in village.exported() if line["what"] == "person"]
    assert people[1]["may"] == ["people"]


def test_a_helper_sees_no_sums_that_others_told(village: Village) -> None:
    village.with_helper().tell(OWNER, "sold 10 litres for 12000")
    assert "12,000" not in village.tell(HELPER, "what did I send?")
    assert "12,000" in village.tell(OWNER, "what did I send?")


def test_undo_takes_back_the_senders_own_telling(village: Village) -> None:
    village.with_helper().tell(HELPER, "Neema 6")
    village.tell(OWNER, "Tausi 7")
    village.tell(HELPER, "UNDO")
    assert village.milk() == [("Tausi", 7, "morning")]


def test_everyone_who_may_tell_is_listed_to_the_owner(village: Village) -> None:
    village.with_helper().tell(OWNER, f"ADD HELPER {NEIGHBOUR} ANNA")
    said = village.tell(OWNER, "PEOPLE")
    assert "Rehema 0621234567, owner" in said
    assert "Juma 0712345678, helper" in said
    assert "Anna 0622345678, has not answered" in said
