"""Help by topic: advice where we have some, else how to tell it; and the list of topics."""

from __future__ import annotations

from collections.abc import Mapping

from rapidfuzz import fuzz, process

from dialogs import advice, texts
from dialogs.phrases import who
from service.husbandry.herd import Person
from service.husbandry.intervals import DEFAULTS, Intervals
from service.messages import say

TOPICS = (
    "milk", "heat", "service", "pregnancy", "calving", "dry", "ticks", "worms", "sick", "cow", "tasks",
    "money", "undo", "stop",
)  # fmt: skip

WORDS: dict[str, str] = {
    "milk": "milk maziwa lita litres milking kukamua kukama",
    "heat": "heat joto",
    "service": "service serve served serving ai insemination bull dume mbegu mhimilishaji kupandisha "
    "pandisha amepandishwa",
    "pregnancy": "pregnancy pregnant check aborted abortion mimba kupima",
    "calving": "calving calved calve birth calf colostrum kuzaa amezaa ndama dang'a jina name",
    "dry": "dry drying wean weaning kukausha kausha amekauka kuachisha ameachishwa",
    "ticks": "ticks tick spray spraying dip kupe kuogesha kunyunyizia",
    "worms": "worms worm deworm deworming minyoo",
    "sick": "sick vet illness ill disease drug treatment vaccination fever ugonjwa mgonjwa anaumwa daktari "
    "dawa homa chanjo",
    "cow": "cow cows cattle animal herd new died death ng'ombe ngombe mpya kufa amekufa",
    "tasks": "tasks task work done later reminder kazi tayari baadaye ukumbusho",
    "money": "money sale sell sold expense cost statement centre fedha pesa hela hesabu kuuza matumizi kituo",
    "undo": "undo mistake correct futa kosa kufuta",
    "stop": "stop start language number contact english acha anza lugha kiswahili namba",
}
"""Words by which each topic may be asked for, both languages."""

BY_WORD: dict[str, str] = {word: topic for topic in reversed(TOPICS) for word in WORDS[topic].split()}

NEAR = 80
"""Likeness (percent) from which a misspelled word counts as a topic's."""


def topic_of(words: str | None) -> str | None:
    """The topic of telling that *words* ask for; None where none does."""
    asked = advice.words_of(words or "")
    for word in asked:
        if word in BY_WORD:
            return BY_WORD[word]
    for word in asked:
        near = process.extractOne(word, list(BY_WORD), scorer=fuzz.ratio, score_cutoff=NEAR)
        if near is not None and len(word) > 2:
            return BY_WORD[str(near[0])]
    return None


def advice_for(words: str | None) -> str | None:
    """
    The topic of advice that *words* ask for; None where they ask how to tell something, or name none.

    A word as written goes before one that is only near another.
    """
    if not advice.HOW_TO_TELL.isdisjoint(advice.words_of(words or "")):
        return None
    named = advice.topic_of(words)
    if named is not None or not BY_WORD.keys().isdisjoint(advice.words_of(words or "")):
        return named
    return advice.near_topic(words)


def about(
    words: str | None,
    language: str,
    people: Mapping[str, Person],
    *,
    intervals: Intervals = DEFAULTS,
    own: Mapping[str, str] | None = None,
) -> str:
    """
    Help about what *words* name, at most three segments; the list of topics where they name none.

    Args:
        people: Role -> whom the farm can call.
        intervals: Those in force.
        own: Topic -> the cooperative's own advice in this language.
    """
    key = advice_for(words)
    if key is not None:
        return advice.advice(key, language, people, intervals=intervals, own=(own or {}).get(key))
    topic = topic_of(words)
    if topic is not None:
        return texts.render(say(f"help.{topic}", who=who(people, "vet")), language)
    return topics(language)


def topics(language: str) -> str:
    """The list of topics."""
    told = texts.render(say("help.topics"), language)
    more = say("advice.topics", words=advice.listed(language, told))
    return f"{texts.ended(told)} {texts.render(more, language, room=texts.THREE_SEGMENTS)}"
