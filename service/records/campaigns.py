"""Vaccinations that a cooperative announces, and the farms' answers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

import sqlalchemy as sa

from service.records import farms, tables
from service.records.farms import Owner

GATHERED_FOR = timedelta(days=90)
"""A campaign without a day is asked about and answered for so long; Byreline's own choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Campaign:
    """``ward`` None: every ward. ``on``, ``hour`` and ``place`` None: farms are still gathered."""

    disease: str
    cooperative_id: int
    ward: str | None
    on: date | None = None
    hour: int | None = None
    place: str | None = None


@dataclass(frozen=True, slots=True)
class KeptCampaign:
    id: int
    campaign: Campaign


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A farm that brings ``animals`` to a campaign."""

    farm: str
    phone: str
    animals: int


_CAMPAIGN = tables.Campaign
_COLUMNS = (
    _CAMPAIGN.id,
    _CAMPAIGN.disease,
    _CAMPAIGN.cooperative_id,
    _CAMPAIGN.ward,
    _CAMPAIGN.on,
    _CAMPAIGN.hour,
    _CAMPAIGN.place,
)


def _kept(row: sa.RowMapping) -> KeptCampaign:
    values = {str(key): value for key, value in row.items()}
    return KeptCampaign(values.pop("id"), Campaign(**values))


def same(conn: sa.Connection, campaign: Campaign, now: datetime) -> int | None:
    """The id under which *campaign* was announced before; None: it was not."""
    given = (
        _CAMPAIGN.cooperative_id == campaign.cooperative_id,
        _CAMPAIGN.disease == campaign.disease,
        *(_is(column, value) for column, value in (
            (_CAMPAIGN.ward, campaign.ward), (_CAMPAIGN.on, campaign.on),
            (_CAMPAIGN.hour, campaign.hour), (_CAMPAIGN.place, campaign.place),
        )),
    )  # fmt: skip
    fresh = sa.or_(_CAMPAIGN.on.is_not(None), _CAMPAIGN.announced_at >= now - GATHERED_FOR)
    found = sa.select(_CAMPAIGN.id).where(*given, fresh).order_by(_CAMPAIGN.id.desc()).limit(1)
    return conn.execute(found).scalar_one_or_none()


def _is(column: sa.orm.InstrumentedAttribute[object], value: object) -> sa.ColumnElement[bool]:
    return column.is_(None) if value is None else column == value


def one_at_a_time(conn: sa.Connection, cooperative_id: int) -> None:
    """Until this transaction ends nobody else announces anything of the cooperative."""
    of = tables.Cooperative.id == cooperative_id
    conn.execute(sa.select(tables.Cooperative.id).where(of).with_for_update())


def add(conn: sa.Connection, campaign: Campaign, now: datetime) -> int:
    """Keep a campaign announced at *now*; its id."""
    values = {
        "cooperative_id": campaign.cooperative_id,
        "disease": campaign.disease,
        "ward": campaign.ward,
        "on": campaign.on,
        "hour": campaign.hour,
        "place": campaign.place,
        "announced_at": now,
    }
    return conn.execute(sa.insert(_CAMPAIGN).returning(_CAMPAIGN.id), values).scalar_one()


def get(conn: sa.Connection, id: int) -> KeptCampaign | None:
    row = conn.execute(sa.select(*_COLUMNS).where(_CAMPAIGN.id == id)).one_or_none()
    return None if row is None else _kept(row._mapping)


def set_day(conn: sa.Connection, id: int, campaign: Campaign) -> None:
    """Give a campaign its day, hour and place."""
    values = {"on": campaign.on, "hour": campaign.hour, "place": campaign.place}
    conn.execute(sa.update(_CAMPAIGN).where(_CAMPAIGN.id == id).values(values))


def open_to(
    conn: sa.Connection,
    cooperative_id: int,
    ward: str | None,
    disease: str | None,
    *,
    now: datetime,
    today: date,
) -> KeptCampaign | None:
    """The campaign that a farm of *ward* answers, the one announced last; None: none is open to it."""
    to_come = sa.or_(
        _CAMPAIGN.on >= today,
        sa.and_(_CAMPAIGN.on.is_(None), _CAMPAIGN.announced_at >= now - GATHERED_FOR),
    )
    here = sa.or_(_CAMPAIGN.ward.is_(None), _CAMPAIGN.ward == ward)
    wanted = [_CAMPAIGN.cooperative_id == cooperative_id, to_come, here]
    wanted += [_CAMPAIGN.disease == disease] if disease is not None else []
    latest = sa.select(*_COLUMNS).where(*wanted).order_by(_CAMPAIGN.announced_at.desc(), _CAMPAIGN.id.desc())
    row = conn.execute(latest.limit(1)).one_or_none()
    return None if row is None else _kept(row._mapping)


def owners(conn: sa.Connection, campaign: Campaign) -> tuple[Owner, ...]:
    """The owners of all farms that a campaign is for and who have not left the service."""
    wanted = [tables.Farm.cooperative_id == campaign.cooperative_id]
    wanted += [tables.Farm.ward == campaign.ward] if campaign.ward is not None else []
    return farms.active_owners(conn, *wanted)


def willing_owners(conn: sa.Connection, id: int) -> tuple[Owner, ...]:
    """The owners of the farms that would bring animals."""
    yes = (tables.Willing.campaign_id == id, tables.Willing.animals > 0)
    some = sa.select(tables.Willing.farm_id).where(*yes)
    return farms.active_owners(conn, tables.Farm.id.in_(some))


def answer(conn: sa.Connection, id: int, farm_id: int, animals: int, now: datetime) -> None:
    """Keep a farm's answer in the place of an earlier one."""
    key = (tables.Willing.campaign_id == id, tables.Willing.farm_id == farm_id)
    values = {"animals": animals, "answered_at": now}
    if conn.execute(sa.update(tables.Willing).where(*key).values(values)).rowcount == 0:
        conn.execute(sa.insert(tables.Willing), {"campaign_id": id, "farm_id": farm_id, **values})


def answers(conn: sa.Connection, id: int) -> tuple[Answer, ...]:
    """The farms that bring animals, by name."""
    rows = conn.execute(
        sa.select(tables.Farm.name.label("farm"), tables.Person.phone, tables.Willing.animals)
        .join(tables.Farm, tables.Farm.id == tables.Willing.farm_id)
        .join(tables.Person, tables.Person.farm_id == tables.Farm.id)
        .where(
            tables.Willing.campaign_id == id, tables.Willing.animals > 0, tables.Person.role == farms.OWNER
        )
        .order_by(tables.Farm.name, tables.Farm.id)
    )
    return tuple(Answer(**row._mapping) for row in rows)


def intervals(conn: sa.Connection, cooperative_id: int) -> dict[str, int]:
    """The intervals that a cooperative has set."""
    of = tables.Cooperative.id == cooperative_id
    return conn.execute(sa.select(tables.Cooperative.intervals).where(of)).scalar_one()


def wards(conn: sa.Connection, cooperative_id: int) -> tuple[str, ...]:
    """The wards of a cooperative's farms."""
    of = (tables.Farm.cooperative_id == cooperative_id, tables.Farm.ward.is_not(None))
    found = conn.execute(sa.select(tables.Farm.ward).where(*of).distinct().order_by(tables.Farm.ward))
    return tuple(str(ward) for ward in found.scalars())
