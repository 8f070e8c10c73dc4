"""What the demo page shows, gathered from the events of the log: each phone's thread, and what is coming."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from service.messages import Event
from service.sms import measure

BEHIND = ("recorded", "undone", "planned", "dropped")
"""Events that follow from a text; those of time alone (a window over) follow from none."""


@dataclass(slots=True)
class Line:
    """One text of a thread, either way; ``behind`` is what followed from it."""

    at: str
    mine: bool  # sent by the phone
    text: str
    purpose: str = ""  # of a text that came
    encoding: str = ""
    units: int = 0
    segments: int = 0
    tasks: list[Event] = field(default_factory=list)  # what a text that came reminds of
    behind: list[Event] = field(default_factory=list)


class Diary:
    """A listener that remembers."""

    def __init__(self) -> None:
        self.threads: defaultdict[str, list[Line]] = defaultdict(list)
        self.came = 0  # texts that came to phones so far
        self._tasks: dict[Any, Event] = {}  # every task ever planned, by id
        self._open: dict[Any, Event] = {}
        self._phones: dict[Any, str] = {}  # farm -> the phone whose text was first heard of it
        self._last: tuple[str, str] = ("", "")  # phone and moment of the latest text that came in
        self._behind: list[Event] = []

    def __call__(self, event: Event) -> None:
        """Take in the next event."""
        match event["event"]:
            case "received":
                self._received(event)
            case "sent":
                self._sent(event)
            case "planned":
                self._tasks[event["task_id"]] = self._open[event["task_id"]] = event
            case "dropped":
                self._open.pop(event["task_id"], None)
        if event["event"] in BEHIND:
            self._follow(event)

    def coming(self, today: date, most: int) -> list[Event]:
        """The open tasks due from *today* on, soonest first; ``planned`` events, each with its ``phone``."""
        later = [task for task in self._open.values() if task["due"][:10] >= today.isoformat()]
        tasks = sorted(later, key=lambda task: (task["due"][:10], task["due"]))
        return [{**task, "phone": self._phones.get(task["farm"])} for task in tasks[:most]]

    def _received(self, event: Event) -> None:
        self._last = (event["phone"], event["at"])
        self._behind = []
        if event["channel"] == "sms":
            line = Line(at=event["at"], mine=True, text=event["text"], behind=self._behind)
            self.threads[event["phone"]].append(line)

    def _sent(self, event: Event) -> None:
        self.came += 1
        self.threads[event["phone"]].append(
            Line(
                at=event["at"],
                mine=False,
                text=event["text"],
                purpose=event["purpose"],
                encoding=event["encoding"],
                units=measure(event["text"]).units,
                segments=event["segments"],
                tasks=[self._tasks[task] for task in event["task_ids"] if task in self._tasks],
            )
        )

    def _follow(self, event: Event) -> None:
        """Put *event* behind the text it follows from, if it follows from one."""
        phone, at = self._last
        if event["at"] != at or event.get("why") == "expired":
            return
        if "farm" in event:
            self._phones.setdefault(event["farm"], phone)
        known = self._tasks.get(event.get("task_id"), {})
        self._behind.append({**known, **event})
