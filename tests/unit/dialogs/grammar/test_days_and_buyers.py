"""Milkings of two days in one text, several buyers and loads in one, and the centre's pay with its litres."""

from __future__ import annotations

import pytest

from tests.unit.dialogs.grammar.reading import MORNING, entries, entry, problem

TODAY, YESTERDAY = "2026-03-02", "2026-03-01"


@pytest.mark.parametrize(
    "text",
    [
        "Neema asb 6 jioni ya jana 5",
        "Neema jioni ya jana 5 asb 6",
        "Neema jana jioni 5 na asubuhi 6",
        "Neema jioni jana 5 asubuhi 6",
        "Neema 6 asubuhi na 5 jana jioni",
        "Neema jana usiku 5 asubuhi 6",
        "jana jioni Neema 5, asubuhi Neema 6",
        "Neema evening yesterday 5, 6 this morning",
        "Neema last night 5 this morning 6",
        "Neema morning 6, evening yesterday 5",
    ],
)
def test_the_evening_is_yesterdays_and_the_morning_todays(text: str) -> None:
    told = {entry["session"]: (entry["litres"], entry["on"]) for entry in entries(text, now=MORNING)}
    assert told == {"morning": (6, TODAY), "evening": (5, YESTERDAY)}


@pytest.mark.parametrize(
    "text",
    ["Neema jana asubuhi 6 jioni 5", "Neema jana 6 asubuhi na 5 jioni", "jana Neema asubuhi 6 jioni 5"],
)
def test_both_are_yesterdays_where_the_day_goes_before(text: str) -> None:
    told = {entry["session"]: (entry["litres"], entry["on"]) for entry in entries(text, now=MORNING)}
    assert told == {"morning": (6, YESTERDAY), "evening": (5, YESTERDAY)}


CREDIT: list[tuple[str, str, float]] = [
    ("MAMA ASHA 1 MKOPO", "MAMA ASHA", 1),
    ("Baba Juma 2 deni", "Baba Juma", 2),
    ("ASHA 3 CREDIT", "ASHA", 3),
    ("mwalimu lita 2 atalipa mwisho wa mwezi", "mwalimu", 2),
    ("hoteli 10 mkopo", "hoteli", 10),
    ("jirani 1 kwa mkopo", "jirani", 1),
    ("teacher 2 on credit", "teacher", 2),
    ("mama Neema 1 mkopo", "mama Neema", 1),
    ("JUMA 2 MKOPO 2400", "JUMA", 2),
]


@pytest.mark.parametrize(("text", "buyer", "litres"), CREDIT, ids=[text for text, _, _ in CREDIT])
def test_a_person_and_litres_on_credit_are_a_sale(text: str, buyer: str, litres: float) -> None:
    told = entry(text)
    assert (told["kind"], told["buyer"], told["litres"], told["credit"]) == ("milk_sale", buyer, litres, True)


def test_a_cow_that_opens_is_asked_about() -> None:
    assert problem("Neema 3 mkopo") == ("confirm", None)


SALES: list[tuple[str, list[tuple[float, str | None]]]] = [
    ("nimeuza lita 3 kwa Asha na 2 kwa Juma", [(3, "Asha"), (2, "Juma")]),
    ("sold 3 litres to Asha and 2 to Juma", [(3, "Asha"), (2, "Juma")]),
    ("sold 3 to Asha and 2 to Juma", [(3, "Asha"), (2, "Juma")]),
    ("nimeuza lita 3 kwa Asha, 2 kwa Juma na 4 kwa hoteli", [(3, "Asha"), (2, "Juma"), (4, "hoteli")]),
    ("Asha kachukua lita 2, Juma lita 3", [(2, "Asha"), (3, "Juma")]),
    ("Asha lita 3 mkopo, Juma lita 2 amelipa", [(3, "Asha"), (2, "Juma")]),
    ("JUMA 2 MKOPO, ASHA 1 MKOPO", [(2, "JUMA"), (1, "ASHA")]),
    ("nimeuza lita 5 asubuhi na lita 4 jioni", [(5, None), (4, None)]),
    ("nimeuza 2 lita kwa Asha", [(2, "Asha")]),
    ("nimeuza nusu lita kwa jirani", [(0.5, "jirani")]),
]


@pytest.mark.parametrize(("text", "told"), SALES, ids=[text for text, _ in SALES])
def test_each_buyer_has_her_own_litres(text: str, told: list[tuple[float, str | None]]) -> None:
    assert [(sale["litres"], sale.get("buyer")) for sale in entries(text)] == told
    assert {sale["kind"] for sale in entries(text)} == {"milk_sale"}


LOADS: list[tuple[str, list[tuple[float, str, str]]]] = [
    ("asubuhi 5 jioni 4 kituoni", [(5, "morning", TODAY), (4, "evening", TODAY)]),
    ("kituoni asubuhi lita 5 jioni lita 4", [(5, "morning", TODAY), (4, "evening", TODAY)]),
    ("delivered 5 morning 4 evening", [(5, "morning", TODAY), (4, "evening", TODAY)]),
    ("nimepeleka kituoni jana jioni 8 na asubuhi 10", [(8, "evening", YESTERDAY), (10, "morning", TODAY)]),
    (
        "nimepeleka kituoni jana asubuhi 8 na jioni 10",
        [(8, "morning", YESTERDAY), (10, "evening", YESTERDAY)],
    ),
]


@pytest.mark.parametrize(("text", "told"), LOADS, ids=[text for text, _ in LOADS])
def test_each_load_has_its_own_time(text: str, told: list[tuple[float, str, str]]) -> None:
    assert [(load["litres"], load["session"], load["on"]) for load in entries(text)] == told


PAY = [
    "kituo kimelipa 285,500 ya Januari kwa lita 300, makato chakula 12000",
    "lita 300 kituo kimelipa 285500 Januari makato ya chakula 12000",
    "makato chakula 12000, kituo kimelipa 285500 ya Januari lita 300",
    "kituo kimekata chakula 12000 na kulipa 285500 kwa lita 300 Januari",
]


@pytest.mark.parametrize("text", PAY)
def test_litres_and_deductions_are_kept_in_every_order(text: str) -> None:
    told = entry(text)
    assert (told["kind"], told["litres"], told["amount"]["amount"]) == ("milk_pay", 300, "285500.00")
    assert [(cut["what"], cut["amount"]["amount"]) for cut in told["deductions"]] == [("chakula", "12000.00")]


def test_what_a_litre_brings_is_not_the_pay() -> None:
    assert problem("kituo kimelipa 900 kwa lita") == ("missing", "amount")


@pytest.mark.parametrize("text", ["Neema amata 6", "neema amata 6", "Neema amata lita 6"])
def test_a_strange_word_beside_her_name_is_no_second_cow(text: str) -> None:
    told = entry(text)
    assert (told["animal"], told["litres"]) == ("Neema", 6)


@pytest.mark.parametrize("text", ["Neema Furaha 6", "neema na furaha 6", "Neema, Furaha 6"])
def test_a_name_that_the_herd_has_not_is_asked_about(text: str) -> None:
    assert problem(text) == ("unknown_animal", None)


@pytest.mark.parametrize("text", ["pumba 12000, chumvi 3000", "nimenunua pumba 12000 na chumvi 3000"])
def test_several_expenses_stand_in_one_text(text: str) -> None:
    assert [(told["what"], told["amount"]["amount"]) for told in entries(text)] == [
        ("pumba", "12000.00"),
        ("chumvi", "3000.00"),
    ]


@pytest.mark.parametrize("text", ["nimempa jirani lita 1 bure", "nimetumia lita 2 nyumbani"])
def test_milk_given_away_or_used_is_no_sale(text: str) -> None:
    assert entries(text) == []


@pytest.mark.parametrize(
    ("text", "disease"), [("CHANJO NDIYO", None), ("YES FMD", "fmd"), ("CHANJO YA NDIGANA NDIYO", "ecf")]
)
def test_a_yes_without_a_number_is_willing(text: str, disease: str | None) -> None:
    told = entry(text)
    assert (told["kind"], told.get("disease"), told.get("count")) == ("willing", disease, None)


@pytest.mark.parametrize("text", ["HESABU YA KITUO MACHI", "CENTRE ACCOUNT MARCH", "MALIPO YA KITUO MACHI"])
def test_the_centres_account_is_its_pay(text: str) -> None:
    told = entry(text)
    assert (told["topic"], told["month"]) == ("pay", "2026-03")


def test_each_cow_keeps_the_time_that_stands_with_her() -> None:
    told = {entry["animal"]: entry["on"] for entry in entries("Tausi asb 6 Neema jana jioni 5 Pendo leo 4")}
    assert told == {"Tausi": TODAY, "Neema": YESTERDAY, "Pendo": TODAY}
