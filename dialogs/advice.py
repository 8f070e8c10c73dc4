"""
Advice by topic: short practical texts, kept as data (``dialogs/knowhow/*.toml``) and found by words.

``topics.toml`` says what each topic rests on, one file a language what is said. Figures that Byreline
plans by are not written out there but named ({spray_days}), so that advice and plan cannot differ.
"""

from __future__ import annotations

import re
import string
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any

from rapidfuzz import fuzz, process

from dialogs import texts
from dialogs.phrases import who
from dialogs.values import LANGUAGES
from service import sms
from service.husbandry.herd import Person
from service.husbandry.intervals import DEFAULTS, Intervals
from service.messages import Say

NEAR = 84
"""Likeness (percent) from which a misspelled word counts as one of a topic's."""

SHORTEST_NEAR = 4
"""Letters from which a word may be misspelled: of shorter ones too many are alike."""

HOW_TO_TELL = frozenset(
    {"tuma", "kutuma", "natumaje", "kuandika", "naandikaje", "send", "write", "tell", "text"}
)
"""Words that ask how a thing is told to us, not how it is done."""

WEEK_DAYS, MONTH_DAYS, HALF_DAY_HOURS = 7, 30.4, 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Worded:
    """A topic in one language. ``short``: what comes by itself; empty where none does."""

    word: str
    asked: tuple[str, ...]
    text: str
    caution: str
    send: str
    short: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """
    What may be asked for, and what it rests on.

    ``sources``: each ending in how far it was checked. ``hurts``: it has a caution. ``comes``: by itself
    too, once, when it first matters to a farm.
    """

    key: str
    sources: tuple[str, ...]
    hurts: bool
    comes: bool
    worded: Mapping[str, Worded]  # by language


def _read(name: str) -> dict[str, dict[str, Any]]:
    return tomllib.loads((resources.files("dialogs") / "knowhow" / f"{name}.toml").read_text("utf-8"))


def _worded(table: Mapping[str, Any]) -> Worded:
    return Worded(
        word=table["word"],
        asked=tuple(table["asked"]),
        text=table["text"],
        caution=table["caution"],
        send=table.get("send", ""),
        short=table.get("short", ""),
    )


@lru_cache(maxsize=1)
def topics() -> Mapping[str, Topic]:
    """All topics by key, in the order of their list."""
    said = {language: _read(language) for language in LANGUAGES}
    return {
        key: Topic(
            key=key,
            sources=tuple(table["sources"]),
            hurts=table.get("hurts", False),
            comes=table.get("comes", False),
            worded={language: _worded(said[language][key]) for language in said},
        )
        for key, table in _read("topics").items()
    }


# --- what is asked for -----------------------------------------------------------------------------

_WORD = re.compile(r"[^\W_]+(?:'[^\W_]+)*")


def words_of(written: str) -> tuple[str, ...]:
    """The words of *written* in lower case, with straight apostrophes."""
    return tuple(_WORD.findall(written.casefold().replace("\u2019", "'").replace("\u2018", "'")))


@lru_cache(maxsize=1)
def _phrases() -> Mapping[tuple[str, ...], str]:
    """Each phrase by which a topic is asked for, in any language, and its topic; the longest first."""
    found: dict[tuple[str, ...], str] = {}
    for topic in topics().values():
        for worded in topic.worded.values():
            for phrase in (worded.word, *worded.asked):
                found.setdefault(words_of(phrase), topic.key)
    return dict(sorted(found.items(), key=lambda one: -len(one[0])))


@lru_cache(maxsize=1)
def _single() -> Mapping[str, str]:
    return {phrase[0]: topic for phrase, topic in _phrases().items() if len(phrase) == 1}


def _stands(phrase: Sequence[str], asked: Sequence[str]) -> bool:
    size = len(phrase)
    return any(tuple(asked[at : at + size]) == tuple(phrase) for at in range(len(asked) - size + 1))


def topic_of(written: str | None) -> str | None:
    """The topic that *written* names, the longest phrase first; None where it names none as written."""
    asked = words_of(written or "")
    return next((topic for phrase, topic in _phrases().items() if _stands(phrase, asked)), None)


def near_topic(written: str | None) -> str | None:
    """The topic one of whose words is nearest to one of *written*; None where none is near."""
    for word in words_of(written or ""):
        if len(word) >= SHORTEST_NEAR:
            near = process.extractOne(word, list(_single()), scorer=fuzz.ratio, score_cutoff=NEAR)
            if near is not None:
                return _single()[str(near[0])]
    return None


def is_named(written: str) -> bool:
    """
    Whether *written* is nothing but the name of a topic, give or take a slip of the pen; a word that asks
    how to tell of it may stand before it.
    """
    asked = words_of(written)
    if asked[:1] and asked[0] in HOW_TO_TELL:
        asked = asked[1:]
    if asked in _phrases():
        return True
    return len(asked) == 1 and near_topic(asked[0]) is not None


# --- how it is worded ------------------------------------------------------------------------------


def _hours(count: int, language: str) -> str:
    """So many hours in words. Kiswahili counts in halves of a day: "saa 2" would be read as eight o'clock."""
    if language != "sw":
        return f"{count} hours"
    whole, half = divmod(round(count / HALF_DAY_HOURS), 2)
    if not half:
        return f"siku {whole}"
    return f"siku {whole} na nusu" if whole else "nusu siku"


def _figure(name: str, spec: str, language: str, intervals: Intervals) -> str:
    count: int = getattr(intervals, name)
    match spec:
        case "weeks":
            return str(round(count / WEEK_DAYS))
        case "months":
            return str(round(count / MONTH_DAYS))
        case "hours":
            return _hours(count, language)
    return str(count)


def figures_of(template: str) -> tuple[str, ...]:
    """The figures of :class:`Intervals` that *template* names."""
    named = (name for _, name, _, _ in string.Formatter().parse(template) if name)
    return tuple(name for name in named if name not in {"who", "name"})


def _filled(template: str, language: str, intervals: Intervals, given: Mapping[str, str]) -> str:
    built = []
    for literal, name, spec, _ in string.Formatter().parse(template):
        built.append(literal)
        if name is not None:
            built.append(given.get(name) or _figure(name, spec or "", language, intervals))
    return "".join(built)


def advice(
    key: str,
    language: str,
    people: Mapping[str, Person],
    *,
    intervals: Intervals = DEFAULTS,
    own: str | None = None,
) -> str:
    """
    The advice of a topic with its caution and what to text us of it, at most three segments.

    Args:
        people: Role -> whom the farm can call.
        intervals: Those in force, of which it names figures.
        own: The cooperative's own wording; the caution stays as it is.

    Raises:
        KeyError: There is no such topic.
    """
    said = topics()[key].worded[language]
    given = {"who": texts.render(who(people, "vet"), language)}
    parts = [own or _filled(said.text, language, intervals, given)]
    parts += [_filled(part, language, intervals, given) for part in (said.caution, said.send) if part]
    return " ".join(map(texts.ended, parts))


def unasked(key: str, language: str, people: Mapping[str, Person], name: str | None) -> str:
    """
    The advice of a topic that comes by itself: the most needful in one segment, how to get all of it, and
    how to get none.

    Args:
        name: Of the animal to which it first matters; needed where the text names it.
    """
    said = topics()[key].worded[language]
    whom = who(people, "vet")
    for person in (whom, who({}, "vet")):  # without the number rather than without the caution
        given = {"who": texts.render(person, language), "name": sms.plain(name or "")}
        text = _filled(said.short, language, DEFAULTS, given)
        whole = texts.render(Say("advice.unasked", {"words": text, "word": said.word}), language)
        if texts.fits(whole):
            break
    return whole


def listed(language: str, beside: str) -> str:
    """The words by which topics are asked for, without those whose word stands in the list *beside* it."""
    there = {topic_of(word) for word in beside.split()}
    return ", ".join(topic.worded[language].word for topic in topics().values() if topic.key not in there)


def longest(key: str, language: str, own: str | None = None) -> int:
    """Septets that a topic can take, whoever is to be called."""
    someone = Person(role="vet", name="W" * 12, phone="+260971234567")
    return sms.septets(advice(key, language, {"vet": someone}, own=own))
