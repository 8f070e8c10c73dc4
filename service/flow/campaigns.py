"""
A vaccination that the cooperative announces: who is told of it, and what the farms answer.

The same announcement twice sends nothing twice: it is found by its day and place. One that gathers
farms first (many doses to a straw) tells its day only to those who said yes.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, time
from zoneinfo import ZoneInfo

import sqlalchemy as sa

from dialogs.campaigns import Announced, announcement, noted
from dialogs.outcome import example_name
from scheduler import planning
from service.flow.replan import hour_of
from service.flow.telling import Telling
from service.husbandry.intervals import Intervals
from service.husbandry.kinds.instructions import Willing
from service.husbandry.replay import replay
from service.husbandry.task import day_of
from service.husbandry.vaccines import wanting
from service.messages import OutboundText, Purpose
from service.records import campaigns, ledger, outbox, plan
from service.records.campaigns import Campaign, KeptCampaign
from service.records.farms import Owner
from service.records.plan import Kept


@dataclass(frozen=True, slots=True)
class Laid:
    """An announcement as it goes out: its campaign's id (None: not kept yet) and the texts, one a farm."""

    campaign_id: int | None
    texts: tuple[OutboundText, ...]


def drafted(
    conn: sa.Connection, campaign: Campaign, zone: ZoneInfo, now: datetime, *, of: int | None = None
) -> Laid:
    """
    The texts that announce *campaign*; none where it was announced before.

    Args:
        of: The id of a campaign that has gathered farms; the text goes to those that are willing.
    """
    before = campaigns.same(conn, campaign, now)
    if before is not None:
        return Laid(before, ())
    owners = campaigns.owners(conn, campaign) if of is None else campaigns.willing_owners(conn, of)
    own = Intervals.of(campaigns.intervals(conn, campaign.cooperative_id))
    made = (_text(conn, campaign, one, own, zone, now, willing=of is not None) for one in owners)
    return Laid(of, tuple(made))


def lay(conn: sa.Connection, campaign: Campaign, laid: Laid, now: datetime) -> int:
    """Keep *campaign* and put its texts in the outbox; its id. What was announced meanwhile stands."""
    campaigns.one_at_a_time(conn, campaign.cooperative_id)
    before = campaigns.same(conn, campaign, now)
    if before is not None:
        return before
    gathered = laid.campaign_id
    if gathered is not None:
        campaigns.set_day(conn, gathered, campaign)
    for text in laid.texts:
        outbox.add(conn, text, now=now)
        if gathered is not None and text.farm is not None:  # it has said yes before the day was known
            _rest(conn, campaign, plan.open_tasks(conn, text.farm))
    return campaigns.add(conn, campaign, now) if gathered is None else gathered


def _text(
    conn: sa.Connection,
    campaign: Campaign,
    owner: Owner,
    own: Intervals,
    zone: ZoneInfo,
    now: datetime,
    *,
    willing: bool,
) -> OutboundText:
    on = campaign.on or now.astimezone(zone).date()
    farm = replay(ledger.read(conn, owner.farm_id))
    names = tuple(animal.name for animal in farm.present if wanting(campaign.disease, animal, on, own))
    what = announced(campaign, zone)
    return OutboundText(
        phone=owner.phone,
        text=announcement(what, names, owner.language, willing=willing),
        purpose=Purpose.NOTICE,
        farm=owner.farm_id,
        not_after=what.start,
    )


def announced(campaign: Campaign, zone: ZoneInfo) -> Announced:
    """*campaign* as its texts say it."""
    start = None
    if campaign.on is not None:
        start = datetime.combine(campaign.on, time(campaign.hour or 0), zone)
    return Announced(disease=campaign.disease, start=start, place=campaign.place)


def answered(telling: Telling, order: Willing) -> None:
    """A farm's yes with a number, or its no."""
    caller = telling.caller
    kept = campaigns.open_to(
        telling.conn,
        caller.cooperative_id,
        caller.ward,
        order.disease,
        now=telling.now,
        today=telling.local.date(),
    )
    if kept is None:
        telling.say("campaign.none", name=example_name(telling.book.farm))
        return
    count = _all_present(telling) if order.count is None else int(order.count)
    campaigns.answer(telling.conn, kept.id, caller.farm_id, count, telling.now)
    _remind_no_more(telling, kept, count)
    telling.answers.append(noted(announced(kept.campaign, telling.house.zone), count, telling.language))


def _all_present(telling: Telling) -> int:
    """A yes without a number is of the whole herd; the answer says how many that is."""
    return max(1, len(telling.book.farm.present))


def _remind_no_more(telling: Telling, kept: KeptCampaign, count: int) -> None:
    """Who comes to the day is not reminded of the same besides; who does not is, as before."""
    tasks = plan.open_tasks(telling.conn, telling.caller.farm_id)
    if count:
        _rest(telling.conn, kept.campaign, tasks)
        return
    hour = hour_of(telling.book.farm)
    for one in _of(kept.campaign, tasks):
        if one.remind_at is None and one.reminders == 0:
            at = planning.remind_at(one.task, telling.local, hour, telling.house.zone)
            plan.remind_again(telling.conn, one.id, at, told=False)


def _rest(conn: sa.Connection, campaign: Campaign, tasks: tuple[Kept, ...]) -> None:
    """The tasks that *campaign* will do rest among those that can be asked for, until they are told done."""
    for one in _of(campaign, tasks):
        plan.remind_again(conn, one.id, None, told=False)


def _of(campaign: Campaign, tasks: tuple[Kept, ...]) -> tuple[Kept, ...]:
    """Open vaccinations against its disease that fall due by the day of *campaign*."""
    on = campaign.on
    if on is None:
        return ()
    same = (one for one in tasks if one.task.key.disease == campaign.disease)
    return tuple(one for one in same if day_of(one.task.due) <= on)
