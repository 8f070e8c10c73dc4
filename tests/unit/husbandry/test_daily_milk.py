"""A cow's days from what was told of her milkings."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from service.husbandry.daily_milk import DayMilk, daily, is_whole, shares, usual_sessions, whole_day
from service.husbandry.kinds.milk import Milk
from tests.unit.husbandry.book import day

D = Decimal
FIRST = day("2026-03-02")
TWICE = frozenset({"morning", "evening"})


def milk(litres: str, session: str, after: int = 0) -> Milk:
    return Milk(animal="Neema", litres=D(litres), session=session, on=FIRST + timedelta(days=after))


def days_of(*told: tuple[str, ...]) -> tuple[DayMilk, ...]:
    """A day for each of *told*: one value is a morning, two are morning and evening, three all milkings."""
    sessions = {1: ("morning",), 2: ("morning", "evening"), 3: ("morning", "midday", "evening")}
    return daily(
        milk(litres, session, after)
        for after, day_told in enumerate(told)
        for session, litres in zip(sessions[len(day_told)], day_told, strict=True)
    )


def whole(days: tuple[DayMilk, ...]) -> Decimal | None:
    """The last of *days*, made up by what is usual by then."""
    usual = usual_sessions(days)
    return whole_day(days[-1], usual, shares(days, usual))


def test_the_milkings_of_a_day_are_summed_in_any_order_of_telling() -> None:
    told = [milk("4.5", "evening"), milk("6", "morning"), milk("3", "morning", after=-1)]
    (before, one), (other, _) = daily(told), daily(reversed(told))
    assert (one.on, one.litres, one.sessions) == (FIRST, D("10.5"), TWICE)
    assert before == other


def test_the_later_telling_of_a_milking_stands() -> None:
    (one,) = daily([milk("6", "morning"), milk("7", "morning")])
    assert one.litres == 7


def test_told_in_one_sum_and_by_milkings_the_larger_stands() -> None:
    (whole_told,) = daily([milk("11", "day"), milk("6", "morning"), milk("4.5", "evening")])
    assert (whole_told.litres, whole_told.in_one_sum) == (11, True)
    (part_told,) = daily([milk("6", "day"), milk("6", "morning"), milk("4.5", "evening")])
    assert (part_told.litres, part_told.sessions) == (D("10.5"), TWICE)


def test_a_milking_that_was_not_told_is_made_up_by_the_usual_share() -> None:
    days = days_of(*[("6.1", "3.9")] * 6, ("6.1",))
    assert whole(days) == D("10.00")  # morning 0.61 of two: Friggens et al. 2007, open data (computed)
    assert not is_whole(days[-1], TWICE)
    assert is_whole(days[0], TWICE)


def test_the_share_of_a_milking_is_drawn_to_her_own() -> None:
    # 6 of 12 in the morning: (5 x 0.61 + 15 x 0.5) / 20
    assert shares(days_of(*[("6", "6")] * 15), TWICE)["morning"] == D("0.5275")
    assert shares((), TWICE) == {"morning": D("0.61"), "evening": D("0.39")}


def test_the_shares_of_a_day_are_the_whole_day() -> None:
    for usual in (TWICE, TWICE | {"midday"}, frozenset({"morning", "midday"}), frozenset({"evening"})):
        assert sum(shares((), usual).values()) == 1


def test_once_the_evening_milking_has_ended_a_morning_is_the_whole_day() -> None:
    some_days = days_of(*[("6", "4")] * 10, *[("7",)] * 3)
    assert usual_sessions(some_days) == TWICE
    most_days = days_of(*[("6", "4")] * 10, *[("7",)] * 4)
    assert usual_sessions(most_days) == {"morning"}
    assert whole(most_days) == 7


def test_a_day_with_a_milking_more_than_usual_is_not_compared() -> None:
    assert whole(days_of(*[("6", "4")] * 6, ("5", "3", "4"))) is None
    assert whole(days_of(*[("6", "4")] * 6, *[("5", "3", "4")] * 4)) == 12


def test_a_day_told_in_one_sum_is_whole_and_tells_nothing_of_the_milkings() -> None:
    days = (*days_of(*[("6", "4")] * 3), *daily([milk("12", "day", after=5)]))
    assert usual_sessions(days) == TWICE
    assert whole(days) == 12
    assert usual_sessions(days[-1:]) == frozenset()
    assert whole(days[-1:]) == 12


def test_no_milk_at_all_is_a_day_of_none() -> None:
    assert whole(days_of(*[("6", "4")] * 4, ("0", "0"))) == 0
