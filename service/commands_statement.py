"""The command that prints a farm's month or year in milk and money."""

from __future__ import annotations

import argparse
from datetime import date

from service.clock import SystemClock
from service.command_line import (
    GOOD,
    Commands,
    WrongCall,
    add_database,
    command,
    phone_in,
    reading,
    settings_with,
)


def add_statement(commands: Commands) -> None:
    statement = command(
        commands,
        "statement",
        _statement,
        "prints a farm's month or year in milk and money, as a page of plain text",
        "byreline statement +255621234567 --month 2026-03",
    )
    statement.add_argument("phone", metavar="PHONE", help="a phone of the farm")
    span = statement.add_mutually_exclusive_group()
    span.add_argument("--month", type=_month, metavar="YYYY-MM", help="the month; without it, this one")
    span.add_argument("--year", type=_year, metavar="YYYY", help="a whole calendar year instead")
    statement.add_argument("--language", choices=("sw", "en"), help="of the page; else the owner's")
    add_database(statement)


def _month(text: str) -> date:
    try:
        return date.fromisoformat(f"{text}-01")
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text} is no month (YYYY-MM)") from None


def _year(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 2000 <= int(text) <= 2100):
        raise argparse.ArgumentTypeError(f"{text} is no year (2000 to 2100)")
    return int(text)


def _statement(arguments: argparse.Namespace) -> int:
    from service.flow import statements

    settings = settings_with(database_url=arguments.database)
    phone = phone_in(arguments.phone, settings)
    today = SystemClock().now().astimezone(settings.zone).date()
    wanted = statements.Wanted(month=arguments.month, year=arguments.year, language=arguments.language)
    try:
        with reading(settings) as conn:
            print(statements.printed(conn, phone, wanted, today, settings.currency))
    except statements.NoSuchFarm as error:
        raise WrongCall(str(error)) from None
    return GOOD
