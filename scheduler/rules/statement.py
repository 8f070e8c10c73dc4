"""The month's statement: on the first of each month, for a farm that has asked for it monthly."""

from __future__ import annotations

from collections.abc import Iterator

from scheduler.rules.offer import Offer, open_ended
from service.husbandry.herd import Farm
from service.husbandry.intervals import Intervals
from service.husbandry.months import months_after
from service.husbandry.task import Key

TASK = "statement"

MONTHS_AHEAD = 24
"""A farm that never says it has read one is not told of the statement for ever; Byreline's own choice."""


def statement(farm: Farm, intervals: Intervals) -> Iterator[Offer]:
    """
    The latest first of a month after the asking, or after the last one said done.

    Each later one opens on its own day and takes the place of the one before.
    """
    asked = farm.asked_on.get(TASK)
    if asked is None:
        return
    start = max(asked, farm.done.get(TASK, asked))
    firsts = [months_after(start.replace(day=1), ahead) for ahead in range(1, MONTHS_AHEAD + 1)]
    for due in reversed(firsts):
        opens = None if due == firsts[0] else due
        yield open_ended(Key(task=TASK), due, since=due, opens=opens)
