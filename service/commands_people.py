"""The commands by which staff help a farm: its phone is gone, or its PIN forgotten."""

from __future__ import annotations

import argparse

from service.clock import SystemClock
from service.command_line import (
    GOOD,
    Commands,
    WrongCall,
    add_database,
    command,
    phone_in,
    settings_with,
    writing,
)


def add_move_farm(commands: Commands) -> None:
    move = command(
        commands,
        "move-farm",
        _move_farm,
        "moves a farm's phone to a new number, with all that was told and asked from the old one",
        "byreline move-farm +255621234567 +255688123456 --clear-pin",
    )
    move.add_argument("old", metavar="OLD", help="the number the farm has now")
    move.add_argument("new", metavar="NEW", help="the number it shall have; no farm's yet")
    move.add_argument("--clear-pin", action="store_true", help="take the farm's PIN away too")
    add_database(move)


def add_clear_pin(commands: Commands) -> None:
    clear = command(
        commands,
        "clear-pin",
        _clear_pin,
        "takes away the PIN of a farm that has forgotten it",
        "byreline clear-pin +255621234567",
    )
    clear.add_argument("phone", metavar="PHONE", help="a phone of the farm")
    add_database(clear)


def _move_farm(arguments: argparse.Namespace) -> int:
    from service.flow import moving

    settings = settings_with(database_url=arguments.database)
    old, new = phone_in(arguments.old, settings), phone_in(arguments.new, settings)
    try:
        with writing(settings) as conn:
            farm_id = moving.move(conn, old, new, clear_pin=arguments.clear_pin, now=SystemClock().now())
    except moving.NoSuchFarm as error:
        raise WrongCall(str(error)) from None
    print(f"Farm {farm_id} now has the number {new}.")
    return GOOD


def _clear_pin(arguments: argparse.Namespace) -> int:
    from service.flow import moving

    settings = settings_with(database_url=arguments.database)
    phone = phone_in(arguments.phone, settings)
    try:
        with writing(settings) as conn:
            farm_id = moving.clear_pin(conn, phone)
    except moving.NoSuchFarm as error:
        raise WrongCall(str(error)) from None
    print(f"Farm {farm_id} has no PIN any more.")
    return GOOD
