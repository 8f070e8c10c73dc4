"""The statement's reminder: on the first of each month, only for a farm that has asked for it."""

from __future__ import annotations

from datetime import date, datetime

from scheduler.planning import Cause, Open, difference, plan
from service.husbandry.herd import Farm
from service.husbandry.task import Task
from tests.unit.husbandry.book import at

ASKED = Farm(asked_on={"statement": date(2026, 3, 2)})


def open_at(farm: Farm, moment: datetime) -> list[tuple[date | datetime, date | datetime | None]]:
    return [(task.due, task.until) for task in plan(farm, moment).tasks]


def test_nobody_asked_is_nothing_planned() -> None:
    assert plan(Farm(), at("2026-03-02 08:00")).tasks == ()


def test_the_first_one_is_on_the_first_of_the_next_month() -> None:
    assert open_at(ASKED, at("2026-03-02 08:00")) == [(date(2026, 4, 1), None)]
    assert open_at(ASKED, at("2026-04-30 23:59")) == [(date(2026, 4, 1), None)]


def test_the_next_takes_its_place_when_its_own_day_begins() -> None:
    assert plan(ASKED, at("2026-04-02 08:00")).changes_at == at("2026-05-01 00:00")
    assert open_at(ASKED, at("2026-05-01 00:00")) == [(date(2026, 5, 1), None)]
    before: tuple[Task, ...] = plan(ASKED, at("2026-04-02 08:00")).tasks
    after = plan(ASKED, at("2026-05-01 00:00")).tasks
    change = difference([Open(7, before[0])], after, Cause.clock(at("2026-05-01 00:00")))
    assert [(one, why.value) for one, why in change.drop] == [(7, "replaced")]


def test_done_plans_the_next_at_once() -> None:
    done = Farm(asked_on=ASKED.asked_on, done={"statement": date(2026, 4, 1)})
    assert open_at(done, at("2026-04-01 08:00")) == [(date(2026, 5, 1), None)]


def test_asked_on_a_first_the_next_first_is_meant() -> None:
    asked = Farm(asked_on={"statement": date(2026, 4, 1)})
    assert open_at(asked, at("2026-04-01 08:00")) == [(date(2026, 5, 1), None)]
