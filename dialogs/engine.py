"""
One step of a conversation: what was asked before and what is texted now make a turn.

Pure: a :class:`Turn` says what to record, what to carry out, what to ask; the flow does it. A question
waits a day. A text that stands by itself is never taken for an answer; a plain answer (a number of the
list, a name, yes, a value of the kind asked for) always is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from rapidfuzz.fuzz import ratio

from dialogs import how_is_it, milk_fall, secret
from dialogs.answering import answer, settled
from dialogs.grammar.read import read
from dialogs.grammar.settle import doubt
from dialogs.reading import Code, Problem, Reading
from dialogs.turn import Scene, Turn, to_carry_out
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.kinds.health import Recovery, Treatment
from service.husbandry.kinds.herd_book import AnimalSale, Death
from service.husbandry.kinds.instructions import Ask, Contest, Pin

SAME_NAME = 75
"""Likeness (0-100) from which a word of the text is taken for the name, slips and all."""


def step(text: str, asked: tuple[Problem, ...], scene: Scene) -> Turn:
    """
    The turn that *text* makes.

    Args:
        text: As sent.
        asked: Questions still open, the one asked last first; lapsed ones left out.
        scene: The farm's herd, the moment, the sender's language.
    """
    code = secret.code_alone(text)
    if code is not None and asked and secret.is_asked(asked[0]):
        return _opened(code, asked, scene)
    reading = read(text, scene.herd, now=scene.now, language=scene.language, place=scene.place)
    ill = how_is_it.volunteered(text, reading, scene.herd, scene.now.date())
    if ill is not None:
        turn = settled(ill, (), scene, confirmed=True)
        return replace(turn, waiting=tuple(q for q in asked if not any(_covers(e, q) for e in turn.entries)))
    if asked and (_denies(reading, asked[0]) or not _stands_alone(text, reading)):
        given = answer(text, asked, scene)
        if given is not None:
            return _in_place(given, asked[0])
    return _fresh(reading, asked)


def _opened(code: str, asked: tuple[Problem, ...], scene: Scene) -> Turn:
    """What waited for the secret number, with the number that was given."""
    then = secret.held_back(asked[0])
    return Turn(
        language=scene.language,
        entries=tuple(e for e in then if not to_carry_out(e)),
        instructions=(Pin(act="give", code=code), *(e for e in then if to_carry_out(e))),
        waiting=asked[1:],
        answered=True,
    )


def _denies(reading: Reading, question: Problem) -> bool:
    """Whether "not true" is the answer no, rather than about what somebody else has told."""
    return question.code is Code.CONFIRM and any(isinstance(entry, Contest) for entry in reading.entries)


def _in_place(turn: Turn, question: Problem) -> Turn:
    """*turn*, whose outcome goes in the place of the entry that *question* was about, if of one."""
    if question.amends is None:
        return turn
    if turn.entries:
        return replace(turn, amends=question.amends)
    return replace(turn, questions=tuple(_still_about(q, question) for q in turn.questions))


def _still_about(question: Problem, before: Problem) -> Problem:
    """The next question of the same record is about the same entry."""
    same = (
        question.draft is not None and before.draft is not None and question.draft.kind is before.draft.kind
    )
    return replace(question, amends=before.amends) if same else question


def _stands_alone(text: str, reading: Reading) -> bool:
    """Whether *text* tells something whole of its own, rather than what a question left out."""
    words = [word.strip(".,;:!?") for word in text.casefold().split()]
    return any(_is_whole(entry, words) for entry in reading.entries if not _names_only(entry))


def _is_whole(entry: Entry, words: Sequence[str]) -> bool:
    """Whether the text itself says whom *entry* is about: not where the only cow was taken to be meant."""
    named = [name for name in entry.named if name != EVERY_ANIMAL]
    return not named or any(_said(name, words) for name in named)


def _names_only(entry: Entry) -> bool:
    return isinstance(entry, Ask) and entry.topic == "animal"


def _said(name: str, words: Sequence[str]) -> bool:
    return any(ratio(name.casefold(), word) >= SAME_NAME for word in words)


def told(
    entries: Iterable[Entry], asked: tuple[Problem, ...], scene: Scene, *, amends: int | None = None
) -> Turn:
    """
    The turn of whole *entries*, as the menu tells them: what is unlikely about one is asked, as of a text.

    Args:
        entries: Records and instructions.
        asked: Questions still open, as for :func:`step`.
        scene: As for :func:`step`.
        amends: The id of the entry in whose place the record is told.
    """
    found = [(entry, _doubt(entry, scene, amends)) for entry in entries]
    reading = Reading(
        language=scene.language,
        entries=tuple(entry for entry, problem in found if problem is None),
        problems=tuple(problem for _, problem in found if problem is not None),
    )
    return replace(_fresh(reading, asked), amends=amends)


def _doubt(entry: Entry, scene: Scene, amends: int | None) -> Problem | None:
    problem = None if to_carry_out(entry) else doubt(entry, scene.herd, now=scene.now)
    if problem is None or amends is None:
        return problem
    # What is put right is there already: that is no doubt about it.
    return None if problem.ask.values.get("why") == "twice" else replace(problem, amends=amends)


def _fresh(reading: Reading, asked: tuple[Problem, ...]) -> Turn:
    """A text that stands by itself. Older questions wait behind its own, unless it has answered them."""
    settled = [question.draft for question in reading.problems]
    waiting = tuple(
        q for q in asked if q.draft not in settled and not any(_covers(e, q) for e in reading.entries)
    )
    return Turn(
        language=reading.language,
        entries=tuple(e for e in reading.entries if not to_carry_out(e)),
        instructions=tuple(e for e in reading.entries if to_carry_out(e)),
        questions=reading.problems,
        waiting=waiting,
        shaky=bool(reading.shaky),
        unread=reading.unread,
    )


def _covers(entry: Entry, question: Problem) -> bool:
    """Whether *entry* tells what *question* was asked about, or that its animal has left."""
    draft = question.draft
    if draft is None:
        return False
    name = draft.values.get("animal")
    if isinstance(entry, Death | AnimalSale) and name in entry.named:
        return True
    if how_is_it.is_asked(question) and isinstance(entry, Recovery | Treatment):
        return name in entry.named
    if milk_fall.is_settled_by(entry, question):
        return True
    if draft.kind is not type(entry):
        return False
    return name is None or name in entry.named
