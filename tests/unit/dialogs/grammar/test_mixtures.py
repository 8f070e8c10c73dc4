"""Doses and mixtures asked about with the label's rate as the farmer reads it out."""

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry

DOSES: list[tuple[str, dict[str, Any]]] = [
    ("DOSE NEEMA 1 ML PER 10 KG", {"animal": "Neema", "rate_ml": 1, "per_kg": 10}),
    (
        "DOZI NEEMA 1 ML KWA KILO 10 (MWISHO 30 ML)",
        {"animal": "Neema", "rate_ml": 1, "per_kg": 10, "highest_ml": 30},
    ),
    ("DOZI NEEMA", {"animal": "Neema"}),
    ("DOSE 1 ML PER 10 KG", {"rate_ml": 1, "per_kg": 10}),
    (
        "KIPIMO CHA DAWA YA MINYOO NEEMA ML 1 KWA KILO 10",
        {"animal": "Neema", "rate_ml": 1, "per_kg": 10, "route": "mouth"},
    ),
    ("how much wormer for Neema", {"animal": "Neema", "route": "mouth"}),
    (
        "dose A12 7.5 ml per 50kg max 60ml injection",
        {"animal": "A12", "rate_ml": 7.5, "per_kg": 50, "highest_ml": 60, "route": "injection"},
    ),
    (
        "dozi ya Neema ml moja kwa kila kilo kumi isizidi ml 30",
        {"animal": "Neema", "rate_ml": 1, "per_kg": 10, "highest_ml": 30},
    ),
    ("DOSE NEEMA 1 ml per kg pour on", {"animal": "Neema", "rate_ml": 1, "per_kg": 1, "route": "pour"}),
    ("dozi Neema ml 1 kwa kila kilo", {"animal": "Neema", "rate_ml": 1, "per_kg": 1}),
    ("DOSE NEEMA 5 ML 340 KG", {"animal": "Neema", "rate_ml": 5}),  # 340 kg is no rate
    (
        "dozi ya sindano Neema ml 2.5 kwa kilo 50",
        {"animal": "Neema", "rate_ml": 2.5, "per_kg": 50, "route": "injection"},
    ),
    ("nimpe Neema ml ngapi?", {"animal": "Neema"}),
]


@pytest.mark.parametrize(("text", "told"), DOSES, ids=[text for text, _ in DOSES])
def test_a_dose_is_asked_with_what_the_label_says(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "ask", "topic": "dose", **told}


def test_a_weight_told_beside_a_whole_rate_is_recorded_first() -> None:
    weight, asked = entries("DOSE NEEMA 1 ML PER 10 KG 340 KG")
    assert (weight["kind"], weight["animal"], weight["kg"]) == ("weight", "Neema", 340)
    assert (asked["rate_ml"], asked["per_kg"]) == (1, 10)


MIXTURES: list[tuple[str, dict[str, Any]]] = [
    ("MIX 20 ML IN 20 L FOR 5 COWS", {"rate_ml": 20, "in_litres": 20, "animals_count": 5, "use": "cattle"}),
    (
        "CHANGANYA ML 20 KWA LITA 20 NG'OMBE 5",
        {"rate_ml": 20, "in_litres": 20, "animals_count": 5, "use": "cattle"},
    ),
    ("MIX 1:400 PUMP 16 L", {"part": 400, "tank_litres": 16}),
    ("CHANGANYA 1:100 NDOO LITA 20", {"part": 100, "tank_litres": 20}),
    ("mix 1:10 bucket 20 l", {"part": 10, "tank_litres": 20}),
    ("mix 1 to 400 tank 20 l", {"part": 400, "tank_litres": 20}),
    ("changanya moja kwa mia nne pampu lita 16", {"part": 400, "tank_litres": 16}),
    ("MIX 1:400 16 L", {"part": 400, "tank_litres": 16}),
    ("MIX 2 ML PER L 20 L", {"rate_ml": 2, "in_litres": 1, "tank_litres": 20}),
    ("25 ML IN 10 L PUMP 16 L MIX?", {"rate_ml": 25, "in_litres": 10, "tank_litres": 16}),
    (
        "CHANGANYA ML 25 KWA LITA 10 PAMPU LITA 16 BANDA",
        {"rate_ml": 25, "in_litres": 10, "tank_litres": 16, "use": "shed"},
    ),
    (
        "MIX 2 ML PER LITRE 3 COWS 5 L EACH",
        {"rate_ml": 2, "in_litres": 1, "animals_count": 3, "litres_each": 5, "use": "cattle"},
    ),
    (
        "changanya ml 2 kwa lita ng'ombe 3 lita 5 kila mmoja",
        {"rate_ml": 2, "in_litres": 1, "animals_count": 3, "litres_each": 5, "use": "cattle"},
    ),
    ("mix 25 ml in 500 ml", {"rate_ml": 25, "in_litres": 0.5}),
    ("changanya ml 20 kwa lita 20 ng'ombe wote", {"rate_ml": 20, "in_litres": 20, "use": "cattle"}),
    ("changanya dawa ya kupe ml 20 kwa lita 20", {"rate_ml": 20, "in_litres": 20, "use": "cattle"}),
    ("how do I mix 20 ml in 20 l for dogs", {"rate_ml": 20, "in_litres": 20, "use": "other"}),
    (
        "nachanganyaje dawa ya banda ml 10 kwa lita moja, ndoo ya lita 20",
        {"rate_ml": 10, "in_litres": 1, "tank_litres": 20, "use": "shed"},
    ),
    ("mix", {}),
    ("CHANGANYA", {}),
]


@pytest.mark.parametrize(("text", "told"), MIXTURES, ids=[text for text, _ in MIXTURES])
def test_a_mixture_is_asked_with_what_the_label_says(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "ask", "topic": "mix", **told}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("nimemchoma Neema dozi ya penicillin", "treatment"),
        ("dozi ya pili ya OTC kwa Neema leo", "treatment"),
        ("Neema amepewa ml 20 za dawa ya minyoo", "deworming"),
        ("nimeogesha ng'ombe wote kwa amitraz ml 20 kwa lita 20", "spraying"),
    ],
)
def test_what_was_given_or_sprayed_is_no_question(text: str, kind: str) -> None:
    assert entry(text)["kind"] == kind
