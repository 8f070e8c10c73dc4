"""
Whatever the order of telling, and whatever is taken back: the same farm, the same tasks.

Farms are drawn at random: up to three animals, at most one entry of a kind for an animal and day.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.planning import Cause, Open, difference, plan
from service.husbandry.forms import EVERY_ANIMAL, Calf, Entry
from service.husbandry.herd import Farm, Told
from service.husbandry.holds import Hold, drug_hold
from service.husbandry.kinds.body import Girth
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Done, Setting
from service.husbandry.kinds.health import (
    Deworming,
    Disinfection,
    Illness,
    Recovery,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death, Naming, NewAnimal
from service.husbandry.kinds.one_day import Abortion, DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.replay import replay
from tests.unit.husbandry.book import PHONE, ZONE

FIRST = date(2025, 1, 1)
DAYS = 450
ANIMALS = {1: "Neema", 2: "Tausi", 3: "Simba"}
CALF_IDS = 100

days = st.integers(0, DAYS).map(lambda n: FIRST + timedelta(n))
moments = st.builds(
    lambda on, minutes: datetime.combine(on, time(minutes // 60, minutes % 60), ZONE),
    days,
    st.integers(0, 24 * 60 - 1),
)
results = st.sampled_from(["pregnant", "empty", "unsure"])
tasks = st.sampled_from(["return_heat", "calving", "calf_feed", "spray", "heat_after_calving"])
holds = st.none() | st.integers(0, 30).map(Decimal)


@st.composite
def treatments(draw: st.DrawFn, name: str) -> Treatment:
    """A drug with its label or without, its hour told or not, some put in at drying off."""
    on = draw(days)
    hour = draw(st.none() | st.integers(0, 23))
    return Treatment(
        animals=(name,),
        on=on,
        product=draw(st.sampled_from([None, "a", "B"])),
        milk_hold_days=draw(holds),
        meat_hold_days=draw(holds),
        last_dose=None if hour is None else datetime.combine(on, time(hour), ZONE),
        dry_cow=draw(st.booleans()),
    )


ONE_ANIMAL: tuple[Callable[[str], st.SearchStrategy[Entry]], ...] = (
    lambda name: st.builds(Heat, animal=st.just(name), first_seen=moments, bleeding=st.booleans()),
    lambda name: st.builds(Service, animal=st.just(name), on=days, about=st.booleans()),
    lambda name: st.builds(
        PregnancyCheck,
        animal=st.just(name),
        on=days,
        result=results,
        months=st.none() | st.integers(1, 9).map(Decimal),
    ),
    lambda name: st.builds(
        Calving, animal=st.just(name), on=days, calves=st.lists(st.builds(Calf), max_size=2).map(tuple)
    ),
    lambda name: st.builds(Abortion, animal=st.just(name), on=days),
    lambda name: st.builds(DryingOff, animal=st.just(name), on=days),
    lambda name: st.builds(Weaning, animal=st.just(name), on=days),
    lambda name: st.builds(Girth, animal=st.just(name), on=days, cm=st.just(Decimal(150))),
    treatments,
    lambda name: st.builds(Vaccination, animals=st.just((name,)), on=days, disease=st.just("fmd")),
    lambda name: st.builds(Illness, animal=st.just(name), on=days, signs=st.just(("off_feed",))),
    lambda name: st.builds(Recovery, animal=st.just(name), on=days),
    lambda name: st.builds(Naming, animal=st.just(name), name=st.just(f"{name} 2"), on=days),
    lambda name: st.builds(Done, task=tasks, animals=st.just((name,)), on=days),
    lambda name: st.builds(AnimalSale, animal=st.just(name), on=days),
    lambda name: st.builds(Death, animal=st.just(name), on=days),
)
ALL_ANIMALS: st.SearchStrategy[Entry] = st.one_of(
    st.builds(Spraying, on=days, milk_hold_days=holds),
    st.builds(Deworming, on=days, milk_hold_days=holds),
    st.builds(Disinfection, on=days),
    st.builds(Setting, task=st.just("weigh"), every_days=st.just(Decimal(30)), on=days),
    st.builds(Setting, task=st.just("spray"), every_days=st.just(Decimal(14)), on=days),
    st.builds(Done, task=tasks, animals=st.just(()), on=days),
)


def entering(name: str) -> st.SearchStrategy[Entry]:
    return st.builds(
        NewAnimal,
        name=st.just(name),
        sex=st.just("female"),
        born=st.none() | days,
        status=st.sampled_from([None, "calf", "heifer", "in_calf_heifer", "milking", "dry"]),
        breed=st.sampled_from([None, "Friesian", "Ayrshire x zebu"]),
        on=days,
    )


@st.composite
def farms(draw: st.DrawFn) -> list[Told]:
    """What a farm told, in some order."""
    chosen = draw(st.integers(1, len(ANIMALS)))
    names = dict(list(ANIMALS.items())[:chosen])
    entries: list[tuple[Entry, tuple[int, ...]]] = [
        (draw(entering(name)), (animal,)) for animal, name in names.items()
    ]
    for animal, name in names.items():
        one = st.one_of(*(make(name) for make in ONE_ANIMAL))
        entries += [(entry, (animal,)) for entry in draw(st.lists(one, max_size=10))]
    entries += [(entry, ()) for entry in draw(st.lists(ALL_ANIMALS, max_size=6))]
    unlike = {(entry.KIND, animals, entry.happened_on): (entry, animals) for entry, animals in entries}
    return [_told(place, entry, animals) for place, (entry, animals) in enumerate(unlike.values(), start=1)]


def _told(place: int, entry: Entry, animals: tuple[int, ...]) -> Told:
    alive = len(entry.calves) if isinstance(entry, Calving) else 0
    return Told(
        id=place,
        entry=entry,
        animals=animals,
        calves=tuple(CALF_IDS * place + n for n in range(alive)),
        told_at=datetime.combine(FIRST + timedelta(DAYS), time(6), ZONE),
        told_by=PHONE,
    )


nows = st.builds(lambda now, hours: now + timedelta(hours=hours), moments, st.integers(0, 400 * 24))


def in_another_order(draw: st.DataObject, told: list[Told]) -> list[Told]:
    """The same entries told in another order: their ids follow it."""
    ids = sorted(one.id for one in told)
    return [
        replace(one, id=number) for number, one in zip(ids, draw.draw(st.permutations(told)), strict=True)
    ]


@settings(max_examples=80, deadline=None)
@given(farms(), st.data(), nows)
def test_any_order_of_telling_ends_in_the_same_farm_and_the_same_tasks(
    told: list[Told], data: st.DataObject, now: datetime
) -> None:
    farm, other = replay(told), replay(in_another_order(data, told))
    assert other == farm
    assert plan(other, now) == plan(farm, now)


@settings(max_examples=60, deadline=None)
@given(farms(), st.data())
def test_what_was_taken_back_was_never_told(told: list[Told], data: st.DataObject) -> None:
    """An animal whose entering is taken back takes with it all that was told of it alone."""
    undone = data.draw(st.sampled_from([one.animals for one in told if isinstance(one.entry, NewAnimal)]))
    left = [one for one in told if not (isinstance(one.entry, NewAnimal) and one.animals == undone)]
    of_others = [one for one in left if one.animals != undone]
    assert replay(left).animals == replay(of_others).animals


@settings(max_examples=60, deadline=None)
@given(farms(), farms(), nows)
def test_the_difference_makes_the_wanted_tasks_of_any_open_ones(
    told: list[Told], later: list[Told], now: datetime
) -> None:
    kept = [Open(number, task) for number, task in enumerate(plan(replay(told), now).tasks)]
    wanted = plan(replay(later), now).tasks
    change = difference(kept, wanted, Cause.recorded(later, now))
    gone = {number for number, _ in change.drop}
    result = [one.task for one in kept if one.id not in gone] + list(change.add)
    windows = {(task.key, task.due, task.until) for task in result}
    assert windows == {(task.key, task.due, task.until) for task in wanted}
    assert len(result) == len(wanted) == len({task.key for task in wanted})


@settings(max_examples=60, deadline=None)
@given(farms(), nows)
def test_the_same_plan_twice_makes_no_difference(told: list[Told], now: datetime) -> None:
    first, again = plan(replay(told), now), plan(replay(told), now)
    kept = [Open(number, task) for number, task in enumerate(first.tasks)]
    change = difference(kept, again.tasks, Cause.clock(now))
    assert (change.drop, change.add) == ((), ())


@settings(max_examples=80, deadline=None)
@given(farms(), nows, st.lists(st.floats(0, 0.999), min_size=3, max_size=3))
def test_a_plan_holds_until_it_says_it_changes(told: list[Told], now: datetime, shares: list[float]) -> None:
    farm = replay(told)
    first = plan(farm, now)
    end = first.changes_at or now + timedelta(days=2000)
    for share in shares:
        assert plan(farm, now + (end - now) * share).tasks == first.tasks
    if first.changes_at is not None:
        assert first.changes_at > now
        assert plan(farm, first.changes_at).tasks != first.tasks


@settings(max_examples=60, deadline=None)
@given(farms(), nows)
def test_nothing_over_is_planned_and_nothing_of_those_who_left(told: list[Told], now: datetime) -> None:
    farm: Farm = replay(told)
    for task in plan(farm, now).tasks:
        if isinstance(task.until, datetime):
            assert task.until + timedelta(minutes=1) > now
        elif task.until is not None:
            assert task.until >= now.date()
        assert task.key.animal is None or farm.animals[task.key.animal].present


@settings(max_examples=60, deadline=None)
@given(farms())
def test_animals_present_go_by_names_of_at_most_twelve_characters_each_its_own(told: list[Told]) -> None:
    present = [animal for animal in replay(told).animals.values() if animal.present]
    names = [animal.name.casefold() for animal in present]
    assert all(0 < len(name) <= 12 for name in names)
    assert len(set(names)) == len(names)
    assert EVERY_ANIMAL not in names


@settings(max_examples=80, deadline=None)
@given(farms(), days)
def test_milk_is_free_only_when_every_known_hold_is_over(told: list[Told], on: date) -> None:
    """The task's day is the first free one, unless a label is not told or the first milk is the calf's."""
    for animal in replay(told).animals.values():
        held = drug_hold(animal, on, "evening")
        if animal.milk_held_until is not None and on >= animal.milk_held_until:
            assert held is None or held.first is None
        if not animal.doses:
            assert held is None
        if held is not None and held.first is not None:
            assert held.first.on >= on
            assert drug_hold(animal, held.first.on, "evening") in (None, Hold(None)) or any(
                dose.dry_cow or dose.on > on for dose in animal.doses
            )
