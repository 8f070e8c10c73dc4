"""When a topic of advice comes by itself. Pure: herds and days in, topics out."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from scheduler.advising import FOLLOWS_DAYS, Matter, chosen, matters, next_look
from service.husbandry.herd import Animal, Dose, Farm, Heat, Sex, Status
from service.husbandry.task import Key, Task

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
TODAY = date(2026, 3, 2)


def at(day: date, hour: int = 6, minute: int = 0) -> datetime:
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=ZONE)


def cow(**values: object) -> Animal:
    told: dict[str, object] = {
        "id": 1, "name": "Neema", "names": ("Neema",), "sex": Sex.FEMALE, "entered_on": TODAY,
        "told_status": Status.MILKING,
    }  # fmt: skip
    return Animal(**{**told, **values})  # type: ignore[arg-type]


def farm(*animals: Animal, **values: object) -> Farm:
    return replace(Farm(animals={animal.id: animal for animal in animals}), **values)  # type: ignore[arg-type]


def calving_watch(due: date) -> Task:
    return Task(key=Key(task="calving", animal=1), due=due, until=due + timedelta(23), since=TODAY)


def topics(of: Farm, *tasks: Task) -> list[str]:
    return [one.topic for one in matters(of, tasks, 6)]


def test_a_quiet_herd_needs_no_advice():
    assert topics(farm(cow())) == []


def test_a_calving_is_told_of_the_day_before_its_watch_begins():
    due = TODAY + timedelta(10)
    (one,) = matters(farm(cow()), [calving_watch(due)], 6)
    assert (one.topic, one.name, one.last) == ("calving", "Neema", due - timedelta(1))


def test_where_the_hour_is_the_evenings_the_eve_of_the_first_reminder_is_a_day_sooner():
    due = TODAY + timedelta(10)
    (one,) = matters(farm(cow()), [calving_watch(due)], 18)
    assert one.last == due - timedelta(2)


def test_a_calving_comes_on_the_latest_day_without_a_reminder():
    due = TODAY + timedelta(10)
    those = matters(farm(cow()), [calving_watch(due)], 6)
    days = [due - timedelta(ahead) for ahead in range(5, 0, -1)]

    def comes(*busy: date) -> list[date]:
        return [day for day in days if chosen(those, day, set(busy), settled=False, rested=False)]

    eve = due - timedelta(1)
    assert comes() == [eve]
    assert comes(eve) == [eve - timedelta(1)]
    assert comes(eve, eve - timedelta(1)) == [eve - timedelta(2)]
    assert comes(eve, eve - timedelta(1), eve - timedelta(2)) == []


@pytest.mark.parametrize(
    ("topic", "animal"),
    [
        ("milk_hold", cow(doses=(Dose(kind="treatment", on=TODAY, asks=("milk",)),))),
        ("serving", cow(heat=Heat(at(TODAY), bleeding=False))),
        ("vaccination", cow(vaccinated={"fmd": TODAY})),
        ("worms", cow(dewormed_on=TODAY)),
        ("calf", cow(born=TODAY, dam=2, told_status=Status.CALF)),
    ],
)
def test_what_was_told_is_followed_by_its_topic(topic, animal):
    (one,) = matters(farm(animal), [], 6)
    first, last = FOLLOWS_DAYS[topic]
    assert one == Matter(topic, TODAY + timedelta(first), TODAY + timedelta(last))


@pytest.mark.parametrize(
    "animal",
    [
        cow(doses=(Dose(kind="treatment", on=TODAY, milk_days=0),)),
        cow(doses=(Dose(kind="spraying", on=TODAY, milk_days=3),)),
        cow(told_status=Status.HEIFER, doses=(Dose(kind="treatment", on=TODAY, milk_days=3),)),
        cow(dewormed_on=TODAY, left_on=TODAY),
        cow(born=TODAY - timedelta(30), told_status=Status.CALF, bought=True),
    ],
    ids=["a label without a hold", "no treatment", "no milk", "sold", "bought"],
)
def test_what_asks_for_no_topic_brings_none(animal):
    assert topics(farm(animal)) == []


def test_spraying_is_the_herds():
    assert topics(farm(cow(), sprayed_on=TODAY)) == ["ticks"]


def test_the_most_urgent_comes_first():
    ill = cow(doses=(Dose(kind="treatment", on=TODAY),), dewormed_on=TODAY)
    assert topics(farm(ill), calving_watch(TODAY + timedelta(9))) == ["calving", "milk_hold", "worms"]


def test_who_has_asked_for_quiet_is_told_nothing():
    assert topics(farm(cow(dewormed_on=TODAY), settings={"off": ("advice",)})) == []


@pytest.mark.parametrize(("settled", "rested"), [(False, True), (True, False)])
def test_a_new_farm_and_one_just_advised_wait_for_all_but_a_calving(settled, rested):
    those = matters(farm(cow(dewormed_on=TODAY)), [], 6)
    tomorrow = TODAY + timedelta(1)
    assert chosen(those, tomorrow, set(), settled=True, rested=True) is not None
    assert chosen(those, tomorrow, set(), settled=settled, rested=rested) is None


def test_nothing_comes_on_a_day_with_a_reminder():
    those = matters(farm(cow(dewormed_on=TODAY)), [], 6)
    tomorrow = TODAY + timedelta(1)
    assert chosen(those, tomorrow, {tomorrow}, settled=True, rested=True) is None


def test_the_next_look_is_at_the_farms_hour_of_the_first_day_that_comes():
    those = matters(farm(cow(dewormed_on=TODAY)), [], 6)  # matters from 3 to 16 March
    assert next_look(those, at(TODAY, 10), 6) == at(date(2026, 3, 3))
    assert next_look(those, at(date(2026, 3, 5), 5, 59), 6) == at(date(2026, 3, 5))
    assert next_look(those, at(date(2026, 3, 5)), 6) == at(date(2026, 3, 6))
    assert next_look(those, at(date(2026, 3, 16)), 6) is None
