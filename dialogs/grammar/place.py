"""Where a text was written: what decides how numbers and sums are read."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Place:
    """Region (ISO 3166, for phone numbers) and currency (ISO 4217) of the farm."""

    region: str = "TZ"
    currency: str = "TZS"
