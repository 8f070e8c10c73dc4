"""The weight at which a heifer can first be served."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.heifers import Reached, Target, reached, target

D = Decimal


# East African smallholder weights at first service (extension leaflets, from memory).
@pytest.mark.parametrize(
    ("breed", "low", "high"),
    [
        ("Friesian", 270, 300),
        ("Ayrshire", 240, 260),
        ("Guernsey", 230, 250),
        ("Jersey", 200, 220),
        ("chotara", 230, 250),
        ("Friesian x zebu", 230, 250),
        ("zebu", 180, 200),
        (None, 230, 250),
        ("Friesian na Ayrshire", 255, 280),  # the mean of both
    ],
)
def test_a_breed_has_its_weight_at_first_service(breed: str | None, low: int, high: int) -> None:
    assert target(breed) == Target(D(low), D(high))


# 60 % of a grown cow's weight (dairy industry targets of New Zealand, verified): 420/465/500 -> 252/279/300.
@pytest.mark.parametrize(("breed", "grown"), [("Ayrshire", 420), ("Friesian", 465), ("Friesian", 500)])
def test_the_weight_is_about_sixty_in_a_hundred_of_a_grown_cows(breed: str, grown: int) -> None:
    assert target(breed).low <= D("0.6") * grown <= target(breed).high


@pytest.mark.parametrize(
    ("kg", "error", "where"),
    [
        (270, 0, Reached.REACHED),
        (269, 0, Reached.NOT_YET),
        (269, 30, Reached.NEARLY),
        (240, 30, Reached.NEARLY),
        (239, 30, Reached.NOT_YET),
        (310, 35, Reached.REACHED),
    ],
)
def test_a_tape_leaves_a_doubt_and_a_scale_none(kg: int, error: int, where: Reached) -> None:
    assert reached(D(kg), D(error), target("Friesian")) is where
