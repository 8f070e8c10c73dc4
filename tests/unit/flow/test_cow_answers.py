"""What a cow gives and how she breeds, asked for by her name."""

from __future__ import annotations

from datetime import timedelta
from math import exp

from service import sms
from tests.support.village import OWNER, Village


def test_the_milk_of_one_cow_tells_her_lactation(village: Village) -> None:
    village.tell(OWNER, "Neema calved today, a heifer calf")
    village.clock.move(timedelta(days=7))
    for day in range(7, 175, 7):
        litres = round(2 * 5.2 * day**0.16 * exp(-0.003 * day)) / 2
        village.tell(OWNER, f"NEEMA {litres:g}")
        village.clock.move(timedelta(days=7 if day < 168 else 1))
    answer = village.tell(OWNER, "milk of Neema")
    assert "Since calving 2 Mar:" in answer
    assert "305 days: about" in answer
    assert "Highest:" in answer or "No peak:" in answer
    assert sms.measure(answer).segments <= 3


def test_a_level_lactation_is_not_forced_into_a_peak(village: Village) -> None:
    village.tell(OWNER, "Neema calved today, a heifer calf")
    for place in range(20):
        village.clock.move(timedelta(days=7))
        village.tell(OWNER, f"NEEMA {7 + (place % 3 - 1) / 2:g}")
    assert "No peak: about 7" in village.tell(OWNER, "milk of Neema")


def test_the_herds_milk_tells_of_no_lactation(village: Village) -> None:
    village.tell(OWNER, "Neema calved today, a heifer calf")
    for _ in range(6):
        village.clock.move(timedelta(days=7))
        village.tell(OWNER, "NEEMA 7")
    assert "Since calving" not in village.tell(OWNER, "milk this week")


def test_days_since_calving_and_the_day_for_a_calf_a_year(village: Village) -> None:
    village.tell(OWNER, "Neema calved today, a heifer calf")
    village.clock.move(timedelta(days=40))
    # 2 March + 365 - 282 days of gestation
    assert "40 days since calving; for a calf a year: in calf by 24 May" in village.tell(OWNER, "Neema?")


def test_three_services_that_did_not_hold_are_put_to_the_vet(village: Village) -> None:
    village.tell(OWNER, "Neema calved today, a heifer calf")
    village.clock.move(timedelta(days=60))
    for _ in range(3):
        village.tell(OWNER, "Neema served today")
        village.clock.move(timedelta(days=21))
    assert "served 3 times" in village.tell(OWNER, "Neema?")
    village.tell(OWNER, "Neema in heat")
    assert "served 3 times and not in calf: let the vet look at her" in village.tell(OWNER, "Neema?")
