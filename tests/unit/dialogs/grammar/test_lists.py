"""Lists: numbered, a week in one text, several things and sums, the same for another."""

import pytest

from tests.unit.dialogs.grammar.reading import MORNING, entries, entry, problem


def litres(text: str, **how: object) -> list[tuple[str, str]]:
    return [(e["animal"], str(e.get("litres", 0))) for e in entries(text, **how) if e["kind"] == "milk"]


@pytest.mark.parametrize(
    "text",
    [
        "1. Neema 6 2. Zawadi 7",
        "1) Neema 6\n2) Zawadi 7",
        "1 Neema 6\n2 Zawadi 7",
        "Neema 6, maji lita 20, Zawadi 7",
        "Neema 6 ndama kanywa 2, Zawadi 7",
        "Neema 8 hapana 6, Zawadi 7",
        "Neema sio 8 ni 6, Zawadi 7",
    ],
)
def test_only_what_was_milked_is_milk(text: str) -> None:
    assert litres(text) == [("Neema", "6"), ("Zawadi", "7")]


@pytest.mark.parametrize(
    "text", ["Neema 6 na Tausi pia", "Neema 6, same for Tausi", "Neema lita 6, Tausi vilevile"]
)
def test_the_same_quantity_may_be_told_by_a_word(text: str) -> None:
    assert litres(text) == [("Neema", "6"), ("Tausi", "6")]


@pytest.mark.parametrize(
    "text",
    [
        "Neema jumapili 6 jumatatu 7",
        "neema tar 1: 6, tar 2: 7",
        "Neema 1/3: 6l, 2/3: 7l",
        "jumapili: neema 6\njumatatu: neema 7",
        "Neema lita 6 juzi, jana lita 7",
    ],
)
def test_the_days_of_a_week_stand_in_one_text(text: str) -> None:
    at = MORNING.replace(day=3)
    assert [(e["on"], str(e["litres"])) for e in entries(text, now=at)] == [
        ("2026-03-01", "6"),
        ("2026-03-02", "7"),
    ]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Neema lita moja na robo", "1.25"),
        ("Tausi lita sita unusu", "6.5"),
        ("Neema lita moja", "1"),
        ("neemaasubuhi6", "6"),
        ("Neema lita 6 kama jana", "6"),
    ],
)
def test_a_quantity_is_read_whole(text: str, told: str) -> None:
    assert str(entry(text)["litres"]) == told


@pytest.mark.parametrize("text", ["wote 45", "maziwa wote 45", "leo jumla 45", "total 45 litres today"])
def test_the_herds_milk_needs_no_unit(text: str) -> None:
    assert (entry(text)["animal"], entry(text)["litres"]) == ("*", 45)


def test_milk_sold_after_it_was_told_is_no_animal_sold() -> None:
    assert [e["kind"] for e in entries("neema 6 nikauza 4")] == ["milk", "milk_sale"]
    assert [e["kind"] for e in entries("Neema 6, nimeuza 4")] == ["milk", "milk_sale"]


def test_each_thing_bought_has_its_sum() -> None:
    told = entries("nimenunua chumvi elfu moja mia tano, pumba elfu ishirini na dawa elfu nane")
    assert [(e["what"], e["amount"]["amount"]) for e in told] == [
        ("chumvi", "1500.00"),
        ("pumba", "20000.00"),
        ("dawa", "8000.00"),
    ]


def test_weights_and_feed_are_told_in_a_list() -> None:
    assert [(e["kind"], e["kg"]) for e in entries("uzito wa Kito 60 na Sumu 55")] == [
        ("weight", 60),
        ("weight", 55),
    ]
    assert [(e["kind"], e["kg"]) for e in entries("Neema pumba kilo 3 na Tausi 2")] == [
        ("feeding", 3),
        ("feeding", 2),
    ]


def test_what_the_centre_refused_is_told_beside_what_it_took() -> None:
    told = entries("nimepeleka lita 18 kituoni wamekataa lita 3")
    assert [(e["litres"], e.get("rejected", False)) for e in told] == [(18, False), (3, True)]


def test_the_hold_told_is_the_hold_kept() -> None:
    read = entry("Neema ametibiwa kwa penicillin siku 3 maziwa yasiuzwe siku 5")
    assert read["milk_hold_days"] == 5


def test_a_name_without_litres_is_asked_for() -> None:
    assert problem("Neema 6 na Tausi") == ("missing", "litres")
    assert problem("mama wa Kito lita 6")[0] == "which_animal"


@pytest.mark.parametrize(
    "text", ["Neema kazaa jike, Tausi dume", "Neema na Tausi wamezaa, Neema jike Tausi dume"]
)
def test_each_cow_has_her_own_calf(text: str) -> None:
    told = [(e["animal"], [calf["sex"] for calf in e["calves"]]) for e in entries(text)]
    assert told == [("Neema", ["female"]), ("Tausi", ["male"])]


def test_each_animal_sold_has_her_own_sum() -> None:
    told = entries("nimeuza Mwezi 900000 na Kito 300000")
    assert [(e["animal"], e["amount"]["amount"]) for e in told] == [
        ("Mwezi", "900000.00"),
        ("Kito", "300000.00"),
    ]
    assert problem("nimeuza Mwezi na Kito laki 12")[0] == "confirm"


def test_each_disease_is_of_those_named_with_it() -> None:
    told = entries("chanjo FMD Neema na Tausi, LSD Pendo")
    assert [(e["disease"], e["animals"]) for e in told] == [("fmd", ["Neema", "Tausi"]), ("lsd", ["Pendo"])]


def test_doses_and_months_are_told_one_by_one() -> None:
    told = entries("Neema amepewa minyoo ml 30 Tausi ml 25")
    assert [(e["animals"], e["amount_ml"]) for e in told] == [(["Neema"], 30), (["Tausi"], 25)]
    told = entries("Neema ana mimba miezi 5, Tausi miezi 3")
    assert [(e["animal"], e["months"]) for e in told] == [("Neema", 5), ("Tausi", 3)]


def test_a_hold_told_after_the_bill_is_the_treatments() -> None:
    treated, paid = entries("Neema treated today for mastitis by the vet, paid 30000, milk hold 4 days")
    assert (treated["kind"], treated["milk_hold_days"], paid["kind"]) == ("treatment", 4, "expense")
