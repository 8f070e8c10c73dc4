"""Telling a record (or giving an instruction) question by question, until nothing more is needed."""

from __future__ import annotations

import re
from dataclasses import replace

from dialogs.screens import choices, mend, plans, questions
from dialogs.screens.layout import HASH, MORE, Option, Screen, pages, spelled
from dialogs.screens.state import At, Caller, State, Turn
from dialogs.screens.take import Values, take
from dialogs.screens.typed import Wrong
from service.husbandry.kinds.instructions import Fix

Pages = tuple[tuple[Option, ...], ...]

Step = State | Turn | Wrong
"""Where an answer leads: a place to show, a turn that is complete, or why it cannot be taken."""

SAME_MILKING = ("milking", "session")
"""Questions that the next cow of one milking need not be asked again."""

NUMBERS = re.compile(r"\d{1,2}([ ,.]+\d{1,2})*")
"""One number of a page, or several."""


def begin(state: State, item: str, caller: Caller) -> State | Turn:
    """The first question of *item*, or the turn that carries it out where it asks nothing."""
    return _next(State(branches=state.branches, item=item), caller)


def again(state: State, caller: Caller) -> State | Turn:
    """The next animal of the work just told: of milk, at the same milking."""
    return _next(replace(state, at=At.ASK), caller)


def back(state: State, caller: Caller) -> State:
    """One question back with all values kept, or out into the branch it came from."""
    if state.amends is not None:
        return mend.back(state, caller)
    if not state.trail:
        return State(branches=state.branches)
    return replace(state, at=At.ASK, question=state.trail[-1], trail=state.trail[:-1], page=0, picked=())


def answered(state: State, text: str, caller: Caller) -> Step:
    """The answer to the question being asked, other than back and the turning of a page."""
    screen = questions.screen(state, caller)
    if text == HASH:
        return _onward(state, caller, screen)
    if screen.options and NUMBERS.fullmatch(text):
        cut = pages(screen, caller.language)
        numbers = [int(number) for number in re.findall(r"\d+", text)]
        step = _numbered(state, caller, cut, numbers)
        if step is not None:
            return step
    option = spelled(screen, text)
    if option is not None:
        return _chosen(state, caller, option)
    values = take(state, text, caller)
    return values if isinstance(values, Wrong) else _give(state, caller, values)


def _next(state: State, caller: Caller) -> State | Turn:
    """The next question, or the record itself."""
    question = plans.following(state)
    if question is None:
        return _done(state, caller)
    return replace(state, at=At.ASK, question=question, page=0, picked=())


def _done(state: State, caller: Caller) -> Turn:
    """The record, in the place of the entry that was to be put right if of one."""
    told = plans.entries(state, caller)
    if state.amends is not None:
        over = State(at=At.AFTER, branches=state.branches, item=mend.FIX)
        return Turn(text="", more=False, state=over, effects=(Fix(), *told), amends=state.amends)
    trail = tuple(question for question in state.trail if question in SAME_MILKING)
    kept = {name for question in trail for name in plans.fills(question)}
    place = State(
        at=At.AFTER,
        branches=state.branches,
        item=state.item,
        told=tuple(dict.fromkeys((*state.told, *(name for entry in told for name in entry.named)))),
        values={name: value for name, value in state.values.items() if name in kept},
        trail=trail,
    )
    return Turn(text="", more=False, state=place, effects=told)


def _give(state: State, caller: Caller, values: Values) -> State | Turn:
    """The question answered with *values*, in the place of those it had."""
    question = state.question or ""
    if state.amends is not None:
        return _done(replace(state, values=_mended(state, question, values)), caller)
    gone = (question, *plans.fills(question))
    kept = {name: value for name, value in state.values.items() if name not in gone}
    return _next(replace(state, values={**kept, **values}, trail=(*state.trail, question)), caller)


def _mended(state: State, question: str, values: Values) -> Values:
    """The entry's values with *values* in them; of a milking on another day the session stays."""
    gone = {*plans.fills(question), plans.FOLLOWS_FROM.get((plans.kind_of(state).KIND, question))}
    if question == "milking":
        gone -= {"session"}
    return {**{name: value for name, value in state.values.items() if name not in gone}, **values}


def _give_picked(state: State, caller: Caller) -> State | Turn:
    return _give(state, caller, {state.question or "": list(state.picked)})


def _onward(state: State, caller: Caller, screen: Screen) -> Step:
    """Past the question: with what is ticked, with the value it has, or without any."""
    if state.picked:
        return _give_picked(state, caller)
    if screen.skip is None:
        return Wrong("wrong.needed")
    if state.amends is not None:
        return mend.back(state, caller)
    return _next(replace(state, trail=(*state.trail, state.question or "")), caller)


def _with(picked: tuple[str, ...], *names: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*picked, *names)))


def _numbered(state: State, caller: Caller, cut: Pages, numbers: list[int]) -> Step | None:
    """What one or several numbers of the present page give; None if they may be a value typed in full."""
    page = cut[state.page % len(cut)]
    if any(option.name for option in page):
        return _ticked(state, caller, cut, numbers)
    if len(numbers) > 1:
        return None  # only one can be chosen here: a date, a quarter
    if 1 <= numbers[0] <= len(page):
        return _chosen(state, caller, page[numbers[0] - 1])
    return Wrong("wrong.number") if numbers[0] < 10 else None


def _chosen(state: State, caller: Caller, option: Option) -> State | Turn:
    if option.to == choices.DETAILS:
        return _next(replace(state, details=True), caller)
    if option.to == choices.FIRST_ANIMAL:
        return begin(State(branches=("main", "herd")), "new_animal", caller)
    if option.to == choices.REFUSED:
        return State(branches=state.branches)
    if option.name is not None:
        return _give_picked(replace(state, picked=_with(state.picked, option.name)), caller)
    return _give(state, caller, option.gives)


def _ticked(state: State, caller: Caller, cut: Pages, numbers: list[int]) -> Step | None:
    """Several numbers of one page; a 9 among them is the next page, with what is ticked kept."""
    page = cut[state.page % len(cut)]
    turning = int(MORE) in numbers
    chosen = [page[n - 1] for n in numbers if 1 <= n <= len(page) and n != int(MORE)]
    if len(chosen) + turning != len(numbers):
        return Wrong("wrong.number") if max(numbers) < 10 else None
    if len(chosen) == 1 and chosen[0].name is None:
        return _chosen(state, caller, chosen[0])
    if any(option.name is None for option in chosen):  # "all" beside single ones
        return Wrong("wrong.number")
    names = [option.name for option in chosen if option.name is not None]
    ticked = replace(state, picked=_with(state.picked, *names))
    return replace(ticked, page=(state.page + 1) % len(cut)) if turning else _give_picked(ticked, caller)
