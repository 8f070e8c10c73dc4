"""
An answer to a question that waits: what it makes of the record that was asked about.

A plain answer is a number of the list, a name, yes, a value of the kind asked for; whatever else a text
says is no answer.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from dialogs import how_is_it, labels, milk_fall, offers, price_or_sum, secret, told_before
from dialogs.grammar.answers import read_answer, read_choice, read_yes_no
from dialogs.grammar.settle import settle
from dialogs.reading import Code, Draft, Problem
from dialogs.turn import Scene, Turn, to_carry_out
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL, Entry, Sort
from service.husbandry.herd import NAME_LENGTH, Herd, Known
from service.husbandry.kinds.health import Illness
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import Naming
from service.husbandry.kinds.milk import Milk
from service.husbandry.signs import ILLNESS_SIGNS
from service.messages import Say, say

HEAT_OR_FEVER = (("joto la kupandwa", "homa"), ("heat", "fever"))
"""What "joto" can be, in the order in which it is asked; either may be answered by its number."""

YOUNGEST_HEIFER, OLDEST_HEIFER = timedelta(days=120), timedelta(days=2000)
"""Ages between which an animal is called a heifer, widely; common practice, no source."""


def answer(text: str, asked: tuple[Problem, ...], scene: Scene) -> Turn | None:
    """The turn if *text* is a plain answer to the question *asked* last; None if it is not."""
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
    name = question.field or forms.day_field(question.draft.kind)
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
    return settled(draft, rest, scene, confirmed=offers.is_kept(question))


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
    return settled(known, rest, scene, confirmed=offers.is_kept(question))


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


def _confirmed(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    take = TAKEN.get(str(question.ask.values.get("why")), _agreed)
    return take(text, question, draft, rest, scene)


def _agreed(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    """Yes: it is meant as told. No: it goes, and what is said to that depends on the doubt."""
    agreed = read_yes_no(text)
    if agreed is None:
        return None
    why = question.ask.values.get("why")
    if not agreed:
        key = "question.longer_stays" if why == "shorter_hold" else "question.dropped"
        return Turn(language=scene.language, questions=rest, answered=True, say=say(key))
    if why == "sum":  # the whole is right: the price follows from it
        draft = replace(draft, values={**draft.values, "price": None})
    return settled(draft, rest, scene, confirmed=True)


def _how_it_is(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    told = how_is_it.answered(text, draft, scene.herd, scene.now.date())
    return None if told is None else settled(told, rest, scene, confirmed=True)


def _heat_or_fever(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    choices = (read_choice(text, words) for words in HEAT_OR_FEVER)
    choice = next((one for one in choices if one is not None), None)
    if choice is None:
        return None
    return settled(draft if choice == 0 else _as_illness(draft), rest, scene, confirmed=True)


def _price_or_sum(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    meant = price_or_sum.answered(text, draft)
    return None if meant is None else settled(meant, rest, scene, confirmed=True)


def _hers_in_it(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    return _values(labels.noted(text, question), question, draft, rest, scene)


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
    return settled(told, rest, scene, confirmed=told.kind is not Heat)


def _same_or_not(
    text: str, question: Problem, draft: Draft, rest: tuple[Problem, ...], scene: Scene
) -> Turn | None:
    chosen = told_before.answered(text, question)
    if chosen is None:
        return None
    if chosen == told_before.KEEP:
        return Turn(language=scene.language, questions=rest, answered=True, say=say("question.kept"))
    turn = settled(draft, rest, scene, confirmed=True)
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
    turn = settled(replace(draft, values={**draft.values, field.name: value}), rest, scene)
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


def settled(draft: Draft, rest: tuple[Problem, ...], scene: Scene, *, confirmed: bool = False) -> Turn:
    """The turn of a draft with one more thing known: recorded, or the next question."""
    outcome = settle(draft, scene.herd, now=scene.now, confirmed=confirmed)
    if isinstance(outcome, Problem):
        return Turn(language=scene.language, questions=(outcome, *rest), answered=True)
    if to_carry_out(outcome):
        return Turn(language=scene.language, instructions=(outcome,), questions=rest, answered=True)
    return Turn(
        language=scene.language, entries=(outcome,), questions=rest, answered=True, confirmed=confirmed
    )


Take = Callable[[str, Problem, Draft, tuple[Problem, ...], Scene], Turn | None]

TAKEN: Mapping[str, Take] = {
    told_before.WHY: _same_or_not,
    how_is_it.WHY: _how_it_is,
    **dict.fromkeys(milk_fall.CHOICES, _fall_explained),
    price_or_sum.WHY: _price_or_sum,
    "heat_or_fever": _heat_or_fever,
    "held_milk": _hers_in_it,
}
"""Doubts whose answer is not yes or no, and how it is taken."""
