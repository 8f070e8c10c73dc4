"""The screens' words: one catalogue per language beside this module, read with Babel."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from babel.messages.pofile import read_po

LANGUAGES = ("sw", "en")


@cache
def catalogue(language: str) -> dict[str, str]:
    """
    Every text of the screens in *language*, by key.

    Raises:
        OSError: there is no catalogue of that language.
    """
    with (Path(__file__).parent / f"{language}.po").open("rb") as file:
        return {str(message.id): str(message.string) for message in read_po(file) if message.id}


def word(key: str, language: str, **values: Any) -> str:
    """
    The text of *key*, its ``{placeholders}`` filled in.

    Raises:
        KeyError: the catalogue has no such key, or the text wants a value that is not given.
    """
    text = catalogue(language)[key]
    return text.format(**values) if values else text
