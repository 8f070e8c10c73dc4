"""The meanings of a piece of a text, as the rules for its kind look at them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from dialogs.grammar.items import Item

DENIED = "denied"
"""The kind of a piece that says that something did not happen."""

NOUNS = ("cattle", "cow", "heifer", "in_calf_heifer", "calf", "bull_animal", "steer")

PEOPLE = frozenset({
    "mama", "baba", "mtoto", "watoto", "mke", "mume", "kaka", "dada", "bibi", "babu", "mimi", "jirani",
    "rafiki", "mwalimu", "shangazi", "mjomba", "i", "im", "wife", "husband", "child", "children",
    "mother", "father", "brother", "sister", "son", "daughter", "grandmother", "grandfather", "uncle",
    "aunt", "mwanangu", "mwanetu", "mwanae", "shemeji", "neighbour", "neighbor", "friend",
})  # fmt: skip
"""Words by which a text speaks of people's health, which is not ours to write down."""


_OF_ME = re.compile(r"(?:ni|tu)(?:me|na|li)|na|n")
""" "nimechoka", "naumwa": the sender speaks of himself."""


class Said:
    """The meanings of a piece, and how they are told."""

    def __init__(self, items: Sequence[Item]) -> None:
        self.items = items
        self.told: set[str] = set()
        self.refused: set[str] = set()
        for item in items:
            if item.sort == "cue":
                (self.refused if item.denied else self.told).update(_meant(item))
        self.animals = [item for item in items if item.sort == "animal"]
        self.units = {item.unit for item in items if item.sort == "number"}
        self.count = sum(item.sort == "number" for item in items)

    def has(self, *concepts: str) -> bool:
        return not self.told.isdisjoint(concepts)

    def any(self, *concepts: str) -> bool:
        return any(c in self.told or c in self.refused for c in concepts)

    def denies(self, *concepts: str) -> bool:
        return any(c in self.refused for c in concepts)

    def sign(self, prefix: str) -> bool:
        return any(c.startswith(prefix) for c in self.told)

    @property
    def names_cattle(self) -> bool:
        return bool(self.animals) or self.has(*NOUNS) or self.has("everyone", "calves_all", "heifers_all")

    @property
    def of_people(self) -> bool:
        """Whether it is a person that is spoken of: "mtoto wangu ana homa"."""
        if self.names_cattle:
            return False
        mine = (item.prefix for item in self.items if item.starts("sign.") or item.has("unwell"))
        return any(item.word in PEOPLE for item in self.items) or any(map(_OF_ME.fullmatch, mine))

    @property
    def strange(self) -> bool:
        """A word that may be the name of an animal."""
        return any(
            i.sort == "tag" or (i.sort == "word" and not i.known and len(i.word) > 2) for i in self.items
        )


_OF_PAYING = ("pay", "spend", "receive", "feed", "milk_pay", "wish")


def _meant(item: Item) -> Sequence[str]:
    """The meanings of a cue: milk still to be paid for is no payment, a bull that I want is no cow's heat."""
    if "mating" in item.concepts and item.prefix in ("na", "nina", "tuna", "nili", "tuli"):
        return ()
    if "meat" in item.concepts and item.prefix.endswith("si"):
        return ("meat",)  # "asichinjwe": she must not be slaughtered
    if "hold" in item.concepts and "spend" in item.concepts:
        return [concept for concept in item.concepts if concept != "spend"]  # "yasitumike siku tatu"
    if "credit" not in item.concepts:
        return item.concepts
    return [concept for concept in item.concepts if concept not in _OF_PAYING]


def speaker(said: Said, concept: str) -> bool:
    """Whether the verb of *concept* is said by the farmer of herself (ni-, tu-, "we")."""
    return any(
        i.has(concept) and i.prefix[:2] in ("ni", "tu", "n") and "lipwa" not in i.word
        for i in said.items
        if i.sort == "cue"
    )


def third_person(said: Said, concept: str) -> bool:
    """ "Juma amenunua maziwa": somebody else did it (English: a name before the verb)."""
    for index, item in enumerate(said.items):
        if item.sort == "cue" and item.has(concept):
            if item.prefix:
                return item.prefix[:1] in ("a", "k", "w")
            return (
                index > 0
                and said.items[index - 1].sort == "word"
                and said.items[index - 1].word not in ("i", "we", "have", "ive")
            )
    return False
