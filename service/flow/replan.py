"""The plan follows the book: what should be open, against what is, applied in the same transaction."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, time

import sqlalchemy as sa

from scheduler import advising, planning
from service.flow.house import Account, House
from service.husbandry.herd import Farm
from service.husbandry.intervals import Intervals
from service.records import outbox
from service.records import plan as plans
from service.records.ledger import Book
from service.records.plan import Kept

USUAL_HOUR = 6
"""Hour of the farm's morning text unless it sets another (the contract)."""


def hour_of(farm: Farm) -> int:
    """The hour (0-23) of the farm's day-level reminders."""
    return int(farm.settings.get("hour", USUAL_HOUR))


@dataclass(frozen=True, slots=True)
class Replanned:
    """A farm's open tasks, and which of them are new."""

    open: tuple[Kept, ...]
    planned: tuple[Kept, ...]


def replan(
    conn: sa.Connection,
    house: House,
    book: Book,
    cause: planning.Cause,
    account: Account,
    *,
    intervals: Mapping[str, int],
    now: datetime,
) -> Replanned:
    """
    Bring the stored plan of a farm to what its book asks for at *now* (aware).

    *intervals*: the cooperative's own; the farm's go over them.
    """
    local = house.local(now)
    hour = hour_of(book.farm)
    own = Intervals.of({**intervals, **book.farm.settings})
    wanted = planning.plan(book.farm, local, own)
    open_before = plans.open_tasks(conn, book.farm_id)
    change = planning.difference(
        [planning.Open(id=kept.id, task=kept.task) for kept in open_before], wanted.tasks, cause
    )
    _drop(conn, book.farm_id, change, now)
    added = plans.add(
        conn,
        book.farm_id,
        [(task, planning.remind_at(task, local, hour, house.zone, own)) for task in change.add],
        now=now,
    )
    advise_at = advising.next_look(advising.matters(book.farm, wanted.tasks, hour), local, hour)
    plans.replan_at(conn, book.farm_id, wanted.changes_at, advise_at=advise_at)
    account.dropped(change.drop)
    account.planned(book.farm, added)
    gone = {task_id for task_id, _ in change.drop}
    return Replanned((*(k for k in open_before if k.id not in gone), *added), added)


def at_new_hour(
    conn: sa.Connection, house: House, book: Book, kept: Iterable[Kept], *, now: datetime
) -> None:
    """Move the reminders of open tasks to the hour that the farm has just set."""
    local, hour = house.local(now), hour_of(book.farm)
    for one in kept:
        if one.remind_at is None or isinstance(one.task.due, datetime):
            continue
        at = planning.remind_at(one.task, local, hour, house.zone)
        if one.reminders:  # it is to be told of again: the day stays
            at = datetime.combine(house.local(one.remind_at).date(), time(hour), house.zone)
        plans.remind_again(conn, one.id, at, told=False)


def _drop(conn: sa.Connection, farm_id: int, change: planning.Difference, now: datetime) -> None:
    """Close tasks; a reminder of them that still waits is not sent, and what else it told of is due again."""
    if not change.drop:
        return
    plans.drop(conn, change.drop, now=now)
    for task_id in outbox.withdraw_reminders(conn, farm_id, {task_id for task_id, _ in change.drop}):
        plans.remind_again(conn, task_id, now, told=False)
