"""Which bulls suit a cow: weights, shrinking, and who is never proposed."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from service.husbandry.forms import Calf
from service.husbandry.kinds.body import Weight
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.herd_book import NewAnimal
from service.husbandry.kinds.service import Service
from service.husbandry.semen import Bull, Ranking, Unfit, Wish, is_small, merits, rank, score, shrunk, weights
from service.husbandry.units import Money
from tests.unit.husbandry.book import Book, day

D = Decimal
TODAY = day("2026-03-02")


def shillings(amount: int | str) -> Money:
    return Money.of(amount, "TZS")


def bull(name: str, price: int = 15000, reliability: str = "1", **told: Any) -> Bull:
    kin = {key: told.pop(key) for key in ("sire", "dam", "maternal_grandsire", "straws") if key in told}
    values = {trait: D(value) for trait, value in told.items()}
    return Bull(
        code=name.upper(),
        name=name,
        breed="Ayrshire",
        values=values,
        reliability=D(reliability),
        price=shillings(price),
        **{"straws": 5, **kin},
    )


def cow(name: str = "Neema", status: str = "milking", breed: str | None = None) -> NewAnimal:
    return NewAnimal(name=name, sex="female", status=status, breed=breed, on=day("2025-06-01"))


def ranked(book: Book, *bulls: Bull, name: str = "Neema", **wish: Any) -> Ranking:
    return rank(book.animal(name), list(book.farm.animals.values()), bulls, Wish(**wish), TODAY)


def names(ranking: Ranking) -> list[str]:
    return [choice.bull.name for choice in ranking.choices]


# --- the order of aims -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("count", "printed"),
    [
        (1, ["1"]),
        (2, ["0.7500", "0.2500"]),
        (3, ["0.6111", "0.2778", "0.1111"]),
        (4, ["0.5208", "0.2708", "0.1458", "0.0625"]),
        (6, ["0.4083", "0.2417", "0.1583", "0.1028", "0.0611", "0.0278"]),
    ],
)
def test_aims_in_order_weigh_as_their_rank_order_centroid(count, printed):
    """Barron & Barrett 1996, Management Science 42:1515 (weights to four places: from memory, recomputed)."""
    found = weights(count)
    assert [w.quantize(D("0.0001")) for w in found] == [D(w).quantize(D("0.0001")) for w in printed]
    assert abs(sum(found) - 1) < D("1e-20")


def test_the_centroid_is_the_middle_of_all_weights_in_that_order():
    """What the weights mean: the mean of the corners (1), (1/2, 1/2), (1/3, 1/3, 1/3)."""
    corners = [(1, 0, 0), (Fraction(1, 2), Fraction(1, 2), 0), (Fraction(1, 3),) * 3]
    middle = [sum(corner[place] for corner in corners) / Fraction(3) for place in range(3)]
    for mine, theirs in zip(weights(3), middle, strict=True):
        assert abs(mine - D(theirs.numerator) / theirs.denominator) < D("1e-20")


@pytest.mark.parametrize(
    ("milk", "udder", "reliability", "expected"),
    [
        ("2.1", "0.8", "0.80", "1.42"),
        ("1.6", "1.2", "0.75", "1.125"),
        ("1.1", "1.5", "0.70", "0.84"),
        ("2.4", "1.0", "0.35", "0.7175"),
    ],
)
def test_the_worked_example_of_the_docs(milk, udder, reliability, expected):
    """docs/trade/semen.md (computed): 0.75 x milk x reliability + 0.25 x udder x reliability."""
    one = bull("Kilele", milk=milk, udder=udder, reliability=reliability)
    assert score(merits(one, ("milk", "udder"))) == D(expected)
    assert shrunk(D(milk), D(reliability)) == D(milk) * D(reliability)


def test_the_order_of_the_aims_decides_which_bull_is_first():
    book = Book(cow())
    milky, well_built = bull("Kilele", milk="2", udder="0"), bull("Mlima", milk="0", udder="2")
    assert names(ranked(book, milky, well_built, aims=("milk", "udder"))) == ["Kilele", "Mlima"]
    assert names(ranked(book, milky, well_built, aims=("udder", "milk"))) == ["Mlima", "Kilele"]


def test_a_figure_that_is_less_sure_counts_less():
    book = Book(cow())
    proven, young = bull("Kilele", milk="1.5", reliability="0.9"), bull("Mlima", milk="2", reliability="0.4")
    assert names(ranked(book, young, proven, aims=("milk",))) == ["Kilele", "Mlima"]


def test_a_trait_that_is_not_published_counts_as_the_breeds_mean_and_is_said_to_be_unknown():
    book = Book(cow())
    known, unknown, poor = bull("Kilele", udder="0.1"), bull("Mlima"), bull("Bonde", udder="-1")
    found = ranked(book, poor, unknown, known, aims=("udder",))
    assert names(found) == ["Kilele", "Mlima", "Bonde"]
    assert found.choices[1].merits == (("udder", None),)


def test_of_equal_bulls_the_cheaper_comes_first_and_three_at_most_are_proposed():
    book = Book(cow())
    bulls = [bull(name, price, milk="1") for name, price in (("A", 9), ("B", 7), ("C", 8), ("E", 6))]
    assert names(ranked(book, *bulls, aims=("milk",))) == ["E", "B", "C"]


# --- who is never proposed -------------------------------------------------------------------------


def test_a_bull_out_of_stock_is_not_proposed():
    found = ranked(Book(cow()), bull("Kilele", straws=0))
    assert found.choices == ()
    assert found.left_out == {Unfit.NO_STRAWS: 1}


@pytest.mark.parametrize(("price", "proposed"), [(14999, False), (15000, True), (15001, True)])
def test_a_bull_above_her_price_is_not_proposed(price, proposed):
    found = ranked(Book(cow()), bull("Kilele", 15000), price=shillings(price))
    assert bool(found.choices) == proposed
    assert found.left_out.get(Unfit.TOO_DEAR, 0) == (not proposed)


def test_prices_in_two_currencies_are_not_compared():
    found = ranked(Book(cow()), bull("Kilele"), price=Money.of(999999, "KES"))
    assert found.left_out == {Unfit.TOO_DEAR: 1}


def with_a_daughter() -> Book:
    """Tumaini, in milk now, is a daughter of Kilele and Neema."""
    book = Book(cow())
    book.tell(Service(animal="Neema", on=day("2022-01-10"), method="ai", sire="KILELE"))
    book.tell(Calving(animal="Neema", on=day("2022-10-18"), calves=(Calf(sex="female", name="Tumaini"),)))
    book.tell(Calving(animal="Tumaini", on=day("2025-12-01"), calves=(Calf(sex="male"),)))
    return book


def test_her_own_sire_is_never_proposed_however_good_he_is():
    book = with_a_daughter()
    best = bull("Kilele", milk="5", udder="5", fertility="5")
    found = ranked(book, best, bull("Mlima"), name="Tumaini")
    assert names(found) == ["Mlima"]
    assert found.left_out == {Unfit.TOO_NEAR: 1}
    assert names(ranked(book, best, name="Neema")) == ["Kilele"]


def test_a_calf_exactly_on_the_line_is_never_proposed_and_one_below_it_is():
    """Her sire's grandson by a daughter: 1/16. The grandson of that one: 1/32 by a son, below the line."""
    book = with_a_daughter()
    kilele = bull("Kilele", straws=0)
    on_line = bull("Bonde", maternal_grandsire="Kilele")
    below = bull("Korongo", sire="Bonde")
    found = ranked(book, kilele, on_line, below, name="Tumaini")
    assert names(found) == ["Korongo"]
    assert found.choices[0].inbreeding.coefficient == Fraction(1, 32)
    assert found.left_out == {Unfit.NO_STRAWS: 1, Unfit.TOO_NEAR: 1}


def test_what_is_not_written_down_makes_her_inbreeding_a_lower_bound():
    assert ranked(with_a_daughter(), bull("Mlima"), name="Tumaini").choices[0].inbreeding.lower_bound


@pytest.mark.parametrize("ease", ["-0.1", "-2", None])
def test_a_hard_calving_bull_is_never_proposed_for_a_heifer(ease):
    book = Book(cow(status="heifer"))
    hard = bull("Kilele", milk="3") if ease is None else bull("Kilele", milk="3", calving_ease=ease)
    found = ranked(book, hard, bull("Mlima", calving_ease="0"))
    assert names(found) == ["Mlima"]
    assert found.left_out == {Unfit.HARD_CALVING: 1}


def test_a_grown_cow_of_usual_size_may_have_him():
    assert names(ranked(Book(cow()), bull("Kilele", calving_ease="-2"))) == ["Kilele"]


@pytest.mark.parametrize(("kg", "small"), [("349", True), ("350", False)])
def test_a_small_cow_has_the_care_of_a_heifer(kg, small):
    book = Book(cow())
    book.tell(Weight(animal="Neema", kg=D(kg), on=day("2026-02-01")))
    assert bool(ranked(book, bull("Kilele", calving_ease="-2")).choices) != small


@pytest.mark.parametrize(
    ("breed", "small"),
    [("Jersey", True), ("zebu", True), ("Friesian", False), ("Ayrshire", False), (None, False)],
)
def test_a_cow_not_weighed_is_small_by_her_breed(breed, small):
    assert is_small(Book(cow(breed=breed)).animal("Neema"), TODAY) == small


def test_a_weight_of_long_ago_is_not_hers_any_more():
    book = Book(cow())
    book.tell(Weight(animal="Neema", kg=D(180), on=day("2024-02-01")))
    assert not is_small(book.animal("Neema"), TODAY)


def test_the_first_reason_that_holds_is_counted():
    gone = replace(bull("Kilele", 90000), straws=0)
    found = ranked(with_a_daughter(), gone, name="Tumaini", price=shillings(1))
    assert found.left_out == {Unfit.NO_STRAWS: 1}
