"""
How soon the vet: signs, and where the animal stands in its life.

The clocks are those of docs/trade/illness.md, with the status given there.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from service.husbandry.herd import Animal, Served, Status, changed
from service.husbandry.signs import ILLNESS_SIGNS
from service.husbandry.triage import (
    AFTER_CALVING_DAYS,
    DANGER,
    LATE_PREGNANCY_DAYS,
    MILD,
    Urgency,
    triage,
)

TODAY = date(2026, 3, 20)
COW = Animal(id=1, name="Neema", names=("Neema",), entered_on=date(2025, 1, 1), told_status=Status.MILKING)
CALF = changed(COW, told_status=Status.CALF, born=date(2026, 2, 20))


def urgency(*signs: str, animal: Animal | None = COW, worse: bool = False) -> Urgency:
    return triage(signs, animal, TODAY, worse=worse).urgency


@pytest.mark.parametrize("sign", DANGER)
def test_a_sign_of_danger_is_for_the_vet_now_alone_or_among_others(sign):
    assert urgency(sign) is Urgency.NOW
    found = triage(("off_feed", sign), COW, TODAY)
    assert (found.urgency, found.sign) == (Urgency.NOW, sign)


@pytest.mark.parametrize("sign", ILLNESS_SIGNS)
def test_only_a_single_mild_sign_of_a_grown_animal_is_watched(sign):
    assert (urgency(sign) is Urgency.WATCH) == (sign in MILD)


@pytest.mark.parametrize("sign", [sign for sign in ILLNESS_SIGNS if sign not in ("ticks",)])
def test_fever_with_anything_and_off_feed_with_another_sign_never_wait(sign):
    assert urgency("fever", sign) > Urgency.WATCH
    if sign != "off_feed":
        assert urgency("off_feed", sign) > Urgency.WATCH


def test_the_scour_of_a_calf_never_waits_and_that_of_a_cow_alone_does():
    assert urgency("diarrhoea", animal=CALF) is Urgency.TODAY
    assert urgency("diarrhoea", "weak", animal=CALF) is Urgency.NOW
    assert urgency("diarrhoea", animal=COW) is Urgency.WATCH


@pytest.mark.parametrize("days", [0, 1, AFTER_CALVING_DAYS])
def test_within_a_week_of_calving_nothing_waits(days):
    fresh = changed(COW, calved_on=TODAY - timedelta(days))
    assert all(urgency(sign, animal=fresh) > Urgency.WATCH for sign in MILD if sign != "ticks")


def test_later_after_calving_a_mild_sign_is_watched_again():
    assert urgency("off_feed", animal=changed(COW, calved_on=TODAY - timedelta(8))) is Urgency.WATCH


def test_weak_within_three_days_of_calving_is_for_the_vet_now():
    """Milk fever within 72 h of calving, minutes to hours: verified."""
    assert urgency("weak", animal=changed(COW, calved_on=TODAY - timedelta(3))) is Urgency.NOW
    assert urgency("weak", animal=changed(COW, calved_on=TODAY - timedelta(4))) is Urgency.TODAY


def test_the_afterbirth_hanging_is_for_today_and_with_fever_for_now():
    """Retained 24 h: vet; with fever or smell: now. Verified."""
    fresh = changed(COW, calved_on=TODAY - timedelta(1))
    assert urgency("afterbirth", animal=fresh) is Urgency.TODAY
    assert urgency("afterbirth", "fever", animal=fresh) is Urgency.NOW


def served(days_to_calving: int, *, in_calf: bool = True) -> Animal:
    """A cow due so many days from today (282 days of gestation)."""
    on = TODAY + timedelta(days_to_calving) - timedelta(282)
    service = Served(on=on, about=False, method="ai", sire=None, technician=None)
    return changed(COW, served=service, in_calf=in_calf, conceived_on=on if in_calf else None)


@pytest.mark.parametrize(
    ("days", "waits"),
    [(LATE_PREGNANCY_DAYS + 1, True), (LATE_PREGNANCY_DAYS, False), (1, False), (-5, False), (-30, False)],
)
def test_in_the_last_weeks_before_calving_nothing_waits(days, waits):
    assert (urgency("off_feed", animal=served(days)) is Urgency.WATCH) == waits


def test_a_service_never_checked_counts_until_the_watch_for_its_calving_is_over():
    assert urgency("off_feed", animal=served(10, in_calf=False)) is Urgency.TODAY
    assert urgency("off_feed", animal=served(-40, in_calf=False)) is Urgency.WATCH


def test_a_sign_told_late_of_the_days_before_a_calving_does_not_wait():
    assert triage(("off_feed",), changed(COW, calved_on=TODAY + timedelta(2)), TODAY).urgency is Urgency.TODAY


def test_what_was_watched_once_is_not_watched_again():
    assert urgency("off_feed", animal=changed(COW, ill_since=TODAY)) is Urgency.WATCH
    assert urgency("off_feed", animal=changed(COW, ill_since=TODAY - timedelta(1))) is Urgency.TODAY


def test_worse_calls_the_vet_one_step_sooner():
    assert urgency("off_feed", worse=True) is Urgency.TODAY
    assert urgency("fever", worse=True) is Urgency.NOW
    assert urgency("down", worse=True) is Urgency.NOW


def test_ticks_alone_are_washed_off_at_any_time():
    assert urgency("ticks", animal=changed(COW, calved_on=TODAY)) is Urgency.WATCH


def test_of_an_animal_not_known_the_signs_decide():
    assert urgency("off_feed", animal=None) is Urgency.WATCH
    assert urgency("fever", animal=None) is Urgency.TODAY
