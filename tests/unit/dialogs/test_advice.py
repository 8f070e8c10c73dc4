"""Advice by topic: that every topic can be sent, is safe, says what it rests on and agrees with the plan."""

from __future__ import annotations

import re

import pytest

from dialogs import advice
from dialogs.advice import figures_of, longest, topics, unasked
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.texts import SEGMENT, THREE_SEGMENTS
from scheduler.advising import FOLLOWS_DAYS
from service import sms
from service.husbandry.herd import Herd, Known, Person, Sex, Status
from service.husbandry.intervals import DEFAULTS, Intervals
from tests.unit.dialogs.advice_page import PAGE, page
from tests.unit.dialogs.test_texts import AVOID, moment

LANGUAGES = ("sw", "en")
TOPICS = tuple(topics())
VET = Person(role="vet", name="W" * 12, phone="+260971234567")
STATUS = ("verified", "from memory", "computed", "common practice, no source")
DANGEROUS = {
    "calving", "afterbirth", "first_milk", "drying_off", "udder", "milking", "milk_hold", "cleaning", "ticks",
    "worms", "vaccination",
}  # fmt: skip
"""Drugs, tick wash, disinfectant, calving, the milk of treated or sick cows."""

every_topic = pytest.mark.parametrize("key", TOPICS)
in_both = pytest.mark.parametrize("language", LANGUAGES)


@every_topic
@in_both
def test_a_topic_is_at_most_three_segments_whoever_is_to_be_called(key, language):
    assert longest(key, language) <= THREE_SEGMENTS
    size = sms.measure(advice.advice(key, language, {"vet": VET}))
    assert size.encoding == "gsm7"
    assert size.segments <= 3


@every_topic
def test_a_topic_says_what_it_rests_on_and_how_far_that_was_checked(key):
    sources = topics()[key].sources
    assert sources
    assert all(source.endswith(STATUS) for source in sources)


@every_topic
@in_both
def test_what_can_hurt_has_its_caution(key, language):
    topic = topics()[key]
    assert topic.hurts or key not in DANGEROUS
    assert topic.worded[language].caution or not topic.hurts


@pytest.mark.parametrize(
    ("key", "cautions"),
    [
        ("calving", ("glavu", "wajawazito", "usimvute")),
        ("afterbirth", ("glavu", "wajawazito", "usilivute", "chemsha")),
        ("milk_hold", ("usiuze", "usinywe")),
        ("udder", ("usiuze", "usinywe")),
        ("ticks", ("glavu", "wajawazito", "mbwa na mbuzi", "usiwapulize")),
        ("worms", ("daktari", "maziwa yasiuzwe")),
        ("vaccination", ("wajawazito", "daktari kwanza")),
        ("drying_off", ("maji usipunguze",)),
    ],
)
def test_the_caution_says_what_must_not_be_left_out(key, cautions):
    told = advice.advice(key, "sw", {}).casefold()
    assert [caution for caution in cautions if caution not in told] == []


@every_topic
def test_a_topic_names_the_same_figures_in_every_language(key):
    sw, en = (set(figures_of(topics()[key].worded[language].text)) for language in LANGUAGES)
    assert sw == en


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("heat_signs", "siku 18 hadi 24"),
        ("serving", "siku ya 60"),
        ("pregnancy", "siku 60 hadi 90"),
        ("afterbirth", "ikipita siku 1 mpigie"),
        ("first_milk", "dang'a siku 4"),
        ("calf", "siku ya 7"),
        ("calf", "kila siku 42"),
        ("weaning", "wiki 12"),
        ("weaning", "miezi 3"),
        ("heifer", "tangu miezi 8"),
        ("heifer", "miezi 15 hadi 18"),
        ("steaming_up", "Wiki 3 kabla"),
        ("drying_off", "siku 60 kabla"),
        ("cleaning", "kila siku 7"),
        ("ticks", "Kila siku 7"),
        ("worms", "kila miezi 3"),
        ("worms", "miezi 6 kila siku 42"),
    ],
)
def test_figures_are_those_of_the_plan(key, told):
    # The values are those of the trade's texts; docs/trade/cycle.md, gestation.md and care.md name them.
    assert told in advice.advice(key, "sw", {})


def test_what_a_farm_has_set_is_what_it_is_told():
    own = Intervals.of({"spray": 14, "afterbirth_vet_hours": 36, "steam_up_from_days": 28})
    assert "Kila siku 14" in advice.advice("ticks", "sw", {}, intervals=own)
    assert "ikipita siku 1 na nusu" in advice.advice("afterbirth", "sw", {}, intervals=own)
    assert "36 hours" in advice.advice("afterbirth", "en", {}, intervals=own)
    assert "Wiki 4 kabla" in advice.advice("steaming_up", "sw", {}, intervals=own)


@every_topic
def test_no_number_of_the_plan_is_written_out_where_it_is_named(key):
    """A text that names ``spray_days`` does not say "siku 7" beside it, which would stay when it changes."""
    for said in topics()[key].worded.values():
        for name in figures_of(said.text):
            if name.endswith("_days"):
                value = getattr(DEFAULTS, name)
                assert not re.search(rf"\b(siku|siku ya|day) {value}\b|\b{value} days\b", said.text), name


@every_topic
def test_kiswahili_uses_no_word_of_the_table_of_words_to_avoid(key):
    said = topics()[key].worded["sw"]
    told = " ".join((said.text, said.caution, said.short)).casefold()
    assert [word for word in AVOID if re.search(rf"\b{word}\b", told)] == []
    hours = re.findall(r"\bsaa \d+ \w+", told)
    assert all(hour.split()[-1] in ("alfajiri", "asubuhi", "mchana", "jioni", "usiku") for hour in hours)
    assert len(hours) == len(re.findall(r"\bsaa \d", told))


@every_topic
@in_both
def test_each_word_by_which_a_topic_is_listed_finds_it(key, language):
    said = topics()[key].worded[language]
    assert advice.topic_of(said.word) == key
    assert all(advice.topic_of(phrase) == key for phrase in said.asked)
    assert advice.is_named(said.word)


def test_no_phrase_asks_for_two_topics():
    seen: dict[tuple[str, ...], str] = {}
    for topic in topics().values():
        for said in topic.worded.values():
            for phrase in (said.word, *said.asked):
                assert seen.setdefault(advice.words_of(phrase), topic.key) == topic.key, phrase


@pytest.mark.parametrize(
    ("asked", "key"),
    [("kiwle", "udder"), ("vacination", "vaccination"), ("kukamuwa", "milking"), ("colostrem", "first_milk")],
)
def test_a_slip_of_the_pen_finds_the_nearest_word(asked, key):
    assert advice.near_topic(asked) == key


@pytest.mark.parametrize("asked", ["", None, "mvua", "xyz", "kuku"])
def test_what_names_no_topic_finds_none(asked):
    assert advice.topic_of(asked) is None
    assert advice.near_topic(asked) is None


HERD = Herd(
    (
        Known(name="Neema", names=("Neema",), sex=Sex.FEMALE, status=Status.MILKING),
        Known(name="Asali", names=("Asali",), sex=Sex.FEMALE, status=Status.CALF),
    )
)


@every_topic
@in_both
def test_what_we_ask_to_be_sent_can_be_read(key, language):
    send = topics()[key].worded[language].send
    for example in re.split(r"\bau\b|\bor\b", send.partition(": ")[2]):
        if example:
            reading = read(example.strip(), HERD, now=moment(28, 10), language=language, place=Place())
            assert reading.entries, example
            assert not reading.problems, example


def test_the_topics_that_come_by_themselves_are_those_that_first_matter():
    assert {key for key, topic in topics().items() if topic.comes} == {"calving", *FOLLOWS_DAYS}


@pytest.mark.parametrize("key", [key for key in TOPICS if topics()[key].comes])
@in_both
def test_what_comes_by_itself_is_one_segment_and_says_how_to_have_none(key, language):
    for people in ({}, {"vet": VET}, {"vet": Person(role="vet", name=None, phone="+255621000001")}):
        text = unasked(key, language, people, "W" * 12)
        assert sms.measure(text).encoding == "gsm7"
        assert sms.septets(text) <= SEGMENT, text
        assert ("KIMYA" if language == "sw" else "QUIET") in text
        assert topics()[key].worded[language].word in text


def test_a_number_to_call_goes_out_where_there_is_room():
    vet = {"vet": Person(role="vet", name=None, phone="+255621000001")}
    assert "0621000001" in unasked("calving", "sw", vet, "Neema")


def test_an_own_wording_keeps_the_caution():
    told = advice.advice("udder", "sw", {}, own="Njoo ofisini Jumamosi uone kikombe cheusi")
    assert told.startswith("Njoo ofisini Jumamosi uone kikombe cheusi. Maziwa yake USIUZE")


def test_the_page_shows_the_topics_as_they_are():
    assert PAGE.read_text() == page(), "run: python -m tests.unit.dialogs.advice_page"
