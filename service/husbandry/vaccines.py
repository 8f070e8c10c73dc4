"""
The vaccination calendar: which animal is vaccinated when, and which must not be.

Common practice in East Africa; each figure with its source and how far that was checked is in
docs/trade/vaccination.md. The months (first age, last age, repeat) are intervals and can be set
(``intervals.py``); what a vaccine is and who must not get it stands here. No drug and no dose.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from service.husbandry.herd import Animal, Farm, Sex
from service.husbandry.intervals import NEVER, Intervals
from service.husbandry.life import is_cow, latest_birth
from service.husbandry.months import months_after, younger_than


@dataclass(frozen=True, slots=True, kw_only=True)
class Vaccine:
    """
    What binds whoever vaccinates.

    ``youngest_months``, ``youngest_days``: under this age it is not given. ``oldest_months``: nor over
    this. ``ages_bind``: outside its ages it harms; of the others it takes badly in the very young (from
    memory). ``sex``: only to these. ``live``: a person pricked with it sees a doctor. ``not_in_calf``: not
    to an animal in calf. ``infects_people``: pregnant women and children stay away.
    """

    youngest_months: int = 0
    youngest_days: int = 0
    oldest_months: int | None = None
    ages_bind: bool = False
    sex: Sex | None = None
    live: bool = False
    not_in_calf: bool = False
    infects_people: bool = False


CALENDAR: Mapping[str, Vaccine] = {
    "fmd": Vaccine(youngest_months=3),
    "lsd": Vaccine(youngest_months=4, live=True),
    "anthrax": Vaccine(youngest_months=3, live=True),
    "blackquarter": Vaccine(youngest_months=3),
    "brucellosis": Vaccine(
        youngest_months=3,
        oldest_months=8,
        ages_bind=True,
        sex=Sex.FEMALE,
        live=True,
        not_in_calf=True,
        infects_people=True,
    ),
    "cbpp": Vaccine(youngest_days=14, live=True),
    "ecf": Vaccine(youngest_months=1, ages_bind=True, live=True),
    "rabies": Vaccine(youngest_months=3),
    "rvf": Vaccine(live=True, not_in_calf=True, infects_people=True),
}
"""
By disease. Ages: the earliest that a source of the calendar gives. Brucellosis is S19, its ages and sex
and that it is live: East African veterinary forum table, verified. Rift Valley fever live and not in
pregnancy: texts, from memory. That the others are live or not: from memory.
"""

REACTION_DAYS = 28
"""After East Coast fever's, reactors are watched for so long; common practice, no source."""


class Unfit(StrEnum):
    """Why an animal should not have a vaccine, the plainest reason first."""

    SEX = "sex"
    OLD = "old"
    YOUNG = "young"
    IN_CALF = "in_calf"
    ILL = "ill"  # a sick one waits: common practice, no source


def unfit(disease: str, animal: Animal, on: date) -> Unfit | None:
    """Why *animal* should not be vaccinated against *disease* on that day; None: nothing known tells so."""
    vaccine = CALENDAR[disease]
    if vaccine.sex is not None and animal.sex not in (None, vaccine.sex):
        return Unfit.SEX
    if _too_old(vaccine, animal, on):
        return Unfit.OLD
    if animal.born is not None and on < _youngest(vaccine, animal.born):
        return Unfit.YOUNG
    if vaccine.not_in_calf and _in_calf(animal, on):
        return Unfit.IN_CALF
    ill = animal.ill_since is not None and animal.ill_since <= on
    return Unfit.ILL if ill else None


def _too_old(vaccine: Vaccine, animal: Animal, on: date) -> bool:
    if vaccine.oldest_months is None:
        return False
    born = latest_birth(animal)
    if born is None:
        return is_cow(animal) or animal.in_calf
    return on > months_after(born, vaccine.oldest_months)


def _youngest(vaccine: Vaccine, born: date) -> date:
    return months_after(born, vaccine.youngest_months) + timedelta(vaccine.youngest_days)


def _in_calf(animal: Animal, on: date) -> bool:
    """Whether she was found in calf, of a service before that day, or entered so."""
    return animal.in_calf and (animal.conceived_on or animal.entered_on) <= on


def wanting(disease: str, animal: Animal, on: date, intervals: Intervals) -> bool:
    """Whether *animal* is one for a day of vaccination: fit by age, sex and pregnancy, not had for life."""
    for_life = intervals.repeat_months(disease) == NEVER
    had = for_life and disease in animal.vaccinated
    return not had and unfit(disease, animal, on) in (None, Unfit.ILL)


@dataclass(frozen=True, slots=True)
class Planned:
    """When an animal is to be vaccinated; ``last`` None: until it is; ``since``: what that follows from."""

    first: date
    last: date | None
    since: date


def begun(farm: Farm, intervals: Intervals) -> tuple[str, ...]:
    """The diseases that *farm* vaccinates against: as it has told, or as its cooperative has all do."""
    return tuple(d for d in CALENDAR if d in farm.vaccinated_since or intervals.for_all(d))


def planned(disease: str, animal: Animal, farm: Farm, intervals: Intervals) -> Planned | None:
    """
    When *animal* is next due against *disease*, one of those that the farm has begun with.

    None: not at all, not while she is in calf, or nothing tells when.
    """
    if CALENDAR[disease].not_in_calf and animal.in_calf:
        return None
    last = animal.vaccinated.get(disease)
    if last is None:
        return _first_time(disease, animal, farm, intervals)
    months = intervals.repeat_months(disease)
    return None if months == NEVER else Planned(months_after(last, months), None, last)


def _first_time(disease: str, animal: Animal, farm: Farm, intervals: Intervals) -> Planned | None:
    vaccine = CALENDAR[disease]
    if vaccine.sex not in (None, animal.sex):
        return None
    if vaccine.oldest_months is not None:
        return _in_window(disease, animal, intervals)
    first = _first_day(disease, animal, farm.vaccinated_since.get(disease), intervals)
    if first is None or not _begins_by(disease, animal, first, intervals):
        return None
    return Planned(first, None, min(first, animal.entered_on))


def _in_window(disease: str, animal: Animal, intervals: Intervals) -> Planned | None:
    """Of a vaccine that can be given at some ages only: those, where the birth is known."""
    last = intervals.until_months(disease)
    if animal.born is None or last is None:
        return None
    first = months_after(animal.born, intervals.from_months(disease))
    return Planned(first, months_after(animal.born, last), animal.born)


def _first_day(disease: str, animal: Animal, told: date | None, intervals: Intervals) -> date | None:
    """
    The day an animal comes of age or, of one that was before, the herd's next round.

    The rounds count from the first vaccination *told*: whoever comes for one animal comes for
    all. Where none was told, those of age are due as they are entered.
    """
    here = animal.entered_on if told is None else max(told, animal.entered_on)
    born = latest_birth(animal)
    of_age = None if born is None else months_after(born, intervals.from_months(disease))
    months = intervals.repeat_months(disease)
    if months == NEVER:  # of one that came grown nobody knows whether it has had it
        raised = born is not None and younger_than(born, RAISED_MONTHS, animal.entered_on)
        return max(of_age, here) if raised and of_age is not None else None
    if of_age is not None and of_age > here:
        return of_age
    return here if told is None else _round_from(told, months, here)


RAISED_MONTHS = 6
"""An animal that came under this age is taken as raised here: what was not told was not done. Byreline's
own choice."""


def _round_from(first: date, months: int, here: date) -> date:
    """The first round after the first that does not lie before the animal came."""
    rounds = 1
    while months_after(first, rounds * months) < here:
        rounds += 1
    return months_after(first, rounds * months)


def _begins_by(disease: str, animal: Animal, first: date, intervals: Intervals) -> bool:
    """Whether *animal* is on *first* still of an age to begin with; where there is one, it must be known."""
    last = intervals.until_months(disease)
    born = latest_birth(animal)
    return last is None or (born is not None and first <= months_after(born, last))
