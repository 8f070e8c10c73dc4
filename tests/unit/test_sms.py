"""Lengths and segments against the check values of the text-message standards."""

import pytest

from service.sms import SEPTETS, cut, measure, plain, septets

CURLY, COW, EURO = "\u2019", "\U0001f404", "€"

# Computed from 3GPP TS 23.038 and 23.040 with a splitter that cuts no escape and no surrogate pair.
CHECK_VALUES = [
    ("", "gsm7", 0, 1),
    ("A" * 160, "gsm7", 160, 1),
    ("A" * 161, "gsm7", 161, 2),
    ("A" * 306, "gsm7", 306, 2),
    ("A" * 307, "gsm7", 307, 3),
    ("A" * 459, "gsm7", 459, 3),
    ("A" * 460, "gsm7", 460, 4),
    ("A" * 158 + EURO, "gsm7", 160, 1),
    ("A" * 159 + EURO, "gsm7", 161, 2),
    (EURO * 80, "gsm7", 160, 1),
    (EURO * 81, "gsm7", 162, 2),
    (EURO * 152, "gsm7", 304, 2),
    (EURO * 153, "gsm7", 306, 3),
    ("A" * 152 + EURO + "A" * 151, "gsm7", 305, 2),
    ("A" * 152 + EURO + "A" * 152, "gsm7", 306, 3),
    (CURLY * 70, "ucs2", 70, 1),
    (CURLY * 71, "ucs2", 71, 2),
    (CURLY * 134, "ucs2", 134, 2),
    (CURLY * 135, "ucs2", 135, 3),
    (COW * 35, "ucs2", 70, 1),
    (COW * 36, "ucs2", 72, 2),
    (CURLY * 66 + COW + CURLY * 66, "ucs2", 134, 3),
    ("Ng'ombe wako Malaika yuko kwenye joto. Mpandishe kati ya saa moja na saa sita.", "gsm7", 78, 1),
    ("Ng\u2019ombe wako Malaika yuko kwenye joto. Mpandishe kati ya saa moja na saa sita.", "ucs2", 78, 2),
    ("Maziwa 12.5 L @ KSh 45 = 562.50", "gsm7", 31, 1),
    ("[Malaika] {12|13} ~ \\ ^", "gsm7", 31, 1),
    ("Ksh 45/=", "gsm7", 8, 1),
    ("`", "ucs2", 1, 1),
]


@pytest.mark.parametrize(("text", "encoding", "units", "segments"), CHECK_VALUES)
def test_a_text_is_measured_as_the_standard_counts_it(text, encoding, units, segments):
    size = measure(text)
    assert (size.encoding, size.units, size.segments) == (encoding, units, segments)


def test_the_set_has_the_characters_of_the_standard_and_no_others():
    one = " !\"#$%&'()*+,-./:;<=>?@_0123456789¡£¤¥§¿ÄÅÆÇÉÑÖØÜßàäåæèéìñòöøùüΓΔΘΛΞΠΣΦΨΩ\n\r"
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
    two = "\f^{}\\[~]|€"
    assert {c for c, n in SEPTETS.items() if n == 1} == set(one + letters)
    assert {c for c, n in SEPTETS.items() if n == 2} == set(two)


def test_a_cut_never_leaves_half_a_character():
    assert cut("A" * 159 + EURO, 160) == "A" * 159
    assert cut(COW * 3, 5) == COW * 2
    assert cut("short", 160) == "short"


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("Ng\u2019ombe", "Ng'ombe"),
        ("Ksh\u00a01,250.50", "Ksh 1,250.50"),
        ("7:00\u202fPM", "7:00 PM"),
        ("caf\u00e9 \u00e1\u00ed\u00f3", "caf\u00e9 aio"),  # é is in the set, á í ó are not
        ("a\u0301", "a"),
        ("joto \U0001f404", "joto ?"),
        ("\u201csawa\u201d \u2014 ndiyo\u2026", '"sawa" - ndiyo...'),
    ],
)
def test_a_copied_text_is_made_plain(text, made):
    assert plain(text) == made
    assert measure(plain(text)).encoding == "gsm7"


def test_septets_of_a_text_outside_the_set_are_refused():
    with pytest.raises(ValueError, match="GSM-7"):
        septets(CURLY)
