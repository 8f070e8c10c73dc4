"""The screens' catalogues: the same texts in every language, fit for a phone, each explained."""

from __future__ import annotations

import string
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

from dialogs.screens import words
from dialogs.screens.layout import REASON
from service.husbandry.signs import DISEASES
from service.sms import measure

SW, EN = (words.catalogue(language) for language in words.LANGUAGES)


def places(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}


def test_both_languages_have_the_same_texts_in_the_same_order() -> None:
    assert list(SW) == list(EN)


@pytest.mark.parametrize("key", SW)
def test_a_text_names_the_same_values_in_both_languages(key: str) -> None:
    assert places(SW[key]) == places(EN[key])


@pytest.mark.parametrize("language", words.LANGUAGES)
def test_every_text_is_gsm7_and_said(language: str) -> None:
    for key, text in words.catalogue(language).items():
        assert text.strip() == text != "", key
        assert measure(text).encoding == "gsm7", key


@pytest.mark.parametrize("language", words.LANGUAGES)
def test_every_text_tells_its_translator_where_it_is_seen(language: str) -> None:
    with (Path(words.__file__).parent / f"{language}.po").open("rb") as file:
        for message in read_po(file):
            assert not message.id or message.auto_comments, message.id


@pytest.mark.parametrize("language", words.LANGUAGES)
def test_what_was_wrong_fits_the_room_kept_for_it(language: str) -> None:
    longest = {"low": "1000", "high": "100000", "most": 12}
    for key, text in words.catalogue(language).items():
        if key.startswith("wrong."):
            assert measure(text.format(**longest)).units < REASON, key


def test_a_sign_is_never_a_disease() -> None:
    names = {SW[f"disease.{disease}"].casefold() for disease in DISEASES}
    assert not names & {text.casefold() for key, text in SW.items() if key.startswith("sign.")}


@pytest.mark.parametrize("bad", ["ana joto", "nyege", "shahawa", "mnyama", "mjamzito", "matiti", "umesahau"])
def test_words_that_the_house_avoids_are_not_on_any_screen(bad: str) -> None:
    assert not [key for key, text in SW.items() if bad in text.casefold()]
