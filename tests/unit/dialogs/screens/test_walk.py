"""Every screen that can be reached, in both languages, with the longest names there are."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from decimal import Decimal
from functools import cache

import pytest

from dialogs.grammar import checks
from dialogs.reading import Code
from dialogs.screens import followup, menu, plans, questions, words
from dialogs.screens.branches import BRANCHES, ITEMS
from dialogs.screens.layout import LIMIT
from dialogs.screens.state import At, Caller, Helper, Latest, State, Turn
from service.husbandry.forms import Calf, Entry
from service.husbandry.herd import Herd
from service.husbandry.kinds import (
    BY_KEY,
    KINDS,
    Calving,
    Delivery,
    Milk,
    MilkSale,
    NewAnimal,
    Service,
    Setting,
    Treatment,
)
from service.husbandry.kinds.instructions import TOPICS
from service.husbandry.units import Money
from service.sms import measure
from tests.unit.dialogs.screens.builders import LARGE, NOW, caller, kept, tell
from tests.unit.dialogs.screens.ways import ANSWERS, SCREENS, way

TYPED = (
    "3",
    "150",
    "1 10",
    "12/2",
    "Mwita Marwa",
    "0754000000",
    "[[[[[[[[[[01",
    "4821",
    "4821 7733",
    "zz?",
    "jana",
)
KEYS = ("0", "*", "#", "9", "1 9")

LONGEST = "[[[[[[[[[[00"
LONG_LATEST = tuple(
    Latest(number, entry, f"{LONGEST}, {'kitu kirefu sana ' * 8}")
    for number, entry in enumerate(
        (
            Milk(animal=LONGEST, litres=Decimal("12.5"), session="evening", on=NOW.date()),
            Calving(animal=LONGEST, on=NOW.date(), calves=(Calf("female"),)),
            Service(animal=LONGEST, on=NOW.date(), method="bull", running=True),
            Treatment(animals=(LONGEST,), on=NOW.date(), product="dawa", milk_hold_days=Decimal(3)),
            MilkSale(litres=Decimal(10), price=Money.of(1200, "TZS"), on=NOW.date()),
            NewAnimal(name=LONGEST, sex="female", status="heifer", on=NOW.date()),
            Setting(hour=Decimal(18), on=NOW.date()),
            Delivery(kg=Decimal(12), session="morning", on=NOW.date()),
        ),
        1,
    )
)


def longest(language: str) -> Caller:
    """A caller with a large herd of long names, long lines of work, long helpers' names and tellings."""
    return caller(
        language,
        LARGE,
        tasks=tuple(f"{'[' * 12}, kupima mimba, kabla ya 12 Desemba" for _ in range(9)),
        helpers=lambda: tuple(
            Helper(f"+25571200000{n}", "Abdulrahmani Mwakasege wa Mbeya") for n in range(8)
        ),
        latest=lambda: LONG_LATEST,
    )


def shape(state: State) -> tuple[object, ...]:
    """What makes two places different for a walk: the screen shown, not how the answers before it fell."""
    again = state.question is not None and plans.is_answered(state, state.question)
    place = (state.at, state.branches, state.page, state.item, state.question, state.details, state.amends)
    return (*place, bool(state.picked), again)


@cache
def walk(
    language: str, known: bool = True, asked_by: str | None = None
) -> tuple[tuple[State, str, Turn], ...]:
    """Every (place, answer, turn) there is."""
    who = longest(language) if known else caller(language, known=False, asked_by=asked_by)
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
@pytest.mark.parametrize(
    ("known", "asked_by"), [(True, None), (False, None), (False, "Abdulrahmani Mwakasege")]
)
def test_every_screen_fits_a_ussd_message_in_gsm7(language: str, known: bool, asked_by: str | None) -> None:
    for state, typed, turn in walk(language, known, asked_by):
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


def test_every_topic_can_be_asked_about() -> None:
    assert {item.preset.get("topic") for item in ITEMS.values() if item.kind == "ask"} == set(TOPICS)


def test_every_branch_that_a_line_opens_is_there() -> None:
    opened = {item.to for branch in BRANCHES.values() for item in branch if item.to}
    assert opened - set(BRANCHES) == {"tasks"}


# --- how soon each line is told --------------------------------------------------------------------


def ends(who: Caller, answers: list[str], turn: Turn) -> Iterator[tuple[list[str], Turn]]:
    """Every telling that begins with *answers*, without more than is asked for: answers and last turn."""
    if turn.effects:
        yield answers, turn
    if turn.effects or turn.state.at != At.ASK:  # told, or not to be done after all
        return
    question = turn.state.question or ""
    names = (LONGEST, "1") if question in ("animals", "cows") else (LONGEST,)
    choices = names if question in ("animal", "animals", "cows") else ANSWERS.get(question, ("1", "2", "3"))
    reached = {}
    for typed in choices:
        after = menu.answer(kept(turn.state), typed, who)
        if not after.state.details and after.state != turn.state:
            reached[typed] = after
    assert reached, (answers, turn.text)
    for typed, after in reached.items():
        yield from ends(who, [*answers, typed], after)


@LANGUAGES
@pytest.mark.parametrize("item", [key for key in ITEMS if key != "fix"])
def test_every_line_is_told_to_its_end_in_at_most_six_screens(item: str, language: str) -> None:
    who = longest(language)
    there = way(item, language)
    last = tell(who, there)[-1]
    assert last.effects or last.state.item == item, (there, last.text)
    told = list(ends(who, there, last))
    assert any(turn.effects for _, turn in told)
    for answers, turn in told:
        assert len(answers) + 1 <= SCREENS, answers
        assert all(isinstance(effect, BY_KEY[ITEMS[item].kind or ""]) for effect in turn.effects)


@LANGUAGES
def test_the_tasks_and_what_was_told_last_are_reached_in_at_most_six_screens(language: str) -> None:
    who = longest(language)
    for typed, kind in (("1", "done"), ("2", "later")):
        turns = tell(who, ["8", "1", "1", typed])
        assert (len(turns), turns[-1].effects[0].KIND) == (5, kind)  # type: ignore[union-attr]
    turns = tell(who, ["8", "3", "1", "2", "7"])
    assert len(turns) == SCREENS
    assert [effect.KIND for effect in turns[-1].effects] == ["fix", "milk"]  # type: ignore[union-attr]


# --- nothing is kept in vain -----------------------------------------------------------------------


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
    walk.__wrapped__("sw", known=False, asked_by="Rehema")
    who = caller(herd=Herd(()))
    for answers in (
        ["1"],
        ["5", "3"],
        ["5", "7", "31/12/2026"],
        ["6", "6", "x" * 90],
        ["8", "1"],
        ["7", "4"],
    ):
        tell(who, answers)
    tell(caller("sw", latest=tuple), ["8", "3"])
    tell(caller(), ["7", "1", "neema", "Mrembo wa Mbeya"])
    tell(caller(), ["7", "7", "neema", "2.6"])
    question = checks.problem(Code.MISSING, Treatment, {"animals": ("Neema",)}, field="milk_hold_days")
    followup.shown("Siku ngapi?", question, "sw")
    menu.closing("neno " * 60, tell(who, ["5", "7", "1"])[-1], who)
    tell(caller(known=False), ["1", "77"])
    menu.closing("Sawa.", tell(who, ["5", "7", "1"])[-1], who)
    by_the_clock = ("month.", "day.")
    noting.used |= {"left", "tasks.gone"}  # the flow's, where a question is left or a task is over meanwhile
    assert not {key for key in noting if key not in noting.used and not key.startswith(by_the_clock)}
