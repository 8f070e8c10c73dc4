"""The sender takes what is due to the gateway, tells of it, and keeps its hands off the night."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest

from scheduler.sender import BATCH, drain
from service.gateways.http import HttpGateway
from service.messages import Event, Purpose
from service.records import outbox
from service.records.base import Store
from tests.support.clocks import SetClock
from tests.support.gateways import SECRET, GatewayServer
from tests.support.outbox import ASHA, REHEMA, column, put, reminder, reply, states

ZONE = ZoneInfo("Africa/Dar_es_Salaam")


class Sending:
    """A store, a gateway over HTTP, a clock, and the log."""

    def __init__(self, store: Store, http: GatewayServer, clock: SetClock) -> None:
        self.store, self.http, self.clock = store, http, clock
        self.gateway = HttpGateway(http.url, SECRET, timeout=0.5)
        self.log: list[Event] = []

    def put(self, *texts: Any) -> list[str]:
        return put(self.store, self.clock.now(), *texts)

    def drain(self) -> int:
        return drain(self.store, self.gateway, self.clock, ZONE, self.log.append)

    def next(self) -> datetime:
        at = self.store.read(outbox.next_try)
        assert at is not None
        return at

    def states(self) -> dict[str, str]:
        return states(self.store)


@pytest.fixture
def sending(store: Store, gateway_http: GatewayServer, clock: SetClock) -> Sending:
    return Sending(store, gateway_http, clock)


@pytest.fixture
def at(clock: SetClock) -> Callable[[str], None]:
    """Sets the farm's clock on 2 March 2026, or on the day that is given too."""

    def set_to(text: str) -> None:
        day = text if " " in text else "2026-03-02 " + text
        clock.set(datetime.fromisoformat(day).replace(tzinfo=ZONE))

    return set_to


def test_everything_due_is_sent_and_told(sending: Sending) -> None:
    ids = sending.put(reply("Sawa"), reply("Ng’ombe", ASHA))
    assert sending.drain() == 2
    assert sorted(sending.http.ids()) == sorted(ids)
    assert sending.states() == {"Sawa": "accepted", "Ng’ombe": "accepted"}
    sent = {
        "at": "2026-03-02T12:00+03:00",
        "event": "sent",
        "purpose": "reply",
        "segments": 1,
        "task_ids": [],
    }
    assert sending.log == [
        sent | {"phone": REHEMA, "text": "Sawa", "encoding": "gsm7"},
        sent | {"phone": ASHA, "text": "Ng’ombe", "encoding": "ucs2"},
    ]


def test_a_reminder_tells_its_tasks_and_a_numbered_list_its_items(sending: Sending) -> None:
    sending.put(reminder("Leo: 1 Tausi", task_ids=(7, 9), items=((7,), (9,))))
    sending.drain()
    [event] = sending.log
    assert (event["purpose"], event["task_ids"], event["items"]) == ("reminder", [7, 9], [[7], [9]])


def test_with_nothing_due_the_gateway_is_not_called(sending: Sending) -> None:
    assert sending.drain() == 0
    sending.put(reply("Sawa"))
    sending.drain()
    assert sending.drain() == 0
    assert len(sending.http.calls) == 1


def test_a_phones_texts_arrive_in_order_though_many_are_on_their_way(sending: Sending) -> None:
    phones = [REHEMA, ASHA, "+255623456789"]
    sending.put(*[reply(f"{phone} {n}", phone) for n in range(4) for phone in phones])
    assert sending.drain() == 12
    for phone in phones:
        told = [call["text"] for call in sending.http.calls if call["to"] == phone]
        assert told == [f"{phone} {n}" for n in range(4)]


def test_more_than_a_batch_goes_in_one_pass(sending: Sending) -> None:
    sending.put(*[reply(str(n), f"+2556200000{n:02}") for n in range(2 * BATCH + 1)])
    assert sending.drain() == 2 * BATCH + 1


def test_a_text_refused_for_good_is_failed_and_the_next_goes(sending: Sending) -> None:
    sending.http.answers = [400]
    sending.put(reply("kwanza"), reply("pili"))
    assert sending.drain() == 1
    assert sending.states() == {"kwanza": "failed", "pili": "accepted"}
    assert [event["text"] for event in sending.log] == ["pili"]


def test_a_text_not_accepted_is_tried_again_later_with_the_same_id(sending: Sending) -> None:
    sending.http.answers = [503, 429, 302, 401]
    [name] = sending.put(reply("Sawa"))
    for pause in (10, 20, 40, 80):
        assert sending.drain() == 0
        assert sending.next() == sending.clock.now() + timedelta(seconds=pause)
        assert sending.drain() == 0  # not before its time
        sending.clock.set(sending.next())
    assert sending.drain() == 1
    assert sending.http.ids() == [name] * 5
    assert column(sending.store, "Sawa", "attempts") == 5


def test_a_gateway_that_accepts_and_drops_the_line_gets_the_same_id_again(sending: Sending) -> None:
    sending.http.answers = [lambda: None]
    [name] = sending.put(reply("Sawa"))
    assert sending.drain() == 0
    sending.clock.set(sending.next())
    assert sending.drain() == 1
    assert sending.http.ids() == [name, name]
    assert len(sending.log) == 1


def test_one_text_that_always_fails_holds_up_no_other_phone(sending: Sending) -> None:
    sending.http.answers = [500]
    sending.put(reply("kwanza"))
    sending.drain()
    sending.put(reply("ya Asha", ASHA))
    assert sending.drain() == 1
    assert sending.states() == {"kwanza": "waiting", "ya Asha": "accepted"}


def test_while_the_gateway_takes_nothing_a_pass_ends_early(sending: Sending) -> None:
    sending.http.usual = 503
    sending.put(*[reply(str(n), f"+2556200000{n:02}") for n in range(3 * BATCH)])
    sending.drain()
    assert len(sending.http.calls) == BATCH


def test_when_the_gateway_is_back_all_goes_in_order_at_the_next_text(sending: Sending) -> None:
    sending.http.usual = 503
    sending.put(reply("1"), reply("2"))
    sending.put(reply("1 of Asha", ASHA))
    for _ in range(8):
        sending.drain()
        sending.clock.set(sending.next())
    sending.drain()
    sending.http.usual = 200
    sending.http.calls.clear()
    sending.clock.move(timedelta(seconds=1))
    sending.put(reply("3"))
    assert sending.drain() == 4
    assert [call["text"] for call in sending.http.calls if call["to"] == REHEMA] == ["1", "2", "3"]


def test_at_night_answers_go_and_reminders_wait_for_five(sending: Sending, at: Callable[[str], None]) -> None:
    at("20:30")
    sending.put(reminder("asubuhi"), reply("Sawa"))
    assert sending.drain() == 1
    assert sending.states() == {"asubuhi": "waiting", "Sawa": "accepted"}
    at("2026-03-03 05:00")
    assert sending.next() == sending.clock.now()
    assert sending.drain() == 1


def test_a_reminder_whose_window_ends_in_the_night_is_not_sent(
    sending: Sending, at: Callable[[str], None]
) -> None:
    at("20:31")
    sending.put(reminder("joto", not_after=sending.clock.now() + timedelta(hours=2)))
    assert sending.drain() == 0
    assert sending.states() == {"joto": "expired"}


def test_a_reminder_is_tried_until_its_window_is_over_and_then_no_more(sending: Sending) -> None:
    sending.http.usual = 503
    end = sending.clock.now() + timedelta(hours=3)
    sending.put(reminder("joto", not_after=end))
    while sending.states() == {"joto": "waiting"}:
        sending.drain()
        sending.clock.set(max(sending.clock.now(), sending.store.read(outbox.next_try) or end))
    assert sending.clock.now() == end
    assert sending.states() == {"joto": "expired"}
    assert sending.log == []


def test_every_purpose_goes_by_day(sending: Sending) -> None:
    texts = [outbox.OutboundText(phone=REHEMA, text=purpose.value, purpose=purpose) for purpose in Purpose]
    sending.put(*texts)
    assert sending.drain() == len(Purpose)


def test_a_sender_that_died_while_sending_leaves_its_text_to_the_next(sending: Sending) -> None:
    [name] = sending.put(reply("Sawa"))
    sending.store.write(lambda c: outbox.lease(c, now=sending.clock.now(), limit=5))  # and dies
    assert sending.drain() == 0
    sending.clock.set(sending.next())
    assert sending.drain() == 1
    assert sending.http.ids() == [name]


def test_a_clock_that_goes_back_an_hour_loses_nothing_and_sends_nothing_twice(sending: Sending) -> None:
    sending.put(reply("kabla"))
    sending.clock.move(timedelta(hours=-1))
    sending.put(reply("baada"))
    assert sending.drain() == 2
    assert sending.http.texts() == ["kabla", "baada"]
    sending.clock.move(timedelta(hours=2))
    assert sending.drain() == 0
