"""The simulated gateway: what reaches phones, what reaches the service, and how the network misbehaves."""

from __future__ import annotations

import json
from datetime import datetime
from typing import Any

import pytest
from flask import Flask, request

from service.gateways.interface import GatewayUnreachable, Sent
from service.gateways.signature import HEADER, verify
from service.messages import Screen
from simulator.clock import VirtualClock
from simulator.doors import DoorFailed, Doors
from simulator.gateway import NoSession, SimulatedGateway
from simulator.steps import Network

PHONE = "+255621234567"
SECRET = "simulated"


class Service:
    """The two doors, writing down what is handed in; a menu ends when 0 is typed."""

    def __init__(self) -> None:
        self.texts: list[dict[str, Any]] = []
        self.inputs: list[dict[str, Any]] = []
        self.status = 200
        self.app = Flask("service")
        self.app.post("/gateway/sms")(self._sms)
        self.app.post("/gateway/menu")(self._menu)

    def _sms(self) -> tuple[dict[str, Any], int]:
        self.texts.append(self._body())
        return {"status": "kept"}, self.status

    def _menu(self) -> dict[str, Any]:
        self.inputs.append(self._body())
        return {"text": f"step {self.inputs[-1]['step']}", "more": self.inputs[-1]["input"] != "0"}

    def _body(self) -> dict[str, Any]:
        assert verify(SECRET, request.get_data(), request.headers.get(HEADER))
        body: dict[str, Any] = json.loads(request.get_data())
        return body


@pytest.fixture
def service() -> Service:
    return Service()


@pytest.fixture
def gateway(service: Service) -> SimulatedGateway:
    clock = VirtualClock(datetime.fromisoformat("2026-03-02T06:10+03:00"))
    gateway = SimulatedGateway(clock, "TZ")
    gateway.connect(Doors(service.app, SECRET))
    return gateway


def nothing() -> None:
    """After a delivery, nothing more."""


def test_texts_wait_on_the_phone_in_the_order_sent(gateway: SimulatedGateway) -> None:
    assert gateway.send("1", PHONE, "a") == Sent("1")
    gateway.send("2", PHONE, "b")
    gateway.send("3", "+255621234568", "c")
    assert list(gateway.inbox(PHONE)) == ["a", "b"]


def test_a_text_sent_again_under_its_id_reaches_the_phone_once(gateway: SimulatedGateway) -> None:
    gateway.send("1", PHONE, "a")
    gateway.send("1", PHONE, "a")
    assert list(gateway.inbox(PHONE)) == ["a"]


def test_an_inbox_is_found_by_the_number_as_people_write_it(gateway: SimulatedGateway) -> None:
    gateway.send("1", PHONE, "a")
    assert list(gateway.inbox("0621 234 567")) == ["a"]


@pytest.mark.parametrize("sender", ["15000", "MALIPO"])
def test_short_codes_and_names_stay_as_they_are(gateway: SimulatedGateway, sender: str) -> None:
    assert gateway.e164(sender) == sender


def test_a_network_that_loses_fails_every_attempt_until_it_is_fine(gateway: SimulatedGateway) -> None:
    gateway.network = Network.LOSES
    with pytest.raises(GatewayUnreachable):
        gateway.send("1", PHONE, "a")
    gateway.network = Network.FINE
    gateway.send("1", PHONE, "a")
    assert list(gateway.inbox(PHONE)) == ["a"]


def test_a_text_is_handed_in_as_the_contract_says(gateway: SimulatedGateway, service: Service) -> None:
    gateway.keep(PHONE, "ng’ombe 6")
    gateway.deliver(nothing)
    [body] = service.texts
    assert set(body) == {"id", "from", "to", "text", "sent_at"}
    assert (body["from"], body["text"]) == (PHONE, "ng’ombe 6")
    assert datetime.fromisoformat(body["sent_at"]) == datetime.fromisoformat("2026-03-02T06:10+03:00")


def test_a_network_that_repeats_hands_each_text_in_twice_under_one_id(
    gateway: SimulatedGateway, service: Service
) -> None:
    gateway.network = Network.REPEATS
    gateway.keep(PHONE, "a")
    gateway.keep(PHONE, "b")
    gateway.deliver(nothing)
    assert [body["text"] for body in service.texts] == ["a", "a", "b", "b"]
    assert len({body["id"] for body in service.texts}) == 2


def test_texts_sent_while_the_service_is_down_come_in_order_afterwards(
    gateway: SimulatedGateway, service: Service
) -> None:
    doors = Doors(service.app, SECRET)
    gateway.connect(None)
    gateway.keep(PHONE, "a")
    gateway.deliver(nothing)
    gateway.keep("+255621234568", "b")
    assert service.texts == []
    gateway.connect(doors)
    gateway.deliver(nothing)
    assert [body["text"] for body in service.texts] == ["a", "b"]


def test_a_text_over_which_the_service_fails_is_told_of(gateway: SimulatedGateway, service: Service) -> None:
    service.status = 500
    gateway.keep(PHONE, "a")
    with pytest.raises(DoorFailed, match="500"):
        gateway.deliver(nothing)


def test_a_menu_session_has_one_id_and_counts_its_inputs_from_nought(
    gateway: SimulatedGateway, service: Service
) -> None:
    assert gateway.dial(PHONE) == Screen("step 0", True)
    gateway.type(PHONE, "1")
    assert gateway.type(PHONE, "0") == Screen("step 2", False)
    assert [(body["step"], body["input"]) for body in service.inputs] == [(0, None), (1, "1"), (2, "0")]
    assert len({body["session"] for body in service.inputs}) == 1


def test_each_dialling_is_a_session_of_its_own(gateway: SimulatedGateway, service: Service) -> None:
    gateway.dial(PHONE)
    gateway.dial(PHONE)
    assert len({body["session"] for body in service.inputs}) == 2


def test_nothing_can_be_typed_before_dialling_or_after_the_end(gateway: SimulatedGateway) -> None:
    with pytest.raises(NoSession):
        gateway.type(PHONE, "1")
    gateway.dial(PHONE)
    gateway.hang_up(PHONE)
    with pytest.raises(NoSession):
        gateway.type(PHONE, "1")
    gateway.dial(PHONE)
    gateway.type(PHONE, "0")
    with pytest.raises(NoSession):
        gateway.type(PHONE, "1")


def test_no_screen_comes_while_the_service_is_down(gateway: SimulatedGateway) -> None:
    gateway.connect(None)
    assert gateway.dial(PHONE) is None
