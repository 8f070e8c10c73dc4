"""Tellings that go in the place of one before."""

import pytest

from tests.unit.dialogs.grammar.reading import entries, problem, reading

SEVEN = [
    "FIX NEEMA MILK 7",
    "REKEBISHA NEEMA 7",
    "SAHIHISHA: Neema lita 7 si 6",
    "fix: Neema 7 litres not 6",
    "Neema lita 7 si 6",
    "Neema maziwa 7 badala ya 6",
    "correction Neema 7 instead of 6",
    "sahihisha maziwa ya Neema kutoka 6 kuwa 7",
    "change Neema milk from 6 to 7",
    "badilisha Neema lita 6 iwe 7",
    "marekebisho: Neema 7",
    "habari, rekebisha Neema lita 7",
]


@pytest.mark.parametrize("text", SEVEN)
def test_a_correction_is_told_first_and_what_was_before_is_left_out(text: str) -> None:
    order, milk = entries(text)
    assert order == {"kind": "fix"}
    assert (milk["kind"], milk["animal"], milk["litres"]) == ("milk", "Neema", 7)


def test_the_animal_or_the_day_can_be_what_was_wrong() -> None:
    assert entries("marekebisho: si Neema ni Zawadi lita 7")[1]["animal"] == "Zawadi"
    service = entries("sahihisha Neema amepandishwa jana si leo")[1]
    assert (service["kind"], service["on"]) == ("service", "2026-03-01")
    sale = entries("rekebisha: nimeuza lita 10 si 12 kwa 12000")[1]
    assert (sale["litres"], sale["amount"]["amount"]) == (10, "12000.00")


def test_the_order_alone_tells_nothing_else() -> None:
    assert entries("FIX") == entries("rekebisha") == [{"kind": "fix"}]


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("badilisha jina la Kito kuwa Simba", ["naming"]),
        ("rekebisha kuogesha kila siku 14", ["setting"]),
        ("nimekosea, Neema ni 7", ["undo", "milk"]),
        ("Neema hajala si kawaida yake", ["illness"]),
        ("Neema asubuhi 7 jioni 6", ["milk", "milk"]),
    ],
)
def test_what_only_sounds_like_a_correction_is_read_as_before(text: str, kinds: list[str]) -> None:
    assert [told["kind"] for told in entries(text)] == kinds


@pytest.mark.parametrize(
    "text", ["fix the fence", "rekebisha banda", "fix fence 20000", "rekebisha Neema lita 7?"]
)
def test_work_on_the_farm_and_questions_mend_nothing(text: str) -> None:
    assert all(told["kind"] != "fix" for told in entries(text))


def test_what_is_missing_of_a_correction_is_asked_for() -> None:
    assert entries("FIX NEEMA MILK") == [{"kind": "fix"}]
    assert problem("FIX NEEMA MILK") == ("missing", "litres")
    assert reading("FIX NEEMA MILK").problems[0].draft is not None
