"""What a text hopes, asks, compares, foretells or tells of one of two is never recorded as it stands."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from service.husbandry.forms import dump
from service.husbandry.herd import Herd, Known, Sex, Status
from tests.unit.dialogs.grammar.reading import EVENING, entries, problem, reading


@pytest.mark.parametrize(
    "text",
    [
        "natamani Neema awe na mimba",
        "I hope Neema is pregnant",
        "laiti Neema angekuwa na mimba",
        "sijui kama Neema ana mimba",
        "kama Neema amezaa niambie",
        "if Neema dies I will cry",
        "Neema akifa nitalia",
        "Neema angekufa",
        "nimeota Neema amekufa",
        "tulidhani Neema amekufa kumbe mzima",
        "I nearly sold Tausi for 700000",
        "nimekataa kumuuza Neema laki 8",
        "the vet said give Neema penicillin for 3 days",
        "Pendo is for sale 800000",
        "dawa ya minyoo imeisha",
        "penicillin is finished",
        "Neema anaweza kutoa lita 10",
        "lengo Neema lita 10",
        "inashauriwa kuchanja FMD",
    ],
)
def test_what_is_hoped_advised_or_only_thought_is_nothing_told(text: str) -> None:
    assert [told for told in entries(text) if told["kind"] != "ask"] == []


@pytest.mark.parametrize(
    "text",
    [
        "wanasema Neema amekufa",
        "they say Neema died",
        "Juma anasema Neema ana mimba",
        "watoto wamesema Neema ameibiwa",
        "inaonekana Neema ana mimba",
        "Neema may have aborted",
        "Neema amezaa jana au juzi",
        "Neema amepewa penicillin au oxytet",
        "Neema kapandishwa AI au dume",
        "Neema amezaa, amekufa",
        "Neema calved and died",
        "Neema anazaa sasa hivi",
        "Neema has a calf",
        "Neema sold no not yet",
        "Neema amezaa hapana bado",
        "Neema anakauka maziwa",
        "nimeita daktari kumtibu Neema",
        "nimenunua Neema laki 9",
        "bought Neema for 900000",
        "nimekosea Neema 6 ni Tausi 6",
        "futa Neema 6",
    ],
)
def test_what_is_heard_or_told_two_ways_is_asked(text: str) -> None:
    assert problem(text)[0] == "confirm"
    assert entries(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "Neema au Tausi lita 6 sijui nani",
        "either Neema or Tausi died",
        "nimeuza Neema au Tausi laki 8",
        "Neema na Tausi, mmoja ana mimba",
        "kati ya Neema na Tausi mmoja amekufa",
        "Neema au ndama wake amekufa",
        "all but Neema are on heat",
    ],
)
def test_one_of_several_is_asked_for(text: str) -> None:
    assert problem(text)[0] == "which_animal"
    assert entries(text) == []


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("Tausi kashuka kutoka 9 hadi 6", [6]),
        ("Neema dropped from 9 to 6 litres", [6]),
        ("leo Tausi kashuka, badala ya lita 8 katoa 5", [5]),
        ("instead of 8 Tausi gave 5", [5]),
        ("Neema 6 kulinganisha na 8 jana", [6]),
        ("Neema 6 jana ilikuwa 8", [6]),
        ("Neema alitoa 9 sasa 6", [6]),
        ("maziwa ya Neema yameshuka hadi lita 3", [3]),
        ("Neema milk fell to 3 litres", [3]),
        ("kawaida Neema hutoa 8 leo 6", [6]),
        ("Neema 6 Tausi 5 jumla 11", [6, 5]),
        ("jumla lita 11 Neema 6 Tausi 5", [6, 5]),
    ],
)
def test_a_number_told_to_compare_is_no_milking(text: str, litres: list[int]) -> None:
    assert [told["litres"] for told in entries(text)] == litres
    assert reading(text).problems == ()


@pytest.mark.parametrize("text", ["Neema ameongeza lita 2", "Neema up 2 litres", "Neema hajafika lita 6"])
def test_by_how_much_it_changed_is_no_milking(text: str) -> None:
    assert problem(text) == ("missing", "litres")


@pytest.mark.parametrize(
    "text",
    [
        "nitamkausha Neema jumamosi",
        "I will dry off Neema on saturday",
        "nitamuuza Neema ijumaa",
        "tutaogesha jumanne",
        "Neema atazaa tarehe 30",
        "vet will vaccinate all for FMD on Monday next week",
        "we will deworm next week",
        "nitawachanja jumatatu ijayo",
    ],
)
def test_what_is_foretold_of_a_day_is_to_come(text: str) -> None:
    assert problem(text)[0] == "in_future"
    assert entries(text) == []


def test_a_day_beside_what_is_done_stays_past() -> None:
    served = entries("Neema alipandishwa jumatatu atazaa desemba")[0]
    assert date.fromisoformat(served["on"]) < EVENING.date()


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("neema ya Mungu, Tausi amezaa ndama jike", [("calving", "Tausi")]),
        ("tunashukuru Mungu kwa neema yake. Tausi lita 7", [("milk", "Tausi")]),
        ("kwa bahati mbaya Tausi amekufa", [("death", "Tausi")]),
        ("neema imenijia, Tausi lita 6", [("milk", "Tausi")]),
    ],
)
def test_a_name_used_as_a_common_word_is_no_animal(text: str, kinds: list[tuple[str, str]]) -> None:
    assert [(told["kind"], told["animal"]) for told in entries(text)] == kinds
    assert reading(text).problems == ()


def test_she_after_two_animals_is_asked_for() -> None:
    text = "Neema na Tausi wametoa lita 5 kila mmoja. Amepewa penicillin"
    assert [told["kind"] for told in entries(text)] == ["milk", "milk"]
    assert problem(text)[0] == "which_animal"
    they = "Neema na Tausi wametoa 5 kila mmoja. Wamepewa dawa ya minyoo"
    assert entries(they)[-1]["animals"] == ["Neema", "Tausi"]


_NAMESAKES = Herd((
    Known(name="Neema", names=("Neema",), sex=Sex.FEMALE, status=Status.MILKING),
    Known(name="Neema", names=("Neema",), sex=Sex.FEMALE, status=Status.CALF),
    Known(name="Tausi", names=("Tausi",), sex=Sex.FEMALE, status=Status.MILKING),
))  # fmt: skip


def _of_namesakes(text: str) -> tuple[list[dict[str, Any]], list[str]]:
    told = reading(text, herd=_NAMESAKES)
    return entries(text, herd=_NAMESAKES), [one.code.value for one in told.problems]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Neema 6", "milk"),
        ("Neema amezaa ndama jike", "calving"),
        ("nimemwachisha Neema maziwa", "weaning"),
        ("ndama Neema amekufa", "death"),
    ],
)
def test_of_two_of_one_name_the_kind_or_a_noun_can_tell_which(text: str, kind: str) -> None:
    told, asked = _of_namesakes(text)
    assert [one["kind"] for one in told] == [kind]
    assert asked == []


@pytest.mark.parametrize(
    "text", ["Neema amekufa", "nimeuza Neema laki 8", "Neema amepewa penicillin", "Neema anaharisha"]
)
def test_of_two_of_one_name_none_is_picked_unasked(text: str) -> None:
    assert _of_namesakes(text) == ([], ["which_animal"])


@pytest.mark.parametrize("text", ["Daisy gave 7", "every milking cow gave 4 litres each", "Grace gave 5"])
def test_what_cows_gave_is_no_rule_of_the_farm(text: str) -> None:
    assert all(told["kind"] == "milk" for told in entries(text))


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("wameogeshwa wote cypermethrin maziwa masaa 24", 1),
        ("nimewaogesha wote, maziwa yasitumike siku 2", 2),
        ("Neema amepewa dawa ya kiwele leo maziwa yasitumike siku tatu", 3),
        ("Neema penicillin maziwa saa 72", 3),
    ],
)
def test_a_hold_after_a_routine_is_kept(text: str, days: int) -> None:
    assert entries(text)[0]["milk_hold_days"] == days


def test_another_animal_on_another_day_has_her_own() -> None:
    told = entries("vaccinated Neema against FMD yesterday and Tausi today")
    assert [(one["animals"], one["on"]) for one in told] == [
        (["Neema"], "2026-03-01"),
        (["Tausi"], "2026-03-02"),
    ]


def test_the_calf_with_her_is_not_every_calf() -> None:
    assert entries("nimeogesha Neema na ndama wake")[0]["animals"] == ["Neema"]
    assert problem("nimeogesha Neema na ndama wake")[0] == "which_animal"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("uzito: Kito 45, Sumu 50", [("weight", "Kito"), ("weight", "Sumu")]),
        ("PD: Neema 3 months, Tausi 5 months", [("pregnancy_check", "Neema"), ("pregnancy_check", "Tausi")]),
        ("Neema kifua 165 hali 3", [("girth", "Neema"), ("condition", "Neema")]),
    ],
)
def test_a_heading_holds_for_the_list_after_it(text: str, told: list[tuple[str, str]]) -> None:
    assert [(one["kind"], one["animal"]) for one in entries(text)] == told


@pytest.mark.parametrize(
    ("text", "calves"), [("Neema amezaa ndama 2", 2), ("Neema calved 3 calves", 3), ("Neema amezaa", 1)]
)
def test_calves_can_be_told_by_number_alone(text: str, calves: int) -> None:
    assert len(entries(text)[0]["calves"]) == calves


def test_a_hold_until_a_day_counts_to_it_and_the_drug_was_given_today() -> None:
    treated = entries("Neema amepewa dawa ya kuhara, maziwa yasiuzwe mpaka jumatano")[0]
    assert treated["milk_hold_days"] == 2
    assert treated["on"] == "2026-03-02"


@pytest.mark.parametrize("text", ["mke wangu amejifungua", "my wife gave birth", "mbwa amekufa"])
def test_what_befell_people_and_dogs_is_no_record(text: str) -> None:
    assert reading(text).entries == ()
    assert problem(text)[0] == "not_understood"


def test_a_price_beside_a_drug_is_what_it_cost() -> None:
    assert [one["kind"] for one in entries("dawa ya minyoo 8000")] == ["expense"]


def test_a_question_shows_only_the_keys_of_its_topic() -> None:
    asked = dump(reading("nani ananidai").entries[0])
    assert set(asked) == {"kind", "topic", "about", "animal", "period", "month"}
