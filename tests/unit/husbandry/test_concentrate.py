"""What the next kilogram of concentrate is worth; and the farm's own response, where the records show it."""

from __future__ import annotations

import random
import statistics
from datetime import date, timedelta
from decimal import Decimal

import pytest

from service.husbandry.concentrate import (
    Week,
    break_even,
    expected_response,
    kg_for,
    line,
    margin,
    next_kg,
    own_response,
    weekly,
)
from service.husbandry.units import Money

D = Decimal


def tzs(amount: str | int) -> Money:
    return Money.of(amount, "TZS")


# KALRO's rule as computed: 1 kg for each 1.5 l above 7 l; 10 l -> 2 kg and 16 l -> 6 kg verified.
@pytest.mark.parametrize(
    ("litres", "kg"),
    [("7.0", "0"), ("7.1", "0.067"), ("8.5", "1.0"), ("10", "2"), ("12", "3.333"), ("16", "6"), ("5", "0")],
)
def test_a_kilogram_for_each_litre_and_a_half_above_seven(litres: str, kg: str) -> None:
    assert abs(kg_for(D(litres)) - D(kg)) < D("0.0005")


def test_break_even_and_margin_of_the_published_example() -> None:
    milk, meal = Money.of(45, "KES"), Money.of(40, "KES")
    assert round(break_even(milk, meal), 3) == D("0.889")
    assert margin(D("1.5"), milk, meal) == Money.of("27.5", "KES")


def test_two_litres_a_kilogram_at_the_rule_of_thumbs_prices() -> None:
    assert margin(D(2), tzs(900), tzs(700)) == tzs(1100)


def test_prices_in_two_currencies_are_not_compared() -> None:
    for compare in (break_even, lambda a, b: margin(D(1), a, b)):
        with pytest.raises(ValueError, match="TZS and KES"):
            compare(tzs(900), Money.of(40, "KES"))
    with pytest.raises(ValueError, match="no price"):
        break_even(tzs(0), tzs(700))


@pytest.mark.parametrize(
    ("days", "litres"), [(None, "1.5"), (30, "2.0"), (99, "2.0"), (150, "1.5"), (250, "1.0")]
)
def test_the_response_falls_with_the_stage(days: int | None, litres: str) -> None:
    assert expected_response(days) == D(litres)


@pytest.mark.parametrize(
    ("fed", "milk", "meal", "pays"),
    [("2", 900, 700, True), ("2", 400, 700, False), ("7.5", 900, 700, False), ("7", 900, 700, True)],
)
def test_it_stops_where_more_no_longer_pays_or_no_more_is_borne(
    fed: str, milk: int, meal: int, pays: bool
) -> None:
    step = next_kg(fed_kg=D(fed), most_kg=D(8), response_l=D("1.5"), milk=tzs(milk), meal=tzs(meal))
    assert step.pays is pays


# --- the farm's own response -----------------------------------------------------------------------

FIRST = date(2026, 1, 5)  # a Monday


def weeks(kgs: list[str], litres: list[str]) -> list[Week]:
    return [
        Week(FIRST + timedelta(weeks=at), D(kg), D(milk))
        for at, (kg, milk) in enumerate(zip(kgs, litres, strict=True))
    ]


def test_a_line_is_the_standard_librarys_and_its_error_the_textbooks() -> None:
    pairs = [("0", "1.1"), ("1", "1.9"), ("2", "3.2"), ("3", "3.8"), ("4", "5.1")]
    slope, error = line([(D(x), D(y)) for x, y in pairs])
    xs, ys = ([float(pair[i]) for pair in pairs] for i in (0, 1))
    independent = statistics.linear_regression(xs, ys)
    assert float(slope) == pytest.approx(independent.slope)
    left = sum((y - independent.intercept - independent.slope * x) ** 2 for x, y in zip(xs, ys, strict=True))
    assert float(error) == pytest.approx((left / 3 / 10) ** 0.5)


def test_a_line_needs_three_pairs_and_a_change() -> None:
    with pytest.raises(ValueError, match="three"):
        line([(D(1), D(1)), (D(2), D(2))])
    with pytest.raises(ValueError, match="never"):
        line([(D(1), D(1)), (D(1), D(2)), (D(1), D(3))])


def test_the_response_is_found_under_the_usual_fall_of_milk() -> None:
    kgs = ["2", "3", "3", "2", "4", "4", "3", "2", "3", "4"]
    litres = [str(D(10) + D("1.2") * D(kg) - D("0.1") * at) for at, kg in enumerate(kgs)]
    found = own_response([weeks(kgs, litres)])
    assert found is not None
    assert abs(found.litres_a_kg - D("1.2")) < D("0.001")
    assert found.error < D("0.001")
    assert found.changes == 9


def test_two_cows_of_different_level_are_each_their_own_measure() -> None:
    kgs = ["2", "3", "2", "3", "2"]
    high = [str(D(18) + D("1.2") * D(kg)) for kg in kgs]
    low = [str(D(6) + D("1.2") * D(kg)) for kg in kgs]
    found = own_response([weeks(kgs, high), weeks(kgs, low)])
    assert found is not None
    assert abs(found.litres_a_kg - D("1.2")) < D("0.001")


def test_few_changes_or_none_tell_nothing() -> None:
    assert own_response([weeks(["2", "3", "2", "3"], ["10", "11", "10", "11"])]) is None
    assert own_response([weeks(["2"] * 12, ["10"] * 12)]) is None
    assert own_response([]) is None


def test_a_response_that_meal_cannot_have_is_not_told() -> None:
    for response in ("-0.5", "3.5"):
        litres = [str(D(20) + D(response) * (2 + at % 2)) for at in range(12)]
        assert own_response([weeks(["2", "3"] * 6, litres)]) is None


def test_a_week_left_out_is_no_change() -> None:
    some = weeks(["2", "3"] * 6, ["10", "11"] * 6)
    assert own_response([some]) is not None
    assert own_response([some[::2]]) is None


def test_milk_that_goes_its_own_way_is_too_unsure_to_be_told() -> None:
    drawn = random.Random(4)
    kgs = [str(2 + at % 2) for at in range(12)]
    litres = [str(round(10 + drawn.gauss(0, 2), 1)) for _ in kgs]
    assert own_response([weeks(kgs, litres)]) is None


def test_the_true_response_lies_within_two_errors_about_as_often_as_it_should() -> None:
    drawn = random.Random(1)
    held = told = 0
    for _ in range(200):
        kgs = [str(drawn.choice((2, 3, 4))) for _ in range(16)]
        litres = [str(round(10 + 1.5 * int(kg) + drawn.gauss(0, 0.6), 2)) for kg in kgs]
        found = own_response([weeks(kgs, litres)])
        if found is not None:
            told += 1
            held += abs(found.litres_a_kg - D("1.5")) <= 2 * found.error
    assert told > 190
    assert held / told > 0.85  # changes that share a week share its chance, so rather less than 95 in 100


def test_days_are_gathered_by_the_week() -> None:
    days = [
        (FIRST, D(2), D(10)),
        (FIRST + timedelta(days=6), D(4), D(12)),
        (FIRST + timedelta(days=7), D(3), D(9)),
    ]
    assert weekly(days) == (Week(FIRST, D(3), D(11)), Week(FIRST + timedelta(days=7), D(3), D(9)))
