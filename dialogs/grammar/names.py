"""The herd's names as a text may write them: exactly, in pieces ("a 12"), or with a slip of the thumb."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from rapidfuzz.distance import OSA

from dialogs.grammar.normalise import Token, clean, consonants, is_inside
from service.husbandry.herd import Herd, Known, Status

_PIECES = re.compile(r"[a-z0-9]+")
ADULT_FEMALES = (Status.MILKING, Status.DRY, Status.IN_CALF_HEIFER, Status.HEIFER)


@lru_cache(maxsize=10_000)
def joined(name: str) -> str:
    """A name's letters and digits alone, by which it is looked up."""
    return "".join(_PIECES.findall(clean(name).replace("'", "")))


def _skeleton(word: str) -> str:
    """First letter and consonants: what stays when vowels are mistyped ("nemaa", Neema)."""
    return word[:1] + "".join(letter for letter in word[1:] if letter not in "aeiou")


_LEAST_SHORTENED = 4
"""Letters of the shortest name that is known again without its vowels."""


@dataclass(slots=True)
class Names:
    """The animals of a herd by every name they go by. *open*: no herd is known, any name may be one's."""

    herd: tuple[Known, ...]
    open: bool
    by_name: dict[str, Known] = field(default_factory=dict)
    words: tuple[str, ...] = ()  # names that a slip may be near to
    twins: dict[str, tuple[Known, ...]] = field(default_factory=dict)  # names that several present bear

    @classmethod
    def of(cls, herd: Herd | None) -> Names:
        animals = () if herd is None else herd.animals
        index = cls(animals, not animals)
        left = () if herd is None else herd.left
        for animal in animals:
            for name in {joined(name) for name in (animal.name, *animal.names)}:
                same = index.by_name.setdefault(name, animal)
                if same is not animal:
                    index.twins[name] = (*index.twins.get(name, (same,)), animal)
        for animal in (*animals, *left):  # of two of one name the one present is meant
            for name in (animal.name, *animal.names):
                index.by_name.setdefault(joined(name), animal)
        index.words = tuple(name for name in index.by_name if name.isalpha())
        return index

    def has(self, word: str) -> bool:
        return word in self.by_name

    def at(self, tokens: Sequence[Token], start: int) -> tuple[Known, int] | None:
        """The animal named from token *start* on (the longest such name) and the token after it."""
        if not self.by_name:
            return None
        best: tuple[Known, int] | None = None
        whole = ""
        for end in range(start, min(start + 3, len(tokens))):
            token = tokens[end]
            if token.word == "-" and whole.isalpha() and token.start == tokens[end - 1].end:
                continue  # "A-12"
            if token.sort == "mark" or (end > start and token.hint):
                break
            whole += token.word.replace(" ", "")
            animal = self.by_name.get(whole)
            if animal is not None:
                best = animal, end + 1
        return best

    def near(self, word: str) -> tuple[tuple[Known, ...], int]:
        """The animals whose name *word* may misspell, and how many slips away."""
        if word.isdigit():
            return tuple(
                a for name, a in self.by_name.items() if name.isdigit() and name.lstrip("0") == word
            ), 1
        if len(word) < 3 or not word.isalpha():
            return (), 0
        limit = 2 if len(word) >= 7 else 1
        found: dict[str, int] = {}
        for name in self.words:
            if abs(len(name) - len(word)) > limit or len(name) < 4:
                continue
            slips = OSA.distance(word, name, score_cutoff=2)
            if slips == 2 and limit == 1 and len(word) >= 5 and _skeleton(word) == _skeleton(name):
                found[name] = slips
                continue
            short = len(word) == 3 and not (name[0] == word[0] and name[-1] == word[-1])
            if slips <= limit and not short:
                found[name] = slips
        if not found:
            return self._without_vowels(word)
        least = min(found.values())
        animals = {
            self.by_name[name].name: self.by_name[name] for name, slips in found.items() if slips == least
        }
        return tuple(animals.values()), least

    def _without_vowels(self, word: str) -> tuple[tuple[Known, ...], int]:
        """The one animal whose name *word* is when some vowels are left out: "nma" is Neema, "zwd" Zawadi."""
        fits = [
            name for name in self.words
            if len(name) >= _LEAST_SHORTENED
            and consonants(name) == consonants(word)
            and is_inside(word, name)
        ]  # fmt: skip
        return ((self.by_name[fits[0]],), 1) if len(fits) == 1 else ((), 0)

    def group(self, group: str) -> tuple[str, ...]:
        """Names of the calves, heifers, milking cows, dry cows, bulls or steers, in the herd's order."""
        wanted = _GROUPS[group]
        return tuple(a.name for a in self.herd if a.status in wanted)

    def all_names(self) -> tuple[str, ...]:
        return tuple(animal.name for animal in self.herd)


_GROUPS = {
    "calves_all": (Status.CALF,),
    "calf": (Status.CALF,),
    "heifers_all": (Status.HEIFER, Status.IN_CALF_HEIFER),
    "heifer": (Status.HEIFER, Status.IN_CALF_HEIFER),
    "in_calf_heifer": (Status.IN_CALF_HEIFER,),
    "milking_all": (Status.MILKING,),
    "milking": (Status.MILKING,),
    "dry_now": (Status.DRY,),
    "bull_animal": (Status.BULL,),
    "bull": (Status.BULL,),
    "steer": (Status.STEER,),
}
"""Which animals a word for a group means."""
