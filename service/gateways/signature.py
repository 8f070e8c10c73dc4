"""How both sides sign a body: lower-case hex of its HMAC-SHA-256 under the shared secret."""

from __future__ import annotations

import hmac

HEADER = "Byreline-Signature"


def sign(secret: str, body: bytes) -> str:
    """The signature of the raw *body*."""
    return hmac.digest(secret.encode(), body, "sha256").hex()


def verify(secret: str | None, body: bytes, signature: str | None) -> bool:
    """Whether *signature* is that of *body*. Without a secret or a signature, never."""
    if not secret or signature is None:
        return False
    return hmac.compare_digest(sign(secret, body).encode(), signature.encode(errors="replace"))
