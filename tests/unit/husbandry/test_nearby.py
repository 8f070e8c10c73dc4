"""Like signs on several farms."""

from __future__ import annotations

import pytest

from service.husbandry.nearby import GROUPS, Case, Cluster, cluster
from service.husbandry.signs import ILLNESS_SIGNS


def cases(*farms: int, signs: tuple[str, ...] = ("mouth_sores",)) -> list[Case]:
    """One ill animal for each of *farms*, each with *signs*."""
    return [Case(farm, animal, signs) for animal, farm in enumerate(farms, 1)]


@pytest.mark.parametrize(
    ("farms", "found"),
    [((1, 2), False), ((1, 2, 3), True), ((1, 1, 1, 1), False), ((1, 1, 2), False), ((1, 1, 1, 2), True)],
)
def test_three_farms_or_four_animals_of_two_are_a_cluster(farms, found):
    assert (cluster(cases(*farms)) is not None) == found


def test_signs_of_one_group_count_as_like_ones():
    told = [Case(1, 1, ("mouth_sores",)), Case(2, 2, ("drooling", "off_feed")), Case(3, 3, ("lame", "fever"))]
    assert cluster(told) == Cluster("mouth", "drooling", 3, 3)


def test_signs_of_different_groups_do_not():
    told = [Case(1, 1, ("mouth_sores",)), Case(2, 2, ("diarrhoea",)), Case(3, 3, ("skin_lumps",))]
    assert cluster(told) is None


def test_signs_of_any_illness_make_no_cluster():
    assert cluster(cases(1, 2, 3, 4, signs=("off_feed", "milk_drop", "weak"))) is None


def test_an_animal_told_of_several_times_counts_once():
    told = cases(1, 2, signs=("diarrhoea",))
    assert cluster([*told, *told, *told]) is None


def test_of_two_clusters_the_one_of_more_farms_is_told():
    told = cases(1, 2, 3) + [Case(farm, 10 + farm, ("diarrhoea",)) for farm in (1, 2, 3, 4)]
    found = cluster(told)
    assert found is not None
    assert (found.group, found.farms) == ("gut", 4)


def test_groups_are_made_of_signs_that_can_be_told():
    assert set().union(*GROUPS.values()) <= set(ILLNESS_SIGNS)
