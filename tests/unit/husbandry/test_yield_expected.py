"""What a cow should give on a day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from decimal import Decimal
from math import exp

import pytest

from service.husbandry.daily_milk import DayMilk, daily
from service.husbandry.kinds.milk import Milk
from service.husbandry.yield_expected import Course, expected, usual_course
from tests.unit.husbandry.book import day

D = Decimal
CALVED = day("2026-01-01")
COURSE = Course(calved_on=(CALVED,))


def on(after: int) -> date:
    return CALVED + timedelta(days=after)


def told(litres: Iterable[tuple[int, float]], session: str = "day") -> tuple[DayMilk, ...]:
    """(day after calving, litres of it), to the tenth of a litre."""
    return daily(Milk(animal="A", litres=D(f"{v:.1f}"), session=session, on=on(d)) for d, v in litres)


def litres(days: tuple[DayMilk, ...], course: Course, after: int) -> Decimal | None:
    found = expected(days, course, on(after))
    return None if found is None else found.litres


def test_after_day_60_milk_falls_by_5_in_a_hundred_a_month() -> None:
    # Holstein 4.87, Red Dane 5.54, Jersey 4.19 %: Friggens et al. 2007, open data (computed)
    assert exp(usual_course(130) - usual_course(100)) == pytest.approx(0.95, abs=0.001)
    assert exp(usual_course(260) - usual_course(61)) == pytest.approx(0.95 ** (199 / 30.4), abs=1e-6)


def test_milk_rises_to_day_40_and_is_smooth_at_day_60() -> None:
    assert max(range(1, 300), key=usual_course) == 40
    before, after = usual_course(60) - usual_course(59), usual_course(61) - usual_course(60)
    assert before == pytest.approx(after, abs=6e-5)


def test_a_steady_cow_is_expected_to_give_what_she_gave() -> None:
    found = expected(told((d, 10.0) for d in range(100, 114)), COURSE, on(114))
    assert found is not None
    assert (found.litres, found.records) == (D("9.9"), 14)  # 10 l of a week ago, less 1.2 % of decline
    assert 5 <= found.percent <= 8  # the common 7 % and her own none


def test_one_record_a_week_is_brought_to_the_day() -> None:
    days = told((d, 10 * 0.95 ** (d / 30.4)) for d in range(100, 150, 7))
    assert litres(days, COURSE, 156) == D(f"{10 * 0.95 ** (156 / 30.4):.1f}")


def test_a_few_odd_days_do_not_move_what_is_expected() -> None:
    usual = dict.fromkeys(range(100, 114), 10.0)
    odd = usual | {105: 3.0, 110: 2.0, 113: 18.0}
    robust, usual_litres = (litres(told(days.items()), COURSE, 114) for days in (odd, usual))
    assert robust is not None
    assert usual_litres is not None
    assert abs(robust - usual_litres) <= D("0.1")  # the plain mean would be 0.6 l lower


def test_fewer_than_three_records_tell_nothing() -> None:
    assert expected(told([(100, 10.0), (101, 10.0)]), COURSE, on(102)) is None
    assert expected(told([(100, 10.0), (101, 10.0), (102, 10.0)]), COURSE, on(103)) is not None
    assert expected(told([(100, 10.0), (101, 10.0), (102, 10.0)]), COURSE, on(150)) is None  # too long ago


def test_the_first_ten_days_after_calving_are_neither_judged_nor_learnt_from() -> None:
    days = told((d, float(d)) for d in range(1, 12))
    assert expected(days, COURSE, on(10)) is None
    assert expected(days, COURSE, on(12)) is None  # one record counts, that of day 11


def test_a_new_calving_begins_anew() -> None:
    course = Course(calved_on=(CALVED, on(400)))
    days = told([*((d, 4.0) for d in range(280, 300)), *((d, 12.0) for d in range(411, 416))])
    found = expected(days, course, on(416))
    assert found is not None
    assert (found.records, found.litres > 12) == (5, True)


@pytest.mark.parametrize(("after", "judged"), [(292, True), (293, False), (300, False), (301, False)])
def test_the_week_of_drying_off_is_not_judged(after: int, judged: bool) -> None:
    course = Course(calved_on=(CALVED,), dried_on=on(300))
    assert (expected(told((d, 6.0) for d in range(270, 302)), course, on(after)) is not None) == judged


def test_where_the_drying_off_begins_is_known_it_is_from_there() -> None:
    course = Course(calved_on=(CALVED,), drying_from=on(297))
    days = told((d, 6.0) for d in range(270, 302))
    assert expected(days, course, on(296)) is not None
    assert expected(days, course, on(297)) is None


def test_after_the_next_calving_a_drying_off_is_over() -> None:
    course = Course(calved_on=(CALVED, on(360)), dried_on=on(300))
    days = told((d, 12.0) for d in range(371, 380))
    assert expected(days, course, on(380)) is not None


def test_days_left_out_are_neither_judged_nor_learnt_from() -> None:
    course = Course(calved_on=(CALVED,), left_out={on(d) for d in range(104, 110)})
    days = told((d, 4.0 if 104 <= d < 110 else 10.0) for d in range(100, 112))
    assert expected(days, course, on(105)) is None
    assert litres(days, course, 112) == D("9.9")


def test_cows_that_join_the_herds_sum_begin_it_anew() -> None:
    course = Course(anew=(on(110),))
    days = told((d, 20.0 if d < 110 else 32.0) for d in range(100, 114))
    assert litres(days, course, 114) == D("31.9")


def test_a_change_of_the_milkings_begins_anew() -> None:
    twice = [Milk(animal="A", litres=D(v), session=s, on=on(d))
             for d in range(100, 114) for s, v in (("morning", 6), ("evening", 4))]  # fmt: skip
    once = [Milk(animal="A", litres=D(7), session="morning", on=on(d)) for d in range(114, 122)]
    assert litres(daily([*twice, *once]), COURSE, 122) == D("7.0")


def test_a_milking_not_told_does_not_lower_what_is_expected() -> None:
    entries = [Milk(animal="A", litres=D(v), session=s, on=on(d))
               for d in range(100, 114) for s, v in (("morning", D("6.1")), ("evening", D("3.9")))
               if (s, d % 5) != ("evening", 3)]  # fmt: skip
    assert litres(daily(entries), COURSE, 114) == D("9.9")


def test_a_cow_that_goes_up_and_down_has_a_wider_error() -> None:
    even = expected(told((d, 10.0) for d in range(100, 114)), COURSE, on(114))
    uneven = expected(told((d, 10.0 + 2 * (-1) ** d) for d in range(100, 114)), COURSE, on(114))
    assert even is not None
    assert uneven is not None
    assert uneven.percent > 2 * even.percent


def test_of_a_calving_not_known_the_usual_decline_is_taken() -> None:
    days = told((d, 10.0) for d in range(100, 114))
    assert litres(days, Course(), 114) == litres(days, COURSE, 114)
