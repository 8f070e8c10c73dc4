"""Numbers in figures and words, of both languages."""

from decimal import Decimal

import pytest

from dialogs.grammar.normalise import tokens
from dialogs.grammar.numbers import number_at

# Kiswahili words: the spell-out of ICU 72.1, locale sw (computed); laki, nusu, robo, kasoro from memory.
SPOKEN = {
    "sita": "6", "kumi na moja": "11", "kumi na nane": "18", "ishirini na tano": "25",
    "arobaini na saba": "47", "arubaini": "40", "tisini na tisa": "99", "mia moja na moja": "101",
    "mia moja na kumi na moja": "111", "mia tatu na sitini na tano": "365", "mia tano hamsini": "550",
    "elfu moja": "1000", "elfu moja mia mbili na hamsini": "1250", "elfu kumi na tano": "15000",
    "elfu arobaini na tano": "45000", "elfu 15": "15000", "15 elfu": "15000", "elfu mia moja": "100000",
    "laki tatu na nusu": "350000", "laki mbili na elfu hamsini": "250000",
    "milioni moja na laki mbili": "1200000", "million moja": "1000000", "elfu tano na nusu": "5500",
    "sita na nusu": "6.5", "saba kasoro robo": "6.75", "sita na robo": "6.25", "sita na robo tatu": "6.75",
    "mbili nukta tano": "2.5", "nusu": "0.5", "robo tatu": "0.75", "kumi na mbili na nusu": "12.5",
    "six": "6", "twenty five": "25", "six and a half": "6.5", "a": None, "one hundred and twenty": "120",
    "fifteen thousand": "15000", "two thousand five hundred": "2500", "1.2 million": "1200000",
    "half a million": "500000", "6 1/2": "6.5", "850k": "850000", "1,300": "1300", "six five": "6",
}  # fmt: skip


@pytest.mark.parametrize(("words", "value"), SPOKEN.items())
def test_a_number_is_worth_what_it_says(words: str, value: str | None) -> None:
    found = number_at(tokens(words), 0)
    assert (found and found.value) == (None if value is None else Decimal(value))


def test_the_thousands_of_a_price_are_not_the_litres() -> None:
    told = tokens("6 elfu tisa")
    assert number_at(told, 0).value == 6
    assert number_at(told, 1).value == 9000


def test_and_joins_only_what_makes_one_number() -> None:
    assert number_at(tokens("sita na tano"), 0).value == 6
