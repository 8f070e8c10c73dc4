"""Holds of milk and meat."""

from __future__ import annotations

from decimal import Decimal

import pytest

from service.husbandry.holds import first_sale, latest
from tests.unit.husbandry.book import day


@pytest.mark.parametrize(
    ("on", "days", "first"),
    [  # last dose 3 Mar at an hour not kept: 72 h, 7 d and 28 d end during the 6th, 10th and 31st; computed
        ("2026-03-03", "3", "2026-03-07"),
        ("2026-03-03", "7", "2026-03-11"),
        ("2026-03-03", "28", "2026-04-01"),
        ("2026-03-03", "2.5", "2026-03-07"),  # a part of a day counts whole
    ],
)
def test_the_day_of_the_dose_counts_whole(on: str, days: str, first: str) -> None:
    assert first_sale(day(on), Decimal(days)) == day(first)


def test_no_hold_on_the_label_and_no_label_read_out_hold_nothing() -> None:
    assert first_sale(day("2026-03-03"), Decimal(0)) is None
    assert first_sale(day("2026-03-03"), None) is None


def test_of_several_drugs_the_latest_end_counts() -> None:
    running = day("2026-03-11")
    assert latest(running, day("2026-03-05"), Decimal(3)) == running
    assert latest(running, day("2026-03-08"), Decimal(3)) == day("2026-03-12")
    assert latest(running, day("2026-03-08"), None) == running
    assert latest(None, day("2026-03-08"), Decimal(0)) is None
