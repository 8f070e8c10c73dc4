"""The demo: its history, and what can be done on its page."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from werkzeug.test import Client, TestResponse

from simulator.demo import application, open_village
from simulator.page import LABELS
from simulator.steps import Network
from simulator.village import Village

REHEMA = "+255620000001"


@pytest.fixture(scope="module")
def village(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Village]:
    village = open_village(str(tmp_path_factory.mktemp("demo")))
    yield village
    village.stage.switch_off()


@pytest.fixture
def client(village: Village) -> Client:
    return Client(application(village))


def page(client: Client) -> str:
    response = client.get("/")
    assert response.status_code == 200
    return response.get_data(as_text=True)


def act(client: Client, action: str, **fields: str) -> TestResponse:
    return client.post(f"/demo/{action}", data=fields)


def done(client: Client, action: str, **fields: str) -> str:
    """The page after an action that went well."""
    response = act(client, action, **fields)
    assert (response.status_code, response.headers["Location"]) == (303, "/")
    return page(client)


def test_both_languages_have_the_same_labels() -> None:
    english, kiswahili = LABELS["en"], LABELS["sw"]
    assert set(english) == set(kiswahili)
    assert set(english["tasks"]) == set(kiswahili["tasks"])


def test_the_history_was_understood(village: Village) -> None:
    sorry = ("Samahani", "Sorry", "Bado hatu", "Not written")
    misread = [
        (line.text, answer.text)
        for thread in village.diary.threads.values()
        for line, answer in pairwise(thread)
        if line.mine and any(word in answer.text for word in sorry)
    ]
    assert misread == []


def test_the_history_fills_several_farms(village: Village) -> None:
    assert len(village.phones) >= 5
    assert sum(len(thread) for thread in village.diary.threads.values()) > 300


def test_a_text_is_answered_on_the_page_and_shows_what_followed(client: Client) -> None:
    text = done(client, "text", phone=REHEMA, text="Neema 6.25")
    assert "Neema 6.25" in text
    assert "litres 6.25" in text
    assert "1 segment" in text


def test_what_is_typed_is_shown_as_text_and_nothing_else(client: Client) -> None:
    assert "<script>alert" not in done(client, "text", phone=REHEMA, text="<script>alert(1)</script>")


def test_the_menu_opens_answers_and_closes(client: Client) -> None:
    assert 'class="screen"' in done(client, "dial", phone=REHEMA)
    assert 'class="screen"' in done(client, "type", phone=REHEMA, typed="1")
    assert 'class="screen"' not in done(client, "hang-up", phone=REHEMA)


def test_typing_without_a_menu_is_refused_in_words(client: Client) -> None:
    response = act(client, "type", phone=REHEMA, typed="1")
    assert LABELS["en"]["no_session"] in client.get(response.headers["Location"]).get_data(as_text=True)


def test_the_clock_moves_by_hours_and_days(client: Client, village: Village) -> None:
    before = village.stage.local_now()
    done(client, "clock", move="hour")
    done(client, "clock", move="day")
    assert (village.stage.local_now() - before).total_seconds() == 25 * 3600


def test_the_clock_moves_to_the_next_text(client: Client, village: Village) -> None:
    before = village.diary.came
    done(client, "clock", move="next")
    assert village.diary.came > before


def test_the_network_and_the_service_can_be_switched(client: Client, village: Village) -> None:
    done(client, "network", network="loses")
    assert village.stage.gateway.network is Network.LOSES
    done(client, "network", network="fine")
    done(client, "service", service="down")
    assert client.get("/health").status_code == 503
    done(client, "service", service="up")
    assert client.get("/health").status_code == 200


def test_a_new_phone_is_a_stranger_who_is_invited(client: Client) -> None:
    done(client, "phone", number="0621 234 599")
    assert "NDIYO" in done(client, "text", phone="+255621234599", text="Habari")


def test_what_is_no_number_is_refused_in_words(client: Client) -> None:
    response = act(client, "phone", number="Rehema")
    assert LABELS["en"]["wrong_number"] in client.get(response.headers["Location"]).get_data(as_text=True)


@pytest.mark.parametrize("move", ["", "back"])
def test_a_move_there_is_none_of_changes_nothing(client: Client, village: Village, move: str) -> None:
    before = village.stage.local_now()
    assert act(client, "clock", move=move).status_code == 303
    assert village.stage.local_now() == before


def test_an_action_there_is_none_of_is_not_found(client: Client) -> None:
    assert act(client, "fly").status_code == 404
    assert act(client, "text").status_code == 400


def test_the_page_speaks_the_language_chosen(client: Client) -> None:
    assert 'lang="sw"' in client.get("/?labels=sw").get_data(as_text=True)
    assert LABELS["sw"]["clock"] in page(client)


def test_nothing_on_the_page_comes_from_elsewhere(client: Client) -> None:
    text = page(client)
    assert "http://" not in text
    assert "https://" not in text
    for file in ("village.css", "village.js"):
        with client.get(f"/demo/static/{file}") as response:
            assert response.status_code == 200
