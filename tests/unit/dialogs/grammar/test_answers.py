"""Short replies to a question."""

from datetime import date, datetime
from decimal import Decimal
from typing import Any

import pytest

from dialogs.grammar.answers import read_answer, read_choice, read_yes_no
from dialogs.grammar.place import Place
from service.husbandry.forms import Calf, Entry, field_of, form
from service.husbandry.kinds import (
    BY_KEY,
    KINDS,
    Calving,
    Contact,
    Expense,
    Heat,
    Illness,
    Milk,
    NewAnimal,
    PregnancyCheck,
    Service,
    Setting,
    Treatment,
    Vaccination,
)
from service.husbandry.units import Money
from tests.unit.dialogs.grammar.reading import EVENING, HERD


def answer(kind: type[Entry], field: str, text: str) -> Any:
    return read_answer(text, field_of(kind, field), now=EVENING, herd=HERD, place=Place())


@pytest.mark.parametrize(
    ("kind", "field", "text", "value"),
    [
        (Milk, "litres", "6", Decimal(6)),
        (Milk, "litres", "lita sita na nusu", Decimal("6.5")),
        (Calving, "on", "jana", date(2026, 3, 1)),
        (Calving, "on", "tarehe 28", date(2026, 2, 28)),
        (NewAnimal, "sex", "jike", "female"),
        (NewAnimal, "sex", "bull", "male"),
        (NewAnimal, "status", "mtamba", "heifer"),
        (NewAnimal, "name", "Pili", "Pili"),
        (Milk, "animal", "nema", "Neema"),
        (Milk, "animal", "Furaha", None),
        (Vaccination, "animals", "wote", ("*",)),
        (Vaccination, "animals", "Neema na Kito", ("Neema", "Kito")),
        (Vaccination, "disease", "chambavu", "blackquarter"),
        (Expense, "amount", "elfu 5", Money.of(5000, "TZS")),
        (PregnancyCheck, "result", "hana", "empty"),
        (PregnancyCheck, "result", "ndiyo", "pregnant"),
        (PregnancyCheck, "result", "not sure", "unsure"),
        (Illness, "signs", "hali chakula na anakohoa", ("off_feed", "cough")),
        (Treatment, "milk_hold_days", "saa 72", Decimal(3)),
        (Treatment, "milk_hold_days", "hakuna", Decimal(0)),
        (Contact, "phone", "0712345678", "+255712345678"),
        (Contact, "phone", "sijui", None),
        (Service, "method", "dume", "bull"),
        (Service, "sire", "Shujaa", "Shujaa"),
        (Heat, "first_seen", "saa 2 asubuhi", datetime.fromisoformat("2026-03-02T08:00+03:00")),
        (Calving, "calves", "jike", (Calf(sex="female"),)),
        (Milk, "session", "asubuhi", "morning"),
        (Setting, "every_days", "wiki 2", Decimal(14)),
    ],
)
def test_an_answer_is_a_value_of_its_field(kind: type[Entry], field: str, text: str, value: Any) -> None:
    assert answer(kind, field, text) == value


def test_every_field_of_every_kind_can_be_answered() -> None:
    for kind in KINDS:
        for field in form(kind):
            read_answer("Neema 6 jana", field, now=EVENING, herd=HERD, place=Place())
    assert BY_KEY


@pytest.mark.parametrize("text", ["ndiyo", "NDIO", "yes", "Y", "eeh", "sawa", "ok", "ndiyo kabisa"])
def test_yes(text: str) -> None:
    assert read_yes_no(text) is True


@pytest.mark.parametrize("text", ["hapana", "No", "la", "siyo", "hapana asante"])
def test_no(text: str) -> None:
    assert read_yes_no(text) is False


@pytest.mark.parametrize("text", ["", "labda", "Neema 6", "6"])
def test_neither(text: str) -> None:
    assert read_yes_no(text) is None


def test_a_choice_by_number_or_by_name() -> None:
    options = ("Neema", "Zawadi", "Kito")
    assert [read_choice(text, options) for text in ("1", "2.", "neema", "Zawadi tafadhali")] == [0, 1, 0, 1]
    assert [read_choice(text, options) for text in ("4", "0", "sijui", "")] == [None, None, None, None]
