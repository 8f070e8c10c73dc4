"""Drugs put in at drying off, needles against diseases, and numbers that count something else than litres."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, problem, reading

DRIED: list[tuple[str, str]] = [
    ("Zawadi amekaushwa kwa dawa ya chuchu", "Zawadi"),
    ("nimemkausha Zawadi na dawa ya chuchu", "Zawadi"),
    ("tumemkausha Tausi kwa dawa ya mastitis", "Tausi"),
    ("nimemkausha Neema na kumuwekea dawa ya kuzuia mastitis", "Neema"),
    ("Neema kakaushwa, dawa imewekwa kwenye chuchu zote nne", "Neema"),
    ("amekaushwa Neema, amewekewa dawa", "Neema"),
    ("dried off Neema with tubes", "Neema"),
    ("Neema dried off with dry cow therapy", "Neema"),
    ("dried off Neema, tubes in", "Neema"),
    ("stopped milking Neema and put in tubes", "Neema"),
]


@pytest.mark.parametrize(("text", "cow"), DRIED, ids=[text for text, _ in DRIED])
def test_a_cow_dried_off_with_a_drug_is_dried_and_treated(text: str, cow: str) -> None:
    told = {entry["kind"]: entry for entry in entries(text)}
    assert set(told) == {"drying_off", "treatment"}
    assert told["drying_off"]["animal"] == cow
    assert (told["treatment"]["animals"], told["treatment"]["dry_cow"]) == ([cow], True)


@pytest.mark.parametrize(
    "text",
    [
        "Neema amewekewa dawa ya kukausha",
        "Neema amepewa dawa ya kukausha",
        "nimempa Neema sindano ya kukausha maziwa",
        "nimemtia Neema dawa za kukausha chuchu zote",
        "Neema dry cow tube in all quarters",
        "put dry cow tubes in all quarters of Neema",
        "Neema dry tubes yesterday",
    ],
)
def test_the_drug_alone_is_a_treatment(text: str) -> None:
    (told,) = entries(text)
    assert (told["kind"], told["animals"], told["dry_cow"]) == ("treatment", ["Neema"], True)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Zawadi dawa ya kukausha, maziwa siku 30", 30),
        ("dried off Neema with tubes, milk hold 30 days", 30),
        ("nimemwekea Neema dawa ya kukausha kila chuchu, maziwa siku 45", 45),
        ("nimemkausha Neema leo, dawa ya chuchu nne, usiuze maziwa siku 30", 30),
        ("dried off Neema, tubes in, hold milk 35 days", 35),
    ],
)
def test_its_days_are_kept(text: str, days: int) -> None:
    (treated,) = (entry for entry in entries(text) if entry["kind"] == "treatment")
    assert treated["milk_hold_days"] == days


@pytest.mark.parametrize("text", ["Neema hajawekewa dawa ya kukausha", "nataka kumkausha Neema kwa dawa"])
def test_a_drug_not_put_in_is_no_treatment(text: str) -> None:
    assert entries(text) == []


def test_a_drug_injected_beside_the_drying_is_not_lost() -> None:
    told = entries("nimemkausha Neema na kumchoma penicillin, maziwa siku 4")
    assert [entry["kind"] for entry in told] == ["drying_off", "treatment"]
    assert (told[1]["product"], told[1]["milk_hold_days"]) == ("penicillin", 4)


JABS: list[tuple[str, str]] = [
    ("Neema kapigwa sindano ya kimeta", "anthrax"),
    ("Neema kachomwa sindano ya chambavu", "blackquarter"),
    ("Neema amechomwa sindano ya mapele ngozi", "lsd"),
    ("Neema kachomwa sindano ya ugonjwa wa miguu na midomo", "fmd"),
    ("Neema kapigwa sindano ya homa ya mapafu", "cbpp"),
    ("Neema kachomwa sindano ya kuzuia kimeta", "anthrax"),
    ("Neema injected for anthrax", "anthrax"),
    ("Neema got the lumpy skin jab", "lsd"),
    ("Neema jabbed against blackquarter", "blackquarter"),
    ("vet gave Neema the black quarter injection", "blackquarter"),
]


@pytest.mark.parametrize(("text", "disease"), JABS, ids=[text for text, _ in JABS])
def test_a_needle_against_a_disease_is_a_vaccination(text: str, disease: str) -> None:
    (told,) = entries(text)
    assert (told["kind"], told["animals"], told["disease"]) == ("vaccination", ["Neema"], disease)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Neema amepigwa sindano ya antibiotic", "treatment"),
        ("Neema injected with penicillin", "treatment"),
        ("Neema injected for ECF", "treatment"),
        ("Neema kachomwa penicillin kwa kimeta", "treatment"),
        ("Neema amepewa dripu", "treatment"),
        ("Neema kapigwa sindano ya minyoo", "deworming"),
        ("Neema injected for worms", "deworming"),
    ],
)
def test_other_needles_keep_their_kind(text: str, kind: str) -> None:
    assert [entry["kind"] for entry in entries(text)] == [kind]


@pytest.mark.parametrize(
    "text",
    [
        "Neema 2 teats blocked",
        "Neema one teat not giving",
        "Neema has 2 swollen legs",
        "Neema has 3 lumps on neck",
        "Neema ana vidonda 3 mguuni",
        "Neema given 2 injections",
        "Neema amepewa vidonge 3",
    ],
)
def test_what_counts_sores_and_needles_is_no_milk(text: str) -> None:
    assert all(entry["kind"] != "milk" for entry in entries(text))


def test_litres_beside_a_count_stay_litres() -> None:
    (told,) = entries("Neema milked 2 times 6 litres")
    assert told["litres"] == 6


@pytest.mark.parametrize(
    "text",
    ["Neema amekula sumu", "Neema ate something poisonous", "Neema anatetemeka", "Tausi nose discharge",
     "Tausi ana kidonda", "Tausi smelly discharge"],
)  # fmt: skip
def test_plain_words_of_illness_ask_for_the_signs(text: str) -> None:
    assert problem(text) == ("missing", "signs")


def test_a_drug_that_only_tells_why_milk_was_refused_was_given_to_nobody() -> None:
    assert [entry["kind"] for entry in entries("centre refused all my milk, 8 litres, antibiotics")] == [
        "delivery"
    ]


def test_a_course_told_as_over_is_asked_about() -> None:
    assert problem("Neema finished her antibiotics") == ("confirm", None)


def test_what_a_drug_cost_is_no_treatment() -> None:
    told: list[dict[str, Any]] = entries("paid vet 20000 and medicine 15000 for Neema")
    assert [(entry["kind"], entry["amount"]["amount"]) for entry in told] == [
        ("expense", "20000.00"),
        ("expense", "15000.00"),
    ]
    assert entries("matibabu ya Neema 20000")[0]["kind"] == "expense"
    assert reading("nimelipa sindano ya kimeta 5000").problems == ()


@pytest.mark.parametrize(
    "text", ["daktari kamtibu Neema nimelipa 20000", "nimelipa daktari 20000 amemtibu Neema"]
)
def test_a_treatment_is_not_lost_beside_its_cost(text: str) -> None:
    assert {entry["kind"] for entry in entries(text)} == {"expense", "treatment"}


def test_days_told_after_the_cost_are_of_the_treatment() -> None:
    told = {entry["kind"]: entry for entry in entries("vet treated Neema, paid 20000, milk 4 days")}
    assert (told["treatment"]["milk_hold_days"], told["expense"]["amount"]["amount"]) == (4, "20000.00")


@pytest.mark.parametrize(
    "text", ["Neema amechomwa sindano ya kushika mimba", "neema drenched for bloat", "sprayed wound of Neema"]
)
def test_what_a_drug_was_for_is_told_of_a_treatment(text: str) -> None:
    assert [entry["kind"] for entry in entries(text)] == ["treatment"]


@pytest.mark.parametrize(
    "text", ["Neema amezaa jana kondo bado", "Neema calved yesterday afterbirth not out"]
)
def test_an_afterbirth_that_stays_is_told_beside_the_calving(text: str) -> None:
    assert [entry["kind"] for entry in entries(text)] == ["calving", "illness"]


@pytest.mark.parametrize("text", ["Neema ana ndigana", "Neema has east coast fever"])
def test_a_disease_named_asks_for_its_signs(text: str) -> None:
    assert problem(text) == ("missing", "signs")
