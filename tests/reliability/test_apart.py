"""Web and scheduler as processes of their own, on one PostgreSQL database."""

from __future__ import annotations

from datetime import timedelta

from tests.support.gateways import GatewayServer
from tests.support.kept import Kept, kept
from tests.support.outbox import REHEMA
from tests.support.processes import process, register, settings_for
from tests.support.service import Caller


def test_what_the_web_takes_in_the_scheduler_answers(
    postgresql_url: str, gateway_http: GatewayServer
) -> None:
    register(settings_for(postgresql_url, gateway_http.url), REHEMA)
    with (
        process(postgresql_url, gateway_http.url, "--only", "web") as web,
        process(postgresql_url, gateway_http.url, "--only", "scheduler") as scheduler,
    ):
        caller = Caller(web.ready().port)
        assert caller.sms("in-1", REHEMA, "SPENT 1000 ON SALT")[0] == 200
        caller.close()
        assert gateway_http.wait_for(1, timedelta(seconds=60))
        assert scheduler.stop() == 0
        assert web.stop() == 0
    assert kept(postgresql_url) == {"in-1": Kept(entries=1, replies=1)}
    assert [call["to"] for call in gateway_http.calls] == [REHEMA]


def test_several_of_them_started_together_on_an_empty_database_migrate_it_once(
    empty_postgresql_url: str, gateway_http: GatewayServer
) -> None:
    with (
        process(empty_postgresql_url, gateway_http.url, "--only", "web") as first,
        process(empty_postgresql_url, gateway_http.url, "--only", "web") as second,
        process(empty_postgresql_url, gateway_http.url, "--only", "scheduler") as scheduler,
    ):
        for web in (first, second):
            caller = Caller(web.ready().port)
            assert caller.raw("GET", "/health")[0] == 200
            caller.close()
        assert [each.stop() for each in (first, second, scheduler)] == [0, 0, 0]
