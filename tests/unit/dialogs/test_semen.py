"""The answer to "which semen?"."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from dialogs.answers_semen import answer_semen, grade
from service import sms
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.instructions import Ask
from service.husbandry.semen import TRAITS, Bull
from service.husbandry.units import Money
from tests.unit.dialogs.farmhouse import FAR_INSEMINATOR, new
from tests.unit.husbandry.book import Book, day

D = Decimal
TODAY = day("2026-03-02")
LANGUAGES = ("sw", "en")
ROOM = 3 * 153


def bull(name: str, **told: Any) -> Bull:
    values = {trait: D(told.pop(trait)) for trait in TRAITS if trait in told}
    usual = {
        "code": f"IG-{name[:3]}", "breed": "Ayrshire", "values": values, "reliability": D("0.8"),
        "price": Money.of(18000, "TZS"), "straws": 5,
    }  # fmt: skip
    return Bull(name=name, **{**usual, **told})


def answered(
    book: Book, *bulls: Bull, name: str | None = "Neema", people: Any = None, **told: Any
) -> tuple[str, str]:
    animal = None if name is None else book.animal(name)
    ask = Ask(topic="semen", animal=name, **told)
    sw, en = (answer_semen(ask, animal, book.farm, bulls, people or {}, TODAY, one) for one in LANGUAGES)
    return sw, en


GOOD = (
    bull("Kilele", milk="2", udder="0.5", fertility="-1", calving_ease="-1"),
    bull("Mlima", milk="1", udder="1", fertility="1", calving_ease="1"),
)


def test_each_bull_is_told_with_why_in_her_order():
    sw, en = answered(Book(new("Neema")), *GOOD, aims=("milk", "udder"), price=Money.of(20000, "TZS"))
    assert en.startswith(
        "Semen for Neema, by milk, udder, up to 20,000/=: "
        "1 Kilele IG-Kil (Ayrshire), 18,000/=: milk very good, udder good. "
        "2 Mlima IG-Mli (Ayrshire), 18,000/=: milk good, udder good. "
    )
    assert "1 Kilele IG-Kil (Ayrshire), 18,000/=: maziwa bora sana, kiwele bora. 2 Mlima" in sw


def test_it_says_what_the_ranking_rests_on_and_what_is_not_known_of_her_kin():
    _, en = answered(Book(new("Neema")), *GOOD, aims=("milk",))
    assert "Each bull is against his own breed; your first counts most, an unsure figure counts less." in en
    assert "Neema's sire is not written down: don't use him or his kin." in en


def test_where_she_names_no_aims_those_that_are_taken_are_said():
    sw, en = answered(Book(new("Neema")), *GOOD)
    assert "You named no aims: we took milk, udder, fertility." in en
    assert "Hukutaja unachotaka: tumechukua maziwa, kiwele, uzazi." in sw
    assert "Kilele" in en
    assert "fertility below average" in en


def test_a_heifer_is_told_how_many_were_left_out_for_her_safety():
    _, en = answered(Book(new("Neema", status="heifer")), *GOOD, aims=("milk",))
    assert "Kilele" not in en
    assert "Left out 1: the calf may be too big for her." in en


def test_of_a_cow_in_calf_it_is_for_later():
    _, en = answered(Book(new("Neema", status="in_calf_heifer")), *GOOD, aims=("milk",))
    assert en.startswith("Neema is in calf now; this is for later.")


def test_where_no_bull_suits_her_all_reasons_are_told():
    _, en = answered(
        Book(new("Neema", status="heifer")), *GOOD, bull("Zamani", straws=0), price=Money.of(100, "TZS")
    )
    assert en == (
        "No bull of the list suits Neema. 1 out of stock. Left out 1: the calf may be too big for her. "
        "1 cost more. Ask the inseminator."
    )


def test_without_a_cow_or_a_list_it_says_what_to_do():
    book = Book(new("Neema"))
    assert "SEMEN NEEMA MILK, UDDER UNDER 20000" in answered(book, *GOOD, name=None)[1]
    assert answered(book)[1] == "The cooperative has not given us its list of semen. Ask the inseminator."


def test_neither_a_male_nor_a_calf_is_served():
    book = Book(
        new("Simba", status="bull", sex="male"),
        NewAnimal(name="Tumaini", sex="female", status="calf", on=day("2026-02-01")),
    )
    assert answered(book, *GOOD, name="Simba")[1] == "Simba is a male: he is not served."
    assert answered(book, *GOOD, name="Tumaini")[1].startswith("Tumaini is still a calf: it is too early")


@pytest.mark.parametrize(
    ("value", "name"),
    [("1", "high"), ("0.99", "good"), ("0.3", "good"), ("0.29", "mean"), ("-0.3", "mean"), ("-0.31", "low")],
)
def test_a_value_is_called_by_how_far_it_is_from_the_breeds_mean(value, name):
    assert grade(D(value)) == name
    assert grade(None) == "unknown"


@pytest.mark.parametrize("price", [None, Money.of("99999.50", "TZS")])
@pytest.mark.parametrize("aims", [(), TRAITS, ("calving_ease", "longevity")])
@pytest.mark.parametrize("status", ["heifer", "in_calf_heifer", "milking"])
def test_the_longest_names_fit_three_segments_and_no_sentence_is_cut(price, aims, status):
    values = dict.fromkeys(TRAITS, "-2")
    dear = {"price": Money.of("12345.50", "TZS"), "breed": "chotara ya Ayrshire na Friesian"}
    bulls = [
        bull("W" * 15 + letter, code="W" * 11 + letter, **{**values, "calving_ease": "0.1"}, **dear)
        for letter in "ABC"
    ]
    hard = [bull(f"Hard{number}", **values) for number in range(12)]
    name = "W" * 12
    book = Book(new(name, status=status))
    people = {"technician": FAR_INSEMINATOR}
    for text in answered(book, *bulls, *hard, name=name, people=people, aims=aims, price=price):
        assert sms.septets(text) <= ROOM, text
        assert text.endswith((".", "MAZIWA", "MILK")), text
        assert "WWWA" in text
