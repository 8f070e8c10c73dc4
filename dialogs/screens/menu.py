"""
The menu's two doors: ``dial`` opens it, ``answer`` takes what was typed in.

Both are pure. Nothing is recorded before a record's last needed answer, so a session that drops
leaves nothing half told; and the same state, answer and caller give the same turn.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import accumulate

from dialogs.reading import Problem
from dialogs.screens import followup, joining, mend, questions, record, work
from dialogs.screens.branches import BRANCHES, Item
from dialogs.screens.layout import (
    BACK,
    LIMIT,
    MORE,
    STAR,
    Option,
    Screen,
    leaves,
    pages,
    render,
    spelled,
)
from dialogs.screens.record import Step
from dialogs.screens.state import At, Caller, State, Turn
from dialogs.screens.typed import Wrong
from dialogs.screens.words import word
from service.sms import measure, plain


def dial(caller: Caller) -> Turn:
    """The first screen: the main menu, or for a phone not known the invitation to join."""
    return _show(State(at=At.MENU if caller.known else At.INVITATION), caller)


def answer(state: State, typed: str, caller: Caller) -> Turn:
    """The screen, or the record, that *typed* leads to; the same screen again if it leads nowhere."""
    caller = _speaking(caller, state)
    step = _step(state, " ".join(typed.split()), caller)
    match step:
        case Turn():
            return step
        case Wrong():
            return _show(state, caller, word(step.key, caller.language, **step.values))
    return _show(step, _speaking(caller, step))


def _speaking(caller: Caller, state: State) -> Caller:
    """The caller in the language chosen while joining, if one was."""
    return replace(caller, language=state.language or caller.language)


def closing(reply: str, turn: Turn, caller: Caller, question: Problem | None = None) -> Turn:
    """
    The screen after a record: the *reply*, and where there is room the way on to the next one.

    Args:
        reply: what a text would have been answered.
        turn: the turn whose effects were carried out, or whose question was answered.
        question: what the reply asks, if anything; its answer is awaited.
    """
    if question is not None:
        text = followup.shown(plain(reply), question, caller.language)
        return replace(turn, text=text, more=True, state=replace(turn.state, at=At.QUESTION), effects=())
    if measure(plain(reply)).units > LIMIT:
        state = replace(turn.state, at=At.READ, page=0, leaves=leaves(reply, caller.language))
        return replace(_leaf(state, caller), effects=turn.effects)
    text = f"{plain(reply)}\n{word('after', caller.language)}"
    if turn.state.at != At.AFTER or measure(text).units > LIMIT:
        return replace(turn, text=plain(reply), more=False, state=State(at=At.OVER))
    return replace(turn, text=text, more=True)


def _branch(state: State, caller: Caller) -> Screen:
    branch = state.branches[-1]
    options = tuple(Option(word(f"menu.{item.key}", caller.language)) for item in BRANCHES[branch])
    back = "key.back" if len(state.branches) > 1 else "key.leave"
    return Screen(heading=word(f"branch.{branch}", caller.language), options=options, back=back)


SCREENS: dict[str, Callable[[State, Caller], Screen]] = {
    At.MENU: _branch,
    At.ASK: questions.screen,
    At.LATEST: mend.list_screen,
    At.FIELD: mend.field_screen,
    At.TASKS: work.list_screen,
    At.TASK: work.line_screen,
    At.INVITATION: joining.invitation,
    At.OWNER: joining.owner,
}
"""Place -> its screen. After a record (``At.AFTER``) the screen is the reply, which is not kept."""


def _show(state: State, caller: Caller, reason: str = "") -> Turn:
    if state.at not in SCREENS:
        return Turn(text=reason or word("over", caller.language), more=False, state=State(at=At.OVER))
    screen = SCREENS[state.at](state, caller)
    return Turn(text=render(screen, state.page, caller.language, reason), more=True, state=state)


def _leaf(state: State, caller: Caller) -> Turn:
    """One page of a long answer."""
    last = state.page == len(state.leaves) - 1
    more = "" if last else f"{MORE} {word('key.more', caller.language)} "
    text = f"{state.leaves[state.page]}\n{more}{BACK} {word('key.end', caller.language)}"
    return Turn(text=text, more=True, state=state)


def _step(state: State, text: str, caller: Caller) -> Step:
    if state.at == At.AFTER:
        return _after(state, text, caller)
    if state.at == At.READ and text == MORE and state.page < len(state.leaves) - 1:
        return _leaf(replace(state, page=state.page + 1), caller)
    if state.at not in SCREENS:
        return State(at=At.OVER)
    screen = SCREENS[state.at](state, caller)
    if text == STAR or (text == BACK and not screen.zero_is_value):
        return _back(state, caller)
    if text == MORE and len(pages(screen, caller.language)) > 1:
        return replace(state, page=(state.page + 1) % len(pages(screen, caller.language)))
    return _forward(state, text, screen, caller)


def _forward(state: State, text: str, screen: Screen, caller: Caller) -> Step:
    match state.at:
        case At.INVITATION:
            return joining.accepted(state, text, caller)
        case At.ASK:
            return record.answered(state, text, caller)
        case At.TASK:
            return work.said(state, text, caller)
        case At.OWNER:
            return joining.joined(state, text, caller)
    index = _index(state, text, screen, caller)
    if index is None:
        return Wrong("wrong.number")
    match state.at:
        case At.TASKS:
            return work.chosen(state, index, caller)
        case At.LATEST:
            return mend.chosen(state, index, caller)
        case At.FIELD:
            return mend.field(state, index)
    return _open(state, BRANCHES[state.branches[-1]][index], caller)


def _index(state: State, text: str, screen: Screen, caller: Caller) -> int | None:
    """Which of all options (from 0) a number of the present page means, or a label typed out."""
    cut = pages(screen, caller.language)
    page = state.page % len(cut)
    option = spelled(screen, text)
    if option is not None:
        return screen.options.index(option)
    if not (text.isascii() and text.isdigit() and 1 <= int(text) <= len(cut[page])):
        return None
    return sum(len(earlier) for earlier in cut[:page]) + int(text) - 1


def _open(state: State, item: Item, caller: Caller) -> State | Turn:
    if item.key == mend.FIX:
        return mend.begin(state.branches, caller)
    if item.kind is not None:
        return record.begin(state, item.key, caller)
    return State(at=At.TASKS if item.to == At.TASKS else At.MENU, branches=(*state.branches, item.to or ""))


def _back(state: State, caller: Caller) -> State | Turn:
    match state.at:
        case At.FIELD:
            return mend.back(state, caller)
        case At.ASK if state.trail or state.amends is not None:
            return record.back(state, caller)
        case At.ASK | At.LATEST:
            return _out(state.branches, state.item or "", caller)
        case At.INVITATION:
            return Turn(text=word("join.refused", caller.language), more=False, state=State(at=At.OVER))
        case At.TASK:
            return replace(state, at=At.TASKS, page=0, number=None)
        case At.OWNER:
            return State(at=At.INVITATION)
    outer = state.branches[:-1]
    if not outer:
        return Turn(text=word("over", caller.language), more=False, state=State(at=At.OVER))
    return _out(outer, state.branches[-1], caller)


def _out(branches: tuple[str, ...], key: str, caller: Caller) -> State:
    """The page of the last of *branches* on which the line *key* stands."""
    keys = [item.key for item in BRANCHES[branches[-1]]]
    ends = accumulate(len(page) for page in pages(_branch(State(branches=branches), caller), caller.language))
    place = keys.index(key) if key in keys else 0
    return State(branches=branches, page=sum(end <= place for end in ends))


def _after(state: State, text: str, caller: Caller) -> State | Turn:
    """1 goes on: to the next animal of the same work, else to the branch it was in."""
    if text != "1" or state.item is None:
        return State(at=At.OVER)
    if state.told:
        return record.again(state, caller)
    return _out(state.branches, state.item, caller)
