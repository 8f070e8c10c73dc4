"""The shapes that travel between floors: what is said to a phone, as a key and its values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Say:
    """One text or part of one, to be rendered by ``dialogs.texts`` in the reader's language."""

    key: str
    values: Mapping[str, Any] = field(default_factory=dict)


def say(key: str, **values: Any) -> Say:
    return Say(key, values)
