"""How the service is, for whoever watches over it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from flask import Blueprint

if TYPE_CHECKING:
    from service.bootstrap import Runtime


def health(runtime: Runtime) -> Blueprint:
    """``GET /health``: 200 when every part is ``ok``, else 503; each part's state in either."""
    blueprint = Blueprint("health", __name__)

    @blueprint.get("/health")
    def state() -> tuple[dict[str, Any], int]:
        parts = dict(runtime.health())
        well = all(said == "ok" for said in parts.values())
        return {"status": "ok" if well else "not ok", "parts": parts}, 200 if well else 503

    return blueprint
