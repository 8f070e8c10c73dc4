"""The doors through a real server and real sockets."""

from __future__ import annotations

import json
import socket
from collections.abc import Iterator

import pytest

from service.app import LARGEST_BODY, create_app
from service.gateways.signature import HEADER, sign
from tests.support.gateways import SECRET
from tests.support.service import Caller, listening
from tests.unit.web.test_doors import SMS, Behind


@pytest.fixture
def behind() -> Behind:
    return Behind()


@pytest.fixture
def port(behind: Behind) -> Iterator[int]:
    with listening(create_app(behind)) as port:  # type: ignore[arg-type]
        yield port


@pytest.fixture
def caller(port: int) -> Iterator[Caller]:
    caller = Caller(port)
    yield caller
    caller.close()


def test_a_signed_text_is_kept(caller: Caller, behind: Behind) -> None:
    assert caller.post("/gateway/sms", SMS) == (200, {"id": "in-1", "status": "kept"})
    assert caller.post("/gateway/sms", SMS) == (200, {"id": "in-1", "status": "kept_before"})
    assert len(behind.handed) == 2


def test_a_body_in_chunks_is_read_whole(caller: Caller, behind: Behind) -> None:
    raw = json.dumps(SMS).encode()
    pieces = (raw[at : at + 20] for at in range(0, len(raw), 20))
    status, _ = caller.raw("POST", "/gateway/sms", pieces, {HEADER: sign(SECRET, raw)})
    assert status == 200
    assert len(behind.handed) == 1


@pytest.mark.parametrize("over", [1, 500_000])
def test_a_body_over_16_kib_is_refused_before_its_signature_is_looked_at(caller: Caller, over: int) -> None:
    raw = b"x" * (LARGEST_BODY + over)
    told_first = caller.raw("POST", "/gateway/sms", raw)
    in_chunks = caller.raw("POST", "/gateway/sms", iter([raw]))
    assert told_first == in_chunks == (413, {"error": "The body must not be over 16 KiB."})


def test_no_body_at_all_is_not_signed(caller: Caller) -> None:
    assert caller.raw("POST", "/gateway/sms")[0] == 401


def test_no_answer_names_the_software(port: int) -> None:
    with socket.create_connection(("127.0.0.1", port)) as line:
        line.sendall(b"GET /health HTTP/1.0\r\n\r\n")
        answer = line.makefile("rb").read().lower()
    assert b"server:" not in answer
    assert b"waitress" not in answer
