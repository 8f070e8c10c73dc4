"""Calendar months."""

from __future__ import annotations

import pytest

from service.husbandry.months import months_after, younger_than
from tests.unit.husbandry.book import day


@pytest.mark.parametrize(
    ("start", "months", "expected"),
    [
        ("2026-08-31", 6, "2027-02-28"),  # clipped to the month's end; computed
        ("2028-02-29", 12, "2029-02-28"),  # one year after a leap day; computed
        ("2026-11-30", 3, "2027-02-28"),  # worming, 30 Nov -> 28 Feb; common practice, no source
        ("2027-11-30", 3, "2028-02-29"),  # ... 29 in a leap year
        ("2026-02-10", 3, "2026-05-10"),  # a calf born then, at 3 months; computed
        ("2026-02-10", 8, "2026-10-10"),  # ... at 8
        ("2026-02-10", 15, "2027-05-10"),  # ... at 15
        ("2026-03-31", -1, "2026-02-28"),
    ],
)
def test_the_same_day_of_a_later_month_or_its_last(start: str, months: int, expected: str) -> None:
    assert months_after(day(start), months) == day(expected)


def test_an_animal_is_not_under_six_months_on_the_day_it_turns_six_months() -> None:
    assert younger_than(day("2026-01-31"), 6, day("2026-07-30"))
    assert not younger_than(day("2026-01-31"), 6, day("2026-07-31"))
