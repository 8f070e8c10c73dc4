"""Phone numbers as they are written, and as they are kept."""

from __future__ import annotations

from functools import lru_cache

import phonenumbers


@lru_cache(maxsize=4096)
def phone_of(sender: str, region: str) -> str | None:
    """*sender* in E.164; None for a short code, a name, or what is no phone."""
    try:
        number = phonenumbers.parse(sender, region)
    except phonenumbers.NumberParseException:
        return None
    # Possible, not valid: number ranges open faster than the library's tables follow.
    if not phonenumbers.is_possible_number(number):
        return None
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)
