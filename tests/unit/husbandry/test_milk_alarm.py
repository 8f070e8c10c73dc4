"""Falls of milk that are news, and the cheap look that comes before."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from decimal import Decimal

import pytest

from service.husbandry.daily_milk import DayMilk
from service.husbandry.herd import Told
from service.husbandry.kinds.milk import Milk
from service.husbandry.milk_alarm import Alarm, fresh, may_have_fallen
from service.husbandry.milk_falls import falls
from service.husbandry.yield_expected import Course
from tests.bench.falls import COURSE, trials
from tests.unit.husbandry.book import PHONE, at

FIRST = date(2026, 3, 1)
OPEN: dict[int | None, Course] = {1: Course(), 2: Course(), 3: Course(), None: Course()}
NEEMA, TAUSI, ZAWADI = 1, 2, 3


def milked(animal: int | None, litres: Iterable[float], *, after: int = 0, first: int = 1) -> list[Told]:
    """One record a day; ids in the order of telling from *first* on."""
    return [
        Told(
            id=first + place,
            entry=Milk(
                animal="*" if animal is None else f"cow {animal}",
                litres=Decimal(str(one)),
                session="day",
                on=FIRST + timedelta(days=after + place),
            ),
            animals=() if animal is None else (animal,),
            told_at=at("2026-03-01 07:00"),
            told_by=PHONE,
        )
        for place, one in enumerate(litres)
    ]


def news(before: Sequence[Told], *told: Told, whose: Sequence[int] = (NEEMA,)) -> tuple[Alarm, ...]:
    return fresh([*before, *told], before, OPEN, whose)


STEADY = [9, 9.5, 9, 9, 8.5, 9, 9.5, 9, 9, 9]


def test_the_second_low_day_is_news_and_the_third_is_none() -> None:
    before = milked(NEEMA, [*STEADY, 6])
    (second,) = milked(NEEMA, [6], after=11, first=20)
    (alarm,) = news(before, second)
    assert (alarm.animal, alarm.since, alarm.found_on) == (
        NEEMA,
        FIRST + timedelta(10),
        FIRST + timedelta(11),
    )
    (third,) = milked(NEEMA, [6], after=12, first=21)
    assert news([*before, second], third) == ()


def test_the_evening_of_the_day_that_was_told_of_is_no_news() -> None:
    before = milked(NEEMA, [*STEADY, 6, 6])
    evening = Milk(animal="cow 1", litres=Decimal(0), session="evening", on=FIRST + timedelta(11))
    told = Told(id=50, entry=evening, animals=(1,), told_at=at("2026-03-01 07:00"), told_by=PHONE)
    assert news(before, told) == ()


def test_a_correction_that_leaves_the_fall_is_no_news() -> None:
    before = milked(NEEMA, [*STEADY, 6, 6])
    instead = milked(NEEMA, [6.5], after=11, first=30)
    assert fresh([*before[:-1], *instead], before, OPEN, [NEEMA]) == ()


def test_a_late_report_between_days_that_are_over_is_no_news() -> None:
    days = milked(NEEMA, [*STEADY, 6, 6, 9, 9])
    before = [one for one in days if one.entry.happened_on != FIRST + timedelta(11)]
    assert fresh(days, before, OPEN, [NEEMA]) == ()


def test_a_late_report_that_makes_the_latest_day_a_fall_is_news() -> None:
    days = milked(NEEMA, [*STEADY, 6, 6])
    before = [one for one in days if one.entry.happened_on != FIRST + timedelta(10)]
    assert [alarm.found_on for alarm in fresh(days, before, OPEN, [NEEMA])] == [FIRST + timedelta(11)]


def test_most_cows_down_are_one_alarm_of_the_herd() -> None:
    before = [one for key in OPEN if key for one in milked(key, [*STEADY, 7.5], first=100 * key)]
    today = [one for key in OPEN if key for one in milked(key, [7.5], after=11, first=1000 * key)]
    (alarm,) = fresh([*before, *today], before, OPEN, [NEEMA, TAUSI, ZAWADI])
    assert (alarm.animal, alarm.litres, alarm.cows, alarm.recorded) == (None, None, 3, 3)
    assert alarm.percent == pytest.approx(17, abs=1)


def test_milk_told_in_one_sum_falls_as_one() -> None:
    before = milked(None, [*(3 * one for one in STEADY), 18])
    (alarm,) = fresh([*before, *milked(None, [18], after=11, first=30)], before, OPEN, [])
    assert (alarm.animal, alarm.litres) == (None, Decimal("18.0"))


def test_what_was_told_one_by_one_raises_the_falls_of_the_whole() -> None:
    for trial in trials(4, 1, seed=5):
        told = milked(NEEMA, [], after=0)
        days = [one for one in trial.fallen if one.on >= trial.fall_from - timedelta(40)][:60]
        raised: list[date] = []
        for place, day in enumerate(days):
            new = [_told(NEEMA, day, part, 10 * place + n) for n, part in enumerate(day.milkings)]
            raised += [alarm.found_on for alarm in fresh([*told, *new], told, {NEEMA: COURSE}, [NEEMA])]
            told += new
        assert raised == [fall.found_on for fall in falls(days, COURSE)]


def _told(animal: int, day: DayMilk, part: tuple[str, Decimal], key: int) -> Told:
    entry = Milk(animal="A", litres=part[1], session=part[0], on=day.on)
    return Told(id=key, entry=entry, animals=(animal,), told_at=at("2026-03-01 07:00"), told_by=PHONE)


# --- the cheap look --------------------------------------------------------------------------------


def rows(days: Sequence[DayMilk]) -> list[tuple[date, str, float]]:
    """The last milkings of *days*, newest first, as the ledger gives them."""
    told = [(day.on, session, float(litres)) for day in days for session, litres in day.milkings]
    return told[::-1][:32]


@pytest.mark.parametrize("every", [1, 7])
def test_the_cheap_look_passes_what_the_close_one_would_find(every: int) -> None:
    found = missed = 0
    for trial in trials(40, every, seed=7):
        real = [fall for fall in falls(trial.fallen, COURSE) if fall.found_on >= trial.fall_from]
        for fall in real[:1]:
            known = [day for day in trial.fallen if day.on <= fall.found_on]
            found, missed = found + 1, missed + (not may_have_fallen(rows(known)))
    assert found > 30
    assert missed <= (0 if every == 1 else 1)


def test_the_cheap_look_is_seldom_followed_by_the_close_one() -> None:
    looked = days = 0
    for trial in trials(15, 1, seed=7):
        for place in range(20, len(trial.sound)):
            days += 1
            looked += may_have_fallen(rows(trial.sound[: place + 1]))
    assert looked <= 0.1 * days


def test_three_earlier_days_are_the_fewest() -> None:
    told = [(FIRST + timedelta(days), "day", 9.0) for days in range(3)]
    assert not may_have_fallen([(FIRST + timedelta(3), "day", 1.0), *told[1:][::-1]])
    assert may_have_fallen([(FIRST + timedelta(3), "day", 1.0), *told[::-1]])


def test_a_day_told_in_another_way_is_looked_at_closely() -> None:
    told = [(FIRST + timedelta(days), "morning", 9.0) for days in range(4)]
    assert may_have_fallen([(FIRST + timedelta(4), "evening", 9.0), *told[::-1]])
