"""The dose by the label's rate."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.husbandry.dose import dose, is_likely, may_be_in_early_calf, recent_weight, to_mark
from service.husbandry.forms import Entry
from service.husbandry.herd import Animal
from service.husbandry.kinds.body import Girth, Weight
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from tests.unit.husbandry.book import Book, day

D = Decimal
ML = st.decimals("0.05", "500", places=3)


# Albendazole, 7.5 mg/kg of a suspension of 100 mg/ml: 7.5 ml for 100 kg (arithmetic only; computed).
@pytest.mark.parametrize(
    ("kg", "exact", "ml"), [(85, "6.375", "6.5"), (120, "9", "9"), (250, "18.75", "19"), (380, "28.5", "29")]
)
def test_a_rate_of_seven_and_a_half_for_a_hundred(kg: int, exact: str, ml: str) -> None:
    found = dose(D(kg), D("7.5"), D(100))
    assert (found.exact, found.ml) == (D(exact), D(ml))


# A drench of 1 ml for 10 kg (an example of a label; common practice, no source).
@pytest.mark.parametrize(("kg", "ml"), [(300, "30"), (145, "14.5"), (380, "38"), (85, "8.5"), (250, "25")])
def test_a_rate_of_one_for_ten(kg: int, ml: str) -> None:
    assert dose(D(kg), D(1), D(10)).ml == D(ml)


@pytest.mark.parametrize(
    ("ml", "mark"),
    [
        ("0.34", "0.3"), ("1.96", "2.0"), ("2.2", "2"), ("2.25", "2.5"), ("19.7", "19.5"), ("19.8", "20"),
        ("20.4", "20"), ("20.5", "21"),
    ],
)  # fmt: skip
def test_an_amount_goes_to_the_nearest_mark_half_up(ml: str, mark: str) -> None:
    assert to_mark(D(ml)) == D(mark)


def test_the_labels_highest_is_never_passed_even_by_rounding() -> None:
    assert to_mark(D("28.5"), D("28.7")) == 28
    assert to_mark(D("6.375"), D("6.4")) == 6
    capped = dose(D(380), D(1), D(10), highest_ml=D(30), tape=True)
    assert (capped.exact, capped.ml, capped.high, capped.capped) == (38, 30, 30, True)
    assert not dose(D(300), D(1), D(10), highest_ml=D(30)).capped


@given(ML, ML)
def test_a_dose_is_at_most_the_highest_and_within_a_mark_of_the_arithmetic(
    ml: Decimal, highest: Decimal
) -> None:
    found = to_mark(ml, highest)
    assert found <= highest
    if ml <= highest:
        assert abs(found - ml) < 1


def test_a_tapes_error_is_the_doses_error() -> None:
    found = dose(D(364), D(1), D(10), tape=True)
    assert (found.low, found.ml, found.high) == (32, 36, 41)  # 36.4 give or take 4.1: 11 % (computed)
    sure = dose(D(364), D(1), D(10))
    assert sure.low == sure.ml == sure.high


def test_numbers_read_the_wrong_way_round_are_no_label() -> None:
    assert is_likely(D(1), D(10))
    assert not is_likely(D(10), D(1))
    assert not is_likely(D(0), D(0))


def neema(*entries: Entry, status: str = "milking", born: str | None = None) -> Animal:
    birth = day(born) if born else None
    new = NewAnimal(name="Neema", sex="female", status=status, born=birth, on=day("2026-01-01"))
    return Book(new, *entries).animal("Neema")


# A weight serves 30 days for the grown and 14 for calves (common practice, no source).
@pytest.mark.parametrize(
    ("status", "on", "known"),
    [
        ("milking", "2026-04-01", True),
        ("milking", "2026-04-02", False),
        ("calf", "2026-03-16", True),
        ("calf", "2026-03-17", False),
        ("heifer", "2026-04-01", True),
    ],
)
def test_a_dose_needs_a_recent_weight(status: str, on: str, known: bool) -> None:
    animal = neema(Weight(animal="Neema", kg=D(80), on=day("2026-03-02")), status=status)
    assert (recent_weight(animal, day(on)) == 80) is known


def test_a_girth_that_told_no_weight_is_none_to_dose_by() -> None:
    assert recent_weight(neema(), day("2026-03-02")) is None
    measured = neema(Girth(animal="Neema", cm=D(225), on=day("2026-03-02")))
    assert recent_weight(measured, day("2026-03-02")) is None


@pytest.mark.parametrize(("on", "early"), [("2026-01-02", True), ("2025-12-31", False)])
def test_a_service_of_the_last_two_months_may_have_held(on: str, early: bool) -> None:
    assert may_be_in_early_calf(neema(Service(animal="Neema", on=day(on))), day("2026-03-03")) is early


def test_once_found_empty_she_is_not_in_early_calf() -> None:
    empty = PregnancyCheck(animal="Neema", on=day("2026-03-02"), result="empty")
    cow = neema(Service(animal="Neema", on=day("2026-01-20")), empty)
    assert not may_be_in_early_calf(cow, day("2026-03-03"))
