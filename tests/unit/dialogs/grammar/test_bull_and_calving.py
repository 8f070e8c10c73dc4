"""The bull that runs with the herd, and what is told of a calving."""

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, problem, reading

CAN_BE_SERVED = ["Neema", "Zawadi", "Tausi", "Pendo", "A12", "0417", "Chausiku", "Bahati", "Asali"]


@pytest.mark.parametrize(
    ("text", "on"),
    [
        ("bull is running with Neema since 3 May", "2025-05-03"),
        ("Neema dume wa jirani yuko naye tangu tarehe 1", "2026-03-01"),
        ("dume yuko na Neema tangu jana", "2026-03-01"),
        ("the neighbour's bull has been with Neema since yesterday", "2026-03-01"),
        ("dume anakaa na Neema", "2026-03-02"),
    ],
)
def test_a_bull_that_goes_with_one_cow(text: str, on: str) -> None:
    read = entry(text)
    assert (read["kind"], read["animal"], read["method"]) == ("service", "Neema", "bull")
    assert (read["running"], read["on"]) == (True, on)


def test_a_month_alone_is_about_its_middle() -> None:
    read = entry("Neema: dume wa jirani yuko naye tangu Januari")
    assert (read["on"], read["about"]) == ("2026-01-15", True)


@pytest.mark.parametrize(
    "text",
    [
        "dume yuko na ng'ombe wote",
        "the bull is with the herd",
        "dume yumo kundini",
        "bull is running with the cows",
    ],
)
def test_of_the_herd_those_that_can_be_served(text: str) -> None:
    told = entries(text)
    assert [one["animal"] for one in told] == CAN_BE_SERVED
    assert all(one["running"] and one["method"] == "bull" for one in told)


def test_the_herds_own_bull_is_the_sire() -> None:
    told = entries("Jasiri yuko na Neema na Zawadi tangu jana")
    assert [(one["animal"], one["sire"]) for one in told] == [("Neema", "Jasiri"), ("Zawadi", "Jasiri")]


def test_with_whom_the_bull_goes_is_asked_where_it_is_not_told() -> None:
    assert problem("dume wa jirani yuko naye tangu Mei")[0] == "which_animal"


LEFT: list[tuple[str, list[str], str]] = [
    ("dume ameondoka", ["*"], "2026-03-02"),
    ("tumemtoa dume tarehe 3", ["*"], "2026-02-03"),
    ("bull left", ["*"], "2026-03-02"),
    ("the bull was taken away yesterday", ["*"], "2026-03-01"),
    ("dume wa jirani ameondoka jana", ["*"], "2026-03-01"),
    ("tumemrudisha dume kwa jirani", ["*"], "2026-03-02"),
    ("Jasiri ameondolewa kwa Neema", ["Neema"], "2026-03-02"),
    ("dume ametolewa kwa Neema na Zawadi", ["Neema", "Zawadi"], "2026-03-02"),
]


@pytest.mark.parametrize(("text", "animals", "on"), LEFT, ids=[text for text, *_ in LEFT])
def test_a_bull_that_left(text: str, animals: list[str], on: str) -> None:
    assert entry(text) == {"kind": "bull_left", "animals": animals, "on": on}


@pytest.mark.parametrize(
    "text",
    [
        "nataka dume akae na Neema",
        "dume atakuja kesho",
        "bull will leave tomorrow",
        "dume hajaondoka",
        "dume hayuko na ng'ombe",
        "dume ameondoka?",
        "dume yuko wapi",
        "labda dume ameondoka",
        "nasikia dume ameondoka",
        "dume ataondoka kesho",
    ],
)
def test_plans_denials_and_questions_about_a_bull_are_no_record(text: str) -> None:
    assert reading(text).entries == ()


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("dume amempanda Neema", "service"),
        ("Neema amepelekwa kwa dume", "service"),
        ("Jasiri amekufa", "death"),
        ("nimeuza Jasiri 800000", "animal_sale"),
        ("Neema anataka dume", "heat"),
    ],
)
def test_other_tellings_of_a_bull_are_read_as_before(text: str, kind: str) -> None:
    read = entry(text)
    assert read["kind"] == kind
    assert "running" not in read


def calf(sex: str | None, alive: bool = True, name: str | None = None) -> dict[str, Any]:
    return {"sex": sex, "alive": alive, "name": name}


CALVINGS: list[tuple[str, list[dict[str, Any]], str | None]] = [
    ("Neema amezaa mapacha jike na dume", [calf("female"), calf("male")], None),
    ("Neema amezaa mapacha dume na jike, mmoja amekufa", [calf("male"), calf("female", False)], None),
    ("Neema calved twins, heifer and bull", [calf("female"), calf("male")], None),
    ("Neema calved twins a heifer and a dead bull", [calf("female"), calf("male", False)], None),
    ("Neema calved twins, a dead heifer and a live bull", [calf("female", False), calf("male")], None),
    ("Neema amezaa mapacha wote majike", [calf("female"), calf("female")], None),
    ("Neema amezaa mapacha wote wamekufa", [calf(None, False), calf(None, False)], None),
    ("Neema amezaa ndama 2 madume", [calf("male"), calf("male")], None),
    (
        "Neema alizaa mapacha, jike Lulu na dume Radi",
        [calf("female", name="Lulu"), calf("male", name="Radi")],
        None,
    ),
    ("Neema calved two bulls one dead", [calf("male"), calf("male", False)], None),
    ("Neema amezaa ndama mfu", [calf(None, False)], None),
    ("Neema had a stillborn heifer", [calf("female", False)], None),
    ("Neema amezaa jike akiwa amekufa", [calf("female", False)], None),
    ("Neema amezaa ndama jike bila shida", [calf("female")], "easy"),
    ("Neema amezaa dume kwa shida, daktari amesaidia", [calf("male")], "hard"),
    ("Neema amezaa dume alivutwa", [calf("male")], "helped"),
    ("Neema had a hard calving, bull calf alive", [calf("male")], "hard"),
    ("Neema amezaa salama ndama jike jina lake Lulu", [calf("female", name="Lulu")], "easy"),
]


@pytest.mark.parametrize(("text", "calves", "ease"), CALVINGS, ids=[text for text, *_ in CALVINGS])
def test_the_calves_and_the_ease_of_a_calving(
    text: str, calves: list[dict[str, Any]], ease: str | None
) -> None:
    read = entry(text)
    assert (read["kind"], read["animal"]) == ("calving", "Neema")
    assert (read["calves"], read.get("ease")) == (calves, ease)


@pytest.mark.parametrize(
    "text",
    [
        "NEEMA KONDO LIMETOKA",
        "NEEMA AFTERBIRTH OUT",
        "Neema ametoa kondo",
        "Neema has dropped the afterbirth",
        "Neema zalio limetoka jana usiku",
    ],
)
def test_an_afterbirth_that_has_come_is_work_done(text: str) -> None:
    assert entry(text) == {"kind": "done", "task": "afterbirth", "animals": ["Neema"], "on": "2026-03-02"}


def test_half_an_afterbirth_is_still_an_illness() -> None:
    for text in (
        "Neema kondo limetoka nusu",
        "Neema half of the afterbirth came out",
        "Neema kondo halijatoka",
    ):
        assert entry(text)["signs"] == ["afterbirth"]


def test_an_afterbirth_that_stays_is_told_beside_the_calving() -> None:
    for text in ("Neema amezaa lakini kondo haijatoka", "Neema calved but the afterbirth has not come out"):
        calving, ill = entries(text)
        assert (calving["kind"], ill["kind"], ill["signs"]) == ("calving", "illness", ["afterbirth"])


@pytest.mark.parametrize(
    "text", ["Neema anakaribia kuzaa", "Neema hajazaa", "Neema amezaa?", "Neema atazaa kesho"]
)
def test_a_calving_to_come_is_no_record(text: str) -> None:
    assert all(told["kind"] == "ask" for told in entries(text))
