"""What a cow is fed against what she needs, worked by hand; and what the farm told as one cow's day."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from service.husbandry.fed import litres_a_day, meal_and_milk, told_feed
from service.husbandry.feeds import BY_KEY, DAIRY_MEAL, NAPIER
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.trade import Feeding
from service.husbandry.needs import Body, Need, need
from service.husbandry.ration import (
    Fed,
    check,
    filling,
    kg_for_energy,
    most_concentrate,
    supply,
    water_short,
)
from tests.unit.dialogs.farmhouse import new
from tests.unit.husbandry.book import Book, day

D = Decimal
TODAY = day("2026-03-08")
COW = need(Body(kg=D(450), litres=D(15)))
GRASS = Fed(NAPIER, NAPIER.as_fed(D(10)))  # 10 kg DM


def meal(kg: str | int) -> Fed:
    return Fed(DAIRY_MEAL, D(kg))


def test_the_published_example_is_short_of_so_much_dairy_meal() -> None:
    # 450 kg, 15 l: 124.25 MJ; Napier 82.0; short 42.25 MJ = 4.02 kg DM = 4.57 kg as fed (computed)
    found = check(COW, [GRASS])
    assert found.need.me_mj - found.supply.me_mj == D("42.25")
    assert found.energy is not None
    assert found.energy.feed is DAIRY_MEAL
    assert round(DAIRY_MEAL.dm_kg(found.energy.kg), 2) == D("4.02")
    assert round(found.energy.kg, 2) == D("4.57")
    assert round(found.energy.part, 2) == D("0.34")


def test_the_meal_that_is_short_brings_her_to_her_need() -> None:
    found = check(COW, [GRASS])
    assert found.energy is not None
    again = check(COW, [GRASS, Fed(DAIRY_MEAL, found.energy.kg)])
    assert again.energy is None
    assert abs(again.supply.me_mj - COW.me_mj) < D("0.001")


def test_protein_is_short_of_a_cake_beyond_what_the_meal_brings() -> None:
    # needs 390 + 87.5 x 15 x 1.03 = 1741.9 g; Napier 900, 4.57 kg of meal 603.6 (by hand);
    # short 238.3 g = 0.978 kg of cake at 90.2 % DM and 27 %
    found = check(COW, [GRASS])
    assert found.protein is not None
    assert round(found.protein.kg, 3) == D("0.978")
    full = check(COW, [GRASS, meal("4.57"), Fed(found.protein.feed, found.protein.kg)])
    assert full.protein is None
    assert full.enough


def test_within_five_parts_in_a_hundred_is_enough() -> None:
    assert check(COW, [GRASS, meal("3.95")]).energy is None
    assert check(COW, [GRASS, meal("3.8")]).energy is not None


def test_without_a_lick_the_least_of_it_is_short() -> None:
    assert check(COW, [GRASS]).minerals_g == 100
    assert check(COW, [GRASS, Fed(BY_KEY["minerals"], D("0.06"))]).minerals_g == 40
    assert check(COW, [GRASS, Fed(BY_KEY["minerals"], D("0.2"))]).minerals_g == 0


def test_where_no_grass_was_told_she_is_taken_to_eat_her_fill() -> None:
    found = check(COW, [meal(2)])
    assert found.filled == filling(COW, [meal(2)])
    assert found.filled is not None
    assert found.supply.dm_kg == COW.dm_kg  # 13.5 kg, of which 1.76 meal
    assert check(COW, [GRASS]).filled is None


def test_water_is_short_of_the_least_she_needs() -> None:
    assert water_short(COW, D(40)) == COW.water_l[0] - 40
    assert water_short(COW, D(200)) == 0


@pytest.mark.parametrize(("kg", "over"), [("8", False), ("8.1", True)])
def test_more_than_eight_kilograms_of_meal_is_too_much(kg: str, over: bool) -> None:
    assert most_concentrate(COW) == 8
    assert check(COW, [GRASS, meal(kg)]).over is over


def test_a_small_cow_has_too_much_sooner() -> None:
    small = need(Body(kg=D(300), litres=D(8)))
    assert round(most_concentrate(small), 2) == D("6.14")  # 60 % of 9 kg DM, at 88 %
    assert check(small, [meal("6.5")]).over


def test_a_cow_so_good_that_meal_alone_cannot_feed_her_is_said() -> None:
    best = need(Body(kg=D(450), litres=D(30)))
    assert check(best, [GRASS]).over_if_added
    assert not check(COW, [GRASS]).over_if_added


def test_more_than_one_cow_eats_is_seen() -> None:
    assert check(COW, [Fed(NAPIER, D(100))]).too_much_told
    assert not check(COW, [Fed(NAPIER, D(90))]).too_much_told


@pytest.mark.parametrize("kg", [1, 3, 7])
def test_energy_in_kilograms_and_back(kg: int) -> None:
    assert kg_for_energy(DAIRY_MEAL.me_mj(D(kg)), DAIRY_MEAL) == kg
    assert kg_for_energy(D(-5), DAIRY_MEAL) == 0


def test_nothing_fed_is_nothing() -> None:
    assert supply([]).dm_kg == 0
    dry: Need = need(Body(kg=D(400)))
    assert check(dry, []).filled is not None


# --- what the farm told ----------------------------------------------------------------------------


def fed(feed: str | None, kg: int | None, on: str, *animals: str) -> Feeding:
    return Feeding(animals=animals or ("*",), feed=feed, kg=None if kg is None else D(kg), on=day(on))


def book(*entries: Feeding) -> Book:
    return Book(new("Neema"), new("Tausi"), new("Pili", "calf", born="2026-01-01"), *entries)


def of(house: Book, name: str = "Neema", today: date = TODAY) -> dict[str, Decimal]:
    found = told_feed(house.told, house.animal(name), house.farm, today)
    return {one.feed.key: one.kg for one in found.fed}


def test_what_was_fed_to_all_is_shared_among_the_grown() -> None:
    house = book(fed("mabingobingo", 80, "2026-03-07"), fed("dairy meal", 3, "2026-03-07", "Neema"))
    assert of(house) == {"napier": 40, "dairy_meal": 3}
    assert of(house, "Tausi") == {"napier": 40}
    assert of(house, "Pili") == {}


def test_a_day_is_the_mean_of_those_told_of() -> None:
    house = book(fed("dairy meal", 2, "2026-03-06", "Neema"), fed("dairy meal", 4, "2026-03-07", "Neema"))
    assert of(house) == {"dairy_meal": 3}


def test_two_feeds_of_one_day_are_one_day() -> None:
    house = book(
        fed("dairy meal", 2, "2026-03-07", "Neema", "Tausi"),
        fed("dairy meal", 2, "2026-03-07", "Neema", "Tausi"),
    )
    assert of(house) == {"dairy_meal": 2}


@pytest.mark.parametrize(
    ("on", "counts"), [("2026-03-01", False), ("2026-03-02", True), ("2026-03-08", True)]
)
def test_seven_days_count_with_today(on: str, counts: bool) -> None:
    assert bool(of(book(fed("hei", 5, on, "Neema")))) is counts


def test_a_mixture_is_taken_in_equal_parts() -> None:
    house = book(fed("mashudu ya alizeti na pumba", 4, "2026-03-07", "Neema"))
    assert of(house) == {"sunflower_cake": 2, "maize_bran": 2}


def test_what_cannot_be_counted_is_named() -> None:
    house = book(
        fed("pumba za mpunga", 2, "2026-03-07", "Neema"),
        fed("hei", None, "2026-03-07", "Neema"),
        fed("pumba", 2, "2026-03-07", "Neema"),
    )
    found = told_feed(house.told, house.animal("Neema"), house.farm, TODAY)
    assert (found.unknown, found.unweighed) == (("pumba za mpunga",), ("hei",))
    assert [(word, feed.key) for word, feed in found.loose] == [("pumba", "maize_bran")]


def milk(litres: str, on: str, session: str = "morning") -> Milk:
    return Milk(animal="Neema", litres=D(litres), session=session, on=day(on))


def test_her_milk_is_the_mean_of_whole_days() -> None:
    told = [
        milk("6", "2026-03-06"), milk("4", "2026-03-06", "evening"),
        milk("5", "2026-03-07"), milk("3", "2026-03-07", "evening"),
        milk("6", "2026-03-08"),  # its evening is still to come
    ]  # fmt: skip
    assert litres_a_day(told, TODAY) == 9


def test_a_days_sum_is_a_whole_day() -> None:
    told = [milk("10", "2026-03-06", "day"), milk("5", "2026-03-07"), milk("3", "2026-03-07", "evening")]
    assert litres_a_day(told, TODAY) == 9


def test_a_milking_told_again_or_inside_the_days_sum_is_not_milk_twice() -> None:
    """A morning put right from 6 to 5, and a morning told before the day's 10 litres; worked by hand."""
    told = [
        milk("6", "2026-03-06"), milk("5", "2026-03-06"), milk("4", "2026-03-06", "evening"),
        milk("6", "2026-03-07"), milk("10", "2026-03-07", "day"),
    ]  # fmt: skip
    assert litres_a_day(told, TODAY) == D("9.5")
    house = book(fed("dairy meal", 3, "2026-03-07", "Neema"))
    found = meal_and_milk(house.told, told, house.animal("Neema"), house.farm)
    assert found == ((day("2026-03-07"), D(3), D(10)),)


def test_old_milk_is_no_milk() -> None:
    assert litres_a_day([milk("10", "2026-03-01", "day")], TODAY) is None


def test_days_of_both_meal_and_milk_are_those_that_show_a_response() -> None:
    house = book(
        fed("dairy meal", 4, "2026-03-06", "Neema", "Tausi"),
        fed("mashudu ya alizeti na pumba", 2, "2026-03-06", "Neema"),
        fed("hei", 9, "2026-03-07", "Neema"),  # no word on meal
        fed("dairy meal", 3, "2026-03-08", "Neema"),
    )
    told = [milk("10", on, "day") for on in ("2026-03-06", "2026-03-07")]
    found = meal_and_milk(house.told, told, house.animal("Neema"), house.farm)
    assert found == ((day("2026-03-06"), D(4), D(10)),)
