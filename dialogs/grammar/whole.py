"""A text as a whole, as the rules for instructions and questions look at it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Scene
from dialogs.grammar.items import Item
from dialogs.grammar.said import Said
from dialogs.grammar.when import Day, Period

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
        self.asks = self._question_mark(items) or self._question_word()
        self.words = [i for i in self.items if i.sort != "mark"]

    def has(self, *concepts: str) -> bool:
        return self.said.has(*concepts)

    def any(self, *concepts: str) -> bool:
        return self.said.any(*concepts)

    @staticmethod
    def _question_mark(items: Sequence[Item]) -> bool:
        """Whether a question mark ends more than a greeting before a telling: "Habari yako? Neema 6"."""
        said = False
        for index, item in enumerate(items):
            if item.sort == "mark" and item.word == "?":
                if said or index + 1 == len(items):
                    return True
            elif item.sort == "mark" and item.word in ".!;\n":
                said = False
            elif not (item.has("greeting", "alive", "state", "easy") or (item.sort == "word" and item.known)):
                said = True
        return False

    def _question_word(self) -> bool:
        opens = self.scene.text.tokens[:1] and self.scene.text.tokens[0].word in _INVERTED
        if opens and self.animals and self.animals[0].start == 1:
            return True  # "is Neema pregnant"
        for index, item in enumerate(self.items):
            follows = self.items[index + 1] if index + 1 < len(self.items) else None
            same = follows is not None and follows.word in ("hicho", "hichohicho", "hiki")
            if item.word == "kiasi" and same:
                continue  # "kiasi hicho hicho": the same quantity
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

_INVERTED = ("is", "was", "did", "has", "are", "does", "will", "were", "have", "do", "can", "could")
"""English verbs that open a question when the animal follows them."""

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


def month_told(whole: Whole) -> date | None:
    """The month that a question names, as its first day."""
    for item in whole.items:
        if item.sort == "when" and isinstance(item.value, Day):
            return item.value.on.replace(day=1)
        if item.sort == "when" and isinstance(item.value, Period) and item.value.name == "month":
            return whole.scene.now.date().replace(day=1)
    return None
