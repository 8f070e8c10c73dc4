"""What a rule yields: a task as it should be, and which of several stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo

from service.husbandry.cycle import Days
from service.husbandry.herd import Animal
from service.husbandry.task import Key, Point, Task


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """
    A task that a rule holds for right.

    ``opens``: planned from this point on (None: at once). Of several offers with one key, in the order
    yielded, the first that has opened and is neither over nor told done is planned. A rule knows no
    clock: what changes by the passing of time alone is said by ``opens`` and by the task's ``until``.
    """

    task: Task
    opens: Point | None = None


def of(
    animal: Animal,
    task: str,
    window: Days,
    *,
    since: date,
    about: bool = False,
    opens: Point | None = None,
) -> Offer:
    """A task of one animal on whole days."""
    key = Key(task=task, animal=animal.id)
    made = Task(key=key, due=window.first, until=window.last, since=since, about=about)
    return Offer(task=made, opens=opens)


def open_ended(key: Key, due: date, *, since: date, about: bool = False, opens: Point | None = None) -> Offer:
    """A task that stays until it is done or replaced."""
    return Offer(task=Task(key=key, due=due, until=None, since=since, about=about), opens=opens)


def zone_of(moment: datetime) -> tzinfo:
    """
    The zone of an aware moment.

    Raises:
        ValueError: the moment has none.
    """
    if moment.tzinfo is None:
        raise ValueError(f"{moment} has no zone")
    return moment.tzinfo


def begins(point: Point, zone: tzinfo) -> datetime:
    """The first moment of a day or minute."""
    if isinstance(point, datetime):
        return point
    return datetime.combine(point, time(), zone)


def ends(point: Point, zone: tzinfo) -> datetime:
    """The first moment after a day or minute: the next midnight, or the next minute."""
    if isinstance(point, datetime):
        return point + timedelta(minutes=1)
    return datetime.combine(point + timedelta(days=1), time(), zone)


def standing_of(offers: Sequence[Offer], now: datetime) -> Task | None:
    """The task of the first of *offers* (of one key) that at *now* has opened and is not over."""
    zone = zone_of(now)
    for offer in offers:
        opened = offer.opens is None or begins(offer.opens, zone) <= now
        if opened and (offer.task.until is None or ends(offer.task.until, zone) > now):
            return offer.task
    return None


def changes_at(offers: Sequence[Offer], standing: Task | None, now: datetime) -> datetime | None:
    """The next moment after *now* at which another of *offers* than *standing*, or none, stands."""
    zone = zone_of(now)
    turns = {begins(offer.opens, zone) for offer in offers if offer.opens is not None}
    turns |= {ends(offer.task.until, zone) for offer in offers if offer.task.until is not None}
    later = sorted(turn for turn in turns if turn > now)
    return next((turn for turn in later if standing_of(offers, turn) != standing), None)
