"""
The words to read by: vocabulary kept as data (``dialogs/words/*.toml``) and looked up by meaning.

A meaning ("concept") is a key such as ``milk``, ``sign.cough``, ``part.morning``. Phrases are found by
longest match; Kiswahili verbs by their stem, so that "-pandisha" covers amepandisha, kapandisha,
tumempandisha; an unknown word is taken for the known word nearest to it, if it is near enough.
"""

from __future__ import annotations

import itertools
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any, NamedTuple

from rapidfuzz import process
from rapidfuzz.distance import OSA

from dialogs.grammar.normalise import consonants, is_inside

LANGUAGES = ("sw", "en")

_PREFIXED = {
    "sign": "sign.", "heat_sign": "heat.", "disease": "disease.", "part": "part.", "relative": "day.",
    "when": "when.", "span": "span.", "weekday": "weekday.", "month": "month.", "unit": "unit.",
    "task": "task.",
}  # fmt: skip
"""Tables whose keys become concepts under a prefix; of the others, the key itself is the concept."""

_WHOLE = ("feed", "product", "breed", "greeting")
"""Tables that are one concept."""

_PREFIX = re.compile(
    r"(?:hu|ku|u?ku"
    r"|(?:ha(?:tu|wa|i|ya|li|ki|vi|zi|u|m|pa)?|si|hu(?=ja|ku|ta))(?:ja|ku|ta|na)?(?:ni|ku|mw|mu|m|wa|tu|i|li|ya|zi|ki|vi|u)?"
    r"|(?:ni|n|u|a|tu|m|mu|wa|i|li|ya|zi|ki|vi|yu|pa)?(?:si|na|mekwisha|mesha|me|lisha|li|ta|ka|ki|nge|sha|aka|akaa)?"
    r"(?:aku)?(?:ye|o|yo|lo|cho|vyo|po|zo|mo|ko)?(?:ku|nga|mw|mu|m|wa|tu|ni|i|li|ya|zi|ki|vi|ji|u)?"
    r"|ku(?:ni|mw|mu|m|wa|tu|i|li|ya|zi|ki|vi|ji|u|to))"
)
"""Subject, tense, relative and object marks that can stand before a verb's stem."""

_DENIAL = re.compile(r"ha(?!$)|ha$|si|hu(?=ja|ku|ta)|(?:u|a|tu|m|wa|i|li|ya|zi|ki|vi|ni)si|kuto")
_COMMON_PREFIXES = (
    "ame",
    "ana",
    "ka",
    "nime",
    "tume",
    "wame",
    "ali",
    "ime",
    "ku",
    "haja",
    "nili",
    "wali",
    "ha",
    "nimem",
    "tumem",
    "nimewa",
    "tumewa",
)


_MIXED = re.compile(r"((?:ni|u|a|tu|wa|i|ya)(?:me|na|li|ta)(?:m|wa)?|ha(?:wa|tu)?ja(?:m|wa)?)([a-z]{3,})")
"""A Kiswahili prefix on an English verb."""


class Keys(NamedTuple):
    """What a word can stand for in a phrase, and what its prefix says."""

    keys: tuple[str, ...]
    denied: bool = False
    prefix: str = ""


class Phrase(NamedTuple):
    """
    A phrase found: its meanings, the token after it, and its size in words.

    ``denied``: a verb in it that may stand in any form ("-stem") is told as not having happened.
    """

    concepts: tuple[str, ...]
    end: int
    size: int
    denied: bool


@dataclass(frozen=True, slots=True)
class LocalWords:
    """
    Words that a cooperative's farmers use beside the shipped ones: (group, meaning, word) rows.

    The groups and meanings are those of ``dialogs/words/*.toml``: ("cue", "milk", "amata"), ("disease",
    "ecf", "kagina"), ("feed", "words", "mapande"). The word "-kama" stands for all forms of a verb.
    """

    rows: tuple[tuple[str, str, str], ...] = ()


Tables = Mapping[str, Mapping[str, Sequence[str]]]
"""Group -> meaning -> words, of one language."""


@lru_cache(maxsize=1)
def _shipped() -> tuple[tuple[str, Tables], ...]:
    """The tables as shipped, each with its language."""
    folder = resources.files("dialogs") / "words"
    return tuple(
        (language, tomllib.loads((folder / f"{language}.toml").read_text("utf-8"))) for language in LANGUAGES
    )


def _tables_of(local: LocalWords) -> Tables:
    """
    *local* as tables of words.

    Raises:
        ValueError: a row's group or meaning is none of the shipped tables'.
    """
    known = {(group, key) for _, tables in _shipped() for group, keys in tables.items() for key in keys}
    tables: dict[str, dict[str, list[str]]] = {}
    for group, meaning, word in local.rows:
        if (group, meaning) not in known:
            raise ValueError(f"there is no meaning {meaning} in the group {group}")
        tables.setdefault(group, {}).setdefault(meaning, []).append(word.strip().lower())
    return tables


def has_meaning(group: str, meaning: str) -> bool:
    """Whether the shipped lists have that meaning in that group, so that local words can join it."""
    return any(meaning in tables.get(group, {}) for _, tables in _shipped())


class Vocabulary:
    """All words of all languages, and of one cooperative beside, ready to be looked up."""

    def __init__(self, local: LocalWords = LocalWords()) -> None:
        self.trie: dict[Any, Any] = {}
        self.languages: dict[str, set[str]] = {}
        self.plain: set[str] = set()
        self.people: set[str] = set()
        self.light: set[str] = set()
        self.dates: set[str] = set()  # months and days of the week: no form of a verb
        self.names: set[str] = set()  # words that cows too are called by
        self.numbers: dict[str, int] = {}
        self.forms: dict[str, list[str]] = {}
        for language, tables in (*_shipped(), ("sw", _tables_of(local))):
            for table, entries in tables.items():
                self._table(language, table, entries)
        self.known = set(self.languages) | self.plain | self.people
        self._pools = self._by_length()
        self._bones: dict[str, list[str]] = {}
        for word in itertools.chain.from_iterable(self._pools.values()):
            self._bones.setdefault(consonants(word), []).append(word)
        cached = lru_cache(maxsize=20_000)
        self.verbs = cached(self._verbs)
        self.keys_of = cached(self._keys_of)
        self.is_known = cached(self._is_known)
        self.nearest = cached(self._nearest)

    def _table(self, language: str, table: str, entries: Mapping[str, Sequence[str]]) -> None:
        if table in ("plain", "person", "light", "name"):
            words = {word.replace("'", "") for listed in entries.values() for word in listed}
            {"plain": self.plain, "person": self.people, "light": self.light, "name": self.names}[
                table
            ].update(words)
            if table in ("plain", "light"):
                for word in words:
                    self.languages.setdefault(word, set()).add(language)
            return
        for key, phrases in entries.items():
            if table == "number":
                self.numbers.update(dict.fromkeys(phrases, int(key)))
                for word in phrases:
                    self.languages.setdefault(word, set()).add(language)
                continue
            if table in ("month", "weekday"):
                self.dates.update(phrases)
            concept = table if table in _WHOLE else _PREFIXED.get(table, "") + key
            for phrase in phrases:
                self._phrase(language, concept, phrase.replace("'", "").split())

    def _phrase(self, language: str, concept: str, keys: Sequence[str]) -> None:
        node = self.trie
        for key in keys:
            node = node.setdefault(key, {})
            if key[0] in "-!+":
                self._stem(language, key[1:])
            else:
                self.languages.setdefault(key, set()).add(language)
        leaf = node.setdefault("", {})
        leaf.setdefault(concept, language)

    def _stem(self, language: str, stem: str) -> None:
        forms = [stem]
        if stem.endswith("a"):
            forms += [stem[:-1] + "e", stem[:-1] + "i"]
        for form in forms:
            stems = self.forms.setdefault(form, [])
            if stem not in stems:
                stems.append(stem)

    def _by_length(self) -> dict[int, list[str]]:
        words = {word for word in self.languages if len(word) >= 4}
        words -= {word for word in self.numbers if len(word) <= 4}  # "sour" is no "four"
        for form, stems in self.forms.items():
            if form == stems[0] and len(form) >= 3:
                words.update(prefix + form for prefix in _COMMON_PREFIXES)
                words.add("ha" + form[:-1] + "i")
                words.add(form)
        pools: dict[int, list[str]] = {}
        for word in sorted(words):
            pools.setdefault(len(word), []).append(word)
        return pools

    def pool(self, lengths: Iterable[int]) -> list[str]:
        return [word for length in lengths for word in self._pools.get(length, ())]

    def _verbs(self, word: str) -> tuple[tuple[str, str], ...]:
        """The (stem, prefix) pairs that *word* may be, the longest stem first."""
        if word in self.plain or word in self.people or word in self.dates:
            return ()
        found: list[tuple[str, str]] = []
        for cut in range(min(len(word) - 1, 11)):
            stems = self.forms.get(word[cut:])
            if stems is None:
                continue
            prefix = word[:cut]
            if not _PREFIX.fullmatch(prefix):
                continue
            if found and prefix == found[0][1] + "tu":
                continue  # "anatulia" is calm and does not bellow
            for stem in stems:
                if len(stem) > 3 or _bears_tense(stem, prefix):
                    found.append((stem, prefix))
            if found and prefix == "":
                break  # the word is a stem as it stands: "kamuliwa" is no form of "-liwa"
        return tuple(found)

    def _keys_of(self, word: str) -> Keys:
        """What *word*, spelled right, can stand for."""
        keys = [word]
        denied, prefix = False, ""
        for stem, before in self.verbs(word):
            refused = _DENIAL.match(before) is not None
            keys += ["-" + stem, ("!" if refused else "+") + stem]
            denied, prefix = denied or refused, prefix or before
        if not prefix:
            mixed = _MIXED.match(word)
            if mixed is not None and "en" in self.languages.get(mixed[2], ()):
                keys.append(mixed[2])  # "nimesell", "anacough"
                prefix, denied = mixed[1], mixed[1].startswith("ha")
        return Keys(tuple(keys), denied, prefix)

    def _is_known(self, word: str) -> bool:
        """Whether *word* is one of the vocabulary as it stands."""
        if word in self.known or word in self.numbers:
            return True
        return bool(self.verbs(word)) or len(self.keys_of(word).keys) > 1

    def _nearest(self, word: str) -> tuple[str, int] | None:
        """The known word that *word* most likely misspells, and how many slips away; None: none is near."""
        if len(word) < 3 or not word.isalpha():
            return None
        if len(word) == 3:
            return self._stretched(word)
        limit = allowed_distance(word)
        pool = self.pool(range(len(word) - limit, len(word) + limit + 1))
        near = process.extract(word, pool, scorer=OSA.distance, score_cutoff=limit, limit=8)
        if not near:
            return self._without_vowels(word)
        best = min(near, key=lambda n: self._unlikeness(word, n[0], int(n[1])))
        if best[1] == 2 and not _alike(word, best[0]):
            return self._without_vowels(word)
        if len(word) == 4 and best[0][0] != word[0] and sorted(best[0]) != sorted(word):
            return None
        return best[0], int(best[1])

    def _without_vowels(self, word: str) -> tuple[str, int] | None:
        """The one known word that *word* is when only vowels are left out, of four consonants or more."""
        bones = consonants(word)
        known = self._bones.get(bones, ()) if len(bones) >= _LEAST_CONSONANTS else ()
        fits = sorted((one for one in known if is_inside(word, one)), key=len)
        clear = fits and (len(fits) == 1 or len(fits[0]) < len(fits[1]))
        return (fits[0], len(fits[0]) - len(word)) if clear else None

    def _unlikeness(self, word: str, known: str, slips: int) -> tuple[int, bool, bool, bool, bool, bool]:
        """Orders candidates: fewest slips, then two letters swapped, same first letter, a letter left out."""
        swapped = len(word) == len(known) and sorted(word) == sorted(known)
        number = known in self.numbers  # a quantity is the last thing to take from a slip
        return slips, number, not swapped, known[0] != word[0], len(known) <= len(word), known[-1] != word[-1]

    def _stretched(self, word: str) -> tuple[str, int] | None:
        """A three-letter word is only taken for a four-letter one that keeps its first and last letter."""
        for known in self.pool((4,)):
            if known[0] == word[0] and known[-1] == word[-1] and OSA.distance(word, known) == 1:
                return known, 1
        return None

    def meanings(self, word: str) -> tuple[str, ...]:
        """The concepts of a single word."""
        return tuple(self.trie.get(word, {}).get("", ()))

    def phrase_at(self, walk: Walk, start: int) -> Phrase | None:
        """The longest phrase that begins at token *start*."""
        best = _longest(walk, start, self.trie, 0, False)
        if best is None:
            return None
        leaf, end, size, denied = best
        return Phrase(tuple(leaf), end, size, denied)


_TENSED = re.compile(
    r"(?:ni|n|u|a|tu|m|wa|i|li|ya|zi|ki|vi)(?:me|na|li|ta|ka|ki|nge|si)|[kmn]a|me|ku|ka|ha|si|hu"
)
"""What stands before a stem so short that other words end in it too ("miba" is no theft)."""


def _bears_tense(stem: str, prefix: str) -> bool:
    if prefix == "":
        return len(stem) > 2
    return _TENSED.match(prefix) is not None and (
        len(stem) > 2
        or (len(prefix) > 2 and not (prefix.startswith("me") and not prefix.startswith("meku")))
        or prefix in ("ku", "ka", "ha")
    )


_LEAST_CONSONANTS = 4  # that a word written without vowels needs to be known by them


def allowed_distance(word: str) -> int:
    """How many slips (a letter more, less, other or two swapped) *word* may be away from what it means."""
    return 1 if len(word) < 7 else 2


def _alike(word: str, known: str) -> bool:
    """Whether two slips may be forgiven: a long word with the same beginning, or the same two ends."""
    if len(word) >= 9:
        return word[:3] == known[:3]
    return word[:2] == known[:2] and word[-2:] == known[-2:]


class Walk(NamedTuple):
    """A text's words as the phrase search sees them: keys of each token, and which may be passed over."""

    keys: list[tuple[str, ...]]
    light: list[bool]
    denied: list[bool]


_Best = tuple[dict[str, str], int, int, bool]


def _longest(walk: Walk, at: int, node: dict[Any, Any], size: int, denied: bool) -> _Best | None:
    best: _Best | None = None
    if size and "" in node:
        best = (node[""], at, size, denied)
    if at >= len(walk.keys):
        return best
    for key in walk.keys[at]:
        below = node.get(key)
        if below is None:
            continue
        found = _longest(walk, at + 1, below, size + 1, denied or (walk.denied[at] and key[0] == "-"))
        if found is None:
            continue
        if best is None or (found[2], -found[1]) > (best[2], -best[1]):
            best = found
        elif best[1:3] == found[1:3]:  # one word with several meanings, as "amekufa"
            best = ({**best[0], **found[0]}, best[1], best[2], best[3] and found[3])
    if size and walk.light[at]:
        found = _longest(walk, at + 1, node, size, denied)
        if found is not None and (best is None or found[2] > best[2]):
            best = found
    return best


VOCABULARY = Vocabulary()
"""The words as shipped."""

verbs, keys_of, is_known = VOCABULARY.verbs, VOCABULARY.keys_of, VOCABULARY.is_known
nearest, meanings, phrase_at = VOCABULARY.nearest, VOCABULARY.meanings, VOCABULARY.phrase_at


@lru_cache(maxsize=16)
def vocabulary(local: LocalWords) -> Vocabulary:
    """The shipped words with *local* ones beside; made once for each set."""
    return Vocabulary(local) if local.rows else VOCABULARY


def is_swahili(word: str) -> bool:
    """Whether *word* is one of Kiswahili alone: there a number follows what it counts."""
    return VOCABULARY.languages.get(word) == {"sw"}
