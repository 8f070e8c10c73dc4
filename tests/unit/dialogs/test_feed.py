"""Answers on feeding and room: what they say, and that they say what they took for granted."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest

from dialogs import answers_feed
from dialogs.answers_feed import Asked, Worth, answer_fodder, answer_ration, answer_space, answer_worth
from service import sms
from service.husbandry import concentrate, fodder
from service.husbandry.concentrate import Response
from service.husbandry.fed import ToldFeed
from service.husbandry.feeds import BY_KEY, DAIRY_MEAL, HAY, NAPIER, TABLE
from service.husbandry.needs import Body, need
from service.husbandry.ration import Fed, check
from service.husbandry.units import Money
from tests.unit.dialogs.farmhouse import LONG, Farmhouse
from tests.unit.husbandry.book import day

D = Decimal
TODAY = day("2026-06-15")
LANGUAGES = ("sw", "en")
ROOM = 3 * 153


def tzs(amount: int) -> Money:
    return Money.of(amount, "TZS")


def ration(
    *fed: Fed, litres: int = 15, kg: int = 450, water: int | None = None, weighed: bool = True,
    loose: tuple[str, ...] = (), unknown: tuple[str, ...] = (), name: str = "Neema",
) -> tuple[str, str]:  # fmt: skip
    body = Body(kg=D(kg), litres=D(litres))
    told = ToldFeed(
        fed=fed, days=3, loose=tuple((word, NAPIER) for word in loose), unknown=unknown, unweighed=()
    )
    asked = Asked(
        animal=Farmhouse(name).book.animal(name), body=body, weighed=weighed, told=told,
        ration=check(need(body), fed),
    )  # fmt: skip
    drunk = None if water is None else D(water)
    sw, en = (answer_ration(asked, drunk, language) for language in LANGUAGES)
    return sw, en


GRASS = Fed(NAPIER, D("55.56"))


def test_the_published_example_as_it_is_told() -> None:
    sw, en = ration(GRASS)
    assert sw.startswith("Neema: kilo 450, lita 15 kwa siku. Ulichotuma siku 3 kati ya 7")
    assert "Nguvu inapungua 34%: ni sawa na dairy meal kilo 4.5 kwa siku." in sw
    assert "Energy is 34% short: as much as 4.5 kg of dairy meal a day." in en
    assert sw.endswith("Ni hesabu ya vitabu, si kipimo.")


def test_what_is_enough_is_said() -> None:
    sw, en = ration(GRASS, Fed(DAIRY_MEAL, D(5)), Fed(BY_KEY["sunflower_cake"], D(1)))
    assert "Nguvu inatosha. Protini inatosha." in sw
    assert "Energy is enough. Protein is enough." in en
    assert "polepole" not in sw


def test_too_much_meal_is_warned_of() -> None:
    sw, en = ration(GRASS, Fed(DAIRY_MEAL, D(9)))
    assert "USIZIDISHE kilo 8 kwa siku" in sw
    assert "DON'T pass 8 kg a day" in en


def test_what_was_taken_for_granted_is_said() -> None:
    sw, en = ration(Fed(DAIRY_MEAL, D(2)), weighed=False, loose=("pumba",), unknown=("pumba za mpunga",))
    assert "uzito tumekisia kilo 450" in sw
    assert "Majani hujatuma: tumechukua mabingobingo machanga" in sw
    assert '"pumba" tumechukua mabingobingo' in sw
    assert 'Haimo: "pumba za mpunga".' in sw
    assert "weight taken as 450 kg" in en


def test_more_than_one_eats_is_asked_back_and_not_judged() -> None:
    sw, _ = ration(Fed(NAPIER, D(150)))
    assert "nyingi kuliko anazoweza kula mmoja" in sw
    assert "inatosha" not in sw


def test_water_and_minerals_are_told_with_the_rest() -> None:
    sw, _ = ration(GRASS, water=30)
    assert "Maji yanapungua kama lita 37" in sw  # 67.4 l by Murphy's equation, less 30
    assert "Madini: gramu 100 hadi 150" in sw
    assert "Madini" not in ration(GRASS, Fed(BY_KEY["minerals"], D("0.12")))[0].split("Protini")[1]
    assert "lita 34 hadi 49" not in sw
    assert "35 hadi 50" in ration(GRASS, litres=0)[0]


def test_the_longest_answer_on_a_ration_fits_three_segments() -> None:
    fed = [Fed(feed, D("12.25")) for feed in TABLE if feed.sort.value == "concentrate"]
    for text in ration(
        *fed, water=1, weighed=False, loose=("w" * 40, "m" * 40), unknown=("q" * 40,), name=LONG[0]
    ):
        assert sms.measure(text).encoding == "gsm7"
        assert sms.septets(text) <= ROOM, text


# --- more meal -------------------------------------------------------------------------------------


def worth(
    milk: int = 900, meal: int = 700, *, fed: int = 2, own: Response | None = None, bag: int | None = None
) -> tuple[str, str]:
    response = D(2) if own is None else own.litres_a_kg
    found = Worth(
        step=concentrate.next_kg(
            fed_kg=D(fed), most_kg=D(8), response_l=response, milk=tzs(milk), meal=tzs(meal)
        ),
        milk=tzs(milk), meal=tzs(meal), by_bag_kg=None if bag is None else D(bag), own=own,
        animal=Farmhouse("Neema").book.animal("Neema"), fed_kg=D(fed), most_kg=D(8),
    )  # fmt: skip
    sw, en = (answer_worth(found, language) for language in LANGUAGES)
    return sw, en


def test_two_litres_of_nine_hundred_leave_eleven_hundred() -> None:
    sw, en = worth()  # milk 900, meal 700 a kg -> 1,100 (common practice, no source)
    assert "inabaki 1,100/=: inalipa" in sw
    assert "1,100/= is left: it pays" in en
    assert "bado si kwa kumbukumbu zako" in sw


def test_meal_dearer_than_its_milk_does_not_pay() -> None:
    sw, en = worth(300)
    assert "unapoteza 100/=: kuongeza hakulipi" in sw
    assert "does not pay" in en
    assert "Ongeza nusu kilo" not in sw


def test_over_the_most_she_bears_no_price_counts() -> None:
    sw, en = worth(fed=8)
    assert "USIZIDISHE kilo 8" in sw
    assert "inalipa" not in sw
    assert "it pays" not in en


def test_the_farms_own_response_comes_with_its_error() -> None:
    sw, en = worth(own=Response(litres_a_kg=D("1.23"), error=D("0.21"), changes=14))
    assert "Kwa kumbukumbu zako kilo 1 zaidi imeongeza lita 1.2, kosa 0.2 (mabadiliko 14)." in sw
    assert "By your own records" in en


def test_a_bag_taken_for_granted_is_said() -> None:
    assert "gunia la kilo 50" in worth(bag=50)[0]
    assert "gunia" not in worth()[0]


# --- fodder and room -------------------------------------------------------------------------------


def lasts(bales: int, cattle: int, bale: int | None = None, until: str | None = None) -> tuple[str, str]:
    stocks = [fodder.Stock(HAY, D(bales), "bale")] if bales else []
    eaten = fodder.dm_a_day([None] * cattle)
    price = None if bale is None else tzs(bale)
    last = None if until is None else day(until)
    sw, en = (answer_fodder(stocks, cattle, eaten, price, TODAY, last, language) for language in LANGUAGES)
    return sw, en


def test_until_when_it_lasts_and_what_is_short() -> None:
    sw, en = lasts(100, 2, 5000, "2026-10-04")
    assert "akiba inatosha 15 Juni hadi 20 Agosti. Hadi 4 Oktoba zinapungua siku 45." in sw
    assert "nunua hei marobota 67 kwa 335,000/=" in sw
    assert "Or in good time keep only 1." in en
    assert "majani mapya" not in sw


def test_the_season_taken_for_granted_is_said() -> None:
    assert "tumechukua hakuna majani mapya" in lasts(100, 2)[0]


def test_enough_is_enough() -> None:
    sw, en = lasts(1000, 2)
    assert "inatosha kuanzia 15 Juni hadi 14 Des" in sw
    assert "Njia" not in sw
    assert "Ways out" not in en


@pytest.mark.parametrize(("bales", "cattle"), [(0, 2), (10, 0)])
def test_without_fodder_or_cattle_it_says_how_to_ask(bales: int, cattle: int) -> None:
    sw, en = lasts(bales, cattle)
    assert sw.endswith("AKIBA HEI MAROBOTA 100 NG'OMBE 2")
    assert en.endswith("FODDER 100 BALES HAY 2 COWS")


def test_room_for_five_cows() -> None:
    sw, en = (answer_space(5, language) for language in LANGUAGES)
    assert "angalau mita za mraba 27.9, vizuri zaidi 30 hadi 45" in sw
    assert "Trough 3 to 3.8 metres" in en
    assert "5,000 l" in en
    assert "12 by 10" not in en


def test_room_for_two_cows_is_told_in_feet_as_the_least() -> None:
    assert "At least 12 by 10 feet." in answer_space(2, "en")
    assert answer_space(0, "sw").endswith("BANDA NG'OMBE 5")


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_answer_fits_three_segments_in_plain_letters(language: str) -> None:
    at = LANGUAGES.index(language)
    response = Response(litres_a_kg=D("1.23"), error=D("0.21"), changes=365)
    for text in (
        answer_space(999, language), lasts(12345, 999, 123456)[at], lasts(1, 999)[at],
        worth(12345, 12345, own=response, bag=50)[at],
    ):  # fmt: skip
        assert sms.measure(text).encoding == "gsm7"
        assert sms.septets(text) <= ROOM, text


def test_kilograms_are_told_to_the_half() -> None:
    told = [answers_feed.halves(D(tenths) / 10) for tenths in range(100)]
    assert min(told) == D("0.5")
    assert all(late - early in (0, D("0.5")) for early, late in pairwise(told))
