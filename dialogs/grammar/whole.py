"""A text as a whole, as the rules for instructions and questions look at it."""

from __future__ import annotations

from collections.abc import Sequence

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Scene
from dialogs.grammar.heads import Said
from dialogs.grammar.items import Item

RECORDS = (
    "heat",
    "mating",
    "serve",
    "ai",
    "calve",
    "abort",
    "yield",
    "vaccinate",
    "die",
    "sell",
    "buy",
    "treat",
    "pregnant",
    "empty",
    "unwell",
    "slaughter",
    "new",
    "named",
    "rename",
    "feed_verb",
    "deliver",
)
"""Meanings that make a text a telling even where an instruction's word stands in it."""


class Whole:
    """A text as a whole, as the rules below look at it."""

    def __init__(self, items: Sequence[Item], scene: Scene) -> None:
        self.items = [
            item for item in items if not (item.sort == "cue" and item.has("greeting") and len(items) > 1)
        ]
        self.scene = scene
        self.said = Said(self.items)
        self.clause = Clause(scene.text, "", list(self.items))
        self.animals = [item for item in self.items if item.sort == "animal"]
        self.asks = any(i.sort == "mark" and i.word == "?" for i in self.items) or self._question_word()
        self.words = [i for i in self.items if i.sort != "mark"]

    def has(self, *concepts: str) -> bool:
        return self.said.has(*concepts)

    def any(self, *concepts: str) -> bool:
        return self.said.any(*concepts)

    def _question_word(self) -> bool:
        for item in self.items:
            if item.has("question") and (item is self.items[0] or item.word in _SWAHILI_QUESTIONS):
                return True
            if item is self.items[0] and item.word in _ENGLISH_QUESTIONS:
                return True
            if item.word.endswith("je") and len(item.word) > 5 and item.sort in ("word", "cue"):
                return True  # "natumiaje": how do I use it
        return False

    @property
    def plain_numbers(self) -> tuple[int, ...]:
        """Item numbers told: 1 3, 1,3, "1 na 3"."""
        found: list[int] = []
        for item in self.items:
            if item.word == "kwanza":
                found.append(1)
            if item.sort == "number" and item.unit is None and not item.hint:
                pieces = item.word.split(",") if item.digits and " " not in item.word else [str(item.value)]
                found += [
                    int(float(piece)) for piece in pieces if piece and float(piece) == int(float(piece)) < 100
                ]
            elif item.sort == "date" and "/" in item.word:
                found += [int(piece) for piece in item.word.split("/")]
        return tuple(number for number in found if number > 0)


_SWAHILI_QUESTIONS = (
    "nini",
    "gani",
    "je",
    "lini",
    "wapi",
    "vipi",
    "ngapi",
    "nani",
    "yupi",
    "ipi",
    "wangapi",
    "yapi",
    "yukoje",
    "ikoje",
    "anaendeleaje",
    "zipi",
    "wakoje",
    "mingapi",
    "kiasi",
    "atazaa",
    "hali",
    "kwanini",
    "mbona",
)


_ENGLISH_QUESTIONS = ("how", "what", "who", "whom", "whats", "where", "which")

_TASK_FIRST = (
    "weigh",
    "pregnancy_check",
    "return_heat",
    "calf_feed",
    "deworm",
    "spray",
    "disinfect",
    "vaccinate",
    "dry_off",
    "weaning",
    "steam_up",
    "serve",
    "milk_record",
    "statement",
    "calving",
    "heat_after_calving",
    "first_service",
)


def task_of(items: Sequence[Item]) -> str | None:
    """The task named in words, if one is."""
    told = [item.starts("task.") for item in items if item.sort == "cue"]
    tasks = [task for task in told if task is not None]
    return next((task for task in _TASK_FIRST if task in tasks), None)


def is_short(whole: Whole, most: int) -> bool:
    return len(whole.words) <= most
