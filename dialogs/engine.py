"""
One step of a conversation: what was asked before and what is texted now make a turn.

Pure: a :class:`Turn` says what to record, what to carry out, what to ask; the flow does it. A question
waits a day. A text that stands by itself is never taken for an answer; a plain answer (a number of the
list, a name, yes, a value of the kind asked for) always is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any

from rapidfuzz.fuzz import ratio

from dialogs import how_is_it, labels, milk_fall, offers, price_or_sum, secret, told_before
from dialogs.grammar.answers import read_answer, read_choice, read_yes_no
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.grammar.settle import doubt, settle
from dialogs.reading import Code, Draft, Problem, Reading
from service.husbandry import forms, kinds
from service.husbandry.forms import EVERY_ANIMAL, Entry, Sort
from service.husbandry.herd import NAME_LENGTH, Herd, Known
from service.husbandry.kinds.farm import Done
from service.husbandry.kinds.health import Illness, Recovery, Treatment
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death, Naming
from service.husbandry.kinds.instructions import Ask, Contest, Pin
from service.husbandry.kinds.milk import Milk
from service.husbandry.signs import ILLNESS_SIGNS
from service.messages import Say, say

QUESTION_LASTS = timedelta(days=1)
"""After a day an answer could be to anything; common practice, no source."""

CLOCKS_APART = timedelta(minutes=5)
"""By how much the gateway's clock, which may tell whole minutes only, can be behind ours."""

HEAT_OR_FEVER = (("joto la kupandwa", "homa"), ("heat", "fever"))
"""What "joto" can be, in the order in which it is asked; either may be answered by its number."""

YOUNGEST_HEIFER, OLDEST_HEIFER = timedelta(days=120), timedelta(days=2000)
"""Ages between which an animal is called a heifer, widely; common practice, no source."""

SAME_NAME = 75
"""Likeness (0-100) from which a word of the text is taken for the name, slips and all."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """
    What a text comes to. ``say``: a fixed sentence, where neither records nor a question answer it.

    ``shaky``: some of it was read with doubt; ``unread``: the part that came to nothing, as written.
    """

    language: str  # of the text
    entries: tuple[Entry, ...] = ()  # to be recorded
    instructions: tuple[Entry, ...] = ()  # to be carried out
    questions: tuple[Problem, ...] = ()  # to be asked, the first of them now
    waiting: tuple[Problem, ...] = ()  # asked before and still open; not asked again
    answered: bool = False  # the text was the answer to a question
    confirmed: bool = False  # what is unlikely about the entries was asked and is meant
    amends: int | None = None  # the entry that ``entries`` are told in place of
    say: Say | None = None
    shaky: bool = False
    unread: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What a text is read against. *now*: when it was sent, in the farm's zone."""

    herd: Herd
    now: datetime
    language: str
    place: Place


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
        turn = _settled(ill, (), scene, confirmed=True)
        return replace(turn, waiting=tuple(q for q in asked if not any(_covers(e, q) for e in turn.entries)))
    if asked and (_denies(reading, asked[0]) or not _stands_alone(text, reading)):
        answer = _answer(text, asked, scene)
        if answer is not None:
            return _in_place(answer, asked[0])
    return _fresh(reading, asked)


def _opened(code: str, asked: tuple[Problem, ...], scene: Scene) -> Turn:
    """What waited for the secret number, with the number that was given."""
    then = secret.held_back(asked[0])
    return Turn(
        language=scene.language,
        entries=tuple(e for e in then if not _to_carry_out(e)),
        instructions=(Pin(act="give", code=code), *(e for e in then if _to_carry_out(e))),
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
    problem = None if _to_carry_out(entry) else doubt(entry, scene.herd, now=scene.now)
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
        entries=tuple(e for e in reading.entries if not _to_carry_out(e)),
        instructions=tuple(e for e in reading.entries if _to_carry_out(e)),
        questions=reading.problems,
        waiting=waiting,
        shaky=bool(reading.shaky),
        unread=reading.unread,
    )


def _to_carry_out(entry: Entry) -> bool:
    # "done" is kept in the end, but as what its task stands for: only the farm's plan can tell.
    return entry.INSTRUCTION or isinstance(entry, Done)


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


def _answer(text: str, asked: tuple[Problem, ...], scene: Scene) -> Turn | None:
    """The turn if *text* is a plain answer to the question asked last; None if it is not."""
    question, rest = asked[0], asked[1:]
    if question.draft is None or secret.is_asked(question):
        return None
    match question.code:
        case Code.CONFIRM:
            return _confirmed(text, question, question.draft, rest, scene)
        case Code.WHICH_ANIMAL | Code.UNKNOWN_ANIMAL:
            return _chosen(text, question, question.draft, rest, scene)
    if labels.is_label(question):
        return _values(labels.label_told(text, question, scene.now), question, question.draft, rest, scene)
    if labels.is_why(question):
        return _values(labels.why_told(text), question, question.draft, rest, scene)
    name = question.field or _day_field(question.draft.kind)
    field = forms.field_of(question.draft.kind, name)
    if offers.declined(text, question, field):
        return _left(question, rest, scene)
    value = offers.accepted(text, question, field)
    if value is None:
        said = offers.chosen(text, question, field)
        value = read_answer(said, field, now=scene.now, herd=scene.herd, place=scene.place)
        value = offers.likely(value, said, question, field)
    if value is None or (name == "born" and not _of_a_heifer(value, scene)):
        return None
    draft = replace(question.draft, values={**question.draft.values, name: value})
    return _settled(draft, rest, scene, confirmed=offers.is_kept(question))


def _values(
    told: Mapping[str, Any] | Say | None,
    question: Problem,
    draft: Draft,
    rest: tuple[Problem, ...],
    scene: Scene,
) -> Turn | None:
    """The turn of an answer that is values of the draft, or that only something is said to."""
    if told is None:
        return None
    if isinstance(told, Say):
        return Turn(language=scene.language, questions=rest, answered=True, say=told)
    known = replace(draft, values={**draft.values, **told})
    return _settled(known, rest, scene, confirmed=offers.is_kept(question))


def _left(question: Problem, rest: tuple[Problem, ...], scene: Scene) -> Turn:
    """No to what was offered: asked once more without the offer. No to that: the record stands as it is."""
    if offers.offered(question):
        told = {name: value for name, value in question.ask.values.items() if name != "offer"}
        plain = replace(question, ask=Say(question.ask.key, told))
        return Turn(language=scene.language, questions=(plain, *rest), answered=True)
    return Turn(language=scene.language, questions=rest, answered=True, say=say("question.left"))


def _of_a_heifer(born: date, scene: Scene) -> bool:
    """Whether a heifer can have been *born* that day: "mwaka jana" must not end as yesterday."""
    return YOUNGEST_HEIFER <= scene.now.date() - born <= OLDEST_HEIFER


def _day_field(kind: type[Entry]) -> str:
    return next(f.name for f in forms.form(kind) if f.sort in {Sort.DAY, Sort.MOMENT})


def _confirmed(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    if told_before.is_asked(question):
        return _same_or_not(text, question, draft, rest, scene)
    if how_is_it.is_asked(question):
        told = how_is_it.answered(text, draft, scene.herd, scene.now.date())
        return None if told is None else _settled(told, rest, scene, confirmed=True)
    if milk_fall.is_asked(question):
        return _fall_explained(text, question, draft, rest, scene)
    if question.ask.values.get("why") == "heat_or_fever":
        choices = (read_choice(text, words) for words in HEAT_OR_FEVER)
        choice = next((one for one in choices if one is not None), None)
        if choice is None:
            return None
        return _settled(draft if choice == 0 else _as_illness(draft), rest, scene, confirmed=True)
    if price_or_sum.is_asked(question):
        meant = price_or_sum.answered(text, draft)
        return None if meant is None else _settled(meant, rest, scene, confirmed=True)
    if question.ask.values.get("why") == "held_milk":
        return _values(labels.noted(text, question), question, draft, rest, scene)
    agreed = read_yes_no(text)
    if agreed is None:
        return None
    if not agreed and question.ask.values.get("why") == "shorter_hold":
        return Turn(language=scene.language, questions=rest, answered=True, say=say("question.longer_stays"))
    if not agreed:
        return Turn(language=scene.language, questions=rest, answered=True, say=say("question.dropped"))
    if question.ask.values.get("why") == "sum":  # the whole is right: the price follows from it
        draft = replace(draft, values={**draft.values, "price": None})
    return _settled(draft, rest, scene, confirmed=True)


def _fall_explained(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    told = milk_fall.answered(text, question, draft, scene.now)
    if told is None:
        return None
    if isinstance(told, Problem):
        return Turn(language=scene.language, questions=(told, *rest), answered=True)
    if isinstance(told, Say):
        return Turn(language=scene.language, questions=rest, answered=True, say=told)
    return _settled(told, rest, scene, confirmed=told.kind is not Heat)


def _same_or_not(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    chosen = told_before.answered(text, question)
    if chosen is None:
        return None
    if chosen == told_before.KEEP:
        return Turn(language=scene.language, questions=rest, answered=True, say=say("question.kept"))
    turn = _settled(draft, rest, scene, confirmed=True)
    if chosen == told_before.REPLACE and turn.entries:
        return replace(turn, amends=told_before.in_place_of(question))
    return turn


def _as_illness(draft: Draft) -> Draft:
    """What was told of a heat, told of a fever."""
    seen = draft.values.get("first_seen")
    signs = [s for s in draft.values.get("signs", ()) if s in ILLNESS_SIGNS]
    on = seen.date() if seen is not None else draft.values.get("on")
    values: Mapping[str, Any] = {
        "animal": draft.values["animal"],
        "on": on,
        "signs": tuple(dict.fromkeys([*signs, "fever"])),
    }
    return Draft(kind=Illness, values=values)


def _chosen(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    name = _name_chosen(text, question, draft, scene)
    if name is None:
        return None
    field = _animal_field(draft.kind)
    value: object = name
    if field.sort is Sort.ANIMALS:
        value = (*(n for n in draft.values.get(field.name) or () if n != question.name), name)
    turn = _settled(replace(draft, values={**draft.values, field.name: value}), rest, scene)
    learned = question.code is Code.UNKNOWN_ANIMAL and _is_new_name(question.name, scene.herd)
    if not learned or not turn.entries or question.name is None:
        return turn
    naming = Naming(animal=name, name=question.name, on=scene.now.date())
    return replace(turn, entries=(*turn.entries, naming))


def _name_chosen(text: str, question: Problem, draft: Draft, scene: Scene) -> str | None:
    if question.options:
        choice = read_choice(text, question.options)
        if choice is not None:
            return question.options[choice] if choice < len(question.options) else None
    field = _animal_field(draft.kind)
    value = read_answer(text, field, now=scene.now, herd=scene.herd, place=scene.place)
    if isinstance(value, tuple):
        value = value[0] if len(value) == 1 else None
    # "all" can be an answer only where the kind has a sum of the herd.
    if value == EVERY_ANIMAL and field.sort is Sort.ANIMAL and draft.kind is not Milk:
        return None
    return value if isinstance(value, str) and not _has_left(value, scene.herd) else None


def _has_left(name: str, herd: Herd) -> bool:
    return name.casefold() in _names(herd.left) - _names(herd.animals)


def _names(animals: Iterable[Known]) -> set[str]:
    return {name.casefold() for animal in animals for name in animal.names}


def _animal_field(kind: type[Entry]) -> forms.Field:
    return next(f for f in forms.form(kind) if f.sort in {Sort.ANIMAL, Sort.ANIMALS})


def _is_new_name(name: str | None, herd: Herd) -> bool:
    known = _names(herd.animals) | _names(herd.left)
    return name is not None and len(name) <= NAME_LENGTH and name.casefold() not in known


def _settled(draft: Draft, rest: tuple[Problem, ...], scene: Scene, *, confirmed: bool = False) -> Turn:
    """The turn of a draft with one more thing known: recorded, or the next question."""
    outcome = settle(draft, scene.herd, now=scene.now, confirmed=confirmed)
    if isinstance(outcome, Problem):
        return Turn(language=scene.language, questions=(outcome, *rest), answered=True)
    if _to_carry_out(outcome):
        return Turn(language=scene.language, instructions=(outcome,), questions=rest, answered=True)
    return Turn(
        language=scene.language, entries=(outcome,), questions=rest, answered=True, confirmed=confirmed
    )


def dump_questions(questions: Iterable[Problem]) -> tuple[dict[str, Any], ...]:
    """Questions as JSON-ready objects. What was not understood is no question."""
    return tuple(_dump(question, question.draft) for question in questions if question.draft is not None)


def _dump(question: Problem, draft: Draft) -> dict[str, Any]:
    return {
        "code": question.code.value,
        "ask": [question.ask.key, dict(question.ask.values)],
        "field": question.field,
        "kind": draft.kind.KIND,
        "values": forms.dump_values(draft.kind, draft.values),
        "options": list(question.options),
        "name": question.name,
        "amends": question.amends,
    }


def load_questions(
    stored: Iterable[Mapping[str, Any]], *, asked_at: datetime | None, now: datetime
) -> tuple[Problem, ...]:
    """The questions that were kept; none once they have lapsed, or for a text sent before they were asked."""
    if asked_at is None or not asked_at - CLOCKS_APART <= now <= asked_at + QUESTION_LASTS:
        return ()
    return tuple(map(_load, stored))


def _load(stored: Mapping[str, Any]) -> Problem:
    kind = kinds.BY_KEY[stored["kind"]]
    key, values = stored["ask"]
    return Problem(
        code=Code(stored["code"]),
        ask=Say(key, values),
        field=stored["field"],
        draft=Draft(kind=kind, values=forms.load_values(kind, stored["values"])),
        options=tuple(stored["options"]),
        name=stored["name"],
        amends=stored.get("amends"),
    )
