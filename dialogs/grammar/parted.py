"""
A text that tells and asks in one: "Neema joto. Nimpigie nani?", "tayari 2, Neema 6".

The instruction is cut off and read by itself; what is left is read as any telling.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dialogs.grammar.found import Found, Scene
from dialogs.grammar.instructions import instructions
from dialogs.grammar.items import Item
from dialogs.grammar.pieces import STRONG
from service.husbandry.kinds import Ask, Done, Later

_TOPICS = ("call", "tasks", "price", "entries", "herd", "help", "statement")


@dataclass(frozen=True, slots=True)
class Parted:
    """The instructions before and after what is told, and the items that tell."""

    before: list[Found]
    items: list[Item]
    after: list[Found]


def parted(items: Sequence[Item], scene: Scene) -> Parted | None:
    """*items* parted in what tells and what only asks or reports a task; None where they are all one."""
    sentences = _sentences(items)
    before, told = _reported(list(items), scene)
    if before:
        sentences = _sentences(told)
    elif len(sentences) < 2:
        return None
    after: list[Found] = []
    rest: list[Item] = []
    cut = bool(before)
    for sentence in sentences:
        asked = _asked(sentence, scene)
        if asked is None:
            rest += sentence
        else:
            cut = True
            after += asked
    if not cut or not any(item.sort in ("animal", "number") for item in rest):
        return None
    return Parted(before, rest, after)


def _sentences(items: Sequence[Item]) -> list[list[Item]]:
    sentences: list[list[Item]] = [[]]
    for index, item in enumerate(items):
        sentences[-1].append(item)
        asks = item.word == "," and _opens_a_question(items[index + 1 :])
        if item.sort == "mark" and (item.word in STRONG or asks):
            sentences.append([])
    return [sentence for sentence in sentences if any(item.sort != "mark" for item in sentence)]


_ASKS_WHAT_TO_DO = (
    "nimpe", "nifanye", "tufanye", "nifanyeje", "tumpe", "nimpigie", "what", "whom", "who", "how",
    "nimtibu",
)  # fmt: skip


def _opens_a_question(rest: Sequence[Item]) -> bool:
    """Whether the last part of a text, after a comma, asks what to do: ", nimpe nini?"."""
    words = [item for item in rest if item.sort != "mark"]
    if not words or words[0].word not in _ASKS_WHAT_TO_DO:
        return False
    if any(item.sort in ("animal", "number") for item in words):
        return False
    swahili = words[0].word.startswith(("ni", "tu"))
    what = any(item.word in ("nini", "nani", "gani") or item.word.endswith("je") for item in words)
    return what or not swahili


def _asked(sentence: list[Item], scene: Scene) -> list[Found] | None:
    """What a sentence that names no animal asks: [] a question without an answer; None: it tells."""
    asks = sentence[-1].word == "?" or _opens_a_question(sentence)
    if not asks or any(item.sort in ("animal", "number", "tag") for item in sentence):
        return None
    found = instructions(sentence, scene)
    if found and all(one.kind is Ask and one.values.get("topic") in _TOPICS for one in found):
        return found
    unasked = found and found[0].kind is Ask and not any(item.has("milk") for item in sentence)
    return [] if not found or unasked else None


def _reports(head: list[Item], opens: Item) -> bool:
    """Whether *head* says that the tasks it numbers are done or put off."""
    told = any(item.has("done", "later") for item in head)
    return told and (opens.sort == "number" or opens.has("done", "later"))


def _reported(items: list[Item], scene: Scene) -> tuple[list[Found], list[Item]]:
    """ "tayari 2, Neema 6": tasks reported before the names; without them, ([], items)."""
    at = next((n for n, item in enumerate(items) if item.sort == "animal"), 0)
    head = items[:at]
    numbers = [item for item in head if item.sort == "number"]
    plain = all(
        item.sort in ("number", "mark")
        or item.has("done", "later", "greeting")
        or item.word in ("na", "and", "n")
        for item in head
    )
    opens = next((item for item in head if item.sort != "mark" and not item.has("greeting")), None)
    own = any(item.sort == "number" for item in items[at:]) or any(item.sort == "cue" for item in items[at:])
    if not (numbers and plain and own and opens is not None and _reports(head, opens)):
        return [], items
    if any(number.unit for number in numbers):
        return [], items
    found = instructions([item for item in head if not item.has("greeting")], scene)
    if found and all(one.kind in (Done, Later) for one in found):
        return found, items[at:]
    return [], items
