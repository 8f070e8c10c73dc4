"""Values typed in full are read as in a text."""

from __future__ import annotations

from datetime import date, datetime
from decimal import Decimal
from typing import Any

import pytest

from dialogs.screens import typed
from service.husbandry.forms import Deduction, Field, Sort
from service.husbandry.herd import Herd
from service.husbandry.units import Money
from tests.unit.dialogs.screens.builders import ZONE, caller, known, tell

NUMBER = Field("litres", Sort.NUMBER, True, low=Decimal(0), high=Decimal(50))


@pytest.mark.parametrize(
    ("text", "sort", "value"),
    [
        ("6", Sort.NUMBER, Decimal(6)),
        ("6,5", Sort.NUMBER, Decimal("6.5")),
        ("lita 6", Sort.NUMBER, Decimal(6)),
        ("sita na nusu", Sort.NUMBER, Decimal("6.5")),
        ("15,000", Sort.MONEY, Money.of(15000, "TZS")),
        ("elfu tano", Sort.MONEY, Money.of(5000, "TZS")),
        ("jana", Sort.DAY, date(2026, 3, 1)),
        ("12/2", Sort.DAY, date(2026, 2, 12)),
        ("12", Sort.DAY, date(2026, 2, 12)),
        ("12 Februari", Sort.DAY, date(2026, 2, 12)),
        ("12/3/2025", Sort.DAY, date(2025, 3, 12)),
        ("Januari", Sort.MONTH, date(2026, 1, 1)),
        ("jana saa 11 jioni", Sort.MOMENT, datetime(2026, 3, 1, 17, 0, tzinfo=ZONE)),
        ("yesterday 5 pm", Sort.MOMENT, datetime(2026, 3, 1, 17, 0, tzinfo=ZONE)),
        ("0754 123 456", Sort.PHONE, "+255754123456"),
    ],
)
def test_what_is_typed_is_read(text: str, sort: Sort, value: Any) -> None:
    assert typed.read(text, Field("litres", sort, True), caller()) == value


def test_what_the_centre_kept_back_is_read_with_its_reasons() -> None:
    kept_back = typed.read("dawa 5000, pumba 20,000/=", Field("deductions", Sort.DEDUCTIONS, False), caller())
    assert kept_back == (
        Deduction("dawa", Money.of(5000, "TZS")),
        Deduction("pumba", Money.of(20000, "TZS")),
    )


@pytest.mark.parametrize("text", ["5000", "dawa"])
def test_a_deduction_needs_its_reason_and_its_sum(text: str) -> None:
    wrong = typed.read(text, Field("deductions", Sort.DEDUCTIONS, False), caller())
    assert wrong == typed.Wrong("wrong.read")


@pytest.mark.parametrize("text", ["-5", "6 7", "sijui", "??", ""])
def test_what_is_no_number_is_not_read_as_one(text: str) -> None:
    assert typed.read(text, NUMBER, caller()) == typed.Wrong("wrong.read")


@pytest.mark.parametrize("text", ["0754", "123", "simu"])
def test_what_is_no_phone_is_not_read_as_one(text: str) -> None:
    assert typed.read(text, Field("phone", Sort.PHONE, True), caller()) == typed.Wrong("wrong.read")


@pytest.mark.parametrize(("text", "days"), [("hakuna", 0), ("siku 3", 3), ("wiki moja", 7)])
def test_a_hold_is_read_in_words_too(text: str, days: int) -> None:
    (entry,) = tell(caller(), ["5", "5", "1", "#", "4", "#", text, "1"])[-1].effects
    assert entry.milk_hold_days == days  # type: ignore[union-attr]


def test_a_sign_is_read_in_words_too() -> None:
    (entry,) = tell(caller(), ["5", "1", "neema", "anakohoa", "1"])[-1].effects
    assert entry.signs == ("cough",)  # type: ignore[union-attr]


def test_a_day_known_by_its_month_only_is_said_to_be_a_guess() -> None:
    (entry,) = tell(caller(), ["7", "5", "neema", "165", "Januari"])[-1].effects
    assert (entry.on, entry.about) == (date(2026, 1, 15), True)  # type: ignore[union-attr]
    (entry,) = tell(caller(), ["7", "5", "neema", "165", "jana"])[-1].effects
    assert entry.about is False  # type: ignore[union-attr]


def test_a_number_is_no_cow_that_goes_by_it() -> None:
    herd = Herd((known("12"), known("Neema")))
    (entry,) = tell(caller(herd=herd), ["1", "neema", "12", "1"])[-1].effects
    assert (entry.animal, entry.litres) == ("Neema", 12)  # type: ignore[union-attr]
