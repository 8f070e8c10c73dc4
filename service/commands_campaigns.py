"""The commands of a vaccination campaign: to announce it, and to see who is willing."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from datetime import date, datetime
from typing import TYPE_CHECKING

from service import sms
from service.clock import SystemClock
from service.command_line import (
    GOOD,
    Commands,
    WrongCall,
    add_database,
    command,
    reading,
    settings_with,
    writing,
)
from service.husbandry.signs import DISEASES

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from service.messages import OutboundText
    from service.records.campaigns import Campaign

FIRST_HOUR, LAST_HOUR = 5, 20
"""Between these a campaign can begin: texts of the day before are read, and there is light to come by."""


def add_announce(commands: Commands) -> None:
    announce = command(
        commands,
        "announce",
        _announce,
        "tells farms of a vaccination, or gathers those willing; the same again sends nothing",
        "byreline announce fmd --on 2026-03-20 --hour 8 --place 'Kituo cha Ilembo' --ward Ilembo --dry-run",
    )
    announce.add_argument("disease", choices=DISEASES, metavar="DISEASE", help="what is vaccinated against")
    announce.add_argument("--on", type=_date, metavar="DATE", help="the day, such as 2026-03-20")
    announce.add_argument("--hour", type=_hour, metavar="H", help="the hour it begins, 5 to 20")
    announce.add_argument("--place", type=_place, metavar="PLACE", help="where, in 24 characters")
    announce.add_argument(
        "--gather", action="store_true", default=None, help="ask who would come; no day yet"
    )
    announce.add_argument("--campaign", type=int, metavar="ID", help="tell the willing of this one its day")
    announce.add_argument("--ward", metavar="WARD", help="only farms of this ward; without it, all")
    announce.add_argument("--cooperative", metavar="NAME", help="whose farms, where there are several")
    announce.add_argument(
        "--dry-run", action="store_true", default=None, help="show the texts, keep and send nothing"
    )
    add_database(announce)


def add_willing(commands: Commands) -> None:
    willing = command(
        commands,
        "willing",
        _willing,
        "lists the farms that would bring animals: farm, phone, animals",
        "byreline willing 3",
    )
    willing.add_argument("id", type=int, metavar="ID", help="the campaign, as announce printed it")
    add_database(willing)


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text} is no day such as 2026-03-20") from None


def _hour(text: str) -> int:
    if not (text.isascii() and text.isdigit() and FIRST_HOUR <= int(text) <= LAST_HOUR):
        raise argparse.ArgumentTypeError(f"{text} is no hour from {FIRST_HOUR} to {LAST_HOUR}")
    return int(text)


def _place(text: str) -> str:
    from dialogs.campaigns import PLACE_ROOM

    place = " ".join(sms.plain(text).split())
    if not 0 < sms.septets(place) <= PLACE_ROOM:
        raise argparse.ArgumentTypeError(f"a place has 1 to {PLACE_ROOM} characters")
    return place


def _announce(arguments: argparse.Namespace) -> int:
    from service.flow import campaigns

    settings = settings_with(database_url=arguments.database)
    now = SystemClock().now()
    _check_call(arguments, now.astimezone(settings.zone))
    with reading(settings) as conn:
        campaign = _campaign(conn, arguments)
        laid = campaigns.drafted(conn, campaign, settings.zone, now, of=arguments.campaign)
    if arguments.dry_run:
        for text in laid.texts:
            print(f"{text.phone}\t{text.text}")
        print(f"would be sent: {_counted(laid.texts)}")
        return GOOD
    with writing(settings) as conn:
        campaign_id = campaigns.lay(conn, campaign, laid, now)
    print(f"campaign {campaign_id}, laid in the outbox: {_counted(laid.texts)}")
    return GOOD


def _check_call(arguments: argparse.Namespace, now: datetime) -> None:
    day = (arguments.on, arguments.hour, arguments.place)
    if arguments.gather and (any(one is not None for one in day) or arguments.campaign is not None):
        raise WrongCall("--gather has no day, hour, place or campaign yet")
    if not arguments.gather and any(one is None for one in day):
        raise WrongCall("an announcement needs --on, --hour and --place, or --gather")
    if arguments.campaign is not None and (arguments.ward or arguments.cooperative):
        raise WrongCall("a campaign has its ward and cooperative already")
    if arguments.on is not None and (arguments.on, arguments.hour) <= (now.date(), now.hour):
        raise WrongCall(f"{arguments.on} at {arguments.hour} is past")


def _campaign(conn: Connection, arguments: argparse.Namespace) -> Campaign:
    """The campaign as called, with the ward and cooperative of an earlier one where that is named."""
    from service.records import campaigns, farms

    day = {"on": arguments.on, "hour": arguments.hour, "place": arguments.place}
    if arguments.campaign is not None:
        kept = campaigns.get(conn, arguments.campaign)
        if kept is None or kept.campaign.disease != arguments.disease:
            raise WrongCall(f"there is no campaign {arguments.campaign} against {arguments.disease}")
        gathered = kept.campaign
        return campaigns.Campaign(
            disease=gathered.disease, cooperative_id=gathered.cooperative_id, ward=gathered.ward, **day
        )
    cooperative = _cooperative(farms.cooperatives(conn), arguments.cooperative)
    ward = _ward(campaigns.wards(conn, cooperative), arguments.ward)
    return campaigns.Campaign(disease=arguments.disease, cooperative_id=cooperative, ward=ward, **day)


def _cooperative(known: Mapping[str, int], name: str | None) -> int:
    if name is None and len(known) == 1:
        return next(iter(known.values()))
    if name is None or name not in known:
        raise WrongCall(f"--cooperative is one of: {', '.join(known)}")
    return known[name]


def _ward(known: tuple[str, ...], name: str | None) -> str | None:
    if name is None:
        return None
    found = next((ward for ward in known if ward.casefold() == name.casefold()), None)
    if found is None:
        raise WrongCall(f"no farm is in the ward {name}")
    return found


def _counted(texts: tuple[OutboundText, ...]) -> str:
    segments = sum(sms.measure(text.text).segments for text in texts)
    return f"texts {len(texts)}, segments {segments}"


def _willing(arguments: argparse.Namespace) -> int:
    from service.records import campaigns

    with reading(settings_with(database_url=arguments.database)) as conn:
        if campaigns.get(conn, arguments.id) is None:
            raise WrongCall(f"there is no campaign {arguments.id}")
        answers = campaigns.answers(conn, arguments.id)
    for one in answers:
        print(f"{one.farm}\t{one.phone}\t{one.animals}")
    print(f"farms {len(answers)}, animals {sum(one.animals for one in answers)}")
    return GOOD
