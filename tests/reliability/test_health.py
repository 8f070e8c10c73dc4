"""What ``/health`` says of a service whose gateway or database has trouble."""

from __future__ import annotations

import json
from typing import Any

from flask.testing import FlaskClient

from service.app import create_app
from service.bootstrap import build
from service.gateways.http import NOT_BELIEVED
from service.gateways.signature import HEADER, sign
from service.records import outbox
from tests.support.clocks import SetClock
from tests.support.databases import Server
from tests.support.gateways import SECRET, GatewayServer
from tests.support.outbox import put, reply
from tests.support.processes import settings_for


def parts(client: FlaskClient) -> tuple[int, dict[str, Any]]:
    response = client.get("/health")
    return response.status_code, response.get_json()["parts"]


def test_a_gateway_that_does_not_believe_us_makes_us_unwell_until_it_does(
    sqlite_url: str, gateway_http: GatewayServer, clock: SetClock
) -> None:
    runtime = build(settings_for(sqlite_url, gateway_http.url), clock=clock)
    client = create_app(runtime).test_client()
    assert parts(client)[0] == 200
    for status in (401, 403):
        gateway_http.answers = [status]
        put(runtime.store, clock.now(), reply("Sawa"))
        runtime.heartbeat()
        assert parts(client)[0] == 503
        assert parts(client)[1]["gateway"] == NOT_BELIEVED
        next_try = runtime.store.read(outbox.next_try)
        assert next_try is not None
        clock.set(next_try)
        runtime.heartbeat()
        assert parts(client)[0] == 200
    runtime.close()


def test_a_gateway_that_is_only_busy_does_not(
    sqlite_url: str, gateway_http: GatewayServer, clock: SetClock
) -> None:
    gateway_http.usual = 503
    runtime = build(settings_for(sqlite_url, gateway_http.url), clock=clock)
    put(runtime.store, clock.now(), reply("Sawa"))
    runtime.heartbeat()
    assert parts(create_app(runtime).test_client())[0] == 200
    runtime.close()


def test_without_its_database_it_is_unwell_and_acknowledges_nothing(
    database_servers: dict[str, Server], postgresql_url: str, gateway_http: GatewayServer
) -> None:
    url = database_servers["postgresql"].fresh()
    runtime = build(settings_for(url, gateway_http.url))
    client = create_app(runtime).test_client()
    database_servers["postgresql"].drop(url)
    status, said = parts(client)
    assert status == 503
    assert said["database"] != "ok"
    raw = json.dumps(
        {
            "id": "1",
            "from": "+255621234567",
            "to": "1",
            "text": "NEEMA 6",
            "sent_at": "2026-03-02T18:00+03:00",
        }
    ).encode()
    response = client.post("/gateway/sms", data=raw, headers={HEADER: sign(SECRET, raw)})
    assert response.status_code == 500
    assert list(response.get_json()) == ["error"]
    runtime.close()
