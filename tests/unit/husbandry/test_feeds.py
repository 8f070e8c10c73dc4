"""The table of feeds, what a farmer's word means in it, and what loads weigh."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.feeds import BY_KEY, LOADS, NAPIER, NO_FIGURES, TABLE, Sort, named, parts

D = Decimal

# Ranges (DM %, CP %, ME MJ/kg DM) that the texts give beside the middle taken (docs/trade/feeds.md).
RANGES = {
    "napier": ((15, 20), (8, 10), ("8.0", "8.6")),
    "old_napier": ((25, 30), (4, 6), ("6.5", "7.0")),
    "hay": ((85, 90), (6, 9), ("7.5", "8.5")),
    "stover": ((85, 90), (3, 5), ("6.5", "7.5")),
    "silage": ((25, 36), (7, 8), (10, 10)),
    "lucerne": ((22, 22), (19, 20), ("8.8", 10)),
    "desmodium": ((20, 25), (15, 16), ("8.0", "8.5")),
    "vines": ((12, 20), (14, 18), ("9.0", "9.5")),
    "maize_germ": ((89, 89), (10, 14), ("12.5", "12.5")),
    "maize_bran": ((88, 88), (9, 11), ("11.5", "11.5")),
    "pollard": ((88, 89), (15, "19.1"), ("10.5", "10.5")),
    "cotton_cake": ((89, 90), (30, "46.7"), ("11.3", "11.3")),
    "sunflower_cake": ((90, 91), (24, 37), ("9.5", "10.2")),
    "molasses": (("65.4", 75), (5, 9), ("11.5", "11.5")),
    "dairy_meal": ((88, 88), (14, 16), ("10.5", "10.5")),
}


@pytest.mark.parametrize("key", RANGES)
def test_a_figure_lies_inside_what_the_texts_give(key: str) -> None:
    feed = BY_KEY[key]
    for figure, (low, high) in zip((feed.dm, feed.cp, feed.me), RANGES[key], strict=True):
        assert D(low) <= figure.value <= D(high)


def test_every_figure_says_where_it_comes_from() -> None:
    for feed in TABLE:
        assert all(figure.source for figure in (feed.dm, feed.cp, feed.me)), feed.key
    assert all(load.source for load in LOADS.values())


def test_dry_matter_and_what_is_fed() -> None:
    assert round(NAPIER.as_fed(D(10)), 2) == D("55.56")  # 10 kg DM at 18 %, computed
    assert NAPIER.me_mj(NAPIER.as_fed(D(10))) == 82  # 10 kg DM at 8.2 MJ, computed
    assert NAPIER.cp_g(D(100)) == 1620  # 18 kg DM at 9 %, by hand


def test_the_energy_of_a_library_feed_follows_from_its_digestible_energy() -> None:
    # wheat bran: 0.82 x 3.048 Mcal x 4.184 = 10.46 MJ (computed), told as 10.5
    assert abs(D("0.82") * D("3.048") * D("4.184") - BY_KEY["wheat_bran"].me.value) < D("0.05")


@pytest.mark.parametrize(
    ("words", "key", "loose"),
    [
        ("pumba", "maize_bran", True),
        ("PUMBA", "maize_bran", True),
        ("pumba za mahindi", "maize_bran", False),
        ("pumba za mhindi", "maize_bran", False),
        ("pumba za ngano", "wheat_bran", False),
        ("majani", "napier", True),
        ("mabingo bingo", "napier", False),
        ("Mabingobingo", "napier", False),
        ("hei", "hay", False),
        ("hay", "hay", False),
        ("nyasi kavu", "hay", True),
        ("mashudu ya alizeti", "sunflower_cake", False),
        ("mashudu alizeti", "sunflower_cake", False),
        ("mashudu", "sunflower_cake", True),
        ("mashudu ya pamba", "cotton_cake", False),
        ("dairy meal", "dairy_meal", False),
        ("dairymeel", "dairy_meal", False),
        ("dairy meal nzuri", "dairy_meal", False),
        ("majani ya viazi", "vines", False),
        ("machicha", "brewers_grains", True),
        ("chumvi ya madini", "minerals", False),
        ("Lusani", "lucerne", False),
        ("maize stover", "stover", False),
    ],
)
def test_a_farmers_word_is_a_feed(words: str, key: str, loose: bool) -> None:
    found = named(words)
    assert found is not None
    assert (found.feed.key, found.loose) == (key, loose)


@pytest.mark.parametrize(
    "words",
    ["pumba za mpunga", "rice bran", "unga wa mahindi", "chakula", "majani ya mahindi", "kokoto", "", "xyz"],
)
def test_a_feed_without_figures_is_no_other(words: str) -> None:
    assert named(words) is None


def test_no_word_is_claimed_by_two_feeds() -> None:
    words = [word for feed in TABLE for word in (*feed.names, *feed.loose)] + list(NO_FIGURES)
    assert len(words) == len(set(words))


def test_a_mixture_is_told_feed_by_feed() -> None:
    assert parts("mashudu ya alizeti na pumba") == ("mashudu ya alizeti", "pumba")
    assert parts("hay, bran and minerals") == ("hay", "bran", "minerals")
    assert parts("dairy meal") == ("dairy meal",)


def test_a_bale_is_taken_as_the_least_that_the_press_gives() -> None:
    assert LOADS["bale"].kg == 15  # at least 15 kg, 18-22 best (Kenyan farm press 2023; verified)


def test_what_holds_neither_energy_nor_protein_is_a_lick() -> None:
    assert [feed.key for feed in TABLE if not feed.me.value] == ["minerals"]
    assert BY_KEY["minerals"].sort is Sort.MINERAL
