"""Help: a list of topics, and one segment for each."""

from __future__ import annotations

from rapidfuzz import fuzz, process

from dialogs import texts
from dialogs.phrases import who
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
    """The topic that *words* ask for; None where none does."""
    asked = (words or "").casefold().replace("’", "'").split()
    for word in asked:
        if word in BY_WORD:
            return BY_WORD[word]
    for word in asked:
        near = process.extractOne(word, list(BY_WORD), scorer=fuzz.ratio, score_cutoff=NEAR)
        if near is not None and len(word) > 2:
            return BY_WORD[str(near[0])]
    return None


def about(words: str | None, language: str) -> str:
    """Help about what *words* name, in one segment; the list of topics where they name none."""
    topic = topic_of(words)
    return texts.render(say(f"help.{topic or 'topics'}", who=who({}, "vet")), language)
