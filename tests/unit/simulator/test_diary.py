"""The diary behind the demo page: threads, what followed from a text, and what is coming."""

from __future__ import annotations

from datetime import date
from typing import Any

from simulator.diary import Diary

PHONE = "+255621234567"
MORNING = "2026-03-02T06:10+03:00"


def received(text: str = "Neema amepandishwa", at: str = MORNING, channel: str = "sms") -> dict[str, Any]:
    return {"at": at, "event": "received", "phone": PHONE, "text": text, "channel": channel}


def recorded(at: str = MORNING) -> dict[str, Any]:
    return {
        "at": at,
        "event": "recorded",
        "farm": 1,
        "entry": {"kind": "service", "id": 7, "animal": "Neema"},
    }


def planned(task_id: int, due: str, task: str = "return_heat", at: str = MORNING) -> dict[str, Any]:
    return {
        "at": at,
        "event": "planned",
        "farm": 1,
        "task": task,
        "animal": "Neema",
        "due": due,
        "until": None,
        "task_id": task_id,
    }


def dropped(task_id: int, why: str, at: str = MORNING) -> dict[str, Any]:
    return {"at": at, "event": "dropped", "task_id": task_id, "why": why}


def sent(*task_ids: int) -> dict[str, Any]:
    return {
        "at": MORNING,
        "event": "sent",
        "phone": PHONE,
        "text": "Neema[1]",
        "purpose": "reminder",
        "encoding": "gsm7",
        "segments": 1,
        "task_ids": list(task_ids),
    }


def diary(*events: dict[str, Any]) -> Diary:
    told = Diary()
    for event in events:
        told(event)
    return told


def test_a_thread_holds_texts_of_both_ways_in_order() -> None:
    thread = diary(received(), sent()).threads[PHONE]
    assert [(line.mine, line.text) for line in thread] == [(True, "Neema amepandishwa"), (False, "Neema[1]")]


def test_a_menus_inputs_are_no_texts() -> None:
    assert diary(received("1", channel="menu")).threads[PHONE] == []


def test_what_came_tells_its_size_and_what_it_reminds_of() -> None:
    [line] = diary(planned(3, "2026-03-20"), sent(3)).threads[PHONE]
    assert (line.units, line.segments, line.encoding) == (10, 1, "gsm7")
    assert [task["task"] for task in line.tasks] == ["return_heat"]


def test_behind_a_text_stands_what_followed_from_it() -> None:
    told = diary(
        planned(1, "2026-03-19"), received(), recorded(), dropped(1, "replaced"), planned(2, "2026-03-20")
    )
    [line] = told.threads[PHONE]
    assert [event["event"] for event in line.behind] == ["recorded", "dropped", "planned"]
    assert line.behind[1]["task"] == "return_heat"


def test_what_time_alone_brings_stands_behind_no_text() -> None:
    later = "2026-03-02T06:00+03:00"
    told = diary(
        planned(1, "2026-03-01"), received(), dropped(1, "expired"), planned(2, "2026-03-20", at=later)
    )
    assert told.threads[PHONE][0].behind == []


def test_what_is_coming_is_open_and_soonest_first() -> None:
    told = diary(
        received(),
        recorded(),
        planned(1, "2026-03-22"),
        planned(2, "2026-03-02T18:00+03:00", task="serve"),
        planned(3, "2026-03-02", task="spray"),
        planned(4, "2026-03-20"),
        dropped(4, "undone"),
    )
    assert [task["task_id"] for task in told.coming(date(2026, 3, 2), 9)] == [3, 2, 1]
    assert [task["task_id"] for task in told.coming(date(2026, 3, 2), 1)] == [3]
    assert told.coming(date(2026, 3, 2), 1)[0]["phone"] == PHONE
