"""The power goes as texts come in: what was acknowledged is there, whole and once; of the rest no half."""

from __future__ import annotations

import itertools
import threading
from datetime import timedelta
from http.client import HTTPException
from zoneinfo import ZoneInfo

import pytest
import sqlalchemy as sa

from scheduler.sender import drain
from service.clock import SystemClock
from service.gateways.http import HttpGateway
from service.records.base import Store, open_engine
from service.records.outbox import LEASE, next_try
from service.records.tables import TextOut
from tests.support.clocks import SetClock
from tests.support.gateways import SECRET, GatewayServer
from tests.support.kept import Kept, kept
from tests.support.processes import process, register, settings_for
from tests.support.service import Caller

PHONES = tuple(f"+25562123450{n}" for n in range(4))
ACKNOWLEDGED_BEFORE_THE_END = 40
WHOLE = Kept(entries=1, replies=1)


class Senders:
    """A thread for each phone, which posts one text after the other until nobody answers."""

    def __init__(self, port: int) -> None:
        self._port = port
        self.posted: set[str] = set()
        self.acknowledged: set[str] = set()
        self.enough = threading.Event()
        self._threads = [threading.Thread(target=self._post, args=(phone,)) for phone in PHONES]
        for thread in self._threads:
            thread.start()

    def _post(self, phone: str) -> None:
        caller = Caller(self._port)
        for n in itertools.count():
            name = text_id(phone, n)
            self.posted.add(name)
            try:
                status, answer = caller.sms(name, phone, text_of(n))
            except (OSError, HTTPException):
                caller.close()
                return
            assert (status, answer) == (200, {"id": name, "status": "kept"})
            self.acknowledged.add(name)
            if len(self.acknowledged) >= ACKNOWLEDGED_BEFORE_THE_END:
                self.enough.set()

    def join(self) -> None:
        for thread in self._threads:
            thread.join()


def text_id(phone: str, n: int) -> str:
    return f"{phone}:{n}"


def text_of(n: int) -> str:
    return f"SPENT {1000 + n} ON SALT"


@pytest.fixture
def killed(database_url: str, gateway_http: GatewayServer) -> Senders:
    """A service was killed in the middle of what these senders posted."""
    register(settings_for(database_url, gateway_http.url), *PHONES)
    with process(database_url, gateway_http.url) as service:
        senders = Senders(service.ready().port)
        assert senders.enough.wait(60)
        service.kill()
        senders.join()
    return senders


def test_every_acknowledged_text_is_there_once_and_no_half_of_any(
    killed: Senders, database_url: str, gateway_http: GatewayServer
) -> None:
    found = kept(database_url)
    assert killed.acknowledged <= found.keys() <= killed.posted
    assert set(found.values()) == {WHOLE}

    # The gateway delivers again what was not acknowledged, and for good measure what was.
    with process(database_url, gateway_http.url) as service:
        caller = Caller(service.ready().port)
        for name in sorted(killed.posted):
            phone, n = name.split(":")
            status, answer = caller.sms(name, phone, text_of(int(n)))
            expected = "kept_before" if name in found else "kept"
            assert (status, answer) == (200, {"id": name, "status": expected})
        caller.close()
        assert service.stop() == 0

    again = kept(database_url)
    assert again.keys() == killed.posted
    assert set(again.values()) == {WHOLE}


def test_every_reply_reaches_the_gateway_and_repeats_only_under_the_same_id(
    killed: Senders, database_url: str, gateway_http: GatewayServer
) -> None:
    store = Store(open_engine(database_url))
    clock = SetClock(SystemClock().now() + 2 * LEASE)  # whatever the dead sender held is free
    gateway = HttpGateway(gateway_http.url, SECRET)
    drain(store, gateway, clock, ZoneInfo("Africa/Dar_es_Salaam"), lambda event: None)
    rows = store.read(lambda c: c.execute(sa.select(TextOut.id, TextOut.state)).all())
    assert store.read(next_try) is None
    store.close()
    assert {state for _, state in rows} == {"accepted"}
    assert set(gateway_http.ids()) == {name for name, _ in rows}
    said = {(call["id"], call["text"]) for call in gateway_http.calls}
    assert len(said) == len(rows)


def test_a_service_told_to_stop_ends_well_and_quickly(database_url: str, gateway_http: GatewayServer) -> None:
    for arguments in ((), ("--only", "web")):
        with process(database_url, gateway_http.url, *arguments) as service:
            assert service.ready().stop() == 0


def test_replies_leave_within_seconds(sqlite_url: str, gateway_http: GatewayServer) -> None:
    register(settings_for(sqlite_url, gateway_http.url), PHONES[0])
    with process(sqlite_url, gateway_http.url) as service:
        caller = Caller(service.ready().port)
        caller.sms("in-1", PHONES[0], text_of(1))
        caller.close()
        assert gateway_http.wait_for(1, timedelta(seconds=10))
    assert gateway_http.calls[0]["to"] == PHONES[0]
