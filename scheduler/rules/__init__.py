"""
The rules of reminding: from an animal or a farm as it is to the tasks that should be open.

Each rule is a pure function that knows no clock; it yields :class:`~scheduler.rules.offer.Offer`.
``RULES`` look at one animal, ``HERD_RULES`` at the farm. A new rule is a file here and its line below.
"""

from collections.abc import Callable, Iterable

from scheduler.rules.calf import calf_feed, weaning
from scheduler.rules.calving import afterbirth, calving, calving_overdue, dry_off, steam_up
from scheduler.rules.heat import first_service, heat_after_calving, return_heat, serve
from scheduler.rules.holds import meat_hold_end, milk_hold_end
from scheduler.rules.illness import illness_check
from scheduler.rules.offer import Offer
from scheduler.rules.pregnancy_check import pregnancy_check
from scheduler.rules.routine import deworm, disinfect, spray, weigh
from scheduler.rules.statement import statement
from scheduler.rules.vaccination import vaccinate
from service.husbandry.herd import Animal, Farm
from service.husbandry.intervals import Intervals

Rule = Callable[[Animal, Intervals], Iterable[Offer]]
HerdRule = Callable[[Farm, Intervals], Iterable[Offer]]

RULES: tuple[Rule, ...] = (
    serve, return_heat, pregnancy_check, dry_off, steam_up, calving, calving_overdue, afterbirth,
    illness_check, heat_after_calving, calf_feed, weaning, first_service, milk_hold_end,
    meat_hold_end,
)  # fmt: skip

HERD_RULES: tuple[HerdRule, ...] = (spray, disinfect, deworm, weigh, vaccinate, statement)

__all__ = ["HERD_RULES", "RULES", "HerdRule", "Offer", "Rule"]
