"""Advice asked for by its topic, and whether it may come unasked."""

from __future__ import annotations

import re

from dialogs import advice as topics
from dialogs.grammar.found import Found
from dialogs.grammar.phrases import Wording
from dialogs.grammar.whole import Whole
from service.husbandry.kinds import Ask, Setting

TASK = "advice"
"""What the setting calls it."""

_WORD = re.compile(r"[^\W_]+(?:['\u2018\u2019][^\W_]+)*|[:/]")
"""The words of a text where they are written, as :func:`words_of` has them plain."""


def advice(whole: Whole) -> list[Found] | None:
    """
    "HELP CALVING", "msaada wa kuzaa": a word for help and nothing but a topic's name after it.

    "Help, she is calving" is no such text: what it says besides is told.
    """
    wording = Wording(whole.scene.text.raw, "advice")
    for meaning, off in (("quiet", True), ("wanted", False)):
        if wording.says(meaning) and wording.is_only(meaning, "polite"):
            return [Found(Setting, {"task": TASK, "off": off, "on": whole.scene.now.date()})]
    about = _named_after_help(whole.scene.text.raw, wording)
    return None if about is None else [Found(Ask, {"topic": "help", "about": about})]


def _named_after_help(raw: str, wording: Wording) -> str | None:
    """The topic as written, where the text asks for help with one; None else."""
    first = next(wording.spots("opens"), None)
    written = list(_WORD.finditer(raw))
    if first is None or first.start or len(written) != len(wording.words):
        return None
    begins = {at for meaning in ("opens", "filler") for spot in wording.spots(meaning) for at in range(*spot)}
    start = next((at for at in range(len(written)) if at not in begins), None)
    if start is None:
        return None
    about = raw[written[start].start() : written[-1].end()]
    return about if topics.is_named(about) else None
