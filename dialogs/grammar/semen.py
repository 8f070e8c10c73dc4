"""A question about semen: for which cow, what the farmer wants of a bull in her order, and her price."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.found import Found, display
from dialogs.grammar.items import Item
from dialogs.grammar.phrases import Spot, Wording, words_of
from dialogs.grammar.whole import Whole
from service.husbandry.kinds import Ask
from service.husbandry.semen import TRAITS

_MOST_POLITENESS = 2
"""Words that may stand before what opens the question."""

_PAST = re.compile(r"(?:a|wa|i|zi|ni|tu|u)(?:li|me|mesha)[a-z]{4,}")
"""Kiswahili verbs of what has happened: "alimpanda" asks about a bull that was used."""


def semen(whole: Whole) -> list[Found] | None:
    """
    "MBEGU NEEMA maziwa, kiwele bei 20000", "which bull for Neema?".

    A semen told with a cow and nothing that is wanted of it ("MBEGU NEEMA") is a service; so is one that
    was used, and seed for the field is none at all.
    """
    wording = Wording(whole.scene.text.raw, "semen")
    if not wording.says("asked", "which") or wording.says("used", "seed"):
        return None
    asked = _Asked(whole, wording)
    return [Found(Ask, asked.values)] if asked.is_one else None


class _Asked:
    """What a text that speaks of semen asks."""

    def __init__(self, whole: Whole, wording: Wording) -> None:
        self.whole, self.wording = whole, wording
        self.cows = self._cows()
        self.names = {at for item in self.cows for at in self._first_place(item)}
        self.aims = tuple(dict.fromkeys(trait for trait, _ in self._aims()))
        self.sums = slots.sums(whole.clause)
        self.rest = self._rest()

    def _cows(self) -> list[Item]:
        """The animals named; one called like an aim ("Maziwa") is meant where no other is."""
        aims = {at for trait in TRAITS for spot in self.wording.spots(trait) for at in range(*spot)}
        others = [item for item in self.whole.animals if not aims.intersection(self._first_place(item))]
        return others or self.whole.animals[:1]

    def _first_place(self, item: Item) -> list[int]:
        size = len(words_of(self.whole.scene.text.written(item.start, item.end)))
        return list(self._places(item))[:size]

    def _aims(self) -> list[tuple[str, Spot]]:
        """Each aim and where it is told, in order; of phrases that overlap the longer one."""
        told = [(trait, spot) for trait in TRAITS for spot in self.wording.spots(trait)]
        told = [(trait, spot) for trait, spot in told if not self.names.intersection(range(*spot))]
        found: list[tuple[str, Spot]] = []
        for trait, spot in sorted(told, key=lambda one: (one[1].start, -one[1].end)):
            if not found or spot.start >= found[-1][1].end:
                found.append((trait, spot))
        return found

    def _rest(self) -> list[int]:
        """The places of the words that are no part of such a question."""
        covered = set(self.names)
        for meaning in ("asked", "which", *TRAITS, "most", "price", "beside"):
            for spot in self.wording.spots(meaning):
                covered.update(range(*spot))
        for item in self.sums:
            covered.update(self._places(item))
        return [at for at in range(len(self.wording.words)) if at not in covered]

    def _places(self, item: Item) -> Iterator[int]:
        written = words_of(self.whole.scene.text.written(item.start, item.end))
        words = self.wording.words
        for at in range(len(words) - len(written) + 1):
            if words[at : at + len(written)] == written:
                yield from range(at, at + len(written))

    @property
    def is_one(self) -> bool:
        """Whether it asks, or opens so and holds nothing else than an aim or the most to pay."""
        if any(_PAST.fullmatch(self.wording.words[at]) for at in self.rest):
            return False
        if self.whole.asks and self.wording.says("which"):
            return True
        first = min(spot.start for meaning in ("asked", "which") for spot in self.wording.spots(meaning))
        wanted = bool(self.aims) or (bool(self.sums) and self.wording.says("most"))
        return wanted and (self.whole.asks or first <= _MOST_POLITENESS) and self._rest_is_a_name

    @property
    def _rest_is_a_name(self) -> bool:
        """Whether what is left can be one name, of a cow that the farm has or has not."""
        if not self.rest:
            return True
        return len(self.rest) == 1 and not self.names and self.wording.words[self.rest[0]].isalpha()

    @property
    def values(self) -> dict[str, Any]:
        told: dict[str, Any] = {"topic": "semen", "animal": self._animal(), "aims": self.aims}
        if self.sums:
            told["price"] = slots.first_sum(self.whole.clause, self.whole.scene)
        return told

    def _animal(self) -> str | None:
        """The one animal named; None where none or several are."""
        if self.cows:
            known = {item.value.name if item.value is not None else None for item in self.cows}
            name = known.pop()
            return None if known or name is None else str(name)
        if not self.whole.scene.names.open or len(self.rest) != 1:
            return None
        word = self.wording.words[self.rest[0]]
        item = next((item for item in self.whole.items if item.word == word), None)
        return None if item is None else display(self.whole.scene.text, item)
