"""The plan as stored: open tasks, their reminders, and what became of those that are closed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

import sqlalchemy as sa

from service.husbandry.task import Key, Task, Why, iso, point_of
from service.records import tables

_OPEN = tables.Task.state == sa.literal_column("'open'")
# Written out, not bound: only so can SQLite tell that the partial indexes hold what is asked for.


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """An open task as stored. ``remind_at``: aware, UTC; None when it rests."""

    id: int
    farm_id: int
    task: Task
    remind_at: datetime | None
    reminders: int


def _kept(row: sa.Row[tuple[tables.Task]]) -> Kept:
    return Kept(
        id=row.id,
        farm_id=row.farm_id,
        task=Task(
            key=Key(task=row.task, animal=row.animal_id, disease=row.disease),
            due=point_of(row.due),
            until=None if row.until is None else point_of(row.until),
            since=row.since,
            about=row.about,
        ),
        remind_at=row.remind_at,
        reminders=row.reminders,
    )


def _select(*where: sa.ColumnElement[bool]) -> sa.Select[tuple[tables.Task]]:
    columns = tables.Task.__table__.columns
    return sa.select(*columns).where(_OPEN, *where).order_by(tables.Task.id)


_OPEN_OF = _select(tables.Task.farm_id == sa.bindparam("farm"))
_INSERT = sa.insert(tables.Task).returning(tables.Task.id, sort_by_parameter_order=True)
_REPLAN_AT = sa.update(tables.Farm).where(tables.Farm.id == sa.bindparam("farm"))
_REPLAN_AT = _REPLAN_AT.values(replan_at=sa.bindparam("at"), advise_at=sa.bindparam("advice"))
_DROP = (
    sa.update(tables.Task)
    .where(tables.Task.id == sa.bindparam("of_task"))
    .values(state="dropped", why=sa.bindparam("because"), dropped_at=sa.bindparam("now"), remind_at=sa.null())
)


def open_tasks(conn: sa.Connection, farm_id: int) -> tuple[Kept, ...]:
    """All open tasks of a farm, oldest planned first."""
    return tuple(map(_kept, conn.execute(_OPEN_OF, {"farm": farm_id})))


def due_tasks(conn: sa.Connection, farm_id: int, now: datetime) -> tuple[Kept, ...]:
    """Open tasks of a farm whose reminder is due at *now*."""
    return tuple(
        map(_kept, conn.execute(_select(tables.Task.farm_id == farm_id, tables.Task.remind_at <= now)))
    )


def farms_due(conn: sa.Connection, now: datetime, *, limit: int) -> tuple[int, ...]:
    """Farms that have a reminder due at *now*, at most *limit*."""
    due = sa.select(tables.Task.farm_id).where(
        _OPEN, tables.Task.remind_at.is_not(None), tables.Task.remind_at <= now
    )
    return tuple(conn.execute(due.distinct().limit(limit)).scalars())


def next_reminder(conn: sa.Connection) -> datetime | None:
    """When the next reminder is due."""
    return conn.execute(
        sa.select(tables.Task.remind_at)
        .where(_OPEN, tables.Task.remind_at.is_not(None))
        .order_by(tables.Task.remind_at)
        .limit(1)
    ).scalar_one_or_none()


def add(
    conn: sa.Connection, farm_id: int, wanted: Sequence[tuple[Task, datetime | None]], *, now: datetime
) -> tuple[Kept, ...]:
    """Open tasks, each with the moment of its first reminder (None: none)."""
    if not wanted:
        return ()
    ids = conn.execute(_INSERT, [_row(farm_id, task, at, now) for task, at in wanted]).scalars()
    return tuple(
        Kept(id=task_id, farm_id=farm_id, task=task, remind_at=at, reminders=0)
        for task_id, (task, at) in zip(ids, wanted, strict=True)
    )


def _row(farm_id: int, task: Task, remind_at: datetime | None, now: datetime) -> dict[str, object]:
    return {
        "farm_id": farm_id,
        "task": task.key.task,
        "animal_id": task.key.animal,
        "disease": task.key.disease,
        "due": iso(task.due),
        "until": None if task.until is None else iso(task.until),
        "since": task.since,
        "about": task.about,
        "state": "open",
        "planned_at": now,
        "remind_at": remind_at,
    }


def drop(conn: sa.Connection, dropped: Iterable[tuple[int, Why]], *, now: datetime) -> None:
    """Close tasks, each for its reason."""
    rows = [{"of_task": task_id, "because": why.value, "now": now} for task_id, why in dropped]
    if rows:
        conn.execute(_DROP, rows)


def remind_again(conn: sa.Connection, task_id: int, at: datetime | None, *, told: bool) -> None:
    """Set a task's next reminder; *told* counts one that has just gone out."""
    conn.execute(
        sa.update(tables.Task)
        .where(tables.Task.id == task_id)
        .values(remind_at=at, reminders=tables.Task.reminders + int(told))
    )


def reminded(conn: sa.Connection, farm_id: int, today: date) -> bool:
    """Note that the farm gets its day-level reminders today; False: it has had them."""
    not_yet = sa.or_(tables.Farm.reminded_on.is_(None), tables.Farm.reminded_on != today)
    noted = sa.update(tables.Farm).where(tables.Farm.id == farm_id, not_yet).values(reminded_on=today)
    return conn.execute(noted).rowcount == 1


def replan_at(
    conn: sa.Connection, farm_id: int, at: datetime | None, *, advise_at: datetime | None = None
) -> None:
    """
    Keep when the farm's plan next changes by the passing of time alone, and when advice may next come to
    it by itself.
    """
    conn.execute(_REPLAN_AT, {"farm": farm_id, "at": at, "advice": advise_at})


def farms_to_replan(conn: sa.Connection, now: datetime, *, limit: int) -> tuple[int, ...]:
    """Farms whose plan changes by *now*, longest due first."""
    due = (
        sa.select(tables.Farm.id)
        .where(tables.Farm.replan_at.is_not(None), tables.Farm.replan_at <= now)
        .order_by(tables.Farm.replan_at)
        .limit(limit)
    )
    return tuple(conn.execute(due).scalars())


def next_replan(conn: sa.Connection) -> datetime | None:
    """When the plan of any farm next changes by time alone."""
    return conn.execute(
        sa.select(tables.Farm.replan_at)
        .where(tables.Farm.replan_at.is_not(None))
        .order_by(tables.Farm.replan_at)
        .limit(1)
    ).scalar_one_or_none()
