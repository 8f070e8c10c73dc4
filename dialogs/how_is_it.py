"""How an animal is that was told to be ill: asked with the reminder, answered by a number or its word."""

from __future__ import annotations

import re
from datetime import date

from dialogs.grammar.answers import read_choice
from dialogs.grammar.normalise import clean
from dialogs.reading import Code, Draft, Problem, Reading
from service.husbandry.herd import Animal, Herd, Known
from service.husbandry.kinds.health import Illness, Recovery, Treatment
from service.messages import say

TASK = "illness_check"
WHY = "how_is_it"

BETTER, SAME, WORSE, TREATED = range(4)

SHORT = 4
"""Words up to which a text is taken as the answer for one of them; a longer one tells something else."""

CHOICES = (
    ("amepona", "vilevile", "amezidi", "amepewa dawa"),
    ("well again", "the same", "worse", "got a drug"),
)
"""What can be answered, in the order in which it is asked; either may be answered by its number."""

IS_SAME = re.compile(
    r"\b(?:bado|vilevile|vile vile|haja\w*pona|hajapata nafuu|same|still|no change|not better)\b"
)
IS_BETTER = re.compile(r"\b(?:amepona|kapona|nafuu|ahueni|mzima|recovered|better|well)\b")
IS_WORSE = re.compile(r"\b(?:\w+zidi|\w*zidiwa|worse|worsen\w*)\b")
"""Words that say how one that is ill is, without another sign; "not better" goes before "better"."""


def question(animal: Animal) -> Problem:
    """The question about *animal*, which is ill."""
    known = {"animal": animal.name, "on": animal.ill_on, "signs": animal.ill_signs}
    return Problem(
        code=Code.CONFIRM,
        ask=say(f"ask.confirm.{WHY}", why=WHY, kept=True),
        draft=Draft(kind=Illness, values=known),
    )


def is_asked(problem: Problem) -> bool:
    return problem.ask.values.get("why") == WHY


def answered(text: str, draft: Draft, herd: Herd, on: date) -> Draft | None:
    """What *text* tells in answer to the question that *draft* stands for; None: it is no answer."""
    choice = _choice(text)
    name, signs = draft.values["animal"], draft.values["signs"]
    if choice is None or any(name not in one.names and _is_named(one, clean(text)) for one in herd.animals):
        return None
    if choice == BETTER:
        return Draft(kind=Recovery, values={"animal": name, "on": on})
    if choice == TREATED:
        return Draft(kind=Treatment, values={"animals": (name,), "on": on})
    return _still_ill(name, signs, on, worse=choice == WORSE)


def _choice(text: str) -> int | None:
    """The answer chosen, by its number, its words, or other words for the same."""
    chosen = (read_choice(text, words) for words in CHOICES)
    choice = next((one for one in chosen if one is not None), None)
    told = clean(text)
    if choice is not None or len(told.split()) > SHORT:
        return choice
    meant = ((SAME, IS_SAME), (WORSE, IS_WORSE), (BETTER, IS_BETTER))
    return next((one for one, words in meant if words.search(told)), None)


def _still_ill(name: str, signs: tuple[str, ...], on: date, *, worse: bool) -> Draft:
    return Draft(kind=Illness, values={"animal": name, "on": on, "signs": signs, "worse": worse})


def volunteered(text: str, reading: Reading, herd: Herd, on: date) -> Draft | None:
    """
    What *text* tells of one that is known to be ill: "NEEMA BADO ANAUMWA", "Neema is worse".

    None: it tells a record of its own, or of none that is ill, or nothing of how it is.
    """
    if reading.entries or not reading.problems or not _says_no_sign(reading.problems[0]):
        return None
    told = clean(text)
    ill = [animal for animal in herd.animals if animal.ill_signs and _is_named(animal, told)]
    worse = IS_WORSE.search(told) is not None
    sick = reading.problems[0].code is Code.MISSING
    if len(ill) != 1 or not (worse or sick or IS_SAME.search(told)):
        return None
    return _still_ill(ill[0].name, ill[0].ill_signs, on, worse=worse)


def _says_no_sign(problem: Problem) -> bool:
    """Whether all that was read is, at most, that an animal is ill."""
    if problem.code is Code.MISSING:
        return problem.field == "signs"
    return problem.code is Code.NOT_UNDERSTOOD and not problem.ask.values.get("danger")


def _is_named(animal: Known, told: str) -> bool:
    return any(re.search(rf"\b{re.escape(clean(name))}\b", told) for name in animal.names)
