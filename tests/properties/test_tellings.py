"""
Told in any order, late, twice or taken back: the herd and its open tasks end as if told right at once.

The whole way is walked: texts through the service, on a real database; what is compared is what it
would export.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.bootstrap import Runtime, build
from service.flow.export import export
from service.messages import InboundText, Kept
from service.settings import Settings
from tests.support.clocks import SetClock

PHONE = "+255621234567"
NOW = datetime(2026, 11, 20, 8, 30, tzinfo=UTC)

HERD = "Ng'ombe mpya Neema, jike, anakamuliwa. Ng'ombe mpya Tausi, jike, anakamuliwa"

HISTORY = (
    "Neema amezaa ndama jike tarehe 10/1/2026",
    "Neema joto tarehe 12/3/2026 saa 1 asubuhi",
    "Neema amepandishwa tarehe 13/3/2026",
    "Neema amepimwa ana mimba tarehe 20/5/2026",
    "Tausi amezaa ndama dume tarehe 5/2/2026",
    "Tausi amepandishwa tarehe 20/4/2026",
    "Tausi amepandishwa tarehe 12/5/2026",
    "Tausi amepimwa hana mimba tarehe 20/7/2026",
    "Tausi joto tarehe 19/11/2026 saa 2 usiku",
    "Nimeogesha ng'ombe wote tarehe 16/11/2026",
    "Nimewapa wote dawa ya minyoo tarehe 1/10/2026",
    "Neema amekaushwa tarehe 25/10/2026",
    "Neema amepewa penicillin tarehe 20/1/2026 maziwa yasiuzwe siku 4",
    "Tausi amepewa penicillin tarehe 18/11/2026 maziwa yasiuzwe siku 4",
    "Tausi amepewa penicillin tarehe 19/11/2026",
)

WHY = "niliandika vibaya"
"""Said after each taking back: the answer to why, where it was asked, and else nothing."""

ASIDE = "Tausi amepandishwa tarehe 2/8/2026"
"""Told by mistake, and taken back."""


def _runtime(folder: str) -> tuple[Runtime, SetClock]:
    clock = SetClock(NOW)
    path = Path(folder) / "test.db"
    chosen = Settings.from_env({"BYRELINE_DATABASE_URL": f"sqlite:///{path}"})
    runtime = build(chosen, clock=clock)
    runtime.register_farm(PHONE, "Rehema", "sw")
    return runtime, clock


def _tell(runtime: Runtime, clock: SetClock, texts: Sequence[str]) -> None:
    for number, text in enumerate(texts):
        clock.move(timedelta(seconds=1))
        sent = InboundText(id=f"t{number}", sender=PHONE, recipient="15000", text=text, sent_at=clock.now())
        assert runtime.sms(sent) is Kept.KEPT
        assert runtime.sms(sent) is Kept.KEPT_BEFORE


def _outcome(runtime: Runtime) -> list[tuple[Any, ...]]:
    """The herd and the open tasks, without the ids that tell when each was made."""
    lines = runtime.store.read(
        lambda conn: list(export(conn, phone=PHONE, now=NOW, zone=runtime.settings.zone))
    )
    animals = [
        ("animal", one["name"], one["sex"], one["born"], one["dam"], one["status"])
        for one in lines
        if one["what"] == "animal"
    ]
    tasks = [
        ("task", one["task"], one["animal"], one["due"], one["until"])
        for one in lines
        if one["what"] == "task" and one["state"] == "open"
    ]
    return sorted(animals) + sorted(tasks, key=str)


def _after(texts: Sequence[str]) -> list[tuple[Any, ...]]:
    with TemporaryDirectory() as folder:
        runtime, clock = _runtime(folder)
        try:
            _tell(runtime, clock, [HERD, *texts])
            return _outcome(runtime)
        finally:
            runtime.close()


RIGHT = _after(HISTORY)


def test_the_history_is_understood() -> None:
    """The comparison below would be empty if the texts were not read."""
    with TemporaryDirectory() as folder:
        runtime, clock = _runtime(folder)
        _tell(runtime, clock, [HERD, *HISTORY])
        lines = runtime.store.read(
            lambda conn: list(export(conn, phone=PHONE, now=NOW, zone=runtime.settings.zone))
        )
        runtime.close()
    kinds = [line["kind"] for line in lines if line["what"] == "entry"]
    assert len(kinds) == len(HISTORY) + 2
    assert {(t[1], t[2]) for t in RIGHT if t[0] == "task"} >= {
        ("steam_up", "Neema"),
        ("calving", "Neema"),
        ("serve", "Tausi"),
        ("spray", None),
        ("deworm", "Neema"),
        ("milk_hold_end", "Tausi"),
    }


@settings(max_examples=12, deadline=None)
@given(order=st.permutations(range(len(HISTORY))), mistake=st.integers(0, len(HISTORY)))
def test_any_order_of_telling_ends_in_the_same_herd_and_tasks(order: list[int], mistake: int) -> None:
    texts = [HISTORY[number] for number in order]
    texts[mistake:mistake] = [ASIDE, "FUTA", WHY]
    assert _after(texts) == RIGHT


@settings(max_examples=8, deadline=None)
@given(order=st.permutations(range(len(HISTORY))), taken_back=st.integers(1, len(HISTORY)))
def test_what_is_taken_back_and_told_again_ends_the_same(order: list[int], taken_back: int) -> None:
    texts = [HISTORY[number] for number in order]
    again = list(reversed(texts[-taken_back:]))
    assert _after([*texts, *["futa", WHY] * taken_back, *again]) == RIGHT
