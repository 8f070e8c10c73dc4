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
from tests.unit.dialogs.screens.builders import NOW, caller, tell

TODAY = NOW.date()
MOST_SCREENS = 6
"""From dialling to the answer, both of them counted."""

USUAL: dict[str, tuple[str, dict[str, Any]]] = {
    "milk": ("1 1 6 1", {"animal": "Neema", "litres": Decimal(6), "session": "evening", "on": TODAY}),
    "heat": ("2 2 1 1", {"animal": "Neema", "bleeding": False, "first_seen": NOW}),
    "service": ("3 2 1 # 2", {"animal": "Neema", "method": "ai", "on": TODAY - timedelta(days=1)}),
    "pregnancy_check": ("4 1 3 2 1", {"animal": "Zawadi", "result": "empty"}),
    "calving": ("4 2 1 1 1", {"animal": "Tausi", "calves": (Calf("female"),), "on": TODAY, "at": NOW}),
    "drying_off": ("4 3 1 1", {"animal": "Neema"}),
    "abortion": ("4 4 1 1", {"animal": "Tausi"}),
    "weaning": ("4 5 2 1", {"animal": "Pendo"}),
    "bull_left": ("4 7 1 2", {"animals": (EVERY_ANIMAL,), "on": TODAY - timedelta(days=1)}),
    "illness": ("5 1 3 2 1", {"animal": "Neema", "signs": ("fever",)}),
    "recovery": ("5 2 neema 1", {"animal": "Neema", "on": TODAY}),
    "treatment": ("5 3 neema # 1", {"animals": ("Neema",), "product": None, "milk_hold_days": None}),
    "spraying": ("5 4 1 1", {"animals": (EVERY_ANIMAL,), "milk_hold_days": None}),
    "deworming": ("5 5 3 # 1", {"animals": ("Pendo", "Furaha")}),
    "vaccination": ("5 6 1 1 1", {"animals": (EVERY_ANIMAL,), "disease": "fmd"}),
    "disinfection": ("5 7 1", {"on": TODAY}),
    "milk_sale": (
        "6 1 10 900 1",
        {"litres": Decimal(10), "price": Money.of(900, "TZS"), "amount": Money.of(9000, "TZS")},
    ),
    "payment": ("6 3 5000 juma 1", {"amount": Money.of(5000, "TZS"), "buyer": "juma"}),
    "delivery": ("6 4 12 3", {"litres": Decimal(12), "kg": None, "session": "morning"}),
    "milk_pay": ("6 5 1 250000 1", {"month": TODAY.replace(month=2, day=1), "litres": None}),
    "expense": ("6 6 2 5000 1", {"what": "dawa", "amount": Money.of(5000, "TZS")}),
    "other_income": ("6 7 1 20000 1", {"what": "mbolea"}),
    "new_animal": ("7 1 Rehema 1 1", {"name": "Rehema", "sex": "female", "status": "milking"}),
    "naming": ("7 2 neema Mrembo", {"animal": "Neema", "name": "Mrembo", "on": TODAY}),
    "animal_sale": ("7 3 simba 800000 1", {"animal": "Simba", "amount": Money.of(800000, "TZS")}),
    "death": ("7 4 pendo 1 1", {"animal": "Pendo", "reason": "sick"}),
    "girth": ("7 5 neema 165 1", {"animal": "Neema", "cm": Decimal(165)}),
    "weight": ("7 6 neema 350 1", {"animal": "Neema", "kg": Decimal(350)}),
    "condition": ("7 7 neema 4 1", {"animal": "Neema", "score": Decimal(4)}),
    "milk_reason": ("4 9 1 neema 3", {"animal": "Neema", "reason": "calf", "on": TODAY}),
    "feeding": ("7 8 2 4 1", {"animals": (EVERY_ANIMAL,), "feed": "pumba", "kg": Decimal(4)}),
    "done": ("8 1 1 1", {"numbers": (1,)}),
    "later": ("8 1 2 2", {"numbers": (2,)}),
    "undo": ("8 2 1", {}),
    "fix": ("8 3 1 2 7", {}),
    "contact": ("8 6 1 Juma 0754123456", {"role": "vet", "name": "Juma", "phone": "+255754123456"}),
    "ask": ("8 8", {"topic": "help"}),
    "helper": ("8 5 2 0712345678 Juma", {"act": "add", "phone": "+255712345678", "name": "Juma"}),
    "contest": ("8 5 6 1", {}),
    "language": ("8 7 1 2", {"to": "en"}),
    "setting": ("8 7 3 1 14", {"task": "spray", "every_days": Decimal(14), "hour": None}),
    "stop": ("8 7 4 1", {}),
    "start": ("8 7 5 1", {}),
    "pin": ("8 7 6 4821", {"act": "set", "code": "4821", "old": None}),
    "no_answer": ("5 9 1 1", {}),
    "willing": ("5 9 4 6 3", {"disease": "ecf", "count": Decimal(3)}),
}
"""Kind -> the answers of the usual case on the small herd, and what they must record."""


def spoken(answers: str) -> list[str]:
    """What is typed, one by one; blanks inside an answer are written as ``_``."""
    return [answer.replace("_", " ") for answer in answers.split()]


WORK = ("Neema: angalia joto", "Tausi: kupima mimba")


@pytest.mark.parametrize("kind", [kind.KIND for kind in KINDS])
def test_every_kind_is_told_in_at_most_six_screens(kind: str) -> None:
    answers, wanted = USUAL[kind]
    turns = tell(caller(tasks=WORK), spoken(answers))
    assert len(turns) <= MOST_SCREENS
    entry = turns[-1].effects[0]
    assert isinstance(entry, BY_KEY[kind])
    assert {name: getattr(entry, name) for name in wanted} == wanted


@pytest.mark.parametrize("kind", [kind.KIND for kind in KINDS])
def test_nothing_is_recorded_before_the_last_answer(kind: str) -> None:
    turns = tell(caller(tasks=WORK), spoken(USUAL[kind][0]))
    assert all(turn.effects == () and turn.more for turn in turns[:-1])


@pytest.mark.parametrize("kind", [kind for kind in KINDS if not kind.INSTRUCTION and kind.KIND != "done"])
def test_every_field_of_a_record_can_be_told(kind: type[forms.Entry]) -> None:
    items = [item for item in ITEMS.values() if item.kind == kind.KIND]
    asked = {name for item in items for q in (*item.asks, *plans.details(item)) for name in plans.fills(q)}
    asked |= {name for item in items for name in item.preset}
    dated_now = ("naming", "contact", "setting", "milk_reason")
    by_itself = {"on"} if kind.KIND in dated_now else set()
    assert asked - {"about"} == {field.name for field in forms.form(kind)} - {"about"} - by_itself


def test_more_can_be_told_before_the_day() -> None:
    turns = tell(caller(), ["3", "neema", "2", "Simba", "4", "#", "15000", "2", "1"])
    (entry,) = turns[-1].effects
    assert forms.dump(entry) == {  # type: ignore[arg-type]
        "kind": "service", "animal": "Neema", "on": "2026-03-02", "method": "bull", "sire": "Simba",
        "technician": None, "cost": {"amount": "15000.00", "currency": "TZS"}, "running": True,
    }  # fmt: skip


@pytest.mark.parametrize("typed", ["miezi 3", "mimba ya miezi 3", "3 months"])
def test_the_months_of_a_pregnancy_are_told_with_the_finding(typed: str) -> None:
    (entry,) = tell(caller(), ["4", "1", "neema", typed, "1"])[-1].effects
    assert (entry.result, entry.months) == ("pregnant", Decimal(3))  # type: ignore[union-attr]


def test_the_months_are_forgotten_when_the_finding_is_put_right() -> None:
    (entry,) = tell(caller(), ["4", "1", "neema", "miezi 3", "0", "2", "1"])[-1].effects
    assert (entry.result, entry.months) == ("empty", None)  # type: ignore[union-attr]


def test_a_bull_that_runs_with_the_herd_serves_each_cow_that_can_be_served() -> None:
    told = tell(caller(), ["4", "6", "1", "12/2"])[-1].effects
    assert {entry.animal for entry in told} == {"Neema", "Zawadi", "Malaika"}  # type: ignore[union-attr]
    assert {(entry.method, entry.running, entry.on.day) for entry in told} == {("bull", True, 12)}  # type: ignore[union-attr]


def test_a_bull_that_runs_with_some_serves_those() -> None:
    told = tell(caller(), ["4", "6", "neema zawadi", "1"])[-1].effects
    assert [entry.animal for entry in told] == ["Neema", "Zawadi"]  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("typed", "day", "at"),
    [
        ("juzi", 28, None),
        ("jana saa 4 usiku", 1, "2026-03-01T22:00+03:00"),
        ("28/2", 28, None),
        ("28", 28, None),
    ],
)
def test_a_calving_is_told_with_its_hour_where_it_is_known(typed: str, day: int, at: str | None) -> None:
    (entry,) = tell(caller(), ["4", "2", "1", "1", typed])[-1].effects
    told = forms.dump(entry)  # type: ignore[arg-type]
    assert (int(told["on"][-2:]), told["at"]) == (day, at)


def test_of_a_calf_the_birth_is_asked_and_not_the_day_it_came() -> None:
    turns = tell(caller(), ["7", "1", "Rehema", "5", "12/2"])
    (entry,) = turns[-1].effects
    assert (entry.status, entry.born.day, entry.on) == ("calf", 12, TODAY)  # type: ignore[union-attr]


def test_milk_on_credit_has_a_line_of_its_own() -> None:
    (entry,) = tell(caller(), ["6", "2", "10", "900", "1"])[-1].effects
    assert entry.credit is True  # type: ignore[union-attr]


def test_milk_of_the_whole_herd_may_be_more_than_a_cow_gives() -> None:
    (entry,) = tell(caller(), ["1", "4", "120", "1"])[-1].effects
    assert (entry.animal, entry.litres) == (EVERY_ANIMAL, 120)  # type: ignore[union-attr]


@pytest.mark.parametrize(("typed", "score"), [("1", "1"), ("5", "5"), ("2.75", "2.75"), ("2.5", "2.5")])
def test_condition_is_told_in_words_or_quarters(typed: str, score: str) -> None:
    (entry,) = tell(caller(), ["7", "7", "neema", typed, "1"])[-1].effects
    assert entry.score == Decimal(score)  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("1 10", {"rate_ml": 1, "per_kg": 10, "highest_ml": None}),
        ("7.5 50 30", {"rate_ml": Decimal("7.5"), "per_kg": 50, "highest_ml": 30}),
        ("ML 1 KWA KILO 10 MWISHO ML 30", {"rate_ml": 1, "per_kg": 10, "highest_ml": 30}),
        ("1 ml per 10 kg injection", {"rate_ml": 1, "per_kg": 10, "route": "injection"}),
    ],
)
def test_a_dose_is_asked_with_the_labels_rate(typed: str, wanted: dict[str, Any]) -> None:
    (ask,) = tell(caller(), ["5", "9", "2", "neema", typed])[-1].effects
    assert (ask.topic, ask.animal) == ("dose", "Neema")  # type: ignore[union-attr]
    assert {name: getattr(ask, name) for name in wanted} == wanted


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("20 10", {"rate_ml": 20, "in_litres": 10, "part": None, "tank_litres": None}),
        ("20 10 16", {"rate_ml": 20, "in_litres": 10, "tank_litres": 16}),
        ("1:400", {"part": 400, "rate_ml": None}),
        ("ML 20 KWA LITA 20 NG'OMBE 5", {"rate_ml": 20, "in_litres": 20, "animals_count": 5}),
    ],
)
def test_a_mixture_is_asked_with_the_labels_rate(typed: str, wanted: dict[str, Any]) -> None:
    (ask,) = tell(caller(), ["5", "9", "3", "1", typed])[-1].effects
    assert (ask.topic, ask.use) == ("mix", "cattle")  # type: ignore[union-attr]
    assert {name: getattr(ask, name) for name in wanted} == wanted


@pytest.mark.parametrize("typed", ["10", "1 2 3 4", "dawa", "0 0", "-1 10"])
def test_what_is_no_rate_is_not_counted_with(typed: str) -> None:
    turns = tell(caller(), ["5", "9", "2", "neema", typed])
    assert (turns[-1].state, turns[-1].effects) == (turns[-2].state, ())


@pytest.mark.parametrize(
    ("answers", "wanted"),
    [
        ("8 5 3 1", {"act": "remove", "phone": "+255712345678"}),
        ("8 5 3 juma", {"act": "remove", "phone": "+255712345678"}),
        ("8 5 4 2 1_3", {"act": "allow", "phone": "+255754999888", "may": ("money", "people")}),
        ("8 5 5 1 #", {"act": "forbid", "phone": "+255712345678", "may": ()}),
        ("8 7 7 4821_7733", {"act": "set", "old": "4821", "code": "7733"}),
        ("8 7 8 4821", {"act": "clear", "code": "4821", "old": None}),
        ("6 9 3 1", {"topic": "statement", "month": TODAY.replace(month=2, day=1)}),
        ("6 9 4 #", {"topic": "pay", "month": None}),
        ("6 9 2", {"topic": "owed"}),
        ("8 5 1", {"topic": "people"}),
        ("8 4 4", {"topic": "entries"}),
    ],
)
def test_every_instruction_says_what_is_wanted(answers: str, wanted: dict[str, Any]) -> None:
    turns = tell(caller(), spoken(answers))
    (order,) = turns[-1].effects
    assert len(turns) <= MOST_SCREENS
    assert {name: getattr(order, name) for name in wanted} == wanted


@pytest.mark.parametrize("answers", ["8 7 6 482", "8 7 6 abcd", "8 7 7 4821", "8 7 8 1234567"])
def test_a_secret_number_has_four_to_six_digits(answers: str) -> None:
    turns = tell(caller(), answers.split())
    assert turns[-1].text.startswith("PIN ni tarakimu 4 hadi 6.")


@pytest.mark.parametrize(
    "answers", ["8 7 6 4821", "8 7 6 48217", "8 7 7 4821_7733", "8 7 8 4821", "8 7 6 48 #"]
)
def test_no_state_holds_a_secret_number(answers: str) -> None:
    for turn in tell(caller(), spoken(answers)):
        assert not {"4821", "7733", "48217", "48"} & set(str(turn.state.to_json()).replace("'", " ").split())
        assert "4821" not in turn.text.partition("Mfano")[0]


def test_milk_of_an_earlier_day_asks_for_the_session() -> None:
    (entry,) = tell(caller(), ["1", "neema", "6", "20/2", "3"])[-1].effects
    assert (entry.on.isoformat(), entry.session) == ("2026-02-20", "evening")  # type: ignore[union-attr]


def test_a_calf_born_dead_is_told_beside_its_living_twin() -> None:
    turns = tell(caller(), ["4", "2", "1", "9"])
    number = next(line[0] for line in turns[-1].text.splitlines() if "jike, mmoja kafa" in line)
    (entry,) = tell(caller(), [number, "1"], start=turns[-1])[-1].effects
    assert entry.calves == (Calf("female"), Calf(None, alive=False))  # type: ignore[union-attr]


def test_the_label_gives_both_holds_in_one_answer() -> None:
    (entry,) = tell(caller(), ["5", "3", "neema", "#", "4", "#", "3 14", "#", "1", "1"])[-1].effects
    assert (entry.milk_hold_days, entry.meat_hold_days) == (3, 14)  # type: ignore[union-attr]


def test_a_dry_cow_drug_and_the_hour_of_its_last_dose_can_be_told() -> None:
    (entry,) = tell(caller(), ["5", "3", "tausi", "#", "4", "#", "#", "jana saa 12 jioni", "2", "1"])[
        -1
    ].effects
    assert (entry.dry_cow, entry.last_dose.isoformat()) == (True, "2026-03-01T18:00:00+03:00")  # type: ignore[union-attr]


def test_milk_weighed_at_the_centre_is_kept_in_kilos() -> None:
    (entry,) = tell(caller(), ["6", "4", "12.4 kg", "1"])[-1].effects
    assert (entry.kg, entry.litres) == (Decimal("12.4"), None)  # type: ignore[union-attr]


def test_of_a_sale_without_litres_the_sum_is_asked() -> None:
    (entry,) = tell(caller(), ["6", "1", "#", "9000", "1"])[-1].effects
    assert (entry.litres, entry.amount) == (None, Money.of(9000, "TZS"))  # type: ignore[union-attr]


def test_a_sale_whose_price_is_not_known_stands_without() -> None:
    (entry,) = tell(caller(), ["6", "1", "10", "#", "1"])[-1].effects
    assert (entry.litres, entry.price, entry.amount) == (10, None, None)  # type: ignore[union-attr]


def test_a_sale_has_litres_or_the_sum() -> None:
    turns = tell(caller(), ["6", "1", "#", "#"])
    assert turns[-1].state == turns[-2].state
    assert "Jibu hili linahitajika." in turns[-1].text


def test_several_animals_are_ticked_over_several_pages() -> None:
    who = caller()
    turns = tell(who, ["5", "5", "4 9"])
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
    last = menu.closing("Neema: sm 165.", tell(who, ["7", "5", "neema", "165", "2"])[-1], who)
    turns = tell(who, ["1", "zawadi", "150"], start=last)
    assert turns[-1].effects == ()
    assert turns[-1].state.question == "on"


def test_a_herd_without_animals_leads_to_the_first_one() -> None:
    who = caller(herd=Herd(()))
    turns = tell(who, ["1", "1", "Neema", "1", "1"])
    (entry,) = turns[-1].effects
    assert entry.named == ("Neema",)  # type: ignore[union-attr]


def test_an_unknown_phone_joins_with_a_language_and_a_name() -> None:
    turns = tell(caller(known=False), ["2", "Asha Mwakalinga"])
    assert "What is your name?" in turns[1].text
    (join,) = turns[-1].effects
    assert (join.name, join.language) == ("Asha Mwakalinga", "en")  # type: ignore[union-attr]


def test_an_unknown_phone_that_does_not_want_to_join_is_let_go() -> None:
    last = tell(caller(known=False), ["0"])[-1]
    assert (last.more, last.effects, last.state) == (False, (), State(at=last.state.at))
