"""Space for a number of cattle, by published guides."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.space import CUBICLE_CM, LEAST_SQ_FT, SQM_A_SQ_FT, space

D = Decimal


def test_five_cows_by_the_published_example() -> None:
    found = space(5)
    assert found.trough_m[0] == 3  # 5 x 60 cm
    assert found.tank_l == 5000  # 5 x 100 l x 10 d (Ugandan example; verified)
    assert found.water_troughs == 1


def test_two_cows_need_at_least_twelve_by_ten_feet() -> None:
    found = space(2)
    assert found.least_shed_ft == (12, 10)
    assert 2 * LEAST_SQ_FT == 12 * 10
    assert round(LEAST_SQ_FT * SQM_A_SQ_FT, 1) == D("5.6")
    assert found.shed_sqm == (12, 18)
    assert found.least_shed_sqm < found.shed_sqm[0]  # so it is told as "at least"


def test_a_cubicle_is_seven_by_four_feet() -> None:
    exact = [round(feet * D("30.48"), 1) for feet in (7, 4)]
    assert exact == [D("213.4"), D("121.9")]
    assert all(abs(told - found) < 4 for told, found in zip(CUBICLE_CM, exact, strict=True))


@pytest.mark.parametrize(("cattle", "troughs"), [(1, 1), (5, 1), (6, 2), (10, 2), (11, 3)])
def test_a_water_trough_serves_five(cattle: int, troughs: int) -> None:
    assert space(cattle).water_troughs == troughs


def test_everything_grows_with_the_herd() -> None:
    small, large = space(3), space(9)
    assert large.tank_l == 3 * small.tank_l
    assert large.shed_sqm == tuple(3 * one for one in small.shed_sqm)


def test_no_cattle_need_no_space() -> None:
    with pytest.raises(ValueError, match="no cattle"):
        space(0)
