"""Sales on credit and debts paid, the three figures of a sale, and the centre's pay with its deductions."""

from typing import Any

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, problem, reading


def tzs(amount: int) -> dict[str, str]:
    return {"amount": f"{amount}.00", "currency": "TZS"}


SOLD: list[tuple[str, dict[str, Any]]] = [
    ("nimemuuzia mama Asha lita 5 kwa mkopo", {"litres": 5, "buyer": "mama Asha"}),
    ("nimeuza lita 5 kwa deni kwa Mama Asha 6000", {"litres": 5, "buyer": "Mama Asha", "amount": tzs(6000)}),
    ("sold 5 litres to Asha on credit 6000", {"litres": 5, "buyer": "Asha", "price": tzs(1200)}),
    ("Juma amechukua lita 4 hajalipa", {"litres": 4, "buyer": "Juma"}),
    ("Juma amechukua lita 4 atalipa mwisho wa mwezi", {"litres": 4, "buyer": "Juma", "on": "2026-03-02"}),
    ("Juma amechukua lita 4 atalipa Ijumaa", {"litres": 4, "buyer": "Juma", "on": "2026-03-02"}),
    ("nimeuza lita 10 kwa Asha jana, atalipa Ijumaa", {"litres": 10, "buyer": "Asha", "on": "2026-03-01"}),
    ("sold 10 litres to Juma, he will pay at the end of the month", {"litres": 10, "buyer": "Juma"}),
    ("nimeuza lita 10 sijalipwa", {"litres": 10}),
    ("Juma owes me for 5 litres", {"litres": 5, "buyer": "Juma"}),
    ("Juma amekopa lita 4", {"litres": 4, "buyer": "Juma"}),
    ("Juma took 3 litres, will pay on Friday", {"litres": 3, "buyer": "Juma", "on": "2026-03-02"}),
    ("nimempa Juma lita 3 kwa mkopo", {"litres": 3, "buyer": "Juma"}),
    ("maziwa lita 3 kwa Juma, deni", {"litres": 3, "buyer": "Juma"}),
    ("nimeuza lita 20 kwa hoteli, watalipa mwisho wa mwezi", {"litres": 20, "buyer": "hoteli"}),
    ("sold 20 litres to the hotel, they pay at month end", {"litres": 20, "buyer": "hotel"}),
]


@pytest.mark.parametrize(("text", "told"), SOLD, ids=[text for text, _ in SOLD])
def test_milk_sold_on_credit(text: str, told: dict[str, Any]) -> None:
    read = entry(text)
    assert (read["kind"], read["credit"]) == ("milk_sale", True)
    assert {key: read.get(key) for key in told} == told


@pytest.mark.parametrize(
    "text",
    [
        "nimeuza Mwezi kwa Juma 850000 kwa mkopo",
        "nimeuza Mwezi 850000 Juma atalipa mwezi ujao",
        "sold Mwezi to Juma for 850000 on credit",
    ],
)
def test_an_animal_sold_on_credit(text: str) -> None:
    read = entry(text)
    assert (read["kind"], read["animal"], read["buyer"]) == ("animal_sale", "Mwezi", "Juma")
    assert read["credit"] is True


def test_a_sale_that_is_paid_is_not_on_credit() -> None:
    assert "credit" not in entry("nimeuza lita 10 kwa Juma 12000 amelipa")
    assert "credit" not in entry("sold 10 litres to Juma for 12000")


PAID: list[tuple[str, str | None, int]] = [
    ("Mama Asha amelipa 5000 (deni lake)", "Mama Asha", 5000),
    ("Asha paid her debt 5000", "Asha", 5000),
    ("Asha paid 5000", "Asha", 5000),
    ("Juma amelipa deni lake lote 12000", "Juma", 12000),
    ("Juma amenilipa 5000", "Juma", 5000),
    ("nimelipwa deni 5000 na Asha", "Asha", 5000),
    ("nimepokea deni la Asha 5000", "Asha", 5000),
    ("received 5000 from Asha for her debt", "Asha", 5000),
    ("Asha amepunguza deni 3000", "Asha", 3000),
    ("Juma amemaliza deni lake 12000", "Juma", 12000),
    ("Juma cleared his debt of 12000", "Juma", 12000),
    ("Juma paid back 3000", "Juma", 3000),
    ("Asha paid for the milk 6000", "Asha", 6000),
]


@pytest.mark.parametrize(("text", "buyer", "amount"), PAID, ids=[text for text, *_ in PAID])
def test_a_debt_paid(text: str, buyer: str | None, amount: int) -> None:
    read = entry(text)
    assert read == {"kind": "payment", "buyer": buyer, "amount": tzs(amount), "on": "2026-03-02"}


@pytest.mark.parametrize(
    "text",
    [
        "Juma atalipa 5000 kesho",
        "Asha hajalipa deni lake 5000",
        "naomba mkopo 5000",
        "Asha amelipa deni 5000?",
        "Juma anasema atalipa 5000",
    ],
)
def test_what_is_still_to_be_paid_is_no_payment(text: str) -> None:
    assert reading(text).entries == ()


def test_what_the_farm_itself_pays_stays_an_expense() -> None:
    assert entry("nimelipa deni 5000")["kind"] == "expense"
    assert entry("nimemlipa daktari 5000")["kind"] == "expense"


def test_whom_the_farm_has_paid_is_an_expense_and_milk_paid_at_once_a_sale() -> None:
    assert entry("mfanyakazi amelipwa 20000")["kind"] == "expense"
    read = entry("Juma paid 6000 for 5 litres")
    assert (read["kind"], read["buyer"], read["price"]) == ("milk_sale", "Juma", tzs(1200))
    assert "credit" not in read


def test_three_figures_that_disagree_are_asked_about() -> None:
    assert problem("nimeuza lita 10 za maziwa bei 1200 jumla 13000")[0] == "confirm"
    assert problem("sold 10 litres at 1200 total 13000 to Asha")[0] == "confirm"
    assert entry("nimeuza lita 10 @ 1200 = 12000")["amount"] == tzs(12000)


def test_a_sum_that_could_only_be_the_price_of_a_litre_is_asked_about() -> None:
    assert problem("nimeuza lita 10 kwa 1200")[0] == "confirm"
    assert entry("nimeuza lita 10 kwa 12000")["price"] == tzs(1200)


PAY: list[tuple[str, dict[str, Any]]] = [
    ("180000 ya mwezi wa kwanza", {"month": "2026-01", "amount": tzs(180000)}),
    ("kituo kimelipa 180000 ya mwezi wa kwanza", {"month": "2026-01", "amount": tzs(180000)}),
    ("nimepokea malipo ya Januari 200,000", {"month": "2026-01", "amount": tzs(200000)}),
    ("nimelipwa 316800 ya Februari", {"month": "2026-02", "amount": tzs(316800)}),
    ("paid 316800 for February", {"month": "2026-02", "amount": tzs(316800)}),
    ("tumelipwa mwezi wa pili 352 lita 316800", {"month": "2026-02", "litres": 352, "amount": tzs(316800)}),
    (
        "malipo ya Februari 352 lita 316800, makato: mkopo 20000, dawa 5000",
        {
            "month": "2026-02",
            "litres": 352,
            "amount": tzs(316800),
            "deductions": [{"what": "mkopo", "amount": tzs(20000)}, {"what": "dawa", "amount": tzs(5000)}],
        },
    ),
    (
        "malipo ya mwezi wa pili kilo 350 sh 315000 makato mkopo 20,000 na pembejeo 5,000",
        {
            "month": "2026-02",
            "kg": 350,
            "amount": tzs(315000),
            "deductions": [
                {"what": "mkopo", "amount": tzs(20000)},
                {"what": "pembejeo", "amount": tzs(5000)},
            ],
        },
    ),
    (
        "milk pay January 200000 less 15000 for feed and 5000 for vet",
        {
            "month": "2026-01",
            "amount": tzs(200000),
            "deductions": [{"what": "feed", "amount": tzs(15000)}, {"what": "vet", "amount": tzs(5000)}],
        },
    ),
    (
        "received payment for March 250000, deductions: loan 20000, drugs 5000",
        {
            "month": "2026-03",
            "amount": tzs(250000),
            "deductions": [{"what": "loan", "amount": tzs(20000)}, {"what": "drugs", "amount": tzs(5000)}],
        },
    ),
]


@pytest.mark.parametrize(("text", "told"), PAY, ids=[text for text, _ in PAY])
def test_the_centres_pay_of_a_month(text: str, told: dict[str, Any]) -> None:
    read = entry(text)
    assert read["kind"] == "milk_pay"
    assert {key: read.get(key) for key in told} == told


def test_other_sums_of_a_month_are_no_milk_pay() -> None:
    assert entry("nimelipa daktari 5000 mwezi wa kwanza")["kind"] == "expense"
    assert entry("malipo ya daktari Februari 5000")["kind"] == "expense"
    assert reading("nitalipwa 200000 ya Februari").entries == ()


REJECTED: list[tuple[str, float, str | None]] = [
    ("kituo kimekataa lita 10, yana maji", 10, "yana maji"),
    ("lita 12 zimekataliwa kituoni kwa sababu ya antibiotiki", 12, "antibiotiki"),
    ("centre rejected 10 litres because sour", 10, "sour"),
    ("maziwa lita 8 yamekataliwa, alcohol test", 8, "alcohol test"),
    ("maziwa lita 6 yamerudishwa kituoni, yameganda", 6, "yameganda"),
    ("the cooperative refused 7 litres, smells", 7, "smells"),
    ("kituo kimekataa lita 5", 5, None),
    ("kituo wamekataa lita 12 wanasema yana dawa", 12, "yana dawa"),
    ("rejected all the milk today 15 litres smell", 15, "smell"),
]


@pytest.mark.parametrize(("text", "litres", "reason"), REJECTED, ids=[text for text, *_ in REJECTED])
def test_milk_that_the_centre_rejected(text: str, litres: float, reason: str | None) -> None:
    read = entry(text)
    assert (read["kind"], read["rejected"], read["litres"]) == ("delivery", True, litres)
    assert read.get("reason") == reason


def test_a_part_rejected_stands_beside_what_was_taken_in() -> None:
    taken, back = entries("nimepeleka kituoni lita 20, 5 zimerudishwa zimeganda")
    assert (taken["litres"], taken.get("rejected")) == (20, None)
    assert (back["litres"], back["rejected"], back["reason"]) == (5, True, "zimeganda")
