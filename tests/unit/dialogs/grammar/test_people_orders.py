"""Who may tell of the farm, the secret number, what is contested, and who would bring animals to a jab."""

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, problem, reading

PHONE = "+255712345678"

ORDERS: list[tuple[str, dict[str, Any]]] = [
    ("ADD HELPER 0712345678 JUMA", {"act": "add", "phone": PHONE, "name": "Juma"}),
    ("ONGEZA MSAIDIZI JUMA 0712345678", {"act": "add", "phone": PHONE, "name": "Juma"}),
    (
        "ongeza msaidizi wangu Juma Mushi namba 0712 345 678",
        {"act": "add", "phone": PHONE, "name": "Juma Mushi"},
    ),
    ("please add my wife Salome 0712345678", {"act": "add", "phone": PHONE, "name": "Salome"}),
    ("ongeza msaidizi Neema 0712345678", {"act": "add", "phone": PHONE, "name": "Neema"}),
    ("ADD HELPER JUMA", {"act": "add", "name": "Juma"}),
    ("ONDOA MSAIDIZI JUMA", {"act": "remove", "name": "Juma"}),
    ("REMOVE HELPER 0712345678", {"act": "remove", "phone": PHONE}),
    ("Juma si msaidizi wangu tena", {"act": "remove", "name": "Juma"}),
    ("RUHUSU JUMA HESABU", {"act": "allow", "name": "Juma", "may": ["money"]}),
    ("RUHUSU 0712345678 HESABU", {"act": "allow", "phone": PHONE, "may": ["money"]}),
    ("ALLOW JUMA MONEY", {"act": "allow", "name": "Juma", "may": ["money"]}),
    ("mruhusu Juma aone hesabu", {"act": "allow", "name": "Juma", "may": ["money"]}),
    ("allow Juma to remove animals", {"act": "allow", "name": "Juma", "may": ["remove"]}),
    ("ruhusu Juma kuongeza watu", {"act": "allow", "name": "Juma", "may": ["people"]}),
    ("KATAZA JUMA HESABU", {"act": "forbid", "name": "Juma", "may": ["money"]}),
    ("do not let Juma see money", {"act": "forbid", "name": "Juma", "may": ["money"]}),
    ("Juma asione hesabu", {"act": "forbid", "name": "Juma", "may": ["money"]}),
]


@pytest.mark.parametrize(("text", "told"), ORDERS, ids=[text for text, _ in ORDERS])
def test_an_order_about_a_helper(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "helper", **told}


def test_a_helper_told_as_a_person_to_call_stays_a_contact() -> None:
    assert entry("msaidizi wangu ni Juma 0712345678")["kind"] == "contact"
    assert entry("daktari Juma 0712345678")["kind"] == "contact"


def test_a_number_that_is_no_phone_is_asked_for_again() -> None:
    assert problem("ADD HELPER 07123456 JUMA") == ("out_of_range", "phone")


@pytest.mark.parametrize("text", ["nataka kuongeza msaidizi", "can Juma see the money?", "ongeza msaidizi?"])
def test_wishes_and_questions_order_nothing(text: str) -> None:
    assert all(told["kind"] != "helper" for told in entries(text))


PINS: list[tuple[str, dict[str, Any]]] = [
    ("PIN 4821", {"act": "give", "code": "4821"}),
    ("namba ya siri 0417", {"act": "give", "code": "0417"}),
    ("WEKA PIN 4821", {"act": "set", "code": "4821"}),
    ("SET PIN 4821", {"act": "set", "code": "4821"}),
    ("BADILI PIN 4821 7733", {"act": "set", "code": "7733", "old": "4821"}),
    ("CHANGE PIN 4821 7733", {"act": "set", "code": "7733", "old": "4821"}),
    ("change my pin from 4821 to 7733", {"act": "set", "code": "7733", "old": "4821"}),
    ("ONDOA PIN 4821", {"act": "clear", "code": "4821"}),
    ("CLEAR PIN 0417", {"act": "clear", "code": "0417"}),
]


@pytest.mark.parametrize(("text", "told"), PINS, ids=[text for text, _ in PINS])
def test_a_secret_number_keeps_its_zeros(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "pin", **told}


@pytest.mark.parametrize(
    "text",
    [
        "SI KWELI",
        "NOT TRUE",
        "si kweli!",
        "that is not true",
        "hapana hajapandishwa",
        "no she was not served",
        "uongo",
    ],
)
def test_what_another_phone_told_is_contested(text: str) -> None:
    assert entry(text) == {"kind": "contest"}


@pytest.mark.parametrize(
    "text",
    [
        "Hapana Neema hajapandishwa",
        "si kweli kwamba Neema amekufa",
        "no calf died",
        "it is not true that Neema died",
        "si kweli Neema hajapandishwa",
        "hapana",
    ],
)
def test_a_denial_of_something_named_records_nothing(text: str) -> None:
    assert reading(text).entries == ()


WILLING: list[tuple[str, dict[str, Any]]] = [
    ("CHANJO NDIYO 3", {"count": 3}),
    ("CHANJO NDIGANA 3", {"disease": "ecf", "count": 3}),
    ("NDIYO NDIGANA 3", {"disease": "ecf", "count": 3}),
    ("YES ECF 3", {"disease": "ecf", "count": 3}),
    ("chanjo ndiyo ng'ombe watatu", {"count": 3}),
    ("nitaleta ng'ombe 3 kwa chanjo", {"count": 3}),
    ("CHANJO HAPANA", {}),  # the count is 0, which the short form leaves out
    ("NO ECF", {"disease": "ecf"}),
]


@pytest.mark.parametrize(("text", "told"), WILLING, ids=[text for text, _ in WILLING])
def test_how_many_animals_would_be_brought(text: str, told: dict[str, Any]) -> None:
    only = entry(text)
    assert {key: value for key, value in only.items() if value != 0} == {"kind": "willing", **told}


def test_no_animals_to_bring_is_a_count_of_nought() -> None:
    (only,) = reading("CHANJO HAPANA").entries
    assert only.count == 0  # type: ignore[attr-defined]


@pytest.mark.parametrize("text", ["nimechanja ndigana Neema", "Neema amechanjwa ndigana"])
def test_a_vaccination_done_is_no_answer(text: str) -> None:
    assert entry(text)["kind"] == "vaccination"


ASKED: list[tuple[str, dict[str, Any]]] = [
    *[
        (text, {"topic": "owed"})
        for text in (
            "nani wananidai",
            "MADENI",
            "WHO OWES",
            "DENI",
            "who owes me money?",
            "nani hajalipa?",
            "orodha ya madeni",
        )
    ],
    *[
        (text, {"topic": "people"})
        for text in ("WATU", "PEOPLE", "wasaidizi wangu", "my helpers", "who can record?")
    ],
    ("malipo ya kituo", {"topic": "pay"}),
    ("kituo kimelipa sawa?", {"topic": "pay"}),
    ("PAY MARCH", {"topic": "pay", "month": "2026-03"}),
    ("malipo ya Februari", {"topic": "pay", "month": "2026-02"}),
    ("malipo ya mwezi wa pili", {"topic": "pay", "month": "2026-02"}),
    ("malipo ya maziwa ya Februari ni kiasi gani?", {"topic": "pay", "month": "2026-02"}),
]


@pytest.mark.parametrize(("text", "told"), ASKED, ids=[text for text, _ in ASKED])
def test_questions_about_debts_people_and_the_centres_pay(text: str, told: dict[str, Any]) -> None:
    assert entry(text) == {"kind": "ask", **told}


@pytest.mark.parametrize("text", ["watu wengi wamekuja", "watu 3 wamekuja", "naomba mkopo"])
def test_small_talk_of_people_and_loans_asks_nothing(text: str) -> None:
    assert reading(text).entries == ()


NO_ANSWER = [
    "HAPOKEI",
    "hapokei simu",
    "daktari hapokei",
    "NO ANSWER",
    "fundi hapatikani",
    "simu yake imezimwa",
    "vet not picking",
    "she is not picking the phone",
    "nimempigia daktari hapokei",
    "he did not answer",
    "hajibu",
    "namba yake haipatikani",
    "nimepiga simu hakuna anayepokea",
    "the technician does not pick my calls",
    "simu inaita tu",
    "hapatikani hewani",
    "his phone is off",
    "no one is picking",
    "it just rings",
]


@pytest.mark.parametrize("text", NO_ANSWER)
def test_the_person_to_call_did_not_answer(text: str) -> None:
    assert entry(text) == {"kind": "no_answer"}
