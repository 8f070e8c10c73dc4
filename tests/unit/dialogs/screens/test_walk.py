"""Every screen that can be reached, in both languages, with the longest names there are."""

from __future__ import annotations

from collections import deque
from functools import cache

import pytest

from dialogs.screens import menu, plans, questions, words
from dialogs.screens.branches import BRANCHES, ITEMS
from dialogs.screens.layout import LIMIT
from dialogs.screens.state import At, Caller, State, Turn
from service.husbandry.forms import Entry
from service.husbandry.herd import Herd
from service.husbandry.kinds import KINDS
from service.sms import measure
from tests.unit.dialogs.screens.builders import LARGE, caller, kept, tell

TYPED = ("3", "150", "12/2", "Mwita Marwa", "0754000000", "[[[[[[[[[[01", "zz?", "jana")
KEYS = ("0", "*", "#", "9", "1 9")
LONG_DOUBT = "Je, ni kweli? " * 10


def longest(language: str) -> Caller:
    """A caller with a large herd of long names, long lines of work, and doubts about everything."""
    return caller(
        language,
        LARGE,
        tasks=tuple(f"{'[' * 12}, kupima mimba, kabla ya 12 Desemba" for _ in range(9)),
        doubt=lambda entry: LONG_DOUBT if entry.KIND == "milk" else None,
    )


def shape(state: State) -> tuple[object, ...]:
    """What makes two places different for a walk: the screen shown, not how the answers before it fell."""
    again = state.question is not None and plans.is_answered(state, state.question)
    place = (state.at, state.branches, state.page, state.item, state.question, state.details)
    return (*place, bool(state.picked), again)


@cache
def walk(language: str, known: bool = True) -> tuple[tuple[State, str, Turn], ...]:
    """Every (place, answer, turn) there is."""
    who = longest(language) if known else caller(language, known=False)
    found: list[tuple[State, str, Turn]] = []
    first = menu.dial(who)
    seen, waiting = {shape(first.state)}, deque([first.state])
    while waiting:
        state = waiting.popleft()
        choices = map(str, range(1, 9)) if state.at == At.MENU else ("1", "2", "4", "5", "7")
        for typed in (*choices, *KEYS, *TYPED):
            turn = menu.answer(kept(state), typed, who)
            found.append((state, typed, turn))
            if shape(turn.state) not in seen and turn.state.at != At.OVER:
                seen.add(shape(turn.state))
                waiting.append(turn.state)
    return tuple(found)


LANGUAGES = pytest.mark.parametrize("language", ["sw", "en"])


@LANGUAGES
@pytest.mark.parametrize("known", [True, False])
def test_every_screen_fits_a_ussd_message_in_gsm7(language: str, known: bool) -> None:
    for state, typed, turn in walk(language, known):
        size = measure(turn.text)
        assert size.encoding == "gsm7", (state, typed, turn.text)
        assert size.units <= LIMIT, (state, typed, turn.text)


@LANGUAGES
def test_every_screen_that_awaits_an_answer_shows_how_to_leave_it(language: str) -> None:
    last = ("0 ", "* ")
    for state, typed, turn in walk(language):
        if turn.more:
            keys = turn.text.splitlines()[-1]
            assert any(key in keys for key in last), (state, typed, turn.text)


@LANGUAGES
def test_going_back_leads_out_of_every_place(language: str) -> None:
    who = longest(language)
    for place in {shape(state): state for state, _, _ in walk(language)}.values():
        state, steps = place, 0
        while state.at != At.OVER and steps < 25:
            turn = menu.answer(state, "*", who)
            assert turn.effects == ()
            state, steps = turn.state, steps + 1
        assert state.at == At.OVER, place


@LANGUAGES
def test_every_branch_and_every_line_is_reached(language: str) -> None:
    places = [turn.state for _, _, turn in walk(language)]
    assert {place.branches[-1] for place in places} >= set(BRANCHES)
    assert {place.item for place in places if place.item} == {
        item for item in ITEMS if ITEMS[item].kind not in ("done", "later")
    }


@LANGUAGES
def test_every_kind_comes_out_of_the_menu(language: str) -> None:
    told = {
        effect.KIND for _, _, turn in walk(language) for effect in turn.effects if isinstance(effect, Entry)
    }
    assert told == {kind.KIND for kind in KINDS}


@LANGUAGES
def test_a_screen_is_shown_or_an_effect_is_given_never_both(language: str) -> None:
    for state, typed, turn in walk(language):
        assert bool(turn.text) != bool(turn.effects), (state, typed)
        assert not (turn.effects and turn.more)


def test_every_branch_that_a_line_opens_is_there() -> None:
    opened = {item.to for branch in BRANCHES.values() for item in branch if item.to}
    assert opened - set(BRANCHES) == {"tasks"}


class Noting(dict[str, str]):
    """A catalogue that notes which of its texts were asked for."""

    def __init__(self, texts: dict[str, str]) -> None:
        super().__init__(texts)
        self.used: set[str] = set()

    def __getitem__(self, key: str) -> str:
        self.used.add(key)
        return super().__getitem__(key)


def test_no_text_is_kept_that_no_screen_shows(monkeypatch: pytest.MonkeyPatch) -> None:
    noting = Noting(words.catalogue("sw"))
    for module in (words, questions):
        monkeypatch.setattr(module, "catalogue", lambda language: noting)
    walk.__wrapped__("sw")
    walk.__wrapped__("sw", known=False)
    who = caller(herd=Herd(()))
    for answers in (
        ["1"],
        ["6", "2"],
        ["7", "4", "31/12/2026"],
        ["8", "4", "x" * 90],
        ["9", "3"],
        ["9", "1", "4"],
    ):
        tell(who, answers)
    tell(caller(), ["9", "1", "1", "neema", "Mrembo wa Mbeya"])
    tell(caller(known=False), ["1", "77"])
    menu.closing("Sawa.", tell(who, ["7", "4", "1"])[-1], who)
    by_the_clock = ("month.", "day.")
    assert not {key for key in noting if key not in noting.used and not key.startswith(by_the_clock)}
