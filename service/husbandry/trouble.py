"""What repeats on one farm and staff should look at: milk turned back, calves that die. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from service.husbandry.herd import DIED, Animal, Farm, Told
from service.husbandry.kinds.trade import Delivery
from service.husbandry.life import is_calf

REJECTED, REJECTED_WITHIN = 3, timedelta(days=14)
"""Days with milk turned back, within so many: no single bad can any more; Byreline's own choice."""

CALVES, CALVES_WITHIN = 2, timedelta(days=90)
"""Calves of a farm that died, within a season; Byreline's own choice."""

OF_ILLNESS = (DIED, "sick")
"""Why a calf left, where it may be the care or an illness of the shed."""


def rejected_days(told: Iterable[Told], today: date) -> tuple[date, ...]:
    """The days on which milk was turned back of late, oldest first."""
    entries = (one.entry for one in told)
    days = {e.on for e in entries if isinstance(e, Delivery) and e.rejected}
    return tuple(sorted(day for day in days if today - REJECTED_WITHIN < day <= today))


def calves_dead(farm: Farm, today: date) -> tuple[Animal, ...]:
    """The calves that died within the season, the first to die first."""
    gone = [a for a in farm.animals.values() if a.left_on is not None and a.left_why in OF_ILLNESS]
    of_late = ((a.left_on, a) for a in gone if a.left_on is not None)
    dead = [(on, a) for on, a in of_late if today - CALVES_WITHIN < on <= today and is_calf(a, on)]
    return tuple(animal for _, animal in sorted(dead, key=lambda one: (one[0], one[1].id)))
