"""Answers to questions on a dose or a mixture."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from dialogs.dosing import answer_dose, answer_mix
from service import sms
from service.husbandry.kinds.body import Girth, Weight
from service.husbandry.kinds.instructions import Ask
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from tests.unit.dialogs.farmhouse import FAR_VET, LONG, VET, Farmhouse, new
from tests.unit.husbandry.book import day

D = Decimal
ON = day("2026-03-02")
LANGUAGES = ("sw", "en")
ROOM = 3 * 153
RATE = {"rate_ml": D(1), "per_kg": D(10)}


def asked(
    house: Farmhouse, name: str | None = "Neema", on: str = "2026-03-02", **told: Any
) -> tuple[str, str]:
    ask = Ask(topic="dose", animal=name, **told)
    animal = None if name is None else house.book.animal(name)
    people = {"vet": VET}
    sw, en = (answer_dose(ask, animal, house.book.farm, people, day(on), one) for one in LANGUAGES)
    return sw, en


def weighed(kg: int = 340, name: str = "Neema", status: str = "milking") -> Farmhouse:
    house = Farmhouse(name, status=status)
    house.tell(Weight(animal=name, kg=D(kg), on=ON))
    return house


def mixed(house: Farmhouse | None = None, **told: Any) -> tuple[str, str]:
    farm = (house or Farmhouse()).book.farm
    sw, en = (answer_mix(Ask(topic="mix", **told), farm, language) for language in LANGUAGES)
    return sw, en


# --- dose ------------------------------------------------------------------------------------------


def test_the_labels_rate_times_her_weight_is_her_dose():
    sw, en = asked(weighed(), **RATE)
    assert sw.startswith("Neema, kilo 340: kwa ml 1 kwa kila kilo 10 ni ml 34. ")
    assert en.startswith("Neema, 340 kg: 1 ml per 10 kg comes to 34 ml. ")


def test_a_dose_says_that_it_is_arithmetic_and_who_decides():
    sw, en = asked(weighed(), **RATE)
    assert "Hii ni hesabu tu: chupa na daktari huamua" in sw
    assert "Kwa mdomo tu" in sw
    assert "arithmetic only: label and vet decide" in en


def test_a_weight_by_tape_says_what_its_error_makes_of_the_dose():
    house = Farmhouse()
    house.tell(Girth(animal="Neema", cm=D(165), on=ON))
    sw, en = asked(house, **RATE)
    assert "ni ml 36." in sw  # 364 kg
    assert "kukosea kilo 41: yaani ml 32 hadi 41" in sw
    assert "off by 41 kg: 32 to 41 ml" in en
    assert "tepu" not in asked(weighed(), **RATE)[0]


def test_the_labels_highest_is_the_most_that_is_told():
    sw, en = asked(weighed(), highest_ml=D(30), **RATE)
    assert "hesabu ni ml 34, lakini mwisho wa chupa ni ml 30. Usizidishe ml 30." in sw
    assert "Never above 30 ml" in en
    assert "Kiwango cha juu" in asked(weighed(), **RATE)[0]


def test_the_arithmetic_is_told_to_a_tenth():
    assert "hesabu ni ml 113.3," in asked(weighed(), rate_ml=D(1), per_kg=D(3), highest_ml=D(30))[0]


@pytest.mark.parametrize("on", ["2026-04-02", "2026-05-10"])
def test_without_a_recent_weight_it_says_how_to_measure(on):
    sw, en = asked(weighed(), on=on, **RATE)
    assert "NEEMA KIFUA 150" in sw
    assert "NEEMA GIRTH 150" in en
    assert "ml" not in sw


def test_a_calf_is_weighed_anew_after_two_weeks():
    house = Farmhouse("Zawadi")
    house.tell(new("Neema", "calf", born="2025-12-01"), Weight(animal="Neema", kg=D(60), on=ON))
    assert "ml 6." in asked(house, on="2026-03-16", **RATE)[0]
    assert "KIFUA" in asked(house, on="2026-03-17", **RATE)[0]


@pytest.mark.parametrize("route", ["injection", "pour"])
def test_what_is_not_given_by_mouth_is_the_vets(route):
    sw, en = asked(weighed(), route=route, **RATE)
    assert "0754123456" in sw
    assert "0754123456" in en
    assert "34" not in sw.replace("0754123456", "")


@pytest.mark.parametrize("told", [{}, {"rate_ml": D(1)}, {"per_kg": D(10)}])
def test_without_the_rate_it_says_how_to_ask(told):
    sw, en = asked(weighed(), **told)
    assert "DOZI NEEMA ML 1 KWA KILO 10" in sw
    assert "DOSE NEEMA 1 ML PER 10 KG" in en


def test_without_an_animal_the_example_names_one_of_the_farm():
    assert "DOZI NEEMA" in asked(weighed(), None, **RATE)[0]


def test_numbers_read_the_wrong_way_round_are_read_again():
    sw, en = asked(weighed(), rate_ml=D(10), per_kg=D(1))
    assert "soma chupa upya" in sw
    assert "3400" not in sw.replace(",", "")
    assert "read the label again" in en


def test_in_calf_the_vet_is_asked_first():
    house = weighed()
    house.tell(PregnancyCheck(animal="Neema", on=ON, result="pregnant", months=D(5)))
    sw, en = asked(house, **RATE)
    assert sw.startswith("Neema ana mimba: kabla ya kumpa muulize daktari dawa ipi")
    assert en.startswith("Neema is in calf: before you give it ask the vet")


@pytest.mark.parametrize(("on", "asks"), [("2026-01-10", True), ("2025-12-20", False)])
def test_served_within_two_months_the_vet_is_asked_first(on, asks):
    house = weighed()
    house.tell(Service(animal="Neema", on=day(on)))
    assert ("huenda ana mimba" in asked(house, **RATE)[0]) is asks


def test_the_milk_of_a_cow_in_milk_is_spoken_of():
    assert "yasiuzwe siku ngapi" in asked(weighed(), **RATE)[0]
    assert "Maziwa" not in asked(weighed(status="heifer"), **RATE)[0]


def test_the_longest_dose_fits_three_segments():
    house = Farmhouse(LONG[0])
    house.tell(Girth(animal=LONG[0], cm=D("188.5"), on=ON), Service(animal=LONG[0], on=day("2026-02-20")))
    for text in asked(house, LONG[0], rate_ml=D("7.25"), per_kg=D(100)):
        assert sms.measure(text).encoding == "gsm7"
        assert sms.septets(text) <= ROOM, text


# --- mix -------------------------------------------------------------------------------------------


def test_a_wash_is_counted_from_five_to_ten_litres_a_cow():
    sw, en = mixed(rate_ml=D(20), in_litres=D(20), animals_count=D(5))
    assert "Ng'ombe 5, lita 5 hadi 10 kila mmoja kama chupa inavyosema" in sw
    assert "lita 25 hadi 50, dawa ml 25 hadi 50." in sw
    assert "Tangi la lita 20: mara 2 hadi 3, likijaa ml 20." in sw
    assert "25 to 50 l, 25 to 50 ml" in en


def test_the_labels_litres_go_before_the_practice():
    sw, _ = mixed(rate_ml=D(1), in_litres=D(1), animals_count=D(3), litres_each=D(5))
    assert "Ng'ombe 3, lita 5 kila mmoja: lita 15, dawa ml 15." in sw


def test_all_cattle_are_those_present():
    sw, _ = mixed(Farmhouse("Neema", "Tausi"), rate_ml=D(1), in_litres=D(1), use="cattle")
    assert "Ng'ombe 2" in sw


@pytest.mark.parametrize("told", [{"animals_count": D(3)}, {"use": "cattle"}, {"tank_litres": D(20)}])
def test_every_wash_comes_with_its_cautions(told):
    sw, en = mixed(rate_ml=D(1), in_litres=D(1), **told)
    for caution in ("glavu", "upepo", "watoto na wajawazito", "KAMWE dawa ya mimea", "mbwa wala mbuzi"):
        assert caution in sw
    for caution in ("Gloves", "wind", "children and pregnant", "NEVER a crop pesticide", "dogs or goats"):
        assert caution in en


@pytest.mark.parametrize(
    ("told", "kiswahili"),
    [
        ({"rate_ml": D(25), "in_litres": D(10), "tank_litres": D(16)}, "Lita 16: dawa ml 40"),
        ({"part": D(400), "tank_litres": D(16)}, "Lita 16: dawa ml 40"),
        ({"part": D(100), "tank_litres": D(20)}, "Lita 20: dawa ml 200"),
    ],
)
def test_the_sheds_disinfectant_is_counted_for_the_tank(told, kiswahili):
    sw, en = mixed(use="shed", **told)
    assert kiswahili in sw
    assert "Ondoa samadi kwanza" in sw
    assert "wakae mbali" in sw
    assert "Clear the dung first" in en


def test_without_a_tank_the_usual_ones_are_counted():
    sw, _ = mixed(part=D(400))
    assert "Lita 10: dawa ml 25" in sw
    assert "Lita 16: dawa ml 40" in sw
    assert "Lita 20: dawa ml 50" in sw


def test_the_strength_for_cattle_is_for_no_others():
    sw, en = mixed(use="other", rate_ml=D(20), in_litres=D(20))
    assert "mbwa" in sw
    assert "ml" not in sw
    assert "dogs" in en


def test_a_mixture_stronger_than_labels_say_is_refused():
    sw, en = mixed(rate_ml=D(20), in_litres=D(1), use="cattle")
    assert "kali mno" in sw
    assert "far too strong" in en


def test_without_a_rate_it_says_how_to_ask_for_a_mixture():
    sw, en = mixed()
    assert "CHANGANYA ML 20 KWA LITA 20 NG'OMBE 5" in sw
    assert "MIX 20 ML IN 20 L FOR 5 COWS" in en


def test_the_longest_mixture_fits_three_segments():
    told = {"rate_ml": D("7.25"), "in_litres": D("12.5"), "animals_count": D(999), "tank_litres": D("17.5")}
    for text in mixed(**told):
        assert sms.measure(text).encoding == "gsm7"
        assert sms.septets(text) <= ROOM, text


def test_a_vet_far_away_still_fits():
    house = weighed(name=LONG[0])
    ask = Ask(topic="dose", animal=LONG[0], route="injection")
    for language in LANGUAGES:
        text = answer_dose(ask, house.book.animal(LONG[0]), house.book.farm, {"vet": FAR_VET}, ON, language)
        assert sms.septets(text) <= 160
