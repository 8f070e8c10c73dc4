"""Help by topic."""

import pytest

from dialogs import help as topics
from service import sms

LANGUAGES = ("sw", "en")


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("topic", [*topics.TOPICS, None])
def test_help_about_a_topic_is_one_segment_and_shows_what_to_send(topic, language):
    text = topics.about(topic, language)
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


@pytest.mark.parametrize("asked", [None, "", "mvua", "xyz"])
@pytest.mark.parametrize("language", LANGUAGES)
def test_plain_help_lists_the_topics(asked, language):
    listed = topics.about(asked, language)
    words = listed.split(": ", 1)[1].split(".")[0].split(", ")
    assert {topics.topic_of(word) for word in words} == set(topics.TOPICS)
