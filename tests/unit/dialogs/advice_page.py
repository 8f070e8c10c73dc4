"""docs/trade/advice.md, made from the topics of advice: ``python -m tests.unit.dialogs.advice_page``."""

from __future__ import annotations

from pathlib import Path

from dialogs.advice import Topic, figures_of, topics
from scheduler.advising import APART_DAYS, FOLLOWS_DAYS, SETTLED_DAYS
from service.husbandry.intervals import DEFAULTS

PAGE = Path(__file__).resolve().parents[3] / "docs" / "trade" / "advice.md"

HEAD = """# Advice by topic

Made by `python -m tests.unit.dialogs.advice_page` from `dialogs/knowhow/*.toml`; a test keeps it so.

What a farmer gets who texts `MSAADA KUZAA`, `HELP CALVING`, in the order of the list of topics.
Of each: the advice, its caution and what to text us of it, at most three segments together.
The words are ours; what they rest on stands below each, with the marks of [the trade notes](README.md).
Names in braces are the intervals that Byreline plans by, as the farm or its cooperative has set them.

Code: `dialogs/advice.py`; what comes by itself, and when: `scheduler/advising.py`.
A cooperative's own wording: [load a list](../howto/lists.md#advice).

## What comes by itself

Each of these topics comes once, in one segment, at the farm's hour, on a day without another text.
It does not come to a farm that has texted `KIMYA`, `QUIET`.

| topic | when |
| --- | --- |
{comes}

All but the calving's wait until the farm has been with us {settled} days.
There are {apart} days from one to the next (both Byreline's own choice).
"""

FOLLOWS = {
    "milk_hold": "a treatment of a cow in milk, unless its label holds no milk",
    "calf": "a birth on the farm",
    "vaccination": "a vaccination",
    "ticks": "a spraying",
    "worms": "worm medicine",
    "serving": "a heat after which no service was told",
}


def head() -> str:
    rows = ["| `calving` | the day before a calving's watch begins; sooner where that day has a reminder |"]
    for topic, (first, last) in FOLLOWS_DAYS.items():
        rows.append(f"| `{topic}` | {first} to {last} days after {FOLLOWS[topic]} |")
    made = {"{comes}": "\n".join(rows), "{settled}": str(SETTLED_DAYS), "{apart}": str(APART_DAYS)}
    text = HEAD
    for place, value in made.items():
        text = text.replace(place, value)
    return text


def section(topic: Topic) -> str:
    lines = [f"\n## `{topic.key}`\n"]
    for language, said in topic.worded.items():
        lines.append(f"- {language} `{said.word}`: {said.text}")
        lines += [f"  - caution: {said.caution}"] if said.caution else []
        lines += [f"  - {said.send}"] if said.send else []
        lines += [f"  - by itself: {said.short}"] if said.short else []
    lines.append("\nSources:\n")
    lines += [f"- {source}" for source in topic.sources]
    named = {name: None for said in topic.worded.values() for name in figures_of(said.text)}
    for name in named:
        lines.append(f"- `{name}` {getattr(DEFAULTS, name)}: {source_of(name)}")
    return "\n".join(lines) + "\n"


def source_of(name: str) -> str:
    return str(type(DEFAULTS).__dataclass_fields__[name].metadata["source"])


def page() -> str:
    return head() + "".join(section(topic) for topic in topics().values())


if __name__ == "__main__":
    PAGE.write_text(page())
