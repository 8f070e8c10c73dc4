"""Where a text was written: what decides how numbers, sums and local words are read."""

from __future__ import annotations

from dataclasses import dataclass, field

from dialogs.grammar.words import LocalWords


@dataclass(frozen=True, slots=True)
class Place:
    """Region (ISO 3166, for phone numbers), currency (ISO 4217) and local words of the farm."""

    region: str = "TZ"
    currency: str = "TZS"
    local: LocalWords = field(default_factory=LocalWords)
