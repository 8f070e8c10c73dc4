"""A technician reports for farms that are not his; the owner hears of it and can say that it is not so."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.support.village import NEIGHBOUR, OWNER, TECHNICIAN, Village


@pytest.fixture
def named(village: Village) -> Village:
    village.tell(OWNER, f"my technician is Juma {TECHNICIAN}")
    return village


@pytest.fixture
def two_farms(named: Village) -> Village:
    named.runtime.register_farm(NEIGHBOUR, "Asha Mwakasege", "en")
    named.tell(NEIGHBOUR, "New cow Neema, milking. New cow Zawadi, milking")
    named.tell(NEIGHBOUR, f"my technician is Juma {TECHNICIAN}")
    return named


def served(village: Village, phone: str = OWNER) -> list[str]:
    lines = village.exported(phone)
    return [line["animal"] for line in lines if line.get("kind") == "service" and not line["undone"]]


def test_a_phone_that_no_farm_has_named_reports_nothing(village: Village) -> None:
    assert "Welcome" in village.tell(TECHNICIAN, "Neema served AI")
    assert served(village) == []


def test_the_owner_hears_of_a_report(named: Village) -> None:
    assert "Neema" in named.tell(TECHNICIAN, "Neema served AI")
    assert served(named) == ["Neema"]
    assert "Juma wrote: Neema" in named.notices(OWNER)[-1]
    assert "NOT TRUE" in named.notices(OWNER)[-1]


def test_what_is_not_true_is_taken_out_and_the_technician_told(named: Village) -> None:
    named.tell(TECHNICIAN, "Neema served AI")
    named.tell(OWNER, "NOT TRUE")
    assert served(named) == []
    assert "Rehema says" in named.notices(TECHNICIAN)[-1]


def test_after_a_week_a_report_is_contested_no_more(named: Village) -> None:
    named.tell(TECHNICIAN, "Neema served AI")
    named.clock.move(timedelta(days=8))
    named.tell(OWNER, "NOT TRUE")
    assert served(named) == ["Neema"]


def test_the_owners_own_service_is_not_contested(named: Village) -> None:
    named.tell(OWNER, "Neema served AI")
    named.tell(OWNER, "NOT TRUE")
    assert served(named) == ["Neema"]


@pytest.mark.parametrize("text", ["Neema 6 litres", "Neema died", "PEOPLE", "good morning", "herd"])
def test_anything_else_is_answered_kindly_and_not_written(named: Village, text: str) -> None:
    assert "Rehema" in named.tell(TECHNICIAN, text)
    assert [line["kind"] for line in named.exported() if line["what"] == "entry"] == [
        "new_animal", "new_animal", "contact",
    ]  # fmt: skip


def test_the_animals_name_tells_the_farm(two_farms: Village) -> None:
    two_farms.tell(TECHNICIAN, "Zawadi served AI")
    assert (served(two_farms), served(two_farms, NEIGHBOUR)) == ([], ["Zawadi"])


@pytest.mark.parametrize(
    "text", ["Neema served AI, Asha", "farm of Asha Neema served AI", "0622345678 Neema served AI"]
)
def test_the_owners_name_or_number_tells_the_farm(two_farms: Village, text: str) -> None:
    two_farms.tell(TECHNICIAN, text)
    assert (served(two_farms), served(two_farms, NEIGHBOUR)) == ([], ["Neema"])


def test_of_two_farms_with_one_name_it_is_asked(two_farms: Village) -> None:
    assert "1 Rehema 2 Asha" in two_farms.tell(TECHNICIAN, "Neema served AI")
    two_farms.tell(TECHNICIAN, "2")
    assert (served(two_farms), served(two_farms, NEIGHBOUR)) == ([], ["Neema"])


def test_undo_takes_back_the_latest_report_and_its_owner_hears_of_it(two_farms: Village) -> None:
    two_farms.tell(TECHNICIAN, "Tausi served AI")
    two_farms.tell(TECHNICIAN, "Zawadi served AI")
    two_farms.tell(TECHNICIAN, "UNDO")
    assert (served(two_farms), served(two_farms, NEIGHBOUR)) == (["Tausi"], [])
    assert "took back" in two_farms.notices(NEIGHBOUR)[-1]


def test_a_technician_with_a_farm_of_his_own_names_the_other(named: Village) -> None:
    named.runtime.register_farm(TECHNICIAN, "Juma", "en")
    named.tell(TECHNICIAN, "New cow Neema, milking")
    named.tell(TECHNICIAN, "Neema served AI")
    assert served(named) == []
    named.tell(TECHNICIAN, "Neema served AI, Rehema")
    assert (served(named), served(named, TECHNICIAN)) == (["Neema"], ["Neema"])


def test_a_technician_who_is_named_no_more_reports_no_more(named: Village) -> None:
    named.tell(OWNER, "my technician is Anna 0755000111")
    assert "Welcome" in named.tell(TECHNICIAN, "Neema served AI")
    named.tell(OWNER, "UNDO")
    named.tell(TECHNICIAN, "Neema served AI")
    assert served(named) == ["Neema"]


def test_a_report_twice_is_written_once(named: Village) -> None:
    named.again(TECHNICIAN, "Neema served AI", "r1")
    named.again(TECHNICIAN, "Neema served AI", "r1")
    assert served(named) == ["Neema"]
    assert len(named.notices(OWNER)) == 1


def test_a_service_told_by_the_owner_too_is_asked_about(named: Village) -> None:
    named.tell(TECHNICIAN, "Neema served AI")
    assert "Juma told" in named.tell(OWNER, "Neema served AI")
    assert served(named) == ["Neema"]


def test_a_technician_joins_with_cows_of_his_own(named: Village) -> None:
    named.tell(TECHNICIAN, "JOIN")
    named.tell(TECHNICIAN, "YES")
    assert "Juma" in named.tell(TECHNICIAN, "Juma")
    assert {line["what"] for line in named.exported(TECHNICIAN)} >= {"farm", "person"}


def test_the_texts_of_a_report_are_kept_with_the_farm(named: Village) -> None:
    named.tell(TECHNICIAN, "Neema served AI")
    texts = [line for line in named.exported() if line["what"] == "text_in" and line["from"] == TECHNICIAN]
    assert [text["state"] for text in texts] == ["handled"]


def test_a_cow_that_goes_by_her_owners_name_is_the_cow(named: Village) -> None:
    named.tell(OWNER, "New cow Rehema, milking")
    named.tell(TECHNICIAN, "Rehema served AI")
    assert served(named) == ["Rehema"]


def test_a_report_answered_with_the_farm_later_is_dated_by_its_own_day(two_farms: Village) -> None:
    two_farms.tell(TECHNICIAN, "Neema served AI")
    two_farms.clock.move(timedelta(hours=23))
    two_farms.tell(TECHNICIAN, "1")
    services = [line for line in two_farms.exported() if line.get("kind") == "service"]
    assert [line["on"] for line in services] == ["2026-03-02"]
