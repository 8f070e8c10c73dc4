"""The same call twice, one after the other and at the same moment, does its work once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

import pytest

from service.app import create_app
from service.bootstrap import Runtime, build
from service.records.base import open_engine
from tests.support.gateways import GatewayServer
from tests.support.kept import Kept, kept
from tests.support.outbox import ASHA, REHEMA
from tests.support.processes import settings_for
from tests.support.service import Answer, Caller, listening

AT_ONCE = 8


@pytest.fixture
def runtime(database_url: str, gateway_http: GatewayServer) -> Iterator[Runtime]:
    runtime = build(settings_for(database_url, gateway_http.url))
    runtime.register_farm(REHEMA, "Rehema", "en")
    runtime.register_farm(ASHA, "Asha", "en")
    yield runtime
    runtime.close()


@pytest.fixture
def port(runtime: Runtime) -> Iterator[int]:
    with listening(create_app(runtime)) as port:
        yield port


@pytest.fixture
def caller(port: int) -> Iterator[Caller]:
    caller = Caller(port)
    yield caller
    caller.close()


def at_once(port: int, calls: list[tuple[str, str, str]]) -> list[Answer]:
    """The answers to *calls* (id, sender, text), made at the same time."""

    def call(one: tuple[str, str, str]) -> Answer:
        caller = Caller(port)
        try:
            return caller.sms(*one)
        finally:
            caller.close()

    with ThreadPoolExecutor(len(calls)) as pool:
        return list(pool.map(call, calls))


def test_a_text_twice_is_recorded_and_answered_once(caller: Caller, database_url: str) -> None:
    first = caller.sms("in-1", REHEMA, "SPENT 1000 ON SALT")
    second = caller.sms("in-1", REHEMA, "SPENT 1000 ON SALT")
    assert first == (200, {"id": "in-1", "status": "kept"})
    assert second == (200, {"id": "in-1", "status": "kept_before"})
    assert kept(database_url) == {"in-1": Kept(entries=1, replies=1)}


def test_a_text_many_times_at_once_is_recorded_and_answered_once(port: int, database_url: str) -> None:
    for turn in range(5):
        answers = at_once(port, [(f"in-{turn}", REHEMA, f"SPENT {1000 + turn} ON SALT")] * AT_ONCE)
        assert Counter(status for status, _ in answers) == {200: AT_ONCE}
        told = Counter(answer["status"] for _, answer in answers)
        assert told == {"kept": 1, "kept_before": AT_ONCE - 1}
    assert set(kept(database_url).values()) == {Kept(entries=1, replies=1)}
    assert len(kept(database_url)) == 5


def test_texts_of_one_farm_at_once_are_all_recorded_and_planned_as_if_one_after_the_other(
    runtime: Runtime, port: int, database_url: str
) -> None:
    told = [f"NEW COW {name}" for name in ("NEEMA", "TAUSI", "ZAWADI", "PENDO")]
    assert {
        status for status, _ in at_once(port, [(f"a-{n}", REHEMA, text) for n, text in enumerate(told)])
    } == {200}
    served = [f"{name} WAS SERVED TODAY" for name in ("NEEMA", "TAUSI", "ZAWADI", "PENDO")]
    assert {
        status for status, _ in at_once(port, [(f"b-{n}", REHEMA, text) for n, text in enumerate(served)])
    } == {200}
    assert set(kept(database_url).values()) == {Kept(entries=1, replies=1)}
    assert open_tasks(database_url)["pregnancy_check"] == 4
    assert max(open_tasks_by_animal(database_url).values()) == 1


def open_tasks(database_url: str) -> Counter[str]:
    return Counter(task for task, _ in rows(database_url))


def open_tasks_by_animal(database_url: str) -> Counter[tuple[str, int | None]]:
    return Counter(rows(database_url))


def rows(database_url: str) -> list[tuple[str, int | None]]:
    """Task and animal of each open task."""
    engine = open_engine(database_url)
    with engine.connect().execution_options(reading=True) as connection:
        found = connection.exec_driver_sql("SELECT task, animal_id FROM tasks WHERE state = 'open'").all()
    engine.dispose()
    return [(task, animal) for task, animal in found]


def test_a_menu_step_twice_gets_the_same_screen_and_changes_nothing(
    caller: Caller, database_url: str
) -> None:
    def step(number: int, typed: str | None) -> Answer:
        return caller.post("/gateway/menu", {"session": "s", "step": number, "from": REHEMA, "input": typed})

    first = step(0, None)
    assert first[0] == 200
    assert step(0, None) == first
    second = step(1, "1")
    before = kept(database_url)
    assert step(1, "1") == second
    assert kept(database_url) == before


def test_a_receipt_for_an_unknown_id_is_taken(caller: Caller) -> None:
    assert caller.post("/gateway/receipt", {"id": "nobody's", "state": "failed"})[0] == 200


def test_a_text_whose_clock_is_ahead_or_behind_is_kept_all_the_same(
    runtime: Runtime, caller: Caller, database_url: str
) -> None:
    now = runtime.clock.now()
    for n, hours in enumerate((-1, 1, -24 * 400, 24 * 400)):
        status, _ = caller.sms(f"in-{n}", REHEMA, f"SPENT {1000 + n} ON SALT", now + timedelta(hours=hours))
        assert status == 200
    assert set(kept(database_url).values()) == {Kept(entries=1, replies=1)}
    assert len(kept(database_url)) == 4
