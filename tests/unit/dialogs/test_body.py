"""Answers to girth, weight and condition."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from dialogs.asking import question
from dialogs.reading import Code, Draft, Problem
from dialogs.replies import reply
from service import sms
from service.husbandry.forms import Calf, Entry
from service.husbandry.kinds.body import Condition, Girth, Weight
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.service import Service
from service.messages import Say
from tests.unit.dialogs.farmhouse import LONG, Farmhouse
from tests.unit.husbandry.book import day

D = Decimal
ON = day("2026-03-02")
LANGUAGES = ("sw", "en")


def girth(cm: int, animal: str = "Neema", on: str = "2026-03-02") -> Girth:
    return Girth(animal=animal, cm=D(cm), on=day(on))


def score(value: str, animal: str = "Neema", on: str = "2026-03-02") -> Condition:
    return Condition(animal=animal, score=D(value), on=day(on))


def both(outcome: Any) -> tuple[str, str]:
    sw, en = (reply(outcome, None, language) for language in LANGUAGES)
    return sw, en


def of_breed(breed: str | None, status: str = "heifer", born: str | None = None) -> Farmhouse:
    house = Farmhouse("Zawadi")
    birth = day(born) if born else None
    house.book.tell(
        NewAnimal(name="Neema", sex="female", status=status, breed=breed, born=birth, on=day("2025-06-01"))
    )
    return house


def test_a_girth_is_told_as_a_weight_give_or_take_the_tapes_error():
    sw, en = both(Farmhouse().tell(girth(165)))
    assert "Uzito kama kilo 364, pungufu au zaidi kilo 41." in sw
    assert "Weight about 364 kg, give or take 41 kg." in en


def test_of_a_cow_nothing_more_is_told():
    sw, en = both(Farmhouse().tell(girth(165)))
    assert "kupandishwa" not in sw
    assert "served" not in en


def test_out_of_the_data_a_tape_tells_no_weight():
    sw, en = both(Farmhouse().tell(girth(215)))
    assert "haitoi uzito" in sw
    assert "tells no weight" in en
    assert "kilo" not in sw


@pytest.mark.parametrize(
    ("breed", "cm", "kiswahili", "english"),
    [
        ("Friesian", 150, "kilo 270 hadi 300: amefikia", "270 to 300 kg: reached"),
        ("Friesian", 145, "kilo 270 hadi 300: karibu, bado", "270 to 300 kg: nearly, not yet"),
        ("Friesian", 130, "kilo 270 hadi 300: bado", "270 to 300 kg: not yet"),
        ("Jersey", 138, "kilo 200 hadi 220: amefikia", "200 to 220 kg: reached"),
        ("zebu", 140, "kilo 180 hadi 200: amefikia", "180 to 200 kg: reached"),
        (None, 150, "kilo 230 hadi 250: amefikia", "230 to 250 kg: reached"),
    ],
)
def test_a_heifer_is_measured_against_the_weight_of_her_breed(breed, cm, kiswahili, english):
    sw, en = both(of_breed(breed).tell(girth(cm)))
    assert kiswahili in sw
    assert english in en


def test_a_heifer_on_a_scale_is_told_without_doubt():
    sw, _ = both(of_breed("Friesian").tell(Weight(animal="Neema", kg=D(265), on=ON)))
    assert "kilo 270 hadi 300: bado." in sw


def test_a_heavy_heifer_waits_for_her_age():
    sw, en = both(of_breed("Jersey", born="2025-02-10").tell(girth(145)))
    assert "umri bado: 10 Mei" in sw  # 15 months
    assert "old enough on 10 May" in en


@pytest.mark.parametrize("status", ["in_calf_heifer", "calf", "milking"])
def test_only_a_heifer_to_be_served_has_a_weight_to_reach(status):
    born = "2025-12-01" if status == "calf" else None
    sw, _ = both(of_breed("Jersey", status=status, born=born).tell(girth(145)))
    assert "kupandishwa" not in sw


def test_once_served_there_is_nothing_to_reach():
    house = of_breed("Jersey")
    house.tell(Service(animal="Neema", on=day("2026-02-20")))
    assert "kupandishwa" not in both(house.tell(girth(145)))[0]


@pytest.mark.parametrize(("before", "soon"), [("2026-02-02", True), ("2026-02-01", False)])
def test_a_tape_is_said_not_to_show_the_change_of_four_weeks(before, soon):
    house = Farmhouse()
    house.tell(girth(163, on=before))
    sw, en = both(house.tell(girth(165)))
    assert ("Mabadiliko ya wiki chache tepu haiyaonyeshi." in sw) is soon
    assert ("does not show a change" in en) is soon


def dry(*entries: Entry) -> Farmhouse:
    house = Farmhouse("Neema", status="dry")
    house.tell(*entries)
    return house


@pytest.mark.parametrize(
    ("value", "kiswahili", "english"),
    [
        ("2.5", "Amekonda: maziwa hupungua na joto huchelewa", "Thin: less milk, late heat"),
        ("3.25", "Kabla ya kuzaa afaa kuwa 3.25 hadi 3.5. Yuko sawa", "Before calving 3.25 to 3.5 is wanted"),
        ("4", "Amenona: usimwongeze pumba kabla ya kuzaa", "Fat: no extra meal before calving"),
    ],
)
def test_before_calving_a_score_says_what_it_costs(value, kiswahili, english):
    sw, en = both(dry().tell(score(value)))
    assert kiswahili in sw
    assert english in en


def test_a_thin_cow_to_be_served_is_told_that_heat_comes_late():
    sw, en = both(Farmhouse().tell(score("2")))
    assert "Wakati wa kupandishwa afaa kuwa 2.5 hadi 3." in sw
    assert "joto huchelewa" in sw
    assert "heat comes late" in en


def test_a_whole_score_lost_since_calving_is_said():
    house = dry(score("3.5", on="2026-02-01"))
    house.tell(Calving(animal="Neema", on=day("2026-02-05"), calves=(Calf(sex="female"),)))
    sw, en = both(house.tell(score("2.5")))
    assert "amepungua alama 1" in sw
    assert "lost a whole score" in en


def test_a_calfs_score_is_only_written_down():
    sw, _ = both(of_breed(None, status="calf", born="2025-12-01").tell(score("2")))
    assert "afaa" not in sw
    assert "Amekonda" not in sw


@pytest.mark.parametrize("status", ["milking", "dry", "heifer", "in_calf_heifer"])
@pytest.mark.parametrize("value", ["1.25", "2.75", "3.25", "4.75"])
def test_every_answer_fits_a_segment_with_the_longest_name(status, value):
    house = Farmhouse(LONG[0], status=status)
    house.book.tell(girth(163, LONG[0], "2026-02-20"))
    for entry in (score(value, LONG[0]), girth(145, LONG[0]), girth(215, LONG[0])):
        for text in both(house.tell(entry)):
            assert sms.measure(text).encoding == "gsm7"
            assert sms.septets(text) <= 160, text


def test_a_score_not_told_is_asked_for_by_what_is_seen_and_felt():
    draft = Draft(kind=Condition, values={"animal": "Neema", "on": ON})
    problem = Problem(code=Code.MISSING, ask=Say(""), field="score", draft=draft)
    sw, en = (question(problem, language, today=ON) for language in LANGUAGES)
    assert "1 mifupa mitupu 2 zaonekana 3 zaguswa kirahisi 4 zaguswa kwa shida 5 haziguswi" in sw
    assert "1 bare bones 2 ribs seen 3 felt easily 4 felt if pressed 5 not felt" in en
