"""
Every outgoing text: gettext catalogues, read once by Babel, rendered with named values.

The only module that knows what a text says in which language. A catalogue entry is a sentence with
``{named}`` values (see ``dialogs.values`` for how each is written). A part in ``<1:...>`` is left out
first where the whole does not fit, then ``<2:...>`` and so on: courtesy first, the way to answer next;
cautions, dates and numbers to call stand outside such parts.
"""

from __future__ import annotations

import re
import string
from collections.abc import Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from babel.messages.pofile import read_po

from dialogs import values as written
from dialogs.values import LANGUAGES
from service import sms
from service.messages import Say

SEGMENT = sms.ONE["gsm7"]
THREE_SEGMENTS = 3 * sms.MANY["gsm7"]

LAST_LEVEL = 5
"""The highest number of a part that may be left out."""

FEW_NAMES = 3
"""From this level on, a list of names is its first and a count."""

_PART = re.compile(r"<(\d):([^<>]*)>")
_LOCALE = Path(__file__).parent / "locale"

Piece = tuple[str, str | None, str]
"""Literal text, the value after it (None at the end) and the form asked for."""


def _catalogue(language: str) -> dict[str, str]:
    with (_LOCALE / language / "LC_MESSAGES" / "byreline.po").open("rb") as file:
        return {str(m.id): str(m.string) for m in read_po(file, locale=language) if m.id}


CATALOGUES: Mapping[str, Mapping[str, str]] = {language: _catalogue(language) for language in LANGUAGES}


def pieces(template: str) -> tuple[Piece, ...]:
    """*template* taken apart once, so that values are never read as markup."""
    parsed = string.Formatter().parse(template)
    return tuple((literal, name, spec or "") for literal, name, spec, _ in parsed)


def parts(template: str) -> Iterator[tuple[int, str]]:
    """*template* as (level, text) in order; level 0 is never left out."""
    place = 0
    for match in _PART.finditer(template):
        yield 0, template[place : match.start()]
        yield int(match[1]), match[2]
        place = match.end()
    yield 0, template[place:]


@lru_cache(maxsize=2048)
def _parsed(key: str, language: str) -> tuple[tuple[int, tuple[Piece, ...]], ...]:
    template = CATALOGUES[language][key]
    return tuple((level, pieces(text)) for level, text in parts(template) if text)


def has(key: str) -> bool:
    """Whether the catalogues hold a text under *key*."""
    return key in CATALOGUES[LANGUAGES[0]]


def _value(value: Any, spec: str, language: str, level: int) -> str:
    if isinstance(value, Say):
        return at_level(value, language, level)
    return written.shown(value, spec, language, room=1 if level >= FEW_NAMES else 3)


def at_level(say: Say, language: str, level: int) -> str:
    """
    *say* without the parts that may be left out up to *level*.

    Raises:
        KeyError: There is no such text, or a value it names is not given.
    """
    built = []
    for optional, content in _parsed(say.key, language):
        if optional and optional <= level:
            continue
        for literal, name, spec in content:
            built.append(literal)
            if name is not None:
                built.append(_value(say.values[name], spec, language, level))
    return "".join(built)


def ended(sentence: str) -> str:
    """*sentence* with a stop, so that another can follow."""
    return sentence if sentence.endswith((".", "?", "!", ":")) else f"{sentence}."


def join(says: tuple[Say, ...], language: str, level: int) -> str:
    """Sentences one after the other, those left out wholly passed over; only the last may lack its stop."""
    built = (" ".join(at_level(say, language, level).split()) for say in says)
    sentences = [sentence for sentence in built if sentence]
    return " ".join([*map(ended, sentences[:-1]), *sentences[-1:]])


def compose(*says: Say, language: str, room: int = SEGMENT, last: int = LAST_LEVEL) -> str:
    """
    Sentences in one text of at most *room* septets, left whole as far as they fit.

    Parts above the level *last* stay. May be longer than *room* where the parts that stay are; the
    caller then chooses shorter sentences (:func:`first_that_fits`).
    """
    text = ""
    for level in range(last + 1):
        text = join(says, language, level)
        if sms.septets(text) <= room:
            break
    return text


def render(say: Say, language: str, *, room: int = SEGMENT) -> str:
    """*say* in *language*, in at most *room* septets where its parts allow it."""
    return compose(say, language=language, room=room)


def fits(text: str, room: int = SEGMENT) -> bool:
    return sms.septets(text) <= room


def first_that_fits(*candidates: tuple[Say, ...], language: str, room: int = SEGMENT) -> str:
    """
    The first of several ways of saying it that fits; the last is cut if it must be.

    A shorter way is preferred to leaving out more than FEW_NAMES allows. Only names of double-width
    characters (a cow called ``[[[[[[``) can come to the cut.
    """
    text = fitting(*candidates, language=language, room=room)
    return text if text is not None else sms.cut(compose(*candidates[-1], language=language, room=room), room)


def fitting(*candidates: tuple[Say, ...], language: str, room: int = SEGMENT) -> str | None:
    """As :func:`first_that_fits`; None where none does."""
    for last in (FEW_NAMES, LAST_LEVEL):
        for says in candidates:
            text = compose(*says, language=language, room=room, last=last)
            if fits(text, room):
                return text
    return None
