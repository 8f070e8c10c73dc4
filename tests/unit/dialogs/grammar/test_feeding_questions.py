"""Questions on feeding and room, and what only looks like one."""

from __future__ import annotations

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry

MONEY = {"amount": "700.00", "currency": "TZS"}
BALE = {"amount": "5000.00", "currency": "TZS"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("LISHE NEEMA", {"animal": "Neema"}),
        ("naomba lishe ya Neema", {"animal": "Neema"}),
        ("RATION NEEMA", {"animal": "Neema"}),
        ("LISHE NEEMA MAJI LITA 40", {"animal": "Neema", "water_litres": 40}),
        ("Je Neema anakula vya kutosha?", {"animal": "Neema"}),
        ("nimpe Neema pumba kiasi gani?", {"animal": "Neema"}),
        ("is Neema fed enough?", {"animal": "Neema"}),
        ("how much dairy meal should I give Neema?", {"animal": "Neema"}),
        ("LISHE", {}),
    ],
)
def test_whether_she_is_fed_enough(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "ask", "topic": "ration", **told}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("PUMBA INALIPA 700", {"price": MONEY}),
        ("PUMBA INALIPA", {}),
        ("PUMBA INALIPA NEEMA 700", {"price": MONEY, "animal": "Neema"}),
        ("niongeze pumba?", {}),
        ("FEED WORTH 700", {"price": MONEY}),
        ("does more meal pay for Neema?", {"animal": "Neema"}),
    ],
)
def test_whether_more_meal_pays(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "ask", "topic": "feed_worth", **told}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("AKIBA HEI MAROBOTA 40 NG'OMBE 2", {"about": "40 bale hay", "animals_count": 2}),
        ("AKIBA HEI MAROBOTA 40 NG'OMBE 2 BEI 5000",
         {"about": "40 bale hay", "animals_count": 2, "price": BALE}),
        ("akiba marobota 40 ya hei na saileji tani 2 ng'ombe 3 hadi 30 Novemba",
         {"about": "40 bale hay, 2 tonne silage", "animals_count": 3, "until": "2026-11-30"}),
        ("AKIBA MABUA MAFUNGU 30", {"about": "30 bundle stover"}),
        ("AKIBA MAROBOTA 40 YA KILO 12", {"about": "40 bale of 12 hay"}),
        ("FODDER 100 BALES HAY 2 COWS", {"about": "100 bale hay", "animals_count": 2}),
        ("FODDER 100 BALES OF 12 KG HAY AND 2 TONNES SILAGE FOR 3 COWS AT 5000",
         {"about": "100 bale of 12 hay, 2 tonne silage", "animals_count": 3, "price": BALE}),
        ("how long will 40 bales of hay last for 2 cows?", {"about": "40 bale hay", "animals_count": 2}),
        ("hei itatosha hadi lini?", {}),
        ("FODDER", {}),
    ],
)  # fmt: skip
def test_whether_the_fodder_lasts(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "ask", "topic": "fodder", **told}


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("BANDA NG'OMBE 5", 5),
        ("SPACE 5 COWS", 5),
        ("nafasi ya ng'ombe watano", 5),
        ("how big a shed for 5 cows?", 5),
    ],
)
def test_how_much_room_cattle_need(text: str, count: int) -> None:
    assert entry(text) == {"kind": "ask", "topic": "space", "animals_count": count}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("nimempa Neema pumba kilo 3", "feeding"),
        ("fed Neema 3 kg bran", "feeding"),
        ("nimenunua hei marobota 40 kwa 200000", "expense"),
        ("bought hay 200000", "expense"),
        ("Neema 6", "milk"),
        ("Neema hataki kula", "illness"),
    ],
)
def test_what_was_done_is_told_and_not_asked(text: str, kind: str) -> None:
    assert [told["kind"] for told in entries(text)] == [kind]


@pytest.mark.parametrize(
    "text", ["banda nimesafisha leo", "nimejenga banda la ng'ombe 5", "shed cleaned today"]
)
def test_work_on_the_shed_is_no_question_of_room(text: str) -> None:
    assert not [told for told in entries(text) if told.get("topic") == "space"]
