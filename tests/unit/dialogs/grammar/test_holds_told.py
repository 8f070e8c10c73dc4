"""Days of holding milk and meat back, the hour of the last dose, and tubes at drying off, as told."""

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, reading

HELD: list[tuple[str, dict[str, Any]]] = [
    ("Neema amechomwa penicillin maziwa siku 4", {"milk_hold_days": 4}),
    ("Neema amepewa penisilini, asiuzwe siku 3", {"milk_hold_days": 3}),
    ("Neema penicillin withdrawal 72 hours", {"milk_hold_days": 3}),
    ("Neema amechomwa dawa, maziwa wiki moja", {"milk_hold_days": 7}),
    ("Neema asichinjwe siku 28, amepewa OTC", {"meat_hold_days": 28}),
    ("Neema treated, discard milk for 60 hours", {"milk_hold_days": 3}),  # two days and a half
    ("Neema amechomwa dawa, maziwa yasiuzwe masaa 72", {"milk_hold_days": 3}),
    ("Neema amechomwa OTC, nyama siku 28", {"meat_hold_days": 28}),
    ("Neema treated with OTC, label says 4 days", {"milk_hold_days": 4}),
    ("Neema amepewa dawa lebo inasema siku 5", {"milk_hold_days": 5}),
    ("Neema got penicillin, milk 4 days, meat 14 days", {"milk_hold_days": 4, "meat_hold_days": 14}),
    ("Neema OTC milk withdrawal 96 hrs meat 28 days", {"milk_hold_days": 4, "meat_hold_days": 28}),
    ("Neema amechomwa sindano, usiuze maziwa mpaka siku 4", {"milk_hold_days": 4}),
    ("Neema amechomwa penicillin kwa siku 3, maziwa siku 4", {"milk_hold_days": 4}),
    (
        "Neema amepewa dawa ya minyoo, maziwa siku 3, nyama siku 14",
        {"milk_hold_days": 3, "meat_hold_days": 14},
    ),
]


@pytest.mark.parametrize(("text", "told"), HELD, ids=[text for text, _ in HELD])
def test_days_of_holding_back_where_milk_meat_sale_or_label_is_said(text: str, told: dict[str, Any]) -> None:
    read = entry(text)
    assert {key: read.get(key) for key in ("milk_hold_days", "meat_hold_days") if key in read} == told


def test_none_that_the_label_says_is_nought_and_not_unknown() -> None:
    for text in (
        "Neema penicillin milk none meat 14 days",
        "Neema penicillin, maziwa hakuna, nyama siku 14",
        "Neema penicillin maziwa siku 0 nyama siku 14",
    ):
        (treated,) = reading(text).entries
        assert (treated.milk_hold_days, treated.meat_hold_days) == (0, 14)  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    "text",
    [
        "Neema penicillin siku 4",
        "daktari amemchoma Neema sindano ya penicillin kwa siku tatu",
        "Neema treated with OTC for 3 days",
        "Neema amechomwa penicillin mara 3",
    ],
)
def test_bare_days_may_be_days_of_treatment_and_hold_nothing(text: str) -> None:
    read = entry(text)
    assert read["kind"] == "treatment"
    assert "milk_hold_days" not in read
    assert "meat_hold_days" not in read


def test_the_hour_of_the_dose_is_kept_where_it_is_told() -> None:
    read = entry("Neema amechomwa penicillin leo saa 12 jioni, maziwa siku 3")
    assert read["last_dose"] == "2026-03-02T18:00+03:00"
    assert read["milk_hold_days"] == 3
    assert entry("Tausi injected with OTC at 7am, milk 4 days")["last_dose"] == "2026-03-02T07:00+03:00"
    two = entry("Neema amechomwa penicillin asubuhi saa 2 na jioni saa 12, maziwa siku 3")
    assert two["last_dose"] == "2026-03-02T18:00+03:00"
    last = entry("Neema dozi ya mwisho jana saa 11 jioni, maziwa siku 3")
    assert (last["kind"], last["last_dose"]) == ("treatment", "2026-03-01T17:00+03:00")
    assert "last_dose" not in entry("Neema amechomwa penicillin leo asubuhi, maziwa siku 3")


def test_dry_cow_tubes_are_a_treatment_and_a_drying_off_where_that_is_told() -> None:
    assert entry("Neema amewekewa dawa ya kukaushia") == {
        "kind": "treatment",
        "animals": ["Neema"],
        "on": "2026-03-02",
        "product": "dawa ya kukaushia",
        "dry_cow": True,
    }
    assert entry("Tausi tubed with dry cow tubes, milk 30 days")["milk_hold_days"] == 30
    both = entries("Neema amekaushwa na dawa ya kukaushia, maziwa siku 30")
    assert sorted(told["kind"] for told in both) == ["drying_off", "treatment"]
    assert [told["kind"] for told in entries("dried off Neema with dry cow tubes")] == [
        "treatment",
        "drying_off",
    ]


def test_a_dry_cow_and_a_bought_tube_are_no_treatment() -> None:
    assert entry("nimenunua dawa ya kukaushia 15000")["kind"] == "expense"
    assert entry("new dry cow Furaha")["kind"] == "new_animal"
