"""
Reminders as texts: the morning's work in at most two, the serve reminder in one of its own.

Pure. Every text is one segment and names its items by number; the numbers of a morning's two texts run
on. What does not fit is left for the next day, but a return heat, whose days pass, never is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from dialogs import hours, texts
from dialogs.phrases import who
from dialogs.reminders import own_text
from dialogs.work import CHECK_FIRST, Due, Item, items, line, numbered
from service.husbandry.herd import Farm, Person
from service.messages import Say, say

__all__ = ["Digest", "Due", "Item", "Text", "digest", "items", "own", "serve_text"]

AT_MOST = 3
"""Things in one text: more are not done in a morning."""

SURELY = 2
"""Things that fit into one text however long their names and dates."""

NEVER_WAITS = "return_heat"

ASK_ON_DONE = {"serve", "illness_check", "pregnancy_check", CHECK_FIRST, "vaccinate", "weigh", "statement"}
"""Work whose own text says what to send: a plain "done" would only be asked back, or says nothing."""


@dataclass(frozen=True, slots=True)
class Text:
    """One text; ``items``: the task ids under each of its numbers, which begin at ``first_number``."""

    text: str
    items: tuple[tuple[int, ...], ...]
    first_number: int


@dataclass(frozen=True, slots=True)
class Digest:
    """A morning's texts; ``left``: ids of the tasks that have no room in them."""

    texts: tuple[Text, ...]
    left: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Reader:
    """For whom, and when."""

    farm: Farm
    people: Mapping[str, Person]
    now: datetime
    language: str


def digest(
    due: Sequence[Due],
    farm: Farm,
    people: Mapping[str, Person],
    now: datetime,
    language: str,
    *,
    texts: int = 2,
) -> Digest:
    """
    The reminders of one morning.

    Args:
        due: Stored tasks to be told, in any order.
        farm: The farm's state.
        people: Role -> whom to call; may be empty.
        now: Aware, in the farm's zone.
        language: sw, en.
        texts: How many texts may still be sent today; 0 leaves everything.
    """
    reader = _Reader(farm, people, now, language)
    waiting = _made_to_fit(items(due, now), texts)
    made: list[Text] = []
    number = 1
    while waiting and len(made) < texts:
        text = _next_text(waiting, reader, number, texts - len(made))
        made.append(text)
        number += len(text.items)
        waiting = waiting[len(text.items) :]
    return Digest(tuple(made), tuple(one for item in waiting for one in item.ids))


def _made_to_fit(all_items: tuple[Item, ...], room: int) -> tuple[Item, ...]:
    """The items; return heats as one where there are more of them than *room* texts surely hold."""
    heats = [item for item in all_items if item.work == NEVER_WAITS]
    if len(heats) <= SURELY * room:
        return all_items
    others = (item for item in all_items if item.work != NEVER_WAITS)
    return (Item(tuple(due for item in heats for due in item.tasks)), *others)


def _next_text(waiting: Sequence[Item], reader: _Reader, number: int, room: int) -> Text:
    """A text of its own for each item where there are texts enough, else a list of up to three."""
    if len(waiting) <= room:
        return _alone(waiting[0], reader, number)
    for count in range(min(AT_MOST, len(waiting)), 1, -1):
        text = _list(waiting[:count], reader, number)
        if texts.fits(text):
            return Text(text, tuple(item.ids for item in waiting[:count]), number)
    return _alone(waiting[0], reader, number)


def _alone(item: Item, reader: _Reader, number: int) -> Text:
    ways = own_text(item, reader.farm, reader.people, reader.now)
    done = () if item.work in ASK_ON_DONE else (say("digest.done", number=number),)
    text = texts.first_that_fits(*((way, *done) for way in ways), language=reader.language)
    return Text(text, (item.ids,), number)


def _list(some: Sequence[Item], reader: _Reader, number: int) -> str:
    today = all(item.first <= reader.now.date() for item in some)
    key = "digest.more" if number > 1 else "digest.today" if today else "digest.work"
    for level in (0, texts.FEW_NAMES):
        lines = [
            texts.at_level(line(item, reader.now, weekday=True), reader.language, level) for item in some
        ]
        said = say(key, items=numbered(lines, number), number=number)
        text = texts.render(said, reader.language)
        if texts.fits(text):
            break
    return text


def serve_text(
    due: Sequence[Due], farm: Farm, people: Mapping[str, Person], now: datetime, language: str
) -> Text:
    """The serve reminder: whom to call and the good hours; several cows are numbered."""
    ordered = items_of_serve(due)
    whom = who(people, "technician")
    if len(ordered) == 1:
        return _alone(ordered[0], _Reader(farm, people, now, language), 1)
    full = [texts.render(_serve_line(item, now), language) for item in ordered]
    names = tuple(item.names[0] for item in ordered)
    shorter = (numbered(full), numbered(names), texts.render(say("names", names=names), language))
    candidates = ((say("serve.many", items=some, who=whom),) for some in shorter)
    text = texts.first_that_fits(*candidates, language=language)
    return Text(text, tuple(item.ids for item in ordered), 1)


def own(due: Due, farm: Farm, people: Mapping[str, Person], now: datetime, language: str) -> Text:
    """The text of one task that has hours of its own; it shows no number."""
    item = Item((due,))
    ways = ((way,) for way in own_text(item, farm, people, now))
    return Text(texts.first_that_fits(*ways, language=language), (item.ids,), 1)


def items_of_serve(due: Sequence[Due]) -> tuple[Item, ...]:
    """One item for each cow, the window that closes first at the head."""
    return tuple(Item((one,)) for one in sorted(due, key=lambda one: (str(one.task.until), one.id)))


def _serve_line(item: Item, now: datetime) -> Say:
    window = hours.serve_window(item.tasks[0].task)
    if window is None:
        return say("names", names=item.names)
    return say("serve.item", name=item.names[0], hours=hours.told(window, now))
