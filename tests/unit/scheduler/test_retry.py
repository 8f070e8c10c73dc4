"""When a text may go, when it is tried again, when it is given up."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from scheduler.retry import RetryPolicy, after_quiet
from service.messages import Purpose
from service.records.outbox import Waiting

ZONE = ZoneInfo("Africa/Dar_es_Salaam")
POLICY = RetryPolicy()


def farm(text: str) -> datetime:
    """A moment as the farm's clock shows it."""
    return datetime.fromisoformat(text).replace(tzinfo=ZONE).astimezone(UTC)


NOON = farm("2026-03-02 12:00")
REPLY = Waiting(
    seq=1, id="a", phone="+255621234567", text="Habari", purpose=Purpose.REPLY, farm=None, task_ids=(),
    items=(), in_reply_to=None, created_at=NOON, attempts=0, not_after=None,
)  # fmt: skip
REMINDER = replace(REPLY, purpose=Purpose.REMINDER)


@pytest.mark.parametrize(
    ("now", "opens"),
    [
        ("2026-03-02 20:29:59", "2026-03-02 20:29:59"),
        ("2026-03-02 20:30", "2026-03-03 05:00"),
        ("2026-03-02 23:59", "2026-03-03 05:00"),
        ("2026-03-03 00:00", "2026-03-03 05:00"),
        ("2026-03-03 04:59:59", "2026-03-03 05:00"),
        ("2026-03-03 05:00", "2026-03-03 05:00"),
        ("2026-12-31 21:00", "2027-01-01 05:00"),
    ],
)
def test_quiet_hours_end_at_five(now: str, opens: str) -> None:
    assert after_quiet(farm(now), ZONE) == farm(opens)


@pytest.mark.parametrize("purpose", [Purpose.REMINDER, Purpose.STATEMENT, Purpose.NOTICE, Purpose.ALERT])
def test_nothing_unasked_goes_at_night(purpose: Purpose) -> None:
    night = farm("2026-03-02 22:00")
    assert POLICY.when(replace(REPLY, purpose=purpose), night, ZONE) == farm("2026-03-03 05:00")


@pytest.mark.parametrize("purpose", list(Purpose))
def test_an_answer_goes_at_night(purpose: Purpose) -> None:
    night = farm("2026-03-02 22:00")
    assert POLICY.when(replace(REPLY, purpose=purpose, in_reply_to="in-1"), night, ZONE) == night


def test_what_would_come_too_late_after_the_night_never_goes() -> None:
    night = farm("2026-03-02 22:00")
    short = replace(REMINDER, not_after=farm("2026-03-03 04:59"))
    assert POLICY.when(short, night, ZONE) is None
    assert POLICY.when(replace(short, not_after=farm("2026-03-03 05:00")), night, ZONE) is not None


def test_a_text_may_go_until_the_last_moment_of_its_window_and_not_after() -> None:
    text = replace(REMINDER, not_after=NOON)
    assert POLICY.when(text, NOON, ZONE) == NOON
    assert POLICY.when(text, NOON + timedelta(seconds=1), ZONE) is None


def test_pauses_double_from_ten_seconds_to_half_an_hour() -> None:
    pauses = [POLICY.again(replace(REPLY, attempts=n), NOON) for n in range(11)]
    assert [(at - NOON).total_seconds() for at in pauses if at] == [
        10, 20, 40, 80, 160, 320, 640, 1280, 1800, 1800, 1800,
    ]  # fmt: skip


def test_ever_so_many_attempts_are_no_burden() -> None:
    assert POLICY.again(replace(REPLY, attempts=1_000_000), NOON) == NOON + POLICY.longest


def test_an_answer_is_tried_for_a_day_the_last_time_at_its_end() -> None:
    end = NOON + timedelta(days=1)
    worn = replace(REPLY, attempts=50)
    assert POLICY.again(worn, end - timedelta(minutes=10)) == end
    assert POLICY.when(worn, end, ZONE) == end
    assert POLICY.again(worn, end) is None


def test_a_reminder_is_tried_until_its_window_is_over_however_long() -> None:
    end = NOON + timedelta(days=20)
    worn = replace(REMINDER, attempts=900, not_after=end)
    assert POLICY.again(worn, end - timedelta(hours=2)) == end - timedelta(minutes=90)
    assert POLICY.again(worn, end - timedelta(minutes=1)) == end
    assert POLICY.again(worn, end) is None


def test_an_unasked_text_without_a_window_is_tried_for_a_week() -> None:
    end = NOON + timedelta(days=7)
    assert POLICY.when(REMINDER, end, ZONE) == end
    assert POLICY.when(REMINDER, end + timedelta(seconds=1), ZONE) is None
