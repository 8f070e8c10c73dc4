"""The gateway's doors: who is let in, what is refused and in which order, and what comes out."""

from __future__ import annotations

import json
import logging
from collections.abc import Mapping
from datetime import UTC, datetime
from types import SimpleNamespace
from typing import Any

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from service.app import LARGEST_BODY, create_app
from service.gateways.signature import HEADER, sign
from service.messages import InboundText, Kept, MenuInput, Screen
from tests.support.gateways import SECRET

SMS = {
    "id": "in-1", "from": "+255621234567", "to": "15077", "text": "MAZIWA NEEMA 6",
    "sent_at": "2026-03-02T18:00+03:00",
}  # fmt: skip
MENU = {"session": "s-1", "step": 0, "from": "+255621234567", "input": None}
RECEIPT = {"id": "out-1", "state": "delivered"}
CALLS = {"/gateway/sms": SMS, "/gateway/menu": MENU, "/gateway/receipt": RECEIPT}


class Behind:
    """What is behind the doors: keeps what it is handed, and answers as it is told."""

    def __init__(self, secret: str | None = SECRET) -> None:
        self.settings = SimpleNamespace(gateway_secret=secret)
        self.handed: list[Any] = []
        self.parts: Mapping[str, str] = {"database": "ok", "gateway": "ok"}
        self.fault: Exception | None = None

    def sms(self, text: InboundText) -> Kept:
        return Kept.KEPT_BEFORE if self._hand(text) else Kept.KEPT

    def menu(self, step: MenuInput) -> Screen:
        self._hand(step)
        return Screen("1 Maziwa\n2 Joto", more=True)

    def receipt(self, id: str, state: str) -> None:
        self._hand((id, state))

    def health(self) -> Mapping[str, str]:
        return self.parts

    def _hand(self, what: Any) -> bool:
        if self.fault:
            raise self.fault
        before = what in self.handed
        self.handed.append(what)
        return before


@pytest.fixture
def behind() -> Behind:
    return Behind()


@pytest.fixture
def client(behind: Behind) -> FlaskClient:
    return client_of(behind)


def client_of(behind: Behind) -> FlaskClient:
    return create_app(behind).test_client()  # type: ignore[arg-type]


def knock(client: FlaskClient, path: str, body: Any, **more: Any) -> TestResponse:
    """A call signed as the gateway signs; *body* an object, or raw bytes."""
    raw = body if isinstance(body, bytes) else json.dumps(body).encode()
    headers = {HEADER: sign(SECRET, raw)} | more
    return client.post(path, data=raw, headers=headers)


def said(response: TestResponse) -> str:
    """The sentence of an error, which has this one shape."""
    body = response.get_json()
    assert list(body) == ["error"]
    sentence = body["error"]
    assert isinstance(sentence, str)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    return sentence


class TestSms:
    def test_a_text_is_handed_over_and_kept(self, client: FlaskClient, behind: Behind) -> None:
        response = knock(client, "/gateway/sms", SMS)
        assert (response.status_code, response.get_json()) == (200, {"id": "in-1", "status": "kept"})
        assert behind.handed == [
            InboundText(
                id="in-1", sender="+255621234567", recipient="15077", text="MAZIWA NEEMA 6",
                sent_at=datetime(2026, 3, 2, 15, tzinfo=UTC),
            )
        ]  # fmt: skip

    def test_the_same_text_again_was_kept_before(self, client: FlaskClient) -> None:
        knock(client, "/gateway/sms", SMS)
        response = knock(client, "/gateway/sms", SMS)
        assert (response.status_code, response.get_json()) == (200, {"id": "in-1", "status": "kept_before"})

    @pytest.mark.parametrize("sender", ["15077", "BENKI", "+255 621 234 567", "0621234567"])
    def test_senders_come_through_as_they_are(self, client: FlaskClient, behind: Behind, sender: str) -> None:
        assert knock(client, "/gateway/sms", SMS | {"from": sender}).status_code == 200
        assert behind.handed[0].sender == sender

    @pytest.mark.parametrize(
        ("text", "kept"),
        [
            ("", ""),
            ("Ng’ombe 🐄\nNeema", "Ng’ombe 🐄\nNeema"),
            ("a\u0000b", "a\ufffdb"),
            ("a\ud83db", "a\ufffdb"),
            ("\udc04", "\ufffd"),
        ],
    )
    def test_what_no_database_can_keep_is_replaced(
        self, client: FlaskClient, behind: Behind, text: str, kept: str
    ) -> None:
        assert knock(client, "/gateway/sms", SMS | {"text": text}).status_code == 200
        assert behind.handed[0].text == kept

    @pytest.mark.parametrize(
        ("sent_at", "moment"),
        [
            ("2026-03-02T18:00:00+03:00", datetime(2026, 3, 2, 15, tzinfo=UTC)),
            ("2026-03-02T15:00:00Z", datetime(2026, 3, 2, 15, tzinfo=UTC)),
            ("2026-03-02T15:00:00.123456+00:00", datetime(2026, 3, 2, 15, 0, 0, 123456, UTC)),
            ("1970-01-01T00:00:00+14:00", datetime(1969, 12, 31, 10, tzinfo=UTC)),
        ],
    )
    def test_moments_come_through_in_utc(
        self, client: FlaskClient, behind: Behind, sent_at: str, moment: datetime
    ) -> None:
        assert knock(client, "/gateway/sms", SMS | {"sent_at": sent_at}).status_code == 200
        assert behind.handed[0].sent_at == moment

    def test_more_than_was_agreed_on_is_let_pass(self, client: FlaskClient) -> None:
        assert knock(client, "/gateway/sms", SMS | {"network": "x", "parts": 2}).status_code == 200


class TestMenu:
    def test_a_step_gets_its_screen(self, client: FlaskClient, behind: Behind) -> None:
        response = knock(client, "/gateway/menu", MENU)
        assert response.get_json() == {"text": "1 Maziwa\n2 Joto", "more": True}
        knock(client, "/gateway/menu", MENU | {"step": 1, "input": "2"})
        assert behind.handed == [
            MenuInput(session="s-1", step=0, sender="+255621234567", typed=None),
            MenuInput(session="s-1", step=1, sender="+255621234567", typed="2"),
        ]


class TestReceipt:
    @pytest.mark.parametrize("state", ["delivered", "failed", "expired"])
    def test_a_receipt_is_handed_over(self, client: FlaskClient, behind: Behind, state: str) -> None:
        assert knock(client, "/gateway/receipt", RECEIPT | {"state": state}).status_code == 200
        assert behind.handed == [("out-1", state)]


class TestRefusals:
    @pytest.mark.parametrize("path", CALLS)
    def test_over_16_kib_is_413_whatever_else_is_wrong(
        self, client: FlaskClient, behind: Behind, path: str
    ) -> None:
        raw = b"x" * (LARGEST_BODY + 1)
        for response in (knock(client, path, raw), client.post(path, data=raw)):
            assert response.status_code == 413
            assert said(response) == "The body must not be over 16 KiB."
        assert behind.handed == []

    def test_16_kib_are_taken(self, client: FlaskClient, behind: Behind) -> None:
        raw = json.dumps(SMS).encode()
        raw += b" " * (LARGEST_BODY - len(raw))
        assert knock(client, "/gateway/sms", raw).status_code == 200

    @pytest.mark.parametrize("path", CALLS)
    def test_without_the_true_signature_it_is_401_whatever_else_is_wrong(
        self, client: FlaskClient, behind: Behind, path: str
    ) -> None:
        raw = json.dumps(CALLS[path]).encode()
        for body in (raw, b"not json", b""):
            wrong = [{}, {HEADER: ""}, {HEADER: sign("other", body)}, {HEADER: sign(SECRET, body).upper()}]
            for headers in wrong:
                response = client.post(path, data=body, headers=headers)
                assert response.status_code == 401
                assert said(response) == "The signature is missing or not that of this body."
        assert behind.handed == []

    @pytest.mark.parametrize("secret", [None, ""])
    def test_without_a_secret_the_doors_stay_shut(self, secret: str | None) -> None:
        behind = Behind(secret)
        raw = json.dumps(SMS).encode()
        response = client_of(behind).post("/gateway/sms", data=raw, headers={HEADER: sign("", raw)})
        assert response.status_code == 401
        assert behind.handed == []

    @pytest.mark.parametrize("path", CALLS)
    @pytest.mark.parametrize(
        "raw",
        [b"", b"{", b"null", b"[]", b'"x"', b"1", b"\xff{}", b"[" * 9000, b'{"id": ' + b"9" * 9000 + b"}",
         '{"id": "é"}'.encode("latin-1"), json.dumps(SMS).encode("utf-16")],
    )  # fmt: skip
    def test_a_body_that_is_no_json_object_is_400(
        self, client: FlaskClient, behind: Behind, path: str, raw: bytes
    ) -> None:
        response = knock(client, path, raw)
        assert response.status_code == 400
        assert said(response)
        assert behind.handed == []

    @pytest.mark.parametrize(
        ("path", "field"), [(path, field) for path, body in CALLS.items() for field in body]
    )
    def test_a_missing_field_is_named(
        self, client: FlaskClient, behind: Behind, path: str, field: str
    ) -> None:
        body = {name: value for name, value in CALLS[path].items() if name != field}
        response = knock(client, path, body)
        assert response.status_code == 400
        assert said(response) == f"{field} is missing."
        assert behind.handed == []

    @pytest.mark.parametrize(
        ("path", "field", "value"),
        [
            *[("/gateway/sms", field, value) for field in SMS for value in (None, 1, 1.5, True, [], {})],
            *[("/gateway/sms", field, value) for field in ("id", "from", "to")
              for value in ("", "   ", "x" * 129, "a\u0000", "a\ud800")],
            *[("/gateway/sms", "sent_at", value) for value in (
                "", "yesterday", "2026-03-02", "2026-03-02T18:00", "2026-02-30T18:00+03:00", "1772463600",
                "0001-01-01T00:00+03:00", "9999-12-31T23:59-03:00", "2026-03-02T18:00+25:00",
                "2026-03-02T18:00 EAT", "1969-12-31T23:59+00:00", "2200-01-01T00:00+00:00",
                "2026-03-02T18:00+03:00\u0000",
            )],
            *[("/gateway/menu", "step", value) for value in (-1, 1.0, "0", True, None, 10_000, 10**30, [])],
            *[("/gateway/menu", "session", value) for value in ("", None, 7, "x" * 129)],
            *[("/gateway/menu", "from", value) for value in ("", None, 255621234567)],
            *[("/gateway/menu", "input", value) for value in (1, False, [], {})],
            *[("/gateway/receipt", "state", value) for value in ("", "DELIVERED", "accepted", None, 1, [])],
            *[("/gateway/receipt", "id", value) for value in ("", None, 7, "x" * 129)],
        ],
    )  # fmt: skip
    def test_a_wrong_field_is_named_and_not_repeated(
        self, client: FlaskClient, behind: Behind, path: str, field: str, value: Any
    ) -> None:
        response = knock(client, path, CALLS[path] | {field: value})
        assert response.status_code == 400
        assert said(response).startswith(f"{field} must be ")
        assert behind.handed == []


class TestErrors:
    def test_a_fault_is_a_calm_sentence_and_the_log_holds_no_word_of_the_text(
        self, client: FlaskClient, behind: Behind, caplog: pytest.LogCaptureFixture
    ) -> None:
        behind.fault = ValueError("parameters: 'MAZIWA NEEMA 6' of +255621234567")
        with caplog.at_level(logging.DEBUG):
            response = knock(client, "/gateway/sms", SMS)
        assert response.status_code == 500
        assert said(response)
        assert "NEEMA" not in response.get_data(as_text=True) + caplog.text
        assert "255621234567" not in caplog.text
        assert "POST /gateway/sms failed: ValueError" in caplog.text
        assert "test_doors.py" in caplog.text

    @pytest.mark.parametrize(
        ("method", "path", "status"),
        [
            ("GET", "/", 404),
            ("GET", "/gateway", 404),
            ("POST", "/gateway/other", 404),
            ("GET", "/static/x", 404),
            ("GET", "/gateway/sms", 405),
            ("PUT", "/gateway/menu", 405),
            ("POST", "/health", 405),
        ],
    )
    def test_other_addresses_and_methods_have_the_same_shape(
        self, client: FlaskClient, method: str, path: str, status: int
    ) -> None:
        response = client.open(path, method=method)
        assert response.status_code == status
        assert said(response)
        assert ("Allow" in response.headers) == (status == 405)

    def test_every_answer_keeps_out_of_caches_and_frames(self, client: FlaskClient) -> None:
        for response in (knock(client, "/gateway/sms", SMS), client.get("/health"), client.get("/nowhere")):
            assert response.headers["Cache-Control"] == "no-store"
            assert response.headers["X-Content-Type-Options"] == "nosniff"
            assert "default-src 'none'" in response.headers["Content-Security-Policy"]


class TestHealth:
    def test_when_every_part_is_well_it_is_200(self, client: FlaskClient) -> None:
        response = client.get("/health")
        assert response.status_code == 200
        assert response.get_json() == {"status": "ok", "parts": {"database": "ok", "gateway": "ok"}}

    def test_one_part_that_is_not_makes_it_503_and_says_why(
        self, client: FlaskClient, behind: Behind
    ) -> None:
        behind.parts = {"database": "ok", "gateway": "The gateway does not accept our signature."}
        response = client.get("/health")
        assert response.status_code == 503
        assert response.get_json() == {"status": "not ok", "parts": behind.parts}
