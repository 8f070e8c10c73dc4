"""A text is taken once, on either database."""

from __future__ import annotations

import sqlalchemy as sa

from service.records import texts
from tests.support.clocks import SetClock

NOON = SetClock().now()


def take(conn: sa.Connection, id: str) -> bool:
    taken = texts.take(
        conn,
        id=id,
        sender="+255621234567",
        recipient="+255600000000",
        text="Neema 6",
        sent_at=NOON,
        arrived_at=NOON,
        channel="sms",
    )
    return taken is not None


def test_a_new_text_is_taken_and_its_repeat_is_not(engine: sa.Engine) -> None:
    with engine.begin() as conn:
        assert take(conn, "a")
        assert not take(conn, "a")
        assert take(conn, "b")
