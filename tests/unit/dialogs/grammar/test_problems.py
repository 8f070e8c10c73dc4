"""What is held back, and why."""

import pytest

from dialogs.reading import as_json
from service.messages import Say
from tests.unit.dialogs.grammar.reading import entries, entry, problem, reading

NOT_TOLD = [
    "asante sana", "Hello", "who won the match yesterday?", "mvua imenyesha sana leo huku kwetu", "...", "",
    "Neema hajapandishwa", "Neema was not served", "Neema hana joto", "no heat seen on Neema",
    "nataka kumpandisha Neema", "I want to serve Neema", "hakuna ng'ombe mgonjwa", "hatujachanja FMD",
    "Neema haja kamuliwa leo", "sijapeleka maziwa leo", "sikuuza lita 6 jana", "no calf died", "Neema hajafa",
    "Tausi hajauzwa", "Neema has not aborted", "Chausiku hajakaushwa", "I have not weighed Kito",
    "mto umekauka huku kijijini", "school opens on monday, children need 2 uniforms", "Zawadi hajatoa maziwa",
]  # fmt: skip


@pytest.mark.parametrize("text", NOT_TOLD)
def test_small_talk_and_denials_record_nothing(text: str) -> None:
    assert (entries(text), problem(text)[0]) == ([], "not_understood")


@pytest.mark.parametrize(
    "text",
    ["she is not eating since morning", "vaccinated against FMD today", "ana joto", "lita 6", "amekufa",
     "my cow is on heat", "one of my cows is coughing", "nimeuza ng'ombe mmoja laki saba"],
)  # fmt: skip
def test_an_animal_is_asked_for(text: str) -> None:
    assert (entries(text), problem(text)[0]) == ([], "which_animal")


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Tausi ni mgonjwa", "signs"), ("nimechanja ng'ombe wote leo", "disease"), ("Neema girth", "cm"),
        ("Zawadi amepimwa mimba", "result"), ("ng'ombe mpya Malaika", "sex"), ("nimenunua mashudu", "amount"),
        ("Sold milk today", "litres"), ("bought a cow", "name"),
    ],
)  # fmt: skip
def test_what_is_missing_is_named(text: str, field: str) -> None:
    assert problem(text) == ("missing", field)


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Zawadi girth 20 cm", "cm"),
        ("uzito wa Bahati kilo 9000", "kg"),
        ("Neema lita 60", "litres"),
        ("Neema BCS 7", "score"),
        ("Neema condition 3.1", "score"),
        ("new cow Nyamwezikubwasana female", "name"),
    ],
)
def test_a_value_that_cannot_be_is_named(text: str, field: str) -> None:
    assert problem(text) == ("out_of_range", field)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("Jasiri amezaa ndama jike", "male"),
        ("Kito 2", "male"),
        ("Sumu 2", "calf"),
        ("Chausiku lita 4", "dry"),
        ("Bahati 3", "heifer"),
        ("nyota ana joto", "in_calf"),
        ("Neema 30", "unusual"),
        ("Tausi ana joto nyuzi 40", "heat_or_fever"),
        ("Neema ana joto na hali chakula", "heat_or_fever"),
        ("Neema ana joto kali", "heat_or_fever"),
        ("Neema has heat and fever", "heat_or_fever"),
        ("Neema 6 Neema 6", "twice"),
        ("Neema 6, Neema 7", "contradiction"),
        ("tausi ana mimba, tausi hana mimba", "contradiction"),
        ("sold Mwesi for 900000", "near_name"),
    ],
)
def test_what_is_doubtful_is_asked_first(text: str, why: str) -> None:
    first = reading(text).problems[0]
    assert (first.code.value, first.ask.values["why"]) == ("confirm", why)
    assert first.draft is not None


@pytest.mark.parametrize("text", ["Neema on heat but not served", "Neema ana joto, sijampandisha"])
def test_what_is_denied_beside_something_told_is_left_out(text: str) -> None:
    assert entry(text)["kind"] == "heat"


@pytest.mark.parametrize("text", ["Neema lita kumi na meili", "Neema kumi na nus", "neema kumi na mwtuu"])
def test_a_number_whose_rest_is_misspelt_is_asked_for(text: str) -> None:
    assert (entries(text), problem(text)) == ([], ("missing", "litres"))


@pytest.mark.parametrize("text", ["Neema kumi na mbili", "Neema kumi na mbli"])
def test_a_number_spelt_nearly_right_is_read(text: str) -> None:
    assert entry(text)["litres"] == 12


@pytest.mark.parametrize("text", ["Neema amekuaf", "Neema amemiba", "Neema ana mimva", "Neema joto 39.8"])
def test_what_would_do_harm_is_not_told_by_a_slip_alone(text: str) -> None:
    assert (entries(text), problem(text)[0]) == ([], "confirm")


def test_days_of_a_treatment_that_nothing_is_said_of_are_no_other_number() -> None:
    assert entry("Nimemtibu Neema penicillin siku 4") == {
        "kind": "treatment", "animals": ["Neema"], "on": "2026-03-02", "product": "penicillin",
    }  # fmt: skip


def test_words_that_only_mean_mating_settle_the_heat() -> None:
    (read,) = entries("Neema ana joto anapanda wenzake na hali chakula")
    assert (read["kind"], read["signs"]) == ("heat", ["mounting", "off_feed"])


def test_a_sick_cow_is_never_read_as_on_heat_alone() -> None:
    read = entries("Neema on heat and coughing")
    assert [e["kind"] for e in read] == ["heat", "illness"]


def test_what_stands_is_listed_beside_the_problem() -> None:
    read = reading("Neema 6, Furaha 4")
    assert [e.named for e in read.entries] == [("Neema",)]
    assert read.problems[0].code == "unknown_animal"


def test_a_dead_calf_is_not_the_death_of_the_cow_beside_it() -> None:
    assert all(e["kind"] != "death" for e in entries("Chausiku had a hard calving, bull calf dead"))


def test_a_reading_as_json() -> None:
    told = as_json("Neema BCS 7", reading("Neema BCS 7"), ask=lambda problem: problem.ask.key)
    assert told == {
        "text": "Neema BCS 7", "language": "sw", "entries": [],
        "problem": {"code": "out_of_range", "field": "score", "ask": "ask.out_of_range"},
    }  # fmt: skip


def test_a_question_carries_what_is_known_so_far() -> None:
    ask = reading("Zawadi amepimwa mimba").problems[0].ask
    assert isinstance(ask, Say)
    assert (ask.key, ask.values["kind"], ask.values["field"]) == ("ask.missing", "pregnancy_check", "result")
    assert ask.values["draft"]["animal"] == "Zawadi"


def test_the_language_is_that_of_the_text() -> None:
    assert reading("Neema ana joto", language="en").language == "sw"
    assert reading("Neema is on heat", language="sw").language == "en"
    assert reading("Neema 6", language="en").language == "en"
    assert reading("Neema calved a bull calf Radi", language="sw").language == "en"
