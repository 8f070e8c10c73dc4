"""Whatever is typed in: no screen breaks, and nothing is recorded that was not told."""

from __future__ import annotations

from datetime import datetime

from hypothesis import given, settings
from hypothesis import strategies as st

from dialogs.screens import menu
from dialogs.screens.layout import LIMIT
from dialogs.screens.state import At, Join, State
from service.husbandry import forms
from service.husbandry.forms import EVERY_ANIMAL, Entry, Sort
from service.sms import measure
from tests.unit.dialogs.screens.builders import NOW, SMALL, caller, kept, tell

LANGUAGES = st.sampled_from(["sw", "en"])
KEYS = st.sampled_from(
    [*"0123456789*#", "1 2", "1 9", "10", "12/2", "neema", "Mrembo", "6.5", "5000", "0754123456"]
)
JUNK = st.one_of(st.text(max_size=40), st.from_regex(r"[\x20-\x7e]{0,20}", fullmatch=True))
NAMES = {animal.name for animal in SMALL.animals}


def assert_sound(entry: Entry) -> None:
    """Animals of the herd, values inside their ranges, days not to come."""
    for field in forms.form(type(entry)):
        value = getattr(entry, field.name)
        if value is None:
            assert not field.needed
        elif field.sort is Sort.ANIMAL:
            assert value in NAMES | {EVERY_ANIMAL}
        elif field.sort is Sort.ANIMALS:
            assert set(value) <= NAMES | {EVERY_ANIMAL}
        elif field.sort is Sort.NUMBER:
            assert (field.low or 0) <= value <= (field.high or 0)
        elif field.sort is Sort.CHOICE:
            assert value in field.options
        elif field.sort is Sort.SEVERAL:
            assert set(value) <= set(field.options)
        elif field.sort in (Sort.DAY, Sort.MONTH):
            assert value <= NOW.date()
        elif field.sort is Sort.MOMENT:
            assert isinstance(value, datetime)
            assert value <= NOW
        elif field.sort is Sort.NAME:
            assert value.strip()


@given(LANGUAGES, st.lists(st.one_of(KEYS, JUNK), max_size=14), st.booleans())
@settings(max_examples=300, deadline=None)
def test_no_answers_break_the_menu_and_what_they_record_is_sound(
    language: str, answers: list[str], known: bool
) -> None:
    for turn in tell(caller(language, known=known, tasks=("Neema: joto",)), answers):
        size = measure(turn.text)
        assert (size.encoding, size.units <= LIMIT) == ("gsm7", True)
        assert State.from_json(turn.state.to_json()) == turn.state
        for effect in turn.effects:
            assert isinstance(effect, Join) or assert_sound(effect) is None


@given(LANGUAGES, st.lists(KEYS, max_size=6), JUNK)
@settings(max_examples=300, deadline=None)
def test_letters_where_a_choice_is_asked_change_nothing(language: str, answers: list[str], junk: str) -> None:
    who = caller(language)
    state = tell(who, answers)[-1].state
    letters = "".join(character for character in junk if not character.isdigit() and character not in "*#")
    if state.at not in (At.MENU, At.LATEST, At.FIELD, At.TASKS, At.TASK):
        return
    turn = menu.answer(kept(state), f"{letters} zzz", who)
    assert (turn.state, turn.effects) == (state, ())


@given(LANGUAGES, st.lists(KEYS, min_size=1, max_size=8))
@settings(max_examples=200, deadline=None)
def test_a_wrong_answer_keeps_all_that_was_answered(language: str, answers: list[str]) -> None:
    who = caller(language)
    state = tell(who, answers)[-1].state
    if state.at != At.ASK or state.question in ("name", "product", "sire", "technician", "buyer", "reason"):
        return
    turn = menu.answer(kept(state), "9999999999999999 ??", who)
    if not turn.effects and turn.state.question == state.question:
        assert turn.state == state


@given(st.lists(KEYS, min_size=1, max_size=10))
@settings(max_examples=200, deadline=None)
def test_the_same_answer_in_the_same_place_gives_the_same_turn(answers: list[str]) -> None:
    assert tell(caller(), answers) == tell(caller(), answers)
