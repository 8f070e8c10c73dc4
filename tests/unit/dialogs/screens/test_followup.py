"""Questions on the screen of a reply: keys for words, and always room for them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from dialogs.grammar import checks
from dialogs.reading import Code, Problem
from dialogs.screens import followup
from dialogs.screens.layout import LIMIT
from service.husbandry.forms import dump_values
from service.husbandry.kinds import Heat, Milk, MilkSale, Treatment
from service.husbandry.units import Money
from service.messages import Say
from service.sms import measure

LONG = ("[" * 12,)


def kept(problem: Problem, **more: object) -> Problem:
    return replace(problem, ask=Say(problem.ask.key, {**problem.ask.values, "kept": True, **more}))


LITRES = {"animal": LONG[0], "litres": Decimal(30), "session": "morning"}
UNUSUAL = checks.problem(Code.CONFIRM, Milk, LITRES, why="unusual")
LABEL = replace(
    kept(checks.problem(Code.MISSING, Treatment, {"animals": LONG}, field="milk_hold_days")), amends=7
)
PRICE = kept(checks.problem(Code.MISSING, MilkSale, {"litres": Decimal(10)}, field="price"))
OFFERED = kept(
    PRICE, offer=dump_values(MilkSale, {"price": Money.of(1200, "TZS"), "amount": Money.of(12000, "TZS")})
)
SHORTER = kept(
    checks.problem(Code.CONFIRM, Treatment, {"animals": LONG}, why="shorter_hold"), listed=7, read_out=3
)
HEAT_OR_FEVER = checks.problem(Code.CONFIRM, Heat, {"animal": LONG[0]}, why="heat_or_fever")
EVERY = (UNUSUAL, LABEL, PRICE, OFFERED, SHORTER, HEAT_OR_FEVER)


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("problem", EVERY)
def test_a_reply_of_a_whole_segment_leaves_room_for_what_must_be_known(
    problem: Problem, language: str
) -> None:
    shown = followup.shown("x" * 160, problem, language)
    assert measure(shown).units <= LIMIT
    assert shown.startswith("x" * 160 + "\n")


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("problem", EVERY)
def test_a_question_asked_again_fits_below_the_reason(problem: Problem, language: str) -> None:
    size = measure(followup.again(problem, language, "x" * 32))
    assert (size.encoding, size.units <= LIMIT) == ("gsm7", True)


@pytest.mark.parametrize(
    ("typed", "problem", "said"),
    [
        ("1", UNUSUAL, "ndiyo"), ("2", UNUSUAL, "hapana"), ("0", UNUSUAL, "hapana"), ("*", UNUSUAL, "hapana"),
        ("ndiyo", UNUSUAL, "ndiyo"), ("1", SHORTER, "ndiyo"), ("0", SHORTER, None), ("0", LABEL, None),
        ("4", LABEL, "4"), ("#", LABEL, "hakuna"), ("#", OFFERED, "ndiyo"), ("1300", OFFERED, "1300"),
        ("#", PRICE, "#"), ("1", HEAT_OR_FEVER, "1"), ("0", HEAT_OR_FEVER, None),
    ],
)  # fmt: skip
def test_keys_stand_for_words(typed: str, problem: Problem, said: str | None) -> None:
    assert followup.said(typed, problem) == said
