"""What every gateway must do, run over each of them; over HTTP with a real server."""

from __future__ import annotations

import socket
import time

import pytest

from service.clock import Clock
from service.gateways.choose import gateway_of
from service.gateways.http import NOT_BELIEVED, HttpGateway
from service.gateways.interface import (
    Gateway,
    GatewayRefused,
    GatewayUnauthorised,
    GatewayUnreachable,
    Sent,
)
from service.gateways.none import NoGateway
from service.settings import Settings
from simulator.gateway import SimulatedGateway
from simulator.transcript import Network
from tests.support.gateways import SECRET, GatewayServer

PHONE = "+255621234567"


def http(server: GatewayServer, secret: str = SECRET) -> HttpGateway:
    return HttpGateway(server.url, secret, timeout=0.5)


@pytest.fixture(params=["http", "simulated"])
def working(request: pytest.FixtureRequest, gateway_http: GatewayServer, clock: Clock) -> Gateway:
    """Each gateway that can send, behaving well."""
    return http(gateway_http) if request.param == "http" else SimulatedGateway(clock, "TZ")


@pytest.fixture(params=["http", "simulated", "none"])
def failing(request: pytest.FixtureRequest, gateway_http: GatewayServer, clock: Clock) -> Gateway:
    """Each gateway while it takes nothing."""
    if request.param == "none":
        return NoGateway()
    if request.param == "http":
        gateway_http.usual = 503
        return http(gateway_http)
    simulated = SimulatedGateway(clock, "TZ")
    simulated.network = Network.LOSES
    return simulated


class TestEveryGateway:
    def test_an_accepted_text_is_answered_with_its_id(self, working: Gateway) -> None:
        assert working.send("a1", PHONE, "Habari") == Sent("a1")

    def test_the_same_id_may_be_sent_again(self, working: Gateway) -> None:
        assert working.send("a1", PHONE, "Habari") == working.send("a1", PHONE, "Habari")

    def test_one_that_works_is_healthy(self, working: Gateway) -> None:
        working.send("a1", PHONE, "Habari")
        assert (working.health(), working.check()) == ("ok", "ok")

    def test_one_that_takes_nothing_says_so_without_the_text(self, failing: Gateway) -> None:
        with pytest.raises(GatewayUnreachable) as caught:
            failing.send("a1", PHONE, "Siri yangu")
        assert "Siri yangu" not in str(caught.value)
        assert PHONE not in str(caught.value)

    def test_it_says_how_many_texts_it_takes_at_once(self, working: Gateway, failing: Gateway) -> None:
        assert working.at_once >= 1
        assert failing.at_once >= 1


class TestHttp:
    def test_a_text_goes_as_signed_json(self, gateway_http: GatewayServer) -> None:
        http(gateway_http).send("a1", PHONE, "Ng'ombe: lita 6 @ £1 Ñ")
        assert gateway_http.calls == [{"id": "a1", "to": PHONE, "text": "Ng'ombe: lita 6 @ £1 Ñ"}]
        assert gateway_http.forged == 0

    @pytest.mark.parametrize("status", [200, 201, 202, 204, 299])
    def test_2xx_is_accepted(self, gateway_http: GatewayServer, status: int) -> None:
        gateway_http.usual = status
        assert http(gateway_http).send("a1", PHONE, "Habari") == Sent("a1")

    @pytest.mark.parametrize("status", [400, 402, 404, 405, 409, 410, 413, 422, 451, 499])
    def test_4xx_is_refused_for_good(self, gateway_http: GatewayServer, status: int) -> None:
        gateway_http.usual = status
        with pytest.raises(GatewayRefused):
            http(gateway_http).send("a1", PHONE, "Habari")

    @pytest.mark.parametrize("status", [408, 425, 429, 500, 502, 503, 504, 599, 300, 301, 302, 307, 308, 600])
    def test_all_else_is_for_later_and_no_redirect_is_followed(
        self, gateway_http: GatewayServer, status: int
    ) -> None:
        gateway_http.usual = status
        with pytest.raises(GatewayUnreachable) as caught:
            http(gateway_http).send("a1", PHONE, "Habari")
        assert not isinstance(caught.value, GatewayUnauthorised)
        assert len(gateway_http.calls) == 1

    @pytest.mark.parametrize("status", [401, 403])
    def test_401_and_403_are_for_later_and_make_it_unwell_until_one_is_accepted(
        self, gateway_http: GatewayServer, status: int
    ) -> None:
        gateway = http(gateway_http)
        gateway_http.answers = [status, 500]
        with pytest.raises(GatewayUnauthorised):
            gateway.send("a1", PHONE, "Habari")
        with pytest.raises(GatewayUnreachable):
            gateway.send("a1", PHONE, "Habari")
        assert gateway.health() == NOT_BELIEVED
        gateway.send("a1", PHONE, "Habari")
        assert gateway.health() == "ok"

    def test_with_another_secret_it_is_not_believed_and_does_not_show_it(
        self, gateway_http: GatewayServer
    ) -> None:
        gateway = http(gateway_http, "hunter2")
        with pytest.raises(GatewayUnauthorised) as caught:
            gateway.send("a1", PHONE, "Habari")
        assert gateway_http.forged == 1
        assert "hunter2" not in str(caught.value) + repr(gateway) + gateway.health()

    def test_a_connection_that_drops_after_the_text_was_taken_is_for_later(
        self, gateway_http: GatewayServer
    ) -> None:
        gateway_http.answers = [lambda: None]
        with pytest.raises(GatewayUnreachable):
            http(gateway_http).send("a1", PHONE, "Habari")
        assert gateway_http.ids() == ["a1"]

    def test_a_gateway_that_stays_silent_is_given_up(self, gateway_http: GatewayServer) -> None:
        gateway_http.answers = [lambda: time.sleep(1)]
        with pytest.raises(GatewayUnreachable):
            http(gateway_http).send("a1", PHONE, "Habari")

    def test_a_gateway_that_is_not_there_is_for_later_and_the_check_tells(self) -> None:
        with socket.socket() as held:  # bound and not listening: nobody answers there
            held.bind(("127.0.0.1", 0))
            gateway = HttpGateway(f"http://127.0.0.1:{held.getsockname()[1]}", SECRET, timeout=0.5)
            with pytest.raises(GatewayUnreachable):
                gateway.send("a1", PHONE, "Habari")
            assert gateway.check() == "The gateway cannot be reached (ConnectionRefusedError)."
            assert gateway.health() == "ok"  # not reached is not unwell: the texts are tried again


class TestChoice:
    def test_no_address_means_that_texts_wait(self) -> None:
        gateway = gateway_of(Settings.from_env({"BYRELINE_GATEWAY_SECRET": "siri"}))
        assert gateway.health() == "No gateway address is set; outgoing texts wait."

    def test_no_secret_means_that_texts_wait(self) -> None:
        gateway = gateway_of(Settings.from_env({"BYRELINE_GATEWAY_URL": "http://gateway.example"}))
        assert gateway.health() == "The gateway's secret is not set; outgoing texts wait."

    def test_an_address_and_a_secret_mean_http(self, gateway_http: GatewayServer) -> None:
        settings = Settings.from_env(
            {"BYRELINE_GATEWAY_URL": gateway_http.url + "/", "BYRELINE_GATEWAY_SECRET": SECRET}
        )
        gateway_of(settings).send("a1", PHONE, "Habari")
        assert gateway_http.ids() == ["a1"]
