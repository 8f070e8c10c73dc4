"""Menu sessions: where each stands, and the screen of its latest step."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

import sqlalchemy as sa

from service.messages import Screen
from service.records import tables

KEPT = timedelta(days=1)
"""How long a session is kept after its last step; a network ends one after minutes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """A menu session after its latest step."""

    step: int
    screen: Screen
    state: Mapping[str, Any]


def of(conn: sa.Connection, session: str) -> Session | None:
    """The session as its latest step left it; None: it has none yet."""
    row = conn.execute(
        sa.select(
            tables.MenuSession.step,
            tables.MenuSession.screen,
            tables.MenuSession.more,
            tables.MenuSession.state,
        )
        .where(tables.MenuSession.session == session)
        .with_for_update()
    ).one_or_none()
    return (
        None if row is None else Session(step=row.step, screen=Screen(row.screen, row.more), state=row.state)
    )


def keep(
    conn: sa.Connection,
    session: str,
    *,
    phone: str,
    typed: str | None,
    now: datetime,
    latest: Session,
) -> None:
    """Keep what the latest step led to; sessions long over are let go when a new one begins."""
    values = {
        "phone": phone,
        "step": latest.step,
        "typed": typed,
        "screen": latest.screen.text,
        "more": latest.screen.more,
        "state": dict(latest.state),
        "updated_at": now,
    }
    mine = tables.MenuSession.session == session
    if conn.execute(sa.update(tables.MenuSession).where(mine).values(**values)).rowcount == 0:
        conn.execute(sa.delete(tables.MenuSession).where(tables.MenuSession.updated_at < now - KEPT))
        conn.execute(sa.insert(tables.MenuSession), {"session": session, **values})
