"""Both sides sign a body in the same way, and nothing unsigned passes."""

from __future__ import annotations

import pytest

from service.gateways.signature import sign, verify

BODY = b'{"id": "1"}'


def test_the_signature_is_hmac_sha_256_in_lower_case_hex() -> None:
    # RFC 4231, test case 2
    assert sign("Jefe", b"what do ya want for nothing?") == (
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    )


def test_a_body_is_verified_by_its_own_signature() -> None:
    assert verify("siri", BODY, sign("siri", BODY))


def test_the_secret_counts_as_utf_8() -> None:
    assert verify("ng’ombe", BODY, sign("ng’ombe", BODY))


@pytest.mark.parametrize(
    "signature",
    [None, "", "0", sign("siri", BODY).upper(), sign("siri", BODY)[:-1], sign("siri", BODY + b" "),
     sign("Siri", BODY), " " + sign("siri", BODY), "sha256=" + sign("siri", BODY), "é" * 64, "\ud800"],
)  # fmt: skip
def test_any_other_signature_fails(signature: str | None) -> None:
    assert not verify("siri", BODY, signature)


@pytest.mark.parametrize("secret", [None, ""])
def test_without_a_secret_nothing_passes(secret: str | None) -> None:
    assert not verify(secret, BODY, sign("", BODY))
