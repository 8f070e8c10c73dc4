"""The commands of a cooperative's office: to load a list, and to warn the farms of a ward."""

from __future__ import annotations

import argparse
from pathlib import Path

from service.clock import SystemClock
from service.command_line import (
    FAILED,
    GOOD,
    Commands,
    WrongCall,
    add_database,
    command,
    settings_with,
    writing,
)


def add_load(commands: Commands) -> None:
    load = command(
        commands,
        "load",
        _load,
        "takes in a list of a cooperative; where a line is wrong, says which and changes nothing",
        "byreline load people people.csv",
    )
    which = "people, products, words, wards, semen, advice, centre or pay"
    load.add_argument("list", metavar="LIST", help=which)
    load.add_argument("file", metavar="FILE.csv", help="UTF-8, commas or semicolons, column names first")
    load.add_argument("--cooperative", metavar="NAME", help="whose list it is, where there are several")
    add_database(load)


def _load(arguments: argparse.Namespace) -> int:
    from dialogs.grammar.place import Place
    from service.flow import lists

    if arguments.list not in lists.LISTS:
        raise WrongCall(f"there is no list {arguments.list}: {', '.join(lists.LISTS)}")
    settings = settings_with(database_url=arguments.database)
    desk = lists.Office(
        cooperative=arguments.cooperative,
        place=Place(region=settings.region, currency=settings.currency),
        now=SystemClock().now().astimezone(settings.zone),
    )
    try:
        with writing(settings) as conn:
            taken = lists.load(conn, arguments.list, Path(arguments.file), desk)
    except (lists.Unreadable, lists.UnknownCooperative) as error:
        raise WrongCall(str(error)) from None
    except lists.WrongLines as error:
        print(error)
        print("Nothing has changed.")
        return FAILED
    print(f"{arguments.list}: {taken} line(s) taken in.")
    return GOOD


def add_warn(commands: Commands) -> None:
    warn = command(
        commands,
        "warn",
        _warn,
        "tells the farms of a ward, without a name, of like illness near them",
        "byreline warn 12",
    )
    warn.add_argument("concern", type=int, metavar="CONCERN", help="the number that the office was told")
    add_database(warn)


def _warn(arguments: argparse.Namespace) -> int:
    from service.flow.concerns import NotToWarnOf, warn_neighbours

    try:
        with writing(settings_with(database_url=arguments.database)) as conn:
            told = warn_neighbours(conn, arguments.concern, SystemClock().now())
    except NotToWarnOf as error:
        raise WrongCall(str(error)) from None
    print(f"{told} owner(s) are told.")
    return GOOD
