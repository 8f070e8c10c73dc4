"""A line of a cooperative's own advice: which topic, in which language, and whether it can be sent."""

from __future__ import annotations

from collections.abc import Mapping

from dialogs import advice, texts
from dialogs.values import LANGUAGES
from service import sms
from service.flow.centre_lists import Row, WrongLine

NEEDED = ("topic", "language", "text")


def worded(row: Row) -> Mapping[str, str]:
    """
    The line as it is kept.

    Raises:
        WrongLine: There is no such topic or language, no text, or one that with the topic's caution does
            not fit three segments.
    """
    told = {name: " ".join(row.get(name, "").split()) for name in NEEDED}
    topic, language, text = told["topic"].casefold(), told["language"].casefold(), sms.plain(told["text"])
    if topic not in advice.topics():
        raise WrongLine(f"there is no topic {topic}: {', '.join(advice.topics())}")
    if language not in LANGUAGES:
        raise WrongLine(f"language {language} is none of {', '.join(LANGUAGES)}")
    if not text:
        raise WrongLine("text is empty")
    if text.count("?") > told["text"].count("?"):
        raise WrongLine("text has characters that a plain text message cannot carry")
    over = advice.longest(topic, language, text) - texts.THREE_SEGMENTS
    if over > 0:
        raise WrongLine(f"text is {over} characters too long for three segments with the topic's caution")
    return {"topic": topic, "language": language, "text": text}
