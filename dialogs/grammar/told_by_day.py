"""Days told by a mark or by what ends on them: "20-4", "maziwa yasiuzwe mpaka jumatatu"."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal

from dialogs.grammar.items import Item
from dialogs.grammar.when import Day, latest_date

_UNTIL = ("mpaka", "hadi", "until", "till")
_HELD = ("hold", "meat", "milk")


MOST_AGO = timedelta(days=300)
"""An event is told of by day and month no longer after it."""


def held_until(items: list[Item], today: date) -> list[Item]:
    """*items* in which the day up to which milk or meat is held back is so many days."""
    out = list(items)
    for index in range(len(out) - 1, 0, -1):
        item = out[index]
        day = item.value if item.sort == "when" and isinstance(item.value, Day) else None
        held = any(i.has(*_HELD) for i in out[max(0, index - 5) : index])
        if day is None or day.about or out[index - 1].word not in _UNTIL or not held:
            continue
        days = _days_to(day, today)
        if days > 0:
            out[index - 1 : index + 1] = [
                Item("number", item.start, item.end, item.word, value=Decimal(days), unit="day", digits=True)
            ]
    return out


def _days_to(day: Day, today: date) -> int:
    """Days from *today* to the next such day; 0 or less where it is past for certain."""
    left = (day.on - today).days
    return left + 7 if left <= 0 and day.latest and left >= -7 else left


def day_by_dash(items: Sequence[Item], today: date) -> Day | None:
    """The day of "20-4": two numbers that only a dash parts, and that no unit follows."""
    for first, mark, second in zip(items, items[1:], items[2:], strict=False):
        plain = all(
            i.sort == "number" and i.unit is None and i.digits and not i.hint for i in (first, second)
        )
        beside = second.start == first.end + 1  # only the dash between them
        if not plain or mark.word != "-" or not beside or first.value != int(first.value):
            continue
        if 1 <= first.value <= 31 and 1 <= second.value <= 12:
            found = latest_date(today, int(second.value), int(first.value))
            if found is not None and today - found > MOST_AGO:
                found = date(found.year + 1, found.month, min(found.day, 28))  # rather one to come
            if found is not None:
                return Day(found, latest=True)
    return None
