"""Concentrate and water by the label's rate."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.mixing import Mix, fill, is_likely, strength, wash

D = Decimal


def rate(ml: str, litres: str) -> Decimal:
    found = strength(rate_ml=D(ml), in_litres=D(litres))
    assert found is not None
    return found


# Examples of labels (common practice, no source; computed).
@pytest.mark.parametrize(
    ("ml", "litres", "tank", "needed"),
    [
        ("1", "1", "20", "20"),  # tick wash
        ("2", "1", "20", "40"),
        ("25", "10", "16", "40"),  # shed, a knapsack
        ("20", "20", "15", "15"),
    ],
)
def test_a_tank_takes_its_share_of_the_rate(ml: str, litres: str, tank: str, needed: str) -> None:
    assert fill(rate(ml, litres), D(tank)) == Mix(D(needed), D(tank))


@pytest.mark.parametrize(("part", "tank", "needed"), [(100, 20, 200), (400, 16, 40), (1000, 20, 20)])
def test_one_part_in_so_many(part: int, tank: int, needed: int) -> None:
    found = strength(part=D(part))
    assert found is not None
    assert fill(found, D(tank)).ml == needed


def test_25_in_10_litres_is_one_part_in_400() -> None:
    assert rate("25", "10") == strength(part=D(400))


def test_three_cows_at_five_litres_need_fifteen() -> None:
    washing = wash(rate("1", "1"), D(3), litres_each=D(5))
    assert washing.least == washing.most == Mix(D(15), D(15))


def test_without_the_labels_litres_both_ends_of_the_practice_are_told() -> None:
    washing = wash(rate("20", "20"), D(5), tank_litres=D(20))
    assert (washing.least, washing.most) == (Mix(D(25), D(25)), Mix(D(50), D(50)))
    assert washing.fills == (2, 3)  # 25 l and 50 l out of a tank of 20 l


def test_without_a_rate_nothing_is_mixed() -> None:
    assert strength() is None
    assert strength(rate_ml=D(20)) is None
    assert strength(rate_ml=D(20), in_litres=D(0)) is None
    assert strength(part=D(0)) is None


def test_a_mixture_stronger_than_labels_say_is_doubted() -> None:
    assert is_likely(rate("2", "1"), on_cattle=True)
    assert not is_likely(rate("20", "1"), on_cattle=True)
    assert is_likely(rate("20", "1"), on_cattle=False)
    assert not is_likely(rate("200", "1"), on_cattle=False)
