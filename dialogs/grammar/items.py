"""A text as a row of items: names, numbers with their units, meanings, and words that say nothing."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from rapidfuzz.distance import OSA

from dialogs.grammar import numbers, shorthand, words
from dialogs.grammar.names import Names
from dialogs.grammar.normalise import Token, tokens
from dialogs.grammar.words import VOCABULARY, Vocabulary
from service.husbandry.herd import Known

_EAR_NUMBER = re.compile(r"0\d{2,5}")
"""Digits with a zero before them are an ear tag's, not a quantity."""

_STRONG = ".;\n!?"


@dataclass(slots=True)
class Item:
    """
    One item. ``sort``: ``animal`` (``value`` the animal, or None with ``unknown`` set), ``number``
    (``value`` a Decimal, ``unit`` or None), ``cue`` (``concepts``), ``when`` (``value`` a time),
    ``date``/``clock``/``phone`` (as written), ``mark`` and ``word``.
    """

    sort: str
    start: int  # tokens of the text, first and after the last
    end: int
    word: str = ""
    concepts: tuple[str, ...] = ()
    value: Any = None
    unit: str | None = None
    hint: str = ""
    denied: bool = False
    prefix: str = ""
    near: bool = False  # an animal by a slip
    fits: tuple[Known, ...] = ()  # animals that a slip fits, where more than one
    digits: bool = False
    capital: bool = False
    known: bool = False  # a word of the vocabulary
    corrected: bool = False  # found by a slip
    ditto: bool = False  # a number told for another animal and meant of this one too
    doubtful: bool = False  # a number whose rest is misspelt: "kumi na meili"
    other: Item | None = None  # what an animal's name means as a word

    def has(self, *concepts: str) -> bool:
        mine = self.concepts
        if mine:
            for concept in concepts:
                if concept in mine:
                    return True
        return False

    def starts(self, prefix: str) -> str | None:
        """The rest of the first concept that begins with *prefix*."""
        for concept in self.concepts:
            if concept.startswith(prefix):
                return concept[len(prefix) :]
        return None


@dataclass(slots=True)
class Text:
    """A text cut into tokens and items, with the languages its words belong to."""

    raw: str
    tokens: list[Token]
    items: list[Item] = field(default_factory=list)
    votes: dict[str, int] = field(default_factory=dict)
    words: Vocabulary = VOCABULARY

    def written(self, start: int, end: int) -> str:
        """The original words of tokens *start*..*end*."""
        if start >= end:
            return ""
        return self.raw[self.tokens[start].start : self.tokens[end - 1].end]


@dataclass(slots=True)
class _Looked:
    """One token looked up: the keys it offers to phrases, and what else it may be."""

    keys: words.Keys
    near: tuple[Known, ...] = ()
    corrected: bool = False
    known: bool = False


def _is_capital(text: Text, index: int) -> bool:
    return text.raw[text.tokens[index].start].isupper()


def _begins_sentence(text: Text, index: int) -> bool:
    return index == 0 or (text.tokens[index - 1].sort == "mark" and text.tokens[index - 1].word in _STRONG)


def _is_titled(text: Text, index: int) -> bool:
    """Whether a word bears a capital after a word that bears none, as a name does."""
    before = index and text.tokens[index - 1].sort == "word" and not _is_capital(text, index - 1)
    return bool(before) and _is_capital(text, index)


def _look_up(text: Text, names: Names, index: int, mixed_case: bool) -> _Looked:
    token = text.tokens[index]
    if token.sort != "word":
        return _Looked(words.Keys((token.word,)))
    if text.words.is_known(token.word):
        return _Looked(text.words.keys_of(token.word), known=True)
    if names.has(token.word):
        return _Looked(words.Keys((token.word,)))
    near, slips = names.near(token.word)
    likely_name = mixed_case and _is_capital(text, index) and not _begins_sentence(text, index)
    if likely_name and not near:
        return _Looked(words.Keys((token.word,)))
    if token.word in text.words.names and not near:
        return _Looked(words.Keys((token.word,)))  # "Daisy" is no "daily" misspelt
    close = text.words.nearest(token.word)
    if near and (close is None or slips <= close[1]):
        return _Looked(words.Keys((token.word,)), near=near)
    if close is not None:
        return _Looked(text.words.keys_of(close[0]), corrected=True)
    return _Looked(words.Keys((token.word,)))


def read_items(raw: str, names: Names, vocabulary: Vocabulary = VOCABULARY) -> Text:
    """*raw* as items, times and units not yet put together."""
    known = vocabulary.is_known
    cut = tokens(raw, lambda word: names.has(word) or known(word))
    whole = [piece for token in cut for piece in _unglued(token, names, vocabulary)]
    spelt = [full for token in whole for full in shorthand.in_full(token, lambda w: names.has(w) or known(w))]
    text = Text(raw, spelt, words=vocabulary)
    mixed_case = not raw.isupper() and not raw.islower()
    looked = [_look_up(text, names, i, mixed_case) for i in range(len(text.tokens))]
    _spell(text, looked)
    walk = words.Walk(
        [look.keys.keys for look in looked],
        [
            token.word in vocabulary.light or _only_a_name(text, token, look, names)
            for token, look in zip(text.tokens, looked, strict=True)
        ],
        [look.keys.denied for look in looked],
    )
    at = 0
    while at < len(text.tokens):
        item = _item_at(text, names, looked, walk, at)
        if item.sort == "cue":
            text.items += _names_inside(text, names, looked, item)
        text.items.append(item)
        at = max(item.end, at + 1)
    _vote(text, looked)
    return text


_GLUED_FIRST = frozenset({"ana", "hana", "wana", "hawana", "leo", "jana", "lita", "ni", "yuko", "amepata"})
"""Short words that are often written together with the next: "anamimba", "hanajoto"."""

_SHORTEST_GLUED = 4


def _unglued(token: Token, names: Names, vocabulary: Vocabulary) -> list[Token]:
    """Two words written as one, where one of them is a name of the herd or a word often run together."""
    word = token.word
    plain = token.sort == "word" and token.end - token.start == len(word) and word.isalpha()
    if not plain or len(word) < 2 * _SHORTEST_GLUED - 1 or names.has(word) or vocabulary.is_known(word):
        return [token]
    for cut in range(3, len(word) - 2):
        first, rest = word[:cut], word[cut:]
        name_first = names.has(first) and len(first) >= _SHORTEST_GLUED and vocabulary.is_known(rest)
        name_last = names.has(rest) and len(rest) >= _SHORTEST_GLUED and vocabulary.is_known(first)
        run_on = first in _GLUED_FIRST and rest in vocabulary.languages and len(rest) >= _SHORTEST_GLUED
        if name_first or name_last or run_on:
            middle = token.start + cut
            return [Token(first, token.start, middle, "word"), Token(rest, middle, token.end, "word")]
    return [token]


def _only_a_name(text: Text, token: Token, look: _Looked, names: Names) -> bool:
    """Whether a phrase may reach over a token: "kiwele cha Neema kimevimba"."""
    return bool(look.near) or (names.has(token.word) and token.word not in text.words.languages)


def _names_inside(text: Text, names: Names, looked: Sequence[_Looked], cue: Item) -> list[Item]:
    """The names that a phrase reached over."""
    inside = range(cue.start + 1, cue.end)
    return [_item_at(text, names, looked, words.Walk([], [], []), i) for i in inside
            if _only_a_name(text, text.tokens[i], looked[i], names)]  # fmt: skip


def _spell(text: Text, looked: Sequence[_Looked]) -> None:
    """Puts corrected words in place of misspelt ones, so that number words too are found."""
    for index, look in enumerate(looked):
        if look.corrected:
            text.tokens[index] = text.tokens[index]._replace(word=look.keys.keys[0])


def _vote(text: Text, looked: Sequence[_Looked]) -> None:
    for item in text.items:
        if item.sort in ("animal", "mark"):
            continue
        for index in range(item.start, item.end):
            token = text.tokens[index]
            if token.sort != "word" or _is_titled(text, index):
                continue
            languages = text.words.languages.get(token.word, ())
            if len(languages) == 1:
                language = next(iter(languages))
            elif not languages and text.words.verbs(token.word):
                language = "sw"
            else:
                continue
            text.votes[language] = text.votes.get(language, 0) + 1


def _item_at(text: Text, names: Names, looked: Sequence[_Looked], walk: words.Walk, at: int) -> Item:
    token = text.tokens[at]
    if token.sort == "mark":
        return Item("mark", at, at + 1, token.word)
    named = names.at(text.tokens, at)
    phrase = text.words.phrase_at(walk, at) if token.sort in ("word", "tag") and walk.keys else None
    if named is not None and (phrase is None or phrase.size < 2 or phrase.end <= named[1]):
        return _animal(text, names, looked, named, phrase, at)
    ear = token.sort == "number" and _EAR_NUMBER.fullmatch(token.word) is not None
    number = None if ear else numbers.number_at(text.tokens, at)
    if number is not None and (phrase is None or phrase.size < 2):
        return Item(
            "number",
            at,
            number.end,
            token.word,
            value=number.value,
            hint=number.hint,
            digits=number.digits,
            capital=_is_capital(text, at),
            doubtful=_broken_off(text, names, looked, number.end),
        )
    if phrase is not None:
        return _cue(looked, phrase, at, token.word, text)
    if token.sort == "number" and _EAR_NUMBER.fullmatch(token.word):
        return Item("tag", at, at + 1, token.word)
    if token.sort in ("date", "clock", "phone"):
        return Item(token.sort, at, at + 1, token.word)
    look = looked[at]
    if look.near:
        return Item(
            "animal", at, at + 1, token.word, value=look.near[0] if len(look.near) == 1 else None,
            near=True, fits=look.near, capital=_is_capital(text, at),
        )  # fmt: skip
    known = (look.known or look.corrected) and token.word not in text.words.people
    return Item(
        "tag" if token.sort == "tag" else "word",
        at,
        at + 1,
        token.word,
        capital=_is_capital(text, at),
        known=known,
        corrected=look.corrected,
        denied=look.keys.denied,
        prefix=look.keys.prefix,
    )


_SLIPS_OF_A_NUMBER = 2


def _broken_off(text: Text, names: Names, looked: Sequence[_Looked], end: int) -> bool:
    """Whether "na" and what looks like a number's rest, misspelt, follow: "kumi na meili"."""
    if end + 1 >= len(text.tokens) or text.tokens[end].word not in ("na", "and"):
        return False
    at = end + 1 if text.tokens[end + 1].word not in ("a", "an") else end + 2
    if at >= len(text.tokens):
        return False
    token, look = text.tokens[at], looked[at]
    written = text.raw[token.start : token.end].lower()
    if (
        token.sort != "word"
        or look.known
        or look.near
        or names.has(token.word)
        or token.word in VOCABULARY.numbers
    ):
        return False
    follows = text.tokens[at + 1] if at + 1 < len(text.tokens) else None
    if follows is not None and (follows.sort == "number" or follows.word in VOCABULARY.numbers):
        return False  # a name and its own number
    if not look.corrected and text.tokens[end - 1].word in _TENS and not _is_titled(text, at):
        return True
    return any(OSA.distance(written, rest) <= _SLIPS_OF_A_NUMBER for rest in _RESTS)


_TENS = frozenset(word for word, value in VOCABULARY.numbers.items() if 10 <= value < 100 and value % 10 == 0)
_RESTS = (
    *(word for word, value in VOCABULARY.numbers.items() if 0 < value < 10 and len(word) > 3),
    *("nusu", "robo", "half", "quarter"),
)
"""Words that a number goes on with after "na" or "and"."""


def _animal(
    text: Text,
    names: Names,
    looked: Sequence[_Looked],
    named: tuple[Known, int],
    phrase: words.Phrase | None,
    at: int,
) -> Item:
    other = None if phrase is None else _cue(looked, phrase, at, text.tokens[at].word, text)
    if other is None and text.tokens[at].word in text.words.languages:
        other = Item("word", at, at + 1, text.tokens[at].word, known=True)
    value = VOCABULARY.numbers.get(text.tokens[at].word)
    if value is not None:
        other = Item("number", at, at + 1, text.tokens[at].word, value=Decimal(value))
    twins = names.twins.get("".join(token.word for token in text.tokens[at : named[1]]), ())
    return Item(
        "animal",
        at,
        named[1],
        text.tokens[at].word,
        value=None if twins else named[0],
        fits=twins,
        other=other,
        capital=_is_capital(text, at),
    )


def _cue(looked: Sequence[_Looked], phrase: words.Phrase, at: int, word: str, text: Text) -> Item:
    keys = [looked[i].keys for i in range(at, phrase.end)]
    return Item(
        "cue", at, phrase.end, word, concepts=phrase.concepts, known=True, corrected=looked[at].corrected,
        denied=phrase.denied,
        prefix=next((k.prefix for k in keys if k.prefix), ""),
        capital=_is_capital(text, at),
    )  # fmt: skip
