"""Several senders on one PostgreSQL database send each text once, a phone's in order."""

from __future__ import annotations

import threading
from collections import defaultdict
from zoneinfo import ZoneInfo

from scheduler.sender import drain
from service.clock import SystemClock
from service.gateways.http import HttpGateway
from service.records.base import Store, open_engine
from tests.support.gateways import SECRET, GatewayServer
from tests.support.outbox import put, reply, states

SENDERS = 3
PHONES = [f"+2556212345{n:02}" for n in range(12)]
EACH = 6


def test_senders_at_once_send_each_text_once_and_a_phones_in_order(
    postgresql_url: str, gateway_http: GatewayServer
) -> None:
    stores = [Store(open_engine(postgresql_url)) for _ in range(SENDERS)]
    clock = SystemClock()
    ids = put(
        stores[0], clock.now(), *[reply(f"{phone} {n}", phone) for n in range(EACH) for phone in PHONES]
    )
    accepted: list[int] = []

    def send(store: Store) -> None:
        gateway = HttpGateway(gateway_http.url, SECRET)
        accepted.append(drain(store, gateway, clock, ZoneInfo("Africa/Dar_es_Salaam"), lambda event: None))

    while "waiting" in states(stores[0]).values():
        threads = [threading.Thread(target=send, args=(store,)) for store in stores]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    for store in stores:
        store.close()

    assert sum(accepted) == len(ids)
    assert sorted(gateway_http.ids()) == sorted(ids)
    heard = defaultdict(list)
    for call in gateway_http.calls:
        heard[call["to"]].append(call["text"])
    assert heard == {phone: [f"{phone} {n}" for n in range(EACH)] for phone in PHONES}
