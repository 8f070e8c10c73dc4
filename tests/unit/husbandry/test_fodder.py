"""How long fodder lasts: worked by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.feeds import BY_KEY, HAY, SILAGE
from service.husbandry.fodder import (
    Stock,
    dm_a_day,
    lasting,
    loads_for,
    season,
    silage_for,
    stocks_of,
    written,
)
from tests.unit.husbandry.book import day

D = Decimal
LAST = day("2026-12-14")


def test_two_cows_on_hay() -> None:
    # 100 bales x 15 kg x 87 % = 1305 kg DM, less a tenth 1174.5; two of 350 kg eat 17.5 kg: 67 days (by hand)
    found = lasting(
        [Stock(HAY, D(100), "bale")], 2, dm_a_day([None, None]), day("2026-06-15"), day("2026-10-04")
    )
    assert found.days == 67
    assert found.until == day("2026-08-20")
    assert found.short_days == 45  # to 4 October 112 days are wanted
    # (17.5 x 112 - 1174.5) / 0.9 = 872.8 kg DM = 66.9 bales
    assert round(found.short_dm_kg, 1) == D("872.8")
    assert loads_for(found.short_dm_kg) == 67
    assert round(silage_for(found.short_dm_kg)) == 2909  # at 30 % DM
    assert found.feeds == 1


def test_what_is_bought_closes_the_gap() -> None:
    eaten, first = dm_a_day([None] * 3), day("2026-06-15")
    had = Stock(HAY, D(100), "bale")
    short = lasting([had], 3, eaten, first, LAST)
    bought = Stock(HAY, D(loads_for(short.short_dm_kg)), "bale")
    assert lasting([had, bought], 3, eaten, first, LAST).is_enough


def test_fewer_cattle_are_fed_to_the_end() -> None:
    first, stock = day("2026-06-15"), [Stock(HAY, D(100), "bale")]
    found = lasting(stock, 3, dm_a_day([None] * 3), first, day("2026-08-31"))
    assert 0 < found.feeds < 3
    assert lasting(stock, found.feeds, dm_a_day([None] * found.feeds), first, day("2026-08-31")).is_enough


def test_several_stocks_are_one() -> None:
    stocks = [
        Stock(SILAGE, D(2), "tonne"),
        Stock(BY_KEY["stover"], D(20), "bundle"),
        Stock(HAY, D(5), "bale"),
    ]
    assert sum(stock.dm_kg for stock in stocks) == D(600) + D("139.2") + D("65.25")


def test_a_farm_that_weighed_its_bales_goes_by_them() -> None:
    assert Stock(HAY, D(10), "bale", D(12)).dm_kg == D("104.4")
    assert loads_for(D("104.4"), each_kg=D(12)) == 10


def test_nothing_kept_lasts_no_day() -> None:
    found = lasting([], 2, D("17.5"), day("2026-12-01"), LAST)
    assert (found.days, found.until, found.short_days, found.feeds) == (0, None, 14, 0)


def test_more_than_enough() -> None:
    found = lasting([Stock(HAY, D(1000), "bale")], 2, D("17.5"), day("2026-12-01"), LAST)
    assert found.is_enough
    assert (found.short_dm_kg, found.feeds) == (0, 2)


@pytest.mark.parametrize(
    ("today", "first"),
    [
        ("2026-03-02", "2026-06-01"),
        ("2026-06-01", "2026-06-01"),
        ("2026-08-20", "2026-08-20"),
        ("2026-12-14", "2026-12-14"),
    ],
)
def test_the_dry_season_begins_in_june_or_today(today: str, first: str) -> None:
    assert season(day(today)) == (day(first), LAST)


def test_with_the_new_grass_it_is_the_next_one() -> None:
    assert season(day("2026-12-15")) == (day("2027-06-01"), day("2027-12-14"))


def test_without_cattle_there_is_no_answer() -> None:
    for cattle, eaten in ((0, D(1)), (1, D(0))):
        with pytest.raises(ValueError, match="nobody"):
            lasting([], cattle, eaten, LAST, LAST)


def test_a_known_weight_is_eaten_by() -> None:
    assert dm_a_day([D(400), None]) == D("18.75")


def test_what_is_kept_in_words_reads_back_the_same() -> None:
    stocks = (
        Stock(HAY, D(40), "bale", D("12.5")),
        Stock(SILAGE, D(2), "tonne"),
        Stock(BY_KEY["old_napier"], D(300)),
    )
    assert written(stocks) == "40 bale of 12.5 hay, 2 tonne silage, 300 kg old_napier"
    assert stocks_of(written(stocks)) == stocks
    assert stocks_of(None) == stocks_of("plenty") == stocks_of("3 bale gold") == ()
