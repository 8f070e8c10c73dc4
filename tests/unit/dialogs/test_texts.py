"""Checkers of the catalogues, and how values are written."""

from __future__ import annotations

import ast
import re
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from babel.messages.pofile import read_po

from dialogs import texts, values
from dialogs.texts import CATALOGUES, LAST_LEVEL, SEGMENT, at_level, compose, parts, pieces, render
from service import sms
from service.husbandry.units import Money
from service.messages import Say, say
from tests.unit.dialogs.texts_page import PAGE, page

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
LOCALE = Path(texts.__file__).parent / "locale"
KEYS = sorted(CATALOGUES["sw"])
LONG_NAME = "W" * 12


def whom() -> Say:
    """A name longer than is shown, and a number of another country."""
    return say("who.named", name="Abdulrahmani Mwakasege", phone="+260971234567")


def moment(day: int, hour: int, minute: int = 45) -> datetime:
    return datetime(2026, 8, day, hour, minute, tzinfo=ZONE)


WORST: dict[str, Any] = {
    "name": LONG_NAME,
    "names": tuple(LONG_NAME for _ in range(13)),
    "first_name": LONG_NAME,
    "old": LONG_NAME,
    "calf": say("names", names=(LONG_NAME, LONG_NAME)),
    "who": whom(),
    "seen": say("time.yesterday", part=moment(28, 18)),
    "hours": say("time.on", on=date(2026, 9, 2), part=(moment(28, 5, 30), moment(28, 6, 30))),
    "part": (moment(28, 5, 30), moment(28, 6, 30)),
    "window": (date(2026, 8, 28), date(2026, 10, 4)),
    "on": date(2026, 8, 28),
    "served": date(2026, 8, 28),
    "due": date(2026, 8, 28),
    "until": date(2026, 8, 28),
    "day": date(2026, 9, 2),
    "at": moment(28, 5),
    "first": date(2026, 8, 28),
    "milking": say("when.day_morning", on=date(2026, 8, 28)),
    "sum": Money.of("1234567.50", "TZS"),
    "listed": 365,
    "read_out": 365,
    "second": moment(28, 5, 0),
    "last": moment(28, 5, 0),
    "litres": Decimal("1234.75"),
    "kg": Decimal("1234.75"),
    "cm": Decimal("188.5"),
    "score": Decimal("3.25"),
    "low": Decimal(100),
    "high": Decimal(10000),
    "error": Decimal(138),
    "rate": Decimal("7.25"),
    "per": Decimal(1000),
    "exact": Decimal("1234.75"),
    "ml": Decimal("1234.5"),
    "ml_high": Decimal("1234.5"),
    "litres_high": Decimal("1234.75"),
    "each": Decimal("12.5"),
    "few": 12,
    "many": 120,
    "amount": Money.of("1234567.50", "TZS"),
    "month": date(2026, 9, 1),
    "year": "2026",
    "price": Money.of("12345.50", "TZS"),
    "buyer": "Mama Asha wa Sokoni",
    "delivered": say("quantity.litres", litres=Decimal("1234.75")),
    "paid": say("quantity.litres", litres=Decimal("1234.75")),
    "difference": say("quantity.litres", litres=Decimal("1234.75")),
    "dates": say("dates.more", words="11, 12, 13, 14, 15", on=date(2026, 9, 1), count=25),
    "count": 365,
    "days": 365,
    "number": 6,
    "disease": say("disease.fmd"),
    "work": say("work.vaccinate", disease=say("disease.fmd")),
    "meanwhile": say("meanwhile.prolapse"),
    "what": "amepandishwa karibu na 28 Agosti jioni",
    "deed": "Amepandishwa karibu na 28 Agosti",
    "words": "maneno",
    "feed": "mashudu ya alizeti na pumba",
    "product": "dawa ndefu ya chupa kubwa",
    "sire": "mrija namba 123456789",
    "phone": "+260971234567",
    "items": "1 " + LONG_NAME,
    "choices": "1 " + LONG_NAME,
    "when": date(2026, 8, 28),
    "by": "Abdulrahmani Mwakasege",
    "owner": "Abdulrahmani Mwakasege",
    "list": "Abdulrahmani 0712345678, Mwakasege 0712345678, Joyce 0712345678",
    "before": f"{LONG_NAME}, maziwa lita 12.75, 28 Agosti jioni",
    "more": say("noted.more", count=3),
    "start": moment(28, 5, 0),
    "place": "W" * 24,
    "word": say("campaign.word.lsd"),
    "age": say("age.months", count=36),
    "bull": "W" * 16,
    "code": "W" * 12,
    "breed": "chotara ya Ayrshire na Friesian",
    "merits": "maziwa chini ya wastani",
    "aims": "maziwa, kiwele, uzazi",
    "aim": say("semen.aim.calving_ease"),
    "grade": say("semen.grade.low"),
    "percent": Decimal("4.7"),
    "gave": Decimal("112.5"),
    "usual": Decimal("112.5"),
}
HAVE_A_SHORTER_WAY = {
    "abortion": "abortion.short",
    "heat.serve_now": "heat.serve_now_short",
    "heat.look_again": "heat.look_again_short",
}
"""Texts that are said another way where they do not fit."""

CALVING_TIMES = {"first": datetime(2026, 8, 28, 5, tzinfo=ZONE)}


def fields(template: str) -> set[tuple[str, str]]:
    return {(name, spec) for _, text in parts(template) for _, name, spec in pieces(text) if name}


def worst(key: str) -> Say:
    sign = {"what": "ana manyoya yaliyosimama", "meanwhile": say("meanwhile.default")}
    special = {"calving": CALVING_TIMES, "illness": sign}
    return Say(key, {**WORST, **special.get(key.split(".")[0], {})})


def test_every_language_has_the_same_keys():
    assert set(CATALOGUES["sw"]) == set(CATALOGUES["en"])
    assert len(KEYS) > 300


@pytest.mark.parametrize("key", KEYS)
def test_a_text_names_the_same_values_in_every_language(key):
    names = {language: {name for name, _ in fields(CATALOGUES[language][key])} for language in CATALOGUES}
    assert names["sw"] == names["en"]


@pytest.mark.parametrize("language", ["sw", "en"])
def test_every_text_says_to_its_translator_who_sees_it_and_when(language):
    with (LOCALE / language / "LC_MESSAGES" / "byreline.po").open("rb") as file:
        catalogue = read_po(file, locale=language)
    bare = [message.id for message in catalogue if message.id and not message.auto_comments]
    assert bare == []


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("key", KEYS)
def test_a_text_is_in_the_gsm_set(key, language):
    assert sms.measure(CATALOGUES[language][key]).encoding == "gsm7"
    assert sms.measure(at_level(worst(key), language, 0)).encoding == "gsm7"


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("key", KEYS)
def test_a_text_fits_a_segment_with_the_longest_values(key, language):
    if key in HAVE_A_SHORTER_WAY:
        key = HAVE_A_SHORTER_WAY[key]
    text = render(worst(key), language)
    assert sms.septets(text) <= SEGMENT, text


@pytest.mark.parametrize("language", ["sw", "en"])
def test_what_may_be_left_out_is_no_caution_date_or_number(language):
    kept = re.compile(r"\b(USI[A-Z]+|DON'T|SASA|NOW|glavu|gloves|wajawazito|pregnant women)\b|\{who")
    allowed = {
        "ask.not_understood", "ask.confirm.heat_or_fever", "alert.held_milk", "alert.held_milk_unknown"
    }  # fmt: skip
    for key in KEYS:
        dropped = " ".join(text for level, text in parts(CATALOGUES[language][key]) if level)
        assert key in allowed or not kept.search(dropped), key


# What the house's table of words keeps out of Kiswahili texts, with the reason there.
AVOID = [
    "mfugo", "mnyama", "imezaa", "inakamuliwa", "mori", "mwali", "beberu", "fahali", "nyege", "fundi",
    "kutia mimba", "manii", "shahawa", "mjamzito", "ujauzito", "kujifungua", "kuzalisha", "mnenepeshe",
    "kolostramu", "kumtenga", "matiti", "hali vizuri", "ana kifua", "kuosha", "sumu", "amezuia maziwa",
    "faida", "mapato", "hasara", "deni", "onyo", "umesahau", "taarifa", "tendua", "ghairi", "batilisha",
    "imekamilika", "usaidizi", "maelekezo", "ripoti", "statimenti", "yuko kwenye dawa", "ugonjwa wa kiwele",
    "dawa ya tumbo", "sindano", "uvimbe",
]  # fmt: skip


def spoken(key: str, language: str = "sw") -> str:
    """The text as words, without values and marks."""
    bare = re.sub(r"\{[^}]*\}|<\d:|>", " ", CATALOGUES[language][key])
    return re.sub(r"\s+", " ", bare).casefold()


@pytest.mark.parametrize("word", AVOID)
def test_no_kiswahili_text_uses_a_word_of_the_table_of_words_to_avoid(word):
    allowed = {("uvimbe", "ask.confirm.heat_or_fever")}
    found = [k for k in KEYS if re.search(rf"\b{word}\b", spoken(k)) and (word, k) not in allowed]
    assert found == []


def test_a_disease_is_named_only_where_one_vaccinates():
    names = [CATALOGUES["sw"][key] for key in KEYS if key.startswith("disease.")]
    names += ["homa ya", "mastitis", "kimeta", "ndigana"]
    named = {key for key in KEYS for name in names if re.search(rf"\b{name.casefold()}\b", spoken(key))}
    assert {key for key in named if not key.startswith("disease.")} <= {
        "ask.missing.vaccination.disease", "done.ask_record.vaccinate",
    }  # fmt: skip


def test_heat_and_fever_are_kept_apart():
    signs = [CATALOGUES["sw"][key] for key in KEYS if key.startswith("sign.")]
    assert not [sign for sign in signs if "joto" in sign]
    assert "joto la kupandwa" in CATALOGUES["sw"]["ask.confirm.heat_or_fever"]


def test_an_hour_in_kiswahili_is_never_a_length_of_time():
    for key in KEYS:
        assert not re.search(r"\bsaa \d", re.sub(r"SAA \d+ (ASUBUHI|JIONI)", "", CATALOGUES["sw"][key])), key


# Hours: saa = (h24 - 7) mod 12 + 1; parts of the day as in CLDR "sw".
@pytest.mark.parametrize(
    ("hour", "minute", "kiswahili", "english"),
    [
        (0, 0, "saa 6 usiku", "midnight"),
        (5, 0, "saa 11 alfajiri", "5 am"),
        (6, 0, "saa 12 alfajiri", "6 am"),
        (7, 0, "saa 1 asubuhi", "7 am"),
        (9, 10, "saa 3 na dakika 10 asubuhi", "9:10 am"),
        (10, 45, "saa 5 kasoro robo asubuhi", "10:45 am"),
        (12, 0, "saa 6 mchana", "12 noon"),
        (12, 30, "saa 6 na nusu mchana", "12:30 pm"),
        (13, 0, "saa 7 mchana", "1 pm"),
        (18, 15, "saa 12 na robo jioni", "6:15 pm"),
        (20, 0, "saa 2 usiku", "8 pm"),
        (23, 0, "saa 5 usiku", "11 pm"),
    ],
)
def test_the_clock_is_told_as_it_is_spoken(hour, minute, kiswahili, english):
    at = datetime(2026, 3, 2, hour, minute, tzinfo=ZONE)
    assert (values.clock(at, "sw"), values.clock(at, "en")) == (kiswahili, english)


@pytest.mark.parametrize(
    ("first", "last", "kiswahili", "english"),
    [
        (date(2026, 3, 19), date(2026, 3, 25), "19 hadi 25 Machi", "19-25 Mar"),
        (date(2026, 2, 26), date(2026, 3, 4), "26 Feb hadi 4 Machi", "26 Feb-4 Mar"),
        (date(2026, 12, 29), date(2027, 1, 4), "29 Des hadi 4 Jan", "29 Dec-4 Jan"),
        (date(2026, 3, 19), date(2027, 3, 25), "19 Machi hadi 25 Machi", "19 Mar-25 Mar"),
        (date(2026, 5, 3), date(2026, 5, 3), "3 Mei", "3 May"),
    ],
)
def test_a_range_names_its_first_and_last_day(first, last, kiswahili, english):
    assert (values.days(first, last, "sw"), values.days(first, last, "en")) == (kiswahili, english)


def test_every_month_begins_as_its_short_name_does():
    shorts = ["Jan", "Feb", "Mac", "Apr", "Mei", "Jun", "Jul", "Ago", "Sep", "Okt", "Nov", "Des"]
    assert all(values.MONTHS["sw"][n].startswith(short) for n, short in enumerate(shorts, 1))


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (Decimal("6.50"), "6.5"),
        (Decimal("6.00"), "6"),
        (Decimal("100"), "100"),
        (Decimal("1E+2"), "100"),
        (Decimal("0.01"), "0.01"),
        (Money.of("366000", "TZS"), "366,000/="),
        (Money.of("1250.50", "KES"), "1,250.5/="),
        (Money.of("1200", "RWF"), "1,200 RWF"),
        (("Neema",), "Neema"),
        (("Neema", "Zawadi", "Tausi"), "Neema, Zawadi na Tausi"),
        (("Neema", "Zawadi", "Tausi", "Pendo", "A12"), "Neema na 4 wengine"),
        (("*",), "wote"),
        ("caf\u00e0 \u201csawa\u201d", 'caf\u00e0 "sawa"'),
    ],
)
def test_a_value_is_written_short(value, written):
    assert values.shown(value, "", "sw") == written


def test_two_animals_without_room_are_one_and_another():
    assert values.names(("Neema", "Zawadi"), "sw", room=1) == "Neema na mwingine"
    assert values.names(("Neema", "Zawadi"), "en", room=1) == "Neema and one more"


def test_a_number_of_the_country_is_shown_as_it_is_dialled_there():
    assert values.dialled("+255754123456") == "0754123456"
    assert values.dialled("+260971234567") == "+260971234567"


def test_a_farmers_own_words_are_cut_and_never_read_as_markup():
    text = at_level(say("what.feeding.feed", feed="<1:pumba> ya alizeti"), "sw", 0)
    assert text == "<1:pumba> ya a.."
    assert sms.septets(text) <= values.WORDS_ROOM


def test_what_does_not_fit_is_left_out_by_its_level(monkeypatch):
    catalogue = {"x": "a<1: one><2: two> b<3: three>"}
    monkeypatch.setitem(texts.CATALOGUES, "sw", catalogue)  # type: ignore[index]
    texts._parsed.cache_clear()
    try:
        assert [render(Say("x"), "sw", room=room) for room in (99, 15, 12, 4)] == [
            "a one two b three", "a two b three", "a b three", "a b",
        ]  # fmt: skip
    finally:
        texts._parsed.cache_clear()


def test_sentences_are_ended_before_the_next():
    text = compose(say("plain", words="Jibu: NEEMA JOTO"), say("tail.undo"), language="sw")
    assert text == "Jibu: NEEMA JOTO. Si sahihi? Jibu: FUTA"


def test_the_levels_of_parts_are_known():
    templates = (template for catalogue in CATALOGUES.values() for template in catalogue.values())
    levels = {level for template in templates for level, _ in parts(template)}
    assert levels <= set(range(LAST_LEVEL + 1))


def spoken_keys() -> tuple[set[str], tuple[str, ...]]:
    """Strings of the program that name a text, and beginnings of those that it puts together."""
    whole, begun = set(), set()
    root = Path(texts.__file__).parent.parent
    for place in ("dialogs", "scheduler", "service"):
        for path in (root / place).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text())):
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    whole.add(node.value)
                if isinstance(node, ast.JoinedStr) and isinstance(node.values[0], ast.Constant):
                    begun.add(str(node.values[0].value))
    return whole, tuple(part for part in begun if re.fullmatch(r"[a-z_]+\..*", part))


def test_every_text_is_said_somewhere():
    whole, begun = spoken_keys()
    assert [key for key in KEYS if key not in whole and not key.startswith(begun)] == []


def test_the_reference_page_shows_the_texts_as_they_are():
    assert PAGE.read_text() == page()


def test_an_unknown_text_is_an_error():
    with pytest.raises(KeyError):
        render(Say("no.such"), "sw")
