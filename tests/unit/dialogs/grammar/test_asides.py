"""What stands beside a telling, what is only thought of, and what the same words leave out."""

from __future__ import annotations

from datetime import datetime

import pytest

from tests.unit.dialogs.grammar.reading import HERD, MORNING, entries, entry, reading

ALL_BUT_NYOTA = [known.name for known in HERD.animals if known.name != "Nyota"]


@pytest.mark.parametrize(
    "text",
    [
        "I may sell Jasiri if the price is good", "we would sell Jasiri", "I might sell Jasiri",
        "naweza kumuuza Jasiri", "Mungu akipenda Tausi atakuwa na mimba", "Tausi atakuwa na mimba",
        "God willing Neema is pregnant", "Naogopa Pendo asije akaugua kama ng'ombe wa jirani",
        "I am afraid Pendo may abort", "Neema akifa", "afraid that Tausi dies",
        "pengine Tausi ana mimba", "I hear Tausi calved", "call AI for Neema",
        "my brother thinks Tausi is in calf but nobody checked",
        "Pendo hajafa, alikuwa amelala tu",
    ],
)  # fmt: skip
def test_what_may_be_or_is_feared_is_no_record(text: str) -> None:
    assert entries(text) == []


@pytest.mark.parametrize("text", ["Naogopa Pendo, anakohoa sana", "I am worried, Pendo is coughing"])
def test_a_worry_beside_a_sign_leaves_the_sign(text: str) -> None:
    told = entry(text)
    assert (told["kind"], told["signs"]) == ("illness", ["cough"])


@pytest.mark.parametrize(
    "text",
    [
        "spray kila mtu leo isipokuwa Nyota", "nimewanyunyizia ng'ombe ila Nyota",
        "sprayed cows except Nyota",
        "nimeogesha kasoro Nyota", "dewormed except Nyota", "sprayed, but not Nyota",
        "chanjo ya FMD isipokuwa Nyota", "nimelisha hay kilo 40 isipokuwa Nyota",
    ],
)  # fmt: skip
def test_all_but_the_one_named_are_meant(text: str) -> None:
    assert entry(text)["animals"] == ALL_BUT_NYOTA


def test_a_group_but_one_is_that_group_without_it() -> None:
    assert entry("nimechanja ndama FMD isipokuwa Kito")["animals"] == ["Sumu"]


@pytest.mark.parametrize(
    "text",
    ["Neema on heat, please AI", "Neema on heat need AI service", "Neema ana joto tuma mhimilishaji"],
)
def test_a_request_for_ai_is_no_service(text: str) -> None:
    assert [told["kind"] for told in entries(text)] == ["heat"]


def test_a_service_told_politely_is_one() -> None:
    assert entry("Neema AI leo tafadhali")["kind"] == "service"


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("Tausi four and half, pendo ditto", {"Tausi": 4.5, "Pendo": 4.5}),
        ("zawadi same kama neema lita 6", {"Zawadi": 6, "Neema": 6}),
        ("6 litres from A12 and same from 0417", {"A12": 6, "0417": 6}),
        ("Neema 6 same as Tausi", {"Neema": 6, "Tausi": 6}),
        ("Nimekamua ng'ombe wawili, lita 11 jumla: Tausi 5 na Pendo 6", {"Tausi": 5, "Pendo": 6}),
        ("pendo half litre pungufu, ametoa 4", {"Pendo": 4}),
        ("Neema lita 66 jioni, hapana samahani ni 6", {"Neema": 6}),
        ("Zawadi calve? no she is fine, gave 6", {"Zawadi": 6}),
        ("my helper was sick, Neema 6", {"Neema": 6}),
        ("Neema 5.5 pm", {"Neema": 5.5}),
    ],
)
def test_each_cow_is_told_of_once_with_her_own_litres(text: str, litres: dict[str, float]) -> None:
    assert {told["animal"]: float(told["litres"]) for told in entries(text)} == litres


def test_a_nought_in_words_and_figures_is_one_milking() -> None:
    (only,) = reading("Pendo didnt give anything this evening, 0").entries
    assert getattr(only, "litres", None) == 0


def test_a_word_typed_with_a_number_is_no_milking() -> None:
    told = entries("neema mlk 5ltr 2nite, zawadi 6", now=datetime.fromisoformat("2026-03-02T18:20+03:00"))
    assert [(one["animal"], one["session"]) for one in told] == [("Neema", "evening"), ("Zawadi", "evening")]


def test_what_each_of_a_group_had_is_multiplied() -> None:
    assert float(entry("Kila ng'ombe anayekamuliwa nimempa mashudu kilo 2", now=MORNING)["kg"]) == 12
