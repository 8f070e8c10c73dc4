"""Callers for the menu's tests, and a way to answer one screen after another."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from dialogs.screens import menu
from dialogs.screens.state import Caller, State, Turn
from service.husbandry.herd import Herd, Known, Sex, Status

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


def caller(language: str = "sw", herd: Herd = SMALL, **more: Any) -> Caller:
    return Caller(language=language, now=NOW, herd=herd, **more)


def kept(state: State) -> State:
    """The state as it comes back from where sessions are kept."""
    return State.from_json(json.loads(json.dumps(state.to_json())))


def tell(who: Caller, answers: Iterable[str], *, start: Turn | None = None) -> list[Turn]:
    """Every turn from dialling through *answers*."""
    turns = [start or menu.dial(who)]
    for typed in answers:
        turns.append(menu.answer(kept(turns[-1].state), typed, who))
    return turns
