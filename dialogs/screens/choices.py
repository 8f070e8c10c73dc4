"""
What there is to choose from under a question of a record.

It follows from the sort of the field, or from the question where it fills two fields at once. Values
are given as ``forms.dump_values`` writes them, so that they wait as JSON.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

from dialogs.screens import animals, days, plans
from dialogs.screens.layout import Option
from dialogs.screens.state import Caller, State
from dialogs.screens.words import word
from service.husbandry.forms import EVERY_ANIMAL, Sort
from service.husbandry.herd import Sex

DETAILS = "details"  # where an option leads: the optional questions
REFUSED = "refused"  # ... not to be done after all
FIRST_ANIMAL = "first_animal"  # ... the herd has none yet: enter one

STAGES = (
    ("milking", "female"), ("dry", "female"), ("heifer", "female"), ("in_calf_heifer", "female"),
    ("calf", "female"), ("calf", "male"), ("bull", "male"), ("steer", "male"),
)  # fmt: skip

LITTERS: tuple[tuple[tuple[str | None, bool], ...], ...] = (
    (("female", True),),
    (("male", True),),
    (("female", True), ("male", True)),
    (("female", True), ("female", True)),
    (("male", True), ("male", True)),
    (("female", False),),
    (("male", False),),
    (("female", True), (None, False)),
    (("male", True), (None, False)),
    ((None, False), (None, False)),
)
"""What is born at a calving, as (sex, alive) of each calf."""

SUGGESTED: dict[tuple[str, str], tuple[str, ...]] = {
    ("feeding", "feed"): ("grass", "bran", "oilcake", "dairy_meal", "hay", "minerals"),
    ("expense", "what"): ("feed", "drug", "vet", "service", "wages", "transport"),
    ("other_income", "what"): ("manure", "bull", "hides", "ploughing"),
}
"""Words offered in the farmer's language; she may type any other."""

CODES: dict[tuple[str, str], tuple[str, ...]] = {
    ("death", "reason"): ("sick", "accident", "slaughtered", "lost", "stolen"),
    ("setting", "task"): ("spray", "deworm", "disinfect", "weigh"),
}
"""Free words of which some have a name of their own in the contract."""

SCORES = (1, 2, 3, 4, 5)
"""Condition in words; quarters can be typed."""

ONE_BY_ONE = ("treatment",)
"""Kinds mostly told of one animal of several: a slip must not hold the milk of the whole herd."""

HOURS = (5, 6, 7, 8, 9, 12, 16, 18, 19, 20)
"""Hours of the morning text; those between 21:00 and 5:00 are the night."""


def _one_animal(state: State, caller: Caller) -> tuple[Option, ...]:
    kind = plans.kind_of(state).KIND
    question = state.question or "animal"
    found = animals.offered(kind, caller, state.told)
    if question == "dam":
        found = [a for a in found if a.sex is not Sex.MALE]
    options = tuple(Option(a.name, {question: a.name}) for a in found)
    if kind == "milk":
        options += (Option(word("animals.sum", caller.language), {question: EVERY_ANIMAL}),)
    return options


def _several_animals(state: State, caller: Caller) -> tuple[Option, ...]:
    lists = {"all": (EVERY_ANIMAL,), **animals.groups(caller)}
    whole = tuple(
        Option(word(f"animals.{group}", caller.language), {"animals": list(names)})
        for group, names in lists.items()
    )
    kind = plans.kind_of(state).KIND
    single = tuple(Option(a.name, name=a.name) for a in animals.offered(kind, caller))
    return single + whole if kind in ONE_BY_ONE else whole + single


def _cows(state: State, caller: Caller) -> tuple[Option, ...]:
    """All that can be served, then one by one."""
    names = [animal.name for animal in animals.servable(caller)]
    every = (Option(word("animals.all", caller.language), {"cows": names}),) if len(names) > 1 else ()
    return every + tuple(Option(name, name=name) for name in names)


def _several(state: State, caller: Caller) -> tuple[Option, ...]:
    field = plans.field_of(state, state.question or "")
    part = "sign" if field.name == "signs" else field.name
    return tuple(Option(word(f"{part}.{one}", caller.language), name=one) for one in field.options)


def _helpers(state: State, caller: Caller) -> tuple[Option, ...]:
    return tuple(Option(one.name, {"phone": one.phone}) for one in caller.helpers())


def _scores(state: State, caller: Caller) -> tuple[Option, ...]:
    return tuple(Option(word(f"score.{score}", caller.language), {"score": score}) for score in SCORES)


def _choices(state: State, caller: Caller) -> tuple[Option, ...]:
    field = plans.field_of(state, state.question or "")
    labels = ((option, word(f"{field.name}.{option}", caller.language)) for option in field.options)
    return tuple(Option(label, {field.name: option}) for option, label in labels)


def _results(state: State, caller: Caller) -> tuple[Option, ...]:
    options = plans.field_of(state, "result").options
    return tuple(Option(word(f"result.{one}", caller.language), {"result": one}) for one in options)


def _flag(state: State, caller: Caller) -> tuple[Option, ...]:
    name = state.question or ""
    answers = (("no", False), ("yes", True))  # no first: it is the usual answer
    return tuple(Option(word(f"answer.{key}", caller.language), {name: value}) for key, value in answers)


def _sure(state: State, caller: Caller) -> tuple[Option, ...]:
    return (
        Option(word("answer.yes", caller.language), {}),
        Option(word("answer.no", caller.language), to=REFUSED),
    )


def _words(state: State, caller: Caller) -> tuple[Option, ...]:
    name = state.question or ""
    place = (plans.kind_of(state).KIND, name)
    coded = tuple(Option(word(f"{name}.{c}", caller.language), {name: c}) for c in CODES.get(place, ()))
    labels = (word(f"{name}.{key}", caller.language) for key in SUGGESTED.get(place, ()))
    return coded + tuple(Option(label, {name: label}) for label in labels)


def _days(state: State, caller: Caller) -> tuple[Option, ...]:
    today = caller.now.date()
    told = (
        Option(word(f"day.{ago}", caller.language), {"on": (today - timedelta(days=ago)).isoformat()})
        for ago in (0, 1, 2)
    )
    return tuple(told)


def _milkings(state: State, caller: Caller) -> tuple[Option, ...]:
    today = caller.now.date()
    return tuple(
        Option(
            word(f"day.{m.ago}.{m.session}", caller.language),
            {"session": m.session, "on": (today - timedelta(days=m.ago)).isoformat()},
        )
        for m in days.milkings(caller.now)
    )


def _moments(state: State, caller: Caller) -> tuple[Option, ...]:
    def offered(moment: days.Moment) -> Option:
        label = word(f"day.{moment.ago}.{moment.part}" if moment.part else "day.now", caller.language)
        at = moment.at.isoformat(timespec="minutes")
        if state.question != "calved":
            return Option(label, {state.question or "": at})
        return Option(label, {"on": moment.at.date().isoformat(), "at": at})

    return tuple(map(offered, days.moments(caller.now)))


def _months(state: State, caller: Caller) -> tuple[Option, ...]:
    return tuple(
        Option(f"{word(f'month.{m.month}', caller.language)} {m.year}", {"month": m.strftime("%Y-%m")})
        for m in days.months(caller.now)
    )


def _stages(state: State, caller: Caller) -> tuple[Option, ...]:
    return tuple(
        Option(word(f"stage.{status}.{sex}", caller.language), {"sex": sex, "status": status})
        for status, sex in STAGES
    )


def _litters(state: State, caller: Caller) -> tuple[Option, ...]:
    def offered(litter: tuple[tuple[str | None, bool], ...]) -> Option:
        key = "_".join(part for sex, alive in litter for part in ("" if alive else "dead", sex) if part)
        calves = [{"sex": sex, "alive": alive, "name": None} for sex, alive in litter]
        return Option(word(f"calves.{key}", caller.language), {"calves": calves})

    return tuple(offered(litter) for litter in LITTERS)


def _hours(state: State, caller: Caller) -> tuple[Option, ...]:
    return tuple(Option(word(f"hour.{hour}", caller.language), {"hour": hour}) for hour in HOURS)


Choosing = Callable[[State, Caller], tuple[Option, ...]]

BY_QUESTION: dict[str, Choosing] = {
    "animal": _one_animal, "dam": _one_animal, "cows": _cows, "on": _days, "milking": _milkings,
    "first_seen": _moments, "calved": _moments, "last_dose": _moments, "stage": _stages, "calves": _litters,
    "month": _months, "hour": _hours, "score": _scores, "helper": _helpers, "result": _results, "sure": _sure,
}  # fmt: skip

BY_SORT: dict[Sort, Choosing] = {
    Sort.ANIMALS: _several_animals, Sort.SEVERAL: _several, Sort.CHOICE: _choices, Sort.FLAG: _flag,
    Sort.WORDS: _words,
}  # fmt: skip


def choices(state: State, caller: Caller) -> tuple[Option, ...]:
    """All that can be chosen at the question being asked, and the way to the optional fields."""
    question = state.question or ""
    choosing = BY_QUESTION.get(question)
    if choosing is None and question not in plans.FILLS:
        choosing = BY_SORT.get(plans.field_of(state, question).sort)
    options = choosing(state, caller) if choosing else ()
    if question in plans.WHEN and not state.details and plans.details(plans.item_of(state)):
        options += (Option(word("details", caller.language), to=DETAILS),)
    return options
