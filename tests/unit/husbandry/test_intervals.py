"""Intervals: one place, each with its unit and source, each can be changed."""

from __future__ import annotations

import dataclasses

import pytest

from service.husbandry.intervals import DEFAULTS, TOLD_AS, Intervals
from service.husbandry.signs import DISEASES

FIELDS = dataclasses.fields(Intervals)


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: field.name)
def test_every_interval_names_its_unit_and_its_source(field: dataclasses.Field[int]) -> None:
    unit = field.name.rsplit("_", 1)[-1]
    assert field.metadata["unit"].startswith(unit)
    assert field.metadata["source"]


def test_the_defaults_are_the_contracts() -> None:
    """The table of tasks; its sources are beside each number in intervals.py."""
    wanted = {
        "serve_from_hours": 6, "serve_best_hours": 12, "serve_until_hours": 16,
        "return_from_days": 18, "return_until_days": 24, "blood_from_days": 15, "blood_until_days": 23,
        "empty_until_days": 24, "check_from_days": 60, "check_until_days": 90, "recheck_from_days": 30,
        "dry_off_from_days": 60, "dry_off_until_days": 46, "steam_up_from_days": 21,
        "calving_from_days": 10, "calving_until_days": 13, "gestation_days": 282,
        "heat_after_calving_from_days": 45, "heat_after_calving_until_days": 90,
        "weaning_from_days": 84, "weaning_until_days": 100,
        "first_service_from_months": 15, "first_service_until_months": 18,
        "spray_days": 7, "disinfect_days": 7, "deworm_months": 3, "deworm_young_days": 42,
        "deworm_young_months": 6, "starter_days": 7, "young_stock_feed_days": 91, "heifer_feed_days": 243,
    }  # fmt: skip
    assert {name: getattr(DEFAULTS, name) for name in wanted} == wanted


def test_every_disease_has_its_repeat() -> None:
    """East African veterinary forum table and press, verified; rabies and RVF from memory."""
    repeats = {disease: DEFAULTS.repeat_months(disease) for disease in DISEASES}
    assert repeats == {
        "fmd": 6, "lsd": 12, "anthrax": 12, "blackquarter": 12, "cbpp": 12, "rvf": 12, "rabies": 12,
        "brucellosis": 0, "ecf": 0,
    }  # fmt: skip


def test_an_interval_can_be_changed_by_its_name_or_as_a_farm_tells_it() -> None:
    assert Intervals.of({"check_from_days": 45}).check_from_days == 45
    assert Intervals.of({"spray": 14}).spray_days == 14
    assert DEFAULTS.told({"spray": 5, "hour": 18, "milk_record": 3}) == Intervals.of({"spray_days": 5})


def test_what_a_farm_can_set_is_an_interval() -> None:
    assert set(TOLD_AS.values()) <= {field.name for field in FIELDS}


def test_an_interval_that_is_none_or_below_zero_is_refused() -> None:
    with pytest.raises(LookupError, match="sprai_days"):
        Intervals.of({"sprai_days": 5})
    with pytest.raises(ValueError, match="spray_days cannot be -1"):
        Intervals.of({"spray_days": -1})
