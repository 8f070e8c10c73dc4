"""A secret number in a text: where it is one, and how such a text is kept."""

from __future__ import annotations

import pytest

from dialogs import secret


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("4821", "4821"), (" 482156. ", "482156"), ("PIN 4821", "4821"), ("pin:4821", "4821"),
        ("482", None), ("4821567", None), ("4821 0", None), ("NEEMA 4821", None), ("", None),
    ],
)  # fmt: skip
def test_a_number_alone_can_be_the_answer(text: str, code: str | None) -> None:
    assert secret.code_alone(text) == code


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("WEKA PIN 4821", "WEKA PIN ****"),
        ("BADILI PIN 4821 7733", "BADILI PIN **** ****"),
        ("pin4821", "pin****"),
        ("namba ya siri 4 8 2 1", "namba ya siri **** **** **** ****"),
        ("ONGEZA MSAIDIZI 0712345678 PIN 4821", "ONGEZA MSAIDIZI 0712345678 PIN ****"),
        ("NEEMA 6", "NEEMA 6"),
        ("Pinki 6", "Pinki 6"),
        ("4821", "4821"),
    ],
)
def test_a_text_that_speaks_of_it_is_kept_without_it(text: str, kept: str) -> None:
    assert secret.masked(text) == kept


def test_digits_alone_are_masked_where_the_number_was_asked_for() -> None:
    assert secret.masked("4821", asked=True) == "****"
    assert secret.masked("NEEMA 4821", asked=True) == "NEEMA 4821"
