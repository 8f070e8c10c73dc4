"""Callers for the menu's tests, and a way to answer one screen after another."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from zoneinfo import ZoneInfo

from dialogs.screens import menu
from dialogs.screens.state import Caller, Helper, Latest, State, Turn
from service.husbandry.herd import Herd, Known, Sex, Status
from service.husbandry.kinds import Expense, Milk, PregnancyCheck
from service.husbandry.units import Money

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
NOW = datetime(2026, 3, 2, 18, 0, tzinfo=ZONE)


def known(name: str, status: Status = Status.MILKING, *, in_calf: bool = False) -> Known:
    male = status in (Status.BULL, Status.STEER)
    return Known(
        name=name, names=(name,), sex=Sex.MALE if male else Sex.FEMALE, status=status, in_calf=in_calf
    )


SMALL = Herd(
    (
        known("Neema"),
        known("Zawadi"),
        known("Tausi", Status.DRY, in_calf=True),
        known("Simba", Status.BULL),
        known("Pendo", Status.CALF),
        known("Furaha", Status.CALF),
        known("Malaika", Status.HEIFER),
    )
)

LARGE = Herd(
    tuple(known(f"{'[' * 10}{n:02}", list(Status)[n % len(Status)], in_calf=n % 3 == 0) for n in range(20))
)
"""Every name of the longest kind: twelve characters, ten of them of two septets."""


TODAY = date(2026, 3, 2)
HELPERS = (Helper("+255712345678", "Juma"), Helper("+255754999888", "0754 999 888"))
LATEST = (
    Latest(
        31, Milk(animal="Neema", litres=Decimal(6), session="morning", on=TODAY), "Neema, lita 6, leo asubuhi"
    ),
    Latest(
        28,
        PregnancyCheck(animal="Zawadi", result="pregnant", months=Decimal(3), on=date(2026, 3, 1)),
        "Zawadi, ana mimba, jana",
    ),
    Latest(
        25,
        Expense(what="dawa", amount=Money.of(5000, "TZS"), on=date(2026, 2, 27)),
        "matumizi 5,000/=, 27 Feb",
    ),
)
"""What was told last, the last first."""


def caller(language: str = "sw", herd: Herd = SMALL, **more: Any) -> Caller:
    known = {"helpers": lambda: HELPERS, "latest": lambda: LATEST, **more}
    return Caller(language=language, now=NOW, herd=herd, **known)


def kept(state: State) -> State:
    """The state as it comes back from where sessions are kept."""
    return State.from_json(json.loads(json.dumps(state.to_json())))


def tell(who: Caller, answers: Iterable[str], *, start: Turn | None = None) -> list[Turn]:
    """Every turn from dialling through *answers*."""
    turns = [start or menu.dial(who)]
    for typed in answers:
        turns.append(menu.answer(kept(turns[-1].state), typed, who))
    return turns
