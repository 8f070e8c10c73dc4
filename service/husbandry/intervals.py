"""
Every interval that Byreline plans by, once: its number, its unit and where it comes from.

Each is a default: :meth:`Intervals.of` makes a set with some of them changed, and what a farm has
told it wants (``SPRAY EVERY 14``) is laid over that by :meth:`Intervals.told`. The same figures,
with what stands behind them, are in docs/trade/.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

TOLD_AS = {
    "spray": "spray_days",
    "disinfect": "disinfect_days",
    "deworm": "deworm_days",
    "weigh": "weigh_days",
}
"""The tasks whose ``every_days`` a farm can set, and the interval that it changes."""

NEVER = 0
"""As a vaccine's months: once for life. As days of ``deworm`` or ``weigh``: not set by the farm."""


def _interval(default: int, unit: str, source: str) -> Any:
    return dataclasses.field(default=default, metadata={"unit": unit, "source": source})


_CONTRACT = "the contract's number"
_PRACTICE = "common practice, no source"
_OURS = "Byreline's own choice"
_HEAT = "Hall, Branton & Stone 1959: best 7-12 h after onset, verified; 6 h is the contract's number"
_AM_PM = "AM-PM rule, Trimberger 1948 in Vishwanath et al. 2004; verified"
_CYCLE = "eXtension, heat detection and AI: cycle 18-24 d; verified"
_BLOOD = "bleeding 1-3 d after heat, village-vet manual (IIRR), verified; the contract's number"
_OFFICER = f"field officers' palpation, 60-90 d; {_PRACTICE}"
_DRY = "J Dairy Sci 2003;86:3027: 51-60 d, verified; 45-60 d accepted, from memory"
_MANUAL = "East African manuals: up to 3 weeks before calving; from memory"
_WATCH = f"due -10..+10 d, over 14 d late have her examined; {_PRACTICE}"
_WAIT = (
    "Buch et al. 1955: womb restored in 44 % by 45 d, in 96 % by 90 d; figures verified, authors from memory"
)
_WEAN = "Lukuyu & Gachuiri 2012: wean at 12 weeks; verified"
_FORUM = "East African veterinary forum table; verified"
_TEXTS = "texts; from memory"
_LATER = "of a range its end, by which all agree"
_ALL = "all farms: 1; 0: where the farm has told of it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Intervals:
    """The intervals in force. Units are in the names; each field's metadata names ``unit`` and ``source``."""

    serve_from_hours: int = _interval(6, "hours after the first sign", _HEAT)
    serve_best_hours: int = _interval(12, "hours after the first sign", _AM_PM)
    serve_until_hours: int = _interval(
        16, "hours after the first sign", "Dransfield et al. 1998; from memory"
    )
    return_from_days: int = _interval(18, "days after a heat or service", _CYCLE)
    return_until_days: int = _interval(24, "days after a heat or service", _CYCLE)
    blood_from_days: int = _interval(15, "days after the blood", _BLOOD)
    blood_until_days: int = _interval(23, "days after the blood", _BLOOD)
    empty_until_days: int = _interval(
        24, "days after she was found empty", "one longest cycle; the contract's number"
    )

    check_from_days: int = _interval(60, "days after the service", _OFFICER)
    check_until_days: int = _interval(90, "days after the service", _OFFICER)
    recheck_from_days: int = _interval(30, "days after an unsure check", _CONTRACT)
    recheck_until_days: int = _interval(
        60, "days after an unsure check", f"{_OURS}: a month, as for the first"
    )

    gestation_days: int = _interval(
        282, "days, no breed told", "Macmillan & Curnow 1976; Tessier 1817 in Copeland 1930; verified"
    )
    dry_off_from_days: int = _interval(60, "days before calving", _DRY)
    dry_off_until_days: int = _interval(46, "days before calving", _DRY)
    steam_up_from_days: int = _interval(21, "days before calving", _MANUAL)
    calving_from_days: int = _interval(10, "days before calving", _WATCH)
    calving_until_days: int = _interval(13, "days after the expected calving", _WATCH)
    guess_days: int = _interval(
        15, "days either side of a guess", f"{_OURS}: half a month, the guess's width"
    )
    colostrum_days: int = _interval(
        4, "days after calving", "Lukuyu & Gachuiri 2012: colostrum phase d 1-3 or 1-4; verified"
    )
    afterbirth_asked_hours: int = _interval(
        12, "hours after calving", "veterinary texts: 12 h watch, no pulling; verified"
    )
    afterbirth_vet_hours: int = _interval(
        24, "hours after calving", "retained once not shed by 24 h (Merck line); verified"
    )
    afterbirth_over_hours: int = _interval(36, "hours after calving", f"{_OURS}: half a day after the vet's")
    illness_asked_days: int = _interval(
        1, "days after the illness was last told of", "the next morning; common practice, no source"
    )
    illness_over_days: int = _interval(
        14, "days after the illness was last told of", f"{_OURS}: by then it has ended one way or another"
    )
    heat_after_calving_from_days: int = _interval(45, "days after calving", _WAIT)
    heat_after_calving_until_days: int = _interval(90, "days after calving", _WAIT)

    first_service_from_months: int = _interval(
        15, "months of age", "60 % of mature weight, NZ targets; verified"
    )
    first_service_until_months: int = _interval(18, "months of age", f"usual on smallholdings; {_PRACTICE}")
    weaning_from_days: int = _interval(84, "days of age", _WEAN)
    weaning_until_days: int = _interval(100, "days of age", _CONTRACT)
    starter_days: int = _interval(7, "days of age", _PRACTICE)
    young_stock_feed_days: int = _interval(91, "days of age", _PRACTICE)
    heifer_feed_days: int = _interval(243, "days of age", _PRACTICE)
    feed_step_days: int = _interval(14, "days in which a new feed is begun", _OURS)

    spray_days: int = _interval(7, "days", "Kenyan press interview with a vet, lecture notes 2023; verified")
    disinfect_days: int = _interval(7, "days", _PRACTICE)
    deworm_months: int = _interval(3, "months", f"adults every 3-4 months; {_PRACTICE}")
    deworm_young_days: int = _interval(42, "days, under deworm_young_months", f"6-weekly; {_PRACTICE}")
    deworm_young_months: int = _interval(6, "months of age", _PRACTICE)
    deworm_days: int = _interval(NEVER, "days, in place of both, where the farm set it", "the farm")
    weigh_days: int = _interval(NEVER, "days, where the farm set it", "the farm")

    fmd_months: int = _interval(6, "months", "Kenyan press and ministry plan; verified")
    lsd_months: int = _interval(12, "months", "Kenyan press 2022; verified")
    anthrax_months: int = _interval(12, "months", _FORUM)
    blackquarter_months: int = _interval(12, "months", _FORUM)
    brucellosis_months: int = _interval(NEVER, "months; once, heifers only", _FORUM)
    ecf_months: int = _interval(NEVER, "months; once for life", _FORUM)
    cbpp_months: int = _interval(12, "months", _FORUM)
    rvf_months: int = _interval(12, "months", _TEXTS)
    rabies_months: int = _interval(12, "months", _TEXTS)

    fmd_from_months: int = _interval(4, "months of age", f"from 3-4; Kenyan press; verified; {_LATER}")
    lsd_from_months: int = _interval(6, "months of age", f"from 4-6; Kenyan press 2022; verified; {_LATER}")
    anthrax_from_months: int = _interval(3, "months of age", _FORUM)
    blackquarter_from_months: int = _interval(3, "months of age", _FORUM)
    brucellosis_from_months: int = _interval(3, "months of age", _FORUM)
    ecf_from_months: int = _interval(1, "months of age", _FORUM)
    cbpp_from_months: int = _interval(
        6, "months of age", f"2 weeks in the forum's table, verified; many schedules 6 months; {_LATER}"
    )
    rvf_from_months: int = _interval(6, "months of age", f"{_OURS}: with the latest of the others")
    rabies_from_months: int = _interval(3, "months of age", _TEXTS)
    anthrax_until_months: int = _interval(36, "months of age, to begin with it", _FORUM)
    blackquarter_until_months: int = _interval(36, "months of age, to begin with it", _FORUM)
    brucellosis_until_months: int = _interval(8, "months of age", _FORUM)

    fmd_for_all: int = _interval(0, _ALL, _OURS)
    lsd_for_all: int = _interval(0, _ALL, _OURS)
    anthrax_for_all: int = _interval(0, _ALL, _OURS)
    blackquarter_for_all: int = _interval(0, _ALL, _OURS)
    brucellosis_for_all: int = _interval(1, _ALL, f"{_OURS}: the months in which it can be given pass")
    ecf_for_all: int = _interval(0, _ALL, _OURS)
    cbpp_for_all: int = _interval(0, _ALL, _OURS)
    rvf_for_all: int = _interval(0, _ALL, _OURS)
    rabies_for_all: int = _interval(0, _ALL, _OURS)

    @classmethod
    def of(cls, overrides: Mapping[str, Any]) -> Intervals:
        """
        The defaults with some of them changed, by the names of their fields or as farms tell them.

        A farm's settings may be among them as they are: what in them is no interval (``hour``) is
        passed over.

        Raises:
            LookupError: a name with a unit in it (``..._days``) that is no interval's.
            ValueError: a number below zero.
        """
        unknown = [name for name in overrides if name.endswith(_UNITS) and name not in _NAMES]
        if unknown:
            raise LookupError(f"there is no interval {', '.join(unknown)}")
        named = {name: int(number) for name, number in overrides.items() if name in _NAMES}
        for name, number in named.items():
            if number < 0:
                raise ValueError(f"{name} cannot be {number}")
        return cls(**named).told(overrides)

    def told(self, settings: Mapping[str, Any]) -> Intervals:
        """These intervals with those that a farm has set (``Farm.settings``) laid over them."""
        own = {TOLD_AS[task]: int(every) for task, every in settings.items() if task in TOLD_AS}
        return dataclasses.replace(self, **own) if own else self

    def repeat_months(self, disease: str) -> int:
        """Calendar months after which the vaccination is repeated; ``NEVER`` if it is not."""
        months: int = getattr(self, f"{disease}_months")
        return months

    def from_months(self, disease: str) -> int:
        """Months of age from which an animal is vaccinated."""
        months: int = getattr(self, f"{disease}_from_months")
        return months

    def until_months(self, disease: str) -> int | None:
        """Months of age after which an animal is not begun with; None: no such age."""
        months: int | None = getattr(self, f"{disease}_until_months", None)
        return months

    def for_all(self, disease: str) -> bool:
        """Whether the vaccination is planned on farms too that have told of none."""
        return bool(getattr(self, f"{disease}_for_all"))


_UNITS = ("_hours", "_days", "_months")
_NAMES = frozenset(field.name for field in dataclasses.fields(Intervals))

DEFAULTS = Intervals()
