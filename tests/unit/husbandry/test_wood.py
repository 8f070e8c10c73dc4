"""The lactation curve against published and independently computed fits."""

from __future__ import annotations

from math import exp

import pytest

from service.husbandry.wood import Wood, fit, peak

# Weekly fat yield of one cow, 35 weeks: henderson.milkfat of the R package agridat 1.27 (McCulloch).
HENDERSON = [
    0.31, 0.39, 0.50, 0.58, 0.59, 0.64, 0.68, 0.66, 0.67, 0.70, 0.72, 0.68, 0.65, 0.64,
    0.57, 0.48, 0.46, 0.45, 0.31, 0.33, 0.36, 0.30, 0.26, 0.34, 0.29, 0.31, 0.29, 0.20,
    0.15, 0.18, 0.11, 0.07, 0.06, 0.01, 0.01,
]  # fmt: skip

# A smallholder's ten monthly tests, day after calving and kg (invented).
EXAMPLE = [(20, 9.0), (50, 12.0), (80, 11.0), (110, 10.0), (140, 9.0), (170, 8.0), (200, 7.5), (230, 7.0),
           (260, 6.0), (290, 5.0)]  # fmt: skip


def fitted(points: list[tuple[float, float]]) -> Wood:
    curve = fit(points)
    assert curve is not None
    return curve


def exact(b: float, c: float, days: range = range(10, 300, 10)) -> Wood:
    return fitted([(t, 10 * t**b * exp(-c * t)) for t in days])


# Least squares on logarithms: statsmodels' OLS (a, b, c, peak week, R2); standard errors of ln a, b, c and of
# the peak week by numpy 2.4.6 (lstsq, delta method). All computed by others' code.
@pytest.mark.parametrize(
    ("weeks", "a", "b", "c", "top", "r2", "errors", "top_error"),
    [
        (35, 0.211061, 1.393713, 0.185715, 7.5046, 0.78194, (0.359776, 0.252832, 0.021296), 0.667519),
        (33, 0.271614, 0.999364, 0.135141, 7.3950, 0.89945, (0.153121, 0.111415, 0.009890), 0.391310),
    ],
)
def test_hendersons_series_gives_the_published_fit(
    weeks: int,
    a: float,
    b: float,
    c: float,
    top: float,
    r2: float,
    errors: tuple[float, ...],
    top_error: float,
) -> None:
    curve = fitted(list(enumerate(HENDERSON[:weeks], start=1)))
    assert (curve.a, curve.b, curve.c) == pytest.approx((a, b, c), abs=6e-7)
    assert curve.r_squared == pytest.approx(r2, abs=6e-6)
    assert curve.errors == pytest.approx(errors, abs=6e-7)
    found = peak(curve)
    assert found is not None
    assert found.t == pytest.approx(top, abs=6e-5)
    assert found.t_error == pytest.approx(top_error, abs=6e-7)


def test_a_smallholders_lactation_gives_the_fit_of_two_other_programs() -> None:
    curve = fitted(EXAMPLE)
    # statsmodels' OLS on logarithms and numpy 2.4.6 (computed)
    assert (curve.a, curve.b, curve.c) == pytest.approx((3.57137, 0.360670, 0.00582766), rel=2e-6)
    assert curve.errors == pytest.approx((0.20953653, 0.05972474, 0.00055241), rel=1e-5)
    assert curve.residual == pytest.approx(0.0527900, rel=1e-5)
    assert curve.r_squared == pytest.approx(0.97062, abs=6e-6)
    assert curve.total(1, 305) == pytest.approx(2544.17, abs=0.01)
    top = peak(curve)
    assert top is not None
    assert (top.t, top.milk) == pytest.approx((61.889, 11.0250), abs=6e-4)
    assert top.t_error == pytest.approx(5.180617, rel=1e-5)


# Published parameters: Czech Simmental, first lactation (Anim Biosci 2021;34:949, verified; peak and sum
# computed); the teaching curve (computed). Day, milk and sum of days 1-305.
@pytest.mark.parametrize(
    ("a", "b", "c", "top", "milk", "total"),
    [(15.2317, 0.1029, 0.0015, 68.60, 21.233, 6022.42), (10, 0.20, 0.004, 50.00, 17.9034, 4348.03)],
)
def test_a_published_curve_is_found_again_from_its_own_points(
    a: float, b: float, c: float, top: float, milk: float, total: float
) -> None:
    curve = fitted([(t, a * t**b * exp(-c * t)) for t in range(10, 300, 10)])
    assert (curve.a, curve.b, curve.c) == pytest.approx((a, b, c), rel=1e-7)
    found = peak(curve)
    assert found is not None
    assert (found.t, found.milk) == pytest.approx((top, milk), abs=6e-4)
    assert curve.total(1, 305) == pytest.approx(total, abs=0.01)


def test_the_teaching_curve_has_its_spot_values() -> None:
    curve = exact(0.20, 0.004)  # y(1) 9.960, y(60) 17.840, y(150) 14.950, y(305) 9.269: computed
    assert [curve.at(t) for t in (1, 60, 150, 305)] == pytest.approx([9.960, 17.840, 14.950, 9.269], abs=6e-4)
    assert curve.persistency == pytest.approx(6.6258, abs=1e-4)  # 1.2 x 5.52146


@pytest.mark.parametrize(
    ("b", "c"),
    [(0.0, 0.0), (0.0, 0.002), (-0.1, 0.001), (0.1, -0.001), (0.01, 0.002)],
    ids=["level", "falls", "falls steeply", "rises to the end", "tops before the first record"],
)
def test_a_curve_without_a_top_among_its_records_has_no_peak(b: float, c: float) -> None:
    assert peak(exact(b, c)) is None


def test_a_level_lactation_with_noise_is_not_forced_into_a_peak() -> None:
    # a level yield of 6 l with half-litre rounding: nothing but chance sets its highest record
    level = [6.0, 6.5, 6.0, 5.5, 6.0, 6.5, 6.0, 5.5, 6.0, 6.0]
    assert peak(fitted([(t, y) for (t, _), y in zip(EXAMPLE, level, strict=True)])) is None


@pytest.mark.parametrize("scale", [0.001, 1.0, 1000.0])
def test_the_unit_of_milk_changes_neither_the_shape_nor_the_peak_day(scale: float) -> None:
    one, other = fitted(EXAMPLE), fitted([(t, y * scale) for t, y in EXAMPLE])
    assert (other.b, other.c, other.r_squared) == pytest.approx((one.b, one.c, one.r_squared), rel=1e-9)
    assert other.a == pytest.approx(one.a * scale, rel=1e-9)


def test_too_few_records_give_no_curve() -> None:
    assert fit(EXAMPLE[:5]) is None
    assert fit([(20, 9.0)] * 10) is None
    assert fit([*EXAMPLE[:5], (300, 0.0), (0, 3.0)]) is None  # a logarithm of nothing is none
    assert fit(EXAMPLE[:6]) is not None
