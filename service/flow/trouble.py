"""What repeats on a farm is put before staff, once."""

from __future__ import annotations

from service.flow.concerns import Raised, put_before_staff
from service.flow.telling import Telling
from service.husbandry.kinds.herd_book import Death
from service.husbandry.kinds.trade import Delivery
from service.husbandry.trouble import CALVES, REJECTED, REJECTED_WITHIN, calves_dead, rejected_days
from service.messages import say
from service.records import ledger

MILK_REJECTED, CALVES_DIE = "milk_rejected", "calves_die"


def milk_rejected(telling: Telling) -> None:
    """Milk turned back on several days of a fortnight; told of once a calendar week."""
    if not any(isinstance(told.entry, Delivery) and told.entry.rejected for told in telling.recorded):
        return
    today = telling.local.date()
    told = ledger.on_days(telling.conn, telling.book.farm_id, Delivery.KIND, today - REJECTED_WITHIN, today)
    days = rejected_days(told, today)
    if len(days) >= REJECTED:
        year, week, _ = today.isocalendar()
        _raise(telling, MILK_REJECTED, len(days), mark=f"{year}-W{week:02}")


def calves_die(telling: Telling) -> None:
    """Calves of one farm that died within a season; told of once for those that the first begins."""
    if not any(isinstance(told.entry, Death) for told in telling.recorded):
        return
    dead = calves_dead(telling.book.farm, telling.local.date())
    if len(dead) >= CALVES:
        _raise(telling, CALVES_DIE, len(dead), mark=str(dead[0].id))


def _raise(telling: Telling, kind: str, count: int, *, mark: str) -> None:
    caller = telling.caller
    raised = Raised(
        cooperative_id=caller.cooperative_id,
        ward=caller.ward,
        farm_id=caller.farm_id,
        kind=kind,
        about={"count": count},
        mark=f"{caller.farm_id} {mark}",
        text=say(f"office.{kind}", name=caller.name or "", phone=caller.phone, count=count),
    )
    put_before_staff(telling.conn, raised, telling.now)
