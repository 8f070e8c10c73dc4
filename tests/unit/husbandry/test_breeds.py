"""Gestation by breed."""

from __future__ import annotations

import pytest

from service.husbandry.breeds import GESTATION_DAYS, SPELLINGS, gestation_days


def gestation(told: str | None) -> int:
    return gestation_days(told, untold=282)


@pytest.mark.parametrize(
    ("breed", "days"),
    [
        ("Friesian", 280),  # 279.9, Knott 1932; verified
        ("Ayrshire", 279),  # 278-279, Andersen & Plum; from memory
        ("Jersey", 279),  # 278-280, the same; from memory
        ("Guernsey", 284),  # 283-284, the same; from memory
        ("Brown Swiss", 290),  # 288-292; 292 verified, the mean from memory
        ("Sahiwal", 285),  # 285-288, tropical breeding papers; from memory
        ("Boran", 285),  # 283-288, the same; from memory
        ("zebu", 285),
        (None, 282),  # Macmillan & Curnow 1976; verified
        ("Simmental", 282),  # a breed that the table does not have
        ("", 282),
    ],
)
def test_each_breed_has_its_gestation(breed: str | None, days: int) -> None:
    assert gestation(breed) == days


@pytest.mark.parametrize(
    ("told", "days"),
    [
        ("Holstein-Friesian", 280),
        ("HOLSTEIN", 280),
        ("Fresian", 280),
        ("frizian", 280),
        ("ya ayshire", 279),
        ("Gurnsey", 284),
        ("jezi", 279),
        ("kienyeji", 285),
        ("Ng'ombe wa asili", 285),
        ("Ng’ombe wa kienyeji", 285),
        ("Tanzania shorthorn zebu", 285),
        ("local", 285),
    ],
)
def test_breeds_are_known_as_farmers_write_them(told: str, days: int) -> None:
    assert gestation(told) == days


@pytest.mark.parametrize(
    ("told", "days"),
    [
        ("Ayrshire x zebu", 282),
        ("Friesian x Boran", 283),  # 282.5
        ("chotara ya Friesian na Boran", 283),
        ("Friesian na zebu chotara", 283),
        ("Friesian/Guernsey", 282),
        ("Sahiwal × Jersey", 282),
        ("Ayrshire cross Brown Swiss", 285),  # 284.5
        ("75% Friesian 25% Ayrshire", 280),  # 279.5: breeds count alike
        ("Friesian cross", 281),  # the other parent is not told: 282
        ("chotara wa Boran", 284),  # 283.5
        ("Friesian x Simmental", 281),
        ("chotara", 282),
    ],
)
def test_crosses_carry_the_mean_of_their_parents(told: str, days: int) -> None:
    """The mid-parent rule; common practice, no source. Half a day is rounded up."""
    assert gestation(told) == days


@pytest.mark.parametrize("breed", GESTATION_DAYS)
def test_every_breed_can_be_told(breed: str) -> None:
    assert all(gestation(word) == GESTATION_DAYS[breed] for word in SPELLINGS[breed])
