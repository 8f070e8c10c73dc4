"""Work to do, as items of a numbered list: the same work of several animals is one item."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from dialogs import texts
from dialogs.holding import half_day, milking
from dialogs.outcome import due_on
from dialogs.phrases import disease
from service.husbandry.herd import Animal
from service.husbandry.holds import Milking, drug_hold, meat_hold
from service.husbandry.task import Task, day_of
from service.messages import Say, say

CHECK_FIRST = "check_first"
"""In the place of drying off and steaming up of a cow that no check has found in calf."""

BY_URGENCY = (
    "serve", "afterbirth", "illness_check", "return_heat", "calving_overdue", "calving", "milk_hold_end",
    "pregnancy_check", CHECK_FIRST,
    "dry_off", "steam_up", "vaccinate", "heat_after_calving", "first_service", "deworm", "spray",
    "weaning", "calf_feed", "disinfect", "meat_hold_end", "weigh", "milk_record", "statement",
)  # fmt: skip
"""What is told first, where not all can be: what passes soonest, then what can hurt."""

ITS_OWN_DATES = {"return_heat", CHECK_FIRST, "dry_off", "steam_up", "calving_overdue"}
"""Work whose text names dates, so that only animals of the same dates go together."""

ON_THE_DAY = {"milk_hold_end", "meat_hold_end"}
"""Work told with its date, because it must not begin earlier."""


@dataclass(frozen=True, slots=True)
class Due:
    """A stored open task that is due, with its animal (None: the herd's)."""

    id: int
    task: Task
    animal: Animal | None


@dataclass(frozen=True, slots=True)
class Item:
    """One line of a list; at least one task, all of the same work."""

    tasks: tuple[Due, ...]

    @property
    def ids(self) -> tuple[int, ...]:
        return tuple(due.id for due in self.tasks)

    @property
    def animals(self) -> tuple[Animal, ...]:
        return tuple(due.animal for due in self.tasks if due.animal is not None)

    @property
    def names(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(animal.name for animal in self.animals))

    @property
    def work(self) -> str:
        return work_of(self.tasks[0])

    @property
    def disease(self) -> str | None:
        return self.tasks[0].task.key.disease

    @property
    def first(self) -> date:
        """The earliest day of any of its tasks."""
        return min(day_of(due.task.due) for due in self.tasks)

    @property
    def last(self) -> date | None:
        """The latest last day; None where one is open."""
        ends = [due.task.until for due in self.tasks]
        known = [day_of(end) for end in ends if end is not None]
        return max(known) if len(known) == len(ends) else None


def work_of(due: Due) -> str:
    """The work of a task: its name, or the check that must come first."""
    task = due.task.key.task
    unchecked = due.animal is not None and not due.animal.in_calf
    return CHECK_FIRST if task in {"dry_off", "steam_up"} and unchecked else task


def _together(due: Due, today: date) -> tuple[object, ...]:
    """What is equal of tasks that make one item: the work, and the day where that is to come."""
    work, key = work_of(due), due.task.key
    if key.animal is None:
        return work, due.id
    if work not in ITS_OWN_DATES:
        return work, key.disease, max(day_of(due.task.due), today)
    calves = None if due.animal is None else due_on(due.animal)
    dates = day_of(due.task.due), due.task.until
    return work, calves, max(dates[0], today) if work == CHECK_FIRST else dates


def _urgency(item: Item) -> tuple[int, date, str, int]:
    rank = BY_URGENCY.index(item.work) if item.work in BY_URGENCY else len(BY_URGENCY)
    return rank, item.first, item.disease or "", item.tasks[0].id


def items(due: Iterable[Due], now: datetime) -> tuple[Item, ...]:
    """The tasks as items, the most urgent first."""
    groups: dict[tuple[object, ...], list[Due]] = {}
    for one in due:
        groups.setdefault(_together(one, now.date()), []).append(one)
    made = (Item(tuple(sorted(group, key=lambda d: (day_of(d.task.due), d.id)))) for group in groups.values())
    return tuple(sorted(made, key=_urgency))


def holds_on(item: Item) -> bool:
    """Whether, at the end of a hold, the label of another drug is still not told."""
    hold = {"milk_hold_end": drug_hold, "meat_hold_end": meat_hold}.get(item.work)
    held = [] if hold is None else [hold(animal, item.first) for animal in item.animals]
    return any(one is not None and one.first is None for one in held)


def _evening(item: Item) -> bool:
    """Whether what is held may be sold from the evening of its day on only, for any of the animals."""
    field = {"milk_hold_end": "milk_held_evening", "meat_hold_end": "meat_held_evening"}.get(item.work, "")
    return any(getattr(animal, field, False) for animal in item.animals)


def first_sale(item: Item) -> Say:
    """The half day from which on milk or meat may be sold, where that is the work."""
    first = Milking(item.first, _evening(item))
    return milking(first) if item.work == "milk_hold_end" else half_day(first)


def work_phrase(item: Item) -> Say:
    """The work, with its caution where it can hurt."""
    key = f"work.{item.work}"
    if holds_on(item):
        key = f"{key}_unknown"
    if not texts.has(key):
        return say("plain", words=item.work)
    return say(key, disease=disease(item.disease or ""))


def line(item: Item, now: datetime, *, weekday: bool) -> Say:
    """
    *item* in a list, with its day where that is not yet here.

    *weekday*: as a weekday, for a text of the same day; else as a date.
    """
    names = item.names if len(item.animals) > 0 else ()
    herd = "" if names else "herd_"
    values = {"names": names, "work": work_phrase(item), "on": item.first}
    if item.work == "return_heat" and item.last is not None:
        return Say("item.window", {**values, "window": (item.first, item.last)})
    if item.work in ON_THE_DAY:
        return Say("item.day", {**values, "on": first_sale(item)} if _evening(item) else values)
    if item.first <= now.date():
        return Say("item.herd" if herd else "item.today", values)
    return Say(f"item.{herd}{'from' if weekday else 'day'}", values)


def numbered(lines: Sequence[str], first: int = 1) -> str:
    """``1 Tausi, angalia joto. 2 Zawadi, kupima mimba``."""
    return ". ".join(f"{number} {text}" for number, text in enumerate(lines, first))
