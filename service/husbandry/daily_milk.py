"""
The milk of each day, of one cow or of the herd's sum, from what was told of its milkings.

Litres as Decimal. A day can be told in one sum, milking by milking, or only in part: a part is made up
to the whole day by the share that the milkings told usually have, first by common figures, then by her own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

from service.husbandry.kinds.milk import Milk

WHOLE_DAY = "day"
"""The session of a day told in one sum."""

ROUTINE_DAYS = 7
"""Of so many days told milking by milking the usual milkings are learnt; Byreline's own choice."""

SHARES: Mapping[frozenset[str], Mapping[str, Decimal]] = {
    frozenset({"morning", "evening"}): {"morning": Decimal("0.61"), "evening": Decimal("0.39")},
    frozenset({"morning", "midday"}): {"morning": Decimal("0.61"), "midday": Decimal("0.39")},
    frozenset({"midday", "evening"}): {"midday": Decimal("0.5"), "evening": Decimal("0.5")},
    frozenset({"morning", "midday", "evening"}): {
        "morning": Decimal("0.45"),
        "midday": Decimal("0.25"),
        "evening": Decimal("0.30"),
    },
}
"""
Part of a day's milk that each milking gives. Morning of two: 0.609, SD 0.051 (Friggens et al. 2007, open
data, 77,056 cow-days; computed); the others are common practice, no source.
"""

SHARE_DAYS = 5
"""The common share counts as much as so many of her own days; Byreline's own choice."""


@dataclass(frozen=True, slots=True)
class DayMilk:
    """What was told of one day: the *litres* of its milkings together, and which *sessions* those are."""

    on: date
    litres: Decimal
    milkings: tuple[tuple[str, Decimal], ...]  # (session, litres), in the order of telling

    @property
    def sessions(self) -> frozenset[str]:
        return frozenset(session for session, _ in self.milkings)

    @property
    def in_one_sum(self) -> bool:
        return WHOLE_DAY in self.sessions


def daily(entries: Iterable[Milk]) -> tuple[DayMilk, ...]:
    """
    The days told of, oldest first, from the standing *entries* of one cow (or of the herd's sum).

    Told twice of one milking: the later telling stands (*entries* come in the order of telling). Told both
    in one sum and milking by milking: whichever is more, since one of them can be a part of the other.
    """
    told: dict[date, dict[str, Decimal]] = {}
    for entry in entries:
        told.setdefault(entry.on, {})[entry.session] = entry.litres
    return tuple(_day(on, told[on]) for on in sorted(told))


def _day(on: date, litres: Mapping[str, Decimal]) -> DayMilk:
    parts = {session: value for session, value in litres.items() if session != WHOLE_DAY}
    total = sum(parts.values(), Decimal(0))
    if WHOLE_DAY in litres and litres[WHOLE_DAY] >= total:
        return DayMilk(on, litres[WHOLE_DAY], ((WHOLE_DAY, litres[WHOLE_DAY]),))
    return DayMilk(on, total, tuple(parts.items()))


def usual_sessions(days: Sequence[DayMilk]) -> frozenset[str]:
    """The milkings told on at least half of the last days that were told by milkings; () of none."""
    parts = [day.sessions for day in reversed(days) if not day.in_one_sum][:ROUTINE_DAYS]
    counts = Counter(session for sessions in parts for session in sessions)
    return frozenset(session for session, count in counts.items() if 2 * count >= len(parts))


def shares(days: Iterable[DayMilk], usual: frozenset[str]) -> Mapping[str, Decimal]:
    """What each *usual* milking gives of a day, of one: the common share, drawn to that of her full days."""
    full = [dict(day.milkings) for day in days if day.sessions == usual and day.litres]
    common = SHARES.get(usual) or {session: 1 / Decimal(max(len(usual), 1)) for session in usual}
    weight = Decimal(SHARE_DAYS + len(full))
    return {
        session: (SHARE_DAYS * part + sum(day[session] / sum(day.values()) for day in full)) / weight
        for session, part in common.items()
    }


def whole_day(day: DayMilk, usual: frozenset[str], parts: Mapping[str, Decimal]) -> Decimal | None:
    """
    The litres of the whole of *day*, rounded to 0.01 l; None where it has a milking that is not *usual*.

    Args:
        usual: The milkings of her days now (:func:`usual_sessions`).
        parts: What each of them gives (:func:`shares`).
    """
    if day.in_one_sum:
        return day.litres
    if not day.sessions <= usual:
        return None
    known = sum((parts[session] for session in day.sessions), Decimal(0))
    return (day.litres / known).quantize(Decimal("0.01"), ROUND_HALF_UP)


def is_whole(day: DayMilk, usual: frozenset[str]) -> bool:
    """Whether no *usual* milking of *day* is missing."""
    return day.in_one_sum or day.sessions >= usual
