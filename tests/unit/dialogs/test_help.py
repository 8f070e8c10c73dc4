"""Help by topic: how to tell a thing, or advice on how to do it."""

import re

import pytest

from dialogs import advice
from dialogs import help as topics
from service import sms

LANGUAGES = ("sw", "en")


def told(asked: str | None, language: str) -> str:
    return topics.about(asked, language, {})


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("topic", topics.TOPICS)
def test_how_to_tell_a_thing_is_one_segment_and_shows_what_to_send(topic, language):
    text = told(f"send {topic}", language)
    size = sms.measure(text)
    assert (size.encoding, size.segments) == ("gsm7", 1)
    assert any(word.strip(",.:()").isupper() and len(word) > 2 for word in text.split())


@pytest.mark.parametrize(
    ("asked", "topic"),
    [
        ("MILK", "milk"),
        ("joto", "heat"),
        ("Maziwa", "milk"),
        ("kuzaa", "calving"),
        ("Ng\u2019ombe", "cow"),
        ("minyo", "worms"),
        ("kupima mimba", "pregnancy"),
        ("the vet", "sick"),
        ("hesabu", "money"),
        ("ACHA", "stop"),
    ],
)
def test_a_topic_is_known_by_its_words_in_both_languages(asked, topic):
    assert topics.topic_of(asked) == topic


@pytest.mark.parametrize(
    ("asked", "topic"),
    [
        ("CALVING", "calving"),
        ("kupe", "ticks"),
        ("kuzaa", "calving"),
        ("first milk", "first_milk"),
        ("FEEDING before calving", "steaming_up"),
        ("kulisha ndama", "calf"),
        ("kulisha mtamba", "heifer"),
        ("dawa ya minyoo", "worms"),
        ("maziwa ya kwanza", "first_milk"),
        ("maziwa yasiuzwe", "milk_hold"),
        ("MILK HOLD", "milk_hold"),
        ("dry season", "dry_season"),
        ("Dang\u2019a", "first_milk"),
        ("vacination", "vaccination"),
    ],
)
def test_advice_is_found_by_the_longest_name(asked, topic):
    assert topics.advice_for(asked) == topic
    assert told(asked, "en") == advice.advice(topic, "en", {})


@pytest.mark.parametrize(
    "asked", ["maziwa", "MILK", "hesabu", "undo", "ng'ombe", "kutuma kuzaa", "write calving"]
)
def test_what_is_only_told_has_no_advice(asked):
    assert topics.advice_for(asked) is None


@pytest.mark.parametrize("asked", [None, "", "mvua", "xyz"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_plain_help_lists_every_topic_in_at_most_three_segments(asked, language):
    listed = told(asked, language)
    size = sms.measure(listed)
    assert (size.encoding, size.segments <= 3) == ("gsm7", True)
    how, what = (part.split(": ", 1)[1] for part in re.split(r"(?:Ushauri zaidi|More advice), ", listed))
    words = [word.strip(" .") for word in f"{how.split('.')[0]}, {what}".split(",")]
    assert {topics.topic_of(word) for word in how.split(".")[0].split(", ")} == set(topics.TOPICS)
    assert {topics.advice_for(word) for word in words} - {None} == set(advice.topics())
