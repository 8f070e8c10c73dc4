"""Every kind is told from the menu alone, in few answers, and nothing is recorded before the last."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest

from dialogs.screens import menu, plans
from dialogs.screens.branches import ITEMS
from dialogs.screens.state import State
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL, Calf
from service.husbandry.herd import Herd
from service.husbandry.kinds import BY_KEY, KINDS
from service.husbandry.units import Money
from tests.unit.dialogs.screens.builders import NOW, caller, kept, tell

TODAY = NOW.date()
MOST_ANSWERS = 6

USUAL: dict[str, tuple[str, dict[str, Any]]] = {
    "milk": ("1 1 6 1", {"animal": "Neema", "litres": Decimal(6), "session": "evening", "on": TODAY}),
    "heat": ("2 2 1 1", {"animal": "Neema", "bleeding": False, "first_seen": NOW}),
    "service": ("3 2 1 # 2", {"animal": "Neema", "method": "ai", "on": TODAY - timedelta(days=1)}),
    "pregnancy_check": ("4 3 2 1", {"animal": "Zawadi", "result": "empty"}),
    "calving": ("5 1 1 1 1", {"animal": "Tausi", "calves": (Calf("female"),)}),
    "drying_off": ("5 2 1 1", {"animal": "Neema"}),
    "abortion": ("5 3 1 1", {"animal": "Tausi"}),
    "weaning": ("5 4 2 1", {"animal": "Pendo"}),
    "illness": ("6 1 3 2 1", {"animal": "Neema", "signs": ("fever",)}),
    "treatment": (
        "6 2 neema # 3 1",
        {"animals": ("Neema",), "milk_hold_days": Decimal(3), "meat_hold_days": None},
    ),
    "spraying": ("7 1 1 # 1", {"animals": (EVERY_ANIMAL,), "milk_hold_days": None}),
    "deworming": ("7 2 3 0 1", {"animals": ("Pendo", "Furaha"), "milk_hold_days": Decimal(0)}),
    "vaccination": ("7 3 1 1 1", {"animals": (EVERY_ANIMAL,), "disease": "fmd"}),
    "disinfection": ("7 4 1", {"on": TODAY}),
    "milk_sale": (
        "8 1 10 900 1",
        {"litres": Decimal(10), "price": Money.of(900, "TZS"), "amount": Money.of(9000, "TZS")},
    ),
    "delivery": ("8 2 12 3", {"litres": Decimal(12), "kg": None, "session": "morning"}),
    "milk_pay": ("8 3 1 250000 # 1", {"month": TODAY.replace(month=2, day=1), "litres": None}),
    "expense": ("8 4 2 5000 1", {"what": "dawa", "amount": Money.of(5000, "TZS")}),
    "other_income": ("8 5 1 20000 1", {"what": "mbolea"}),
    "feeding": ("8 6 2 2 4 1", {"animals": ("Neema", "Zawadi"), "feed": "pumba", "kg": Decimal(4)}),
    "new_animal": ("9 1 1 Rehema 1 1", {"name": "Rehema", "sex": "female", "status": "milking"}),
    "naming": ("9 1 2 neema Mrembo", {"animal": "Neema", "name": "Mrembo", "on": TODAY}),
    "animal_sale": ("9 1 3 simba 800000 1", {"animal": "Simba", "amount": Money.of(800000, "TZS")}),
    "death": ("9 1 4 pendo 1 1", {"animal": "Pendo", "reason": "sick"}),
    "girth": ("9 2 1 neema 165 1", {"animal": "Neema", "cm": Decimal(165)}),
    "weight": ("9 2 2 neema 350 1", {"animal": "Neema", "kg": Decimal(350)}),
    "condition": ("9 2 3 neema 2.75 1", {"animal": "Neema", "score": Decimal("2.75")}),
    "contact": ("9 5 2 1 Juma 0754123456", {"role": "vet", "name": "Juma", "phone": "+255754123456"}),
    "setting": ("9 5 4 1 14", {"task": "spray", "every_days": Decimal(14), "hour": None}),
    "done": ("9 3 1 1", {"numbers": (1,)}),
    "later": ("9 3 2 2", {"numbers": (2,)}),
    "undo": ("9 6 1", {}),
    "ask": ("9 7", {"topic": "help"}),
    "language": ("9 5 1 2", {"to": "en"}),
    "stop": ("9 5 5 1", {}),
    "start": ("9 5 6 1", {}),
    "no_answer": ("6 4 1", {}),
}
"""Kind -> the answers of the usual case on the small herd, and what they must record."""

WORK = ("Neema: angalia joto", "Tausi: kupima mimba")


@pytest.mark.parametrize("kind", [kind.KIND for kind in KINDS])
def test_every_kind_is_told_in_at_most_six_answers(kind: str) -> None:
    answers, wanted = USUAL[kind]
    turns = tell(caller(tasks=WORK), answers.split())
    assert len(answers.split()) <= MOST_ANSWERS
    (entry,) = turns[-1].effects
    assert isinstance(entry, BY_KEY[kind])
    assert {name: getattr(entry, name) for name in wanted} == wanted


@pytest.mark.parametrize("kind", [kind.KIND for kind in KINDS])
def test_nothing_is_recorded_before_the_last_answer(kind: str) -> None:
    turns = tell(caller(tasks=WORK), USUAL[kind][0].split())
    assert all(turn.effects == () and turn.more for turn in turns[:-1])


@pytest.mark.parametrize("kind", [kind for kind in KINDS if not kind.INSTRUCTION and kind.KIND != "done"])
def test_every_field_of_a_record_can_be_told(kind: type[forms.Entry]) -> None:
    items = [item for item in ITEMS.values() if item.kind == kind.KIND]
    asked = {name for item in items for q in (*item.asks, *plans.details(item)) for name in plans.fills(q)}
    by_itself = {"naming": {"on"}, "contact": {"on"}, "setting": {"on"}}.get(kind.KIND, set())
    assert asked - {"about"} == {field.name for field in forms.form(kind)} - {"about"} - by_itself


def test_more_can_be_told_before_the_day() -> None:
    turns = tell(caller(), ["3", "neema", "2", "Simba", "4", "#", "15000", "1"])
    (entry,) = turns[-1].effects
    assert forms.dump(entry) == {  # type: ignore[arg-type]
        "kind": "service", "animal": "Neema", "on": "2026-03-02", "method": "bull", "sire": "Simba",
        "technician": None, "cost": {"amount": "15000.00", "currency": "TZS"},
    }  # fmt: skip


def test_a_check_that_found_her_in_calf_asks_for_the_months() -> None:
    (entry,) = tell(caller(), ["4", "neema", "1", "3", "1"])[-1].effects
    assert (entry.result, entry.months) == ("pregnant", Decimal(3))  # type: ignore[union-attr]


def test_the_months_are_forgotten_when_the_finding_is_put_right() -> None:
    (entry,) = tell(caller(), ["4", "neema", "1", "3", "0", "*", "2", "1"])[-1].effects
    assert (entry.result, entry.months) == ("empty", None)  # type: ignore[union-attr]


def test_milk_of_an_earlier_day_asks_for_the_session() -> None:
    (entry,) = tell(caller(), ["1", "neema", "6", "20/2", "3"])[-1].effects
    assert (entry.on.isoformat(), entry.session) == ("2026-02-20", "evening")  # type: ignore[union-attr]


def test_a_calf_born_dead_is_told_beside_its_living_twin() -> None:
    turns = tell(caller(), ["5", "1", "1", "9"])
    number = next(line[0] for line in turns[-1].text.splitlines() if "jike, mmoja kafa" in line)
    (entry,) = tell(caller(), [number, "1"], start=turns[-1])[-1].effects
    assert entry.calves == (Calf("female"), Calf(None, alive=False))  # type: ignore[union-attr]


def test_the_label_gives_both_holds_in_one_answer() -> None:
    (entry,) = tell(caller(), ["6", "2", "neema", "#", "3 14", "1"])[-1].effects
    assert (entry.milk_hold_days, entry.meat_hold_days) == (3, 14)  # type: ignore[union-attr]


def test_milk_weighed_at_the_centre_is_kept_in_kilos() -> None:
    (entry,) = tell(caller(), ["8", "2", "12.4 kg", "1"])[-1].effects
    assert (entry.kg, entry.litres) == (Decimal("12.4"), None)  # type: ignore[union-attr]


def test_of_a_sale_without_a_price_the_sum_is_asked() -> None:
    (entry,) = tell(caller(), ["8", "1", "10", "#", "9000", "1"])[-1].effects
    assert entry.price == Money.of(900, "TZS")  # type: ignore[union-attr]


def test_a_sale_has_litres_or_the_sum() -> None:
    turns = tell(caller(), ["8", "1", "#", "#", "#"])
    assert turns[-1].state == turns[-2].state
    assert "Jibu hili linahitajika." in turns[-1].text


def test_several_animals_are_ticked_over_several_pages() -> None:
    who = caller()
    turns = tell(who, ["7", "2", "4 9"])
    assert "(1)" in turns[-1].text
    (entry,) = tell(who, ["1 2", "#", "1"], start=turns[-1])[-1].effects
    assert entry.animals == ("Furaha", "Tausi", "Zawadi")  # type: ignore[union-attr]


def test_the_next_cow_of_a_milking_costs_two_answers() -> None:
    who = caller()
    last = tell(who, ["1", "1", "6", "4"])[-1]
    shown = menu.closing("Neema: lita 6, jana jioni.", last, who)
    assert shown.more
    (entry,) = tell(who, ["1", "1", "7"], start=shown)[-1].effects
    assert forms.dump(entry) == {  # type: ignore[arg-type]
        "kind": "milk", "animal": "Zawadi", "litres": 7, "session": "evening", "on": "2026-03-01",
    }  # fmt: skip


def test_the_day_is_asked_again_for_the_next_animal_of_other_work() -> None:
    who = caller()
    last = menu.closing("Neema: sm 165.", tell(who, ["9", "2", "1", "neema", "165", "2"])[-1], who)
    turns = tell(who, ["1", "zawadi", "150"], start=last)
    assert turns[-1].effects == ()
    assert turns[-1].state.question == "on"


def test_a_herd_without_animals_leads_to_the_first_one() -> None:
    who = caller(herd=Herd(()))
    turns = tell(who, ["1", "1", "Neema", "1", "1"])
    (entry,) = turns[-1].effects
    assert entry.named == ("Neema",)  # type: ignore[union-attr]


def test_an_unlikely_record_is_asked_about_first() -> None:
    who = caller(doubt=lambda entry: "Neema amekauka. Ni kweli?")
    turns = tell(who, ["1", "neema", "6", "1"])
    assert turns[-1].effects == ()
    assert turns[-1].text.startswith("Neema amekauka. Ni kweli?\n1 Ndiyo\n2 Hapana")
    assert len(menu.answer(kept(turns[-1].state), "1", who).effects) == 1
    assert len(menu.answer(kept(turns[-1].state), "ndiyo", who).effects) == 1
    for no in ("2", "hapana", "0"):
        turn = menu.answer(kept(turns[-1].state), no, who)
        assert turn.effects == ()
        assert turn.state.question == "milking"
        assert turn.state.values["litres"] == 6


def test_an_unknown_phone_joins_with_a_language_and_a_name() -> None:
    turns = tell(caller(known=False), ["2", "Asha Mwakalinga"])
    assert "What is your name?" in turns[1].text
    (join,) = turns[-1].effects
    assert (join.name, join.language) == ("Asha Mwakalinga", "en")  # type: ignore[union-attr]


def test_an_unknown_phone_that_does_not_want_to_join_is_let_go() -> None:
    last = tell(caller(known=False), ["0"])[-1]
    assert (last.more, last.effects, last.state) == (False, (), State(at=last.state.at))
