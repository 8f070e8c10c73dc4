"""
The command ``byreline``.

Exit codes: 0 good, 1 an expectation or check failed, 2 the call was wrong (one line on standard error).
Each command imports what it needs when it runs: reading a text should not wait for a web server.
"""

from __future__ import annotations

import argparse
import json
import logging
import os
import sys
from collections.abc import Callable, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from service.clock import SystemClock
from service.command_line import (
    FAILED,
    GOOD,
    WRONG,
    Commands,
    Parser,
    WrongCall,
    add_database,
    command,
    phone_in,
    reading,
    settings_with,
)
from service.commands_campaigns import add_announce, add_willing
from service.commands_lists import add_load, add_warn
from service.commands_people import add_clear_pin, add_move_farm
from service.commands_statement import add_statement
from service.husbandry.herd import Herd, Known, Sex, Status
from service.settings import Settings, SettingsError

if TYPE_CHECKING:
    from service.bootstrap import Runtime


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit code."""
    try:
        arguments = _parser().parse_args(argv)
        code: int = arguments.run(arguments)
    except (WrongCall, SettingsError) as error:
        print(f"byreline: {error}", file=sys.stderr)
        return WRONG
    except BrokenPipeError:  # whoever read our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return GOOD
    return code


def _parser() -> argparse.ArgumentParser:
    parser = Parser(prog="byreline", description="The herd secretary of a smallholder dairy farmer.")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND", parser_class=Parser)
    for add in (_add_demo, _add_run, _add_read, _add_play, _add_export, _add_check):
        add(commands)
    for add in (add_load, add_warn, add_announce, add_willing, add_move_farm, add_clear_pin, add_statement):
        add(commands)
    return parser


# --- demo ------------------------------------------------------------------------------------------


def _add_demo(commands: Commands) -> None:
    demo = command(
        commands,
        "demo",
        _demo,
        "the whole service in one process, with an invented cooperative already in it",
        "byreline demo --port 8090",
    )
    demo.add_argument("--port", type=_port, default=8080, metavar="N", help="port of the pages")


def _port(text: str) -> int:
    if not (text.isascii() and text.isdigit() and 0 < int(text) < 65536):
        raise argparse.ArgumentTypeError(f"{text} is no port (1 to 65535)")
    return int(text)


def _demo(arguments: argparse.Namespace) -> int:
    from simulator.demo import serve

    serve(arguments.port)
    return GOOD


# --- run -------------------------------------------------------------------------------------------


def _add_run(commands: Commands) -> None:
    run = command(
        commands,
        "run",
        _run,
        "the service for real use; settings come from BYRELINE_* variables or a TOML file",
        "BYRELINE_GATEWAY_SECRET=... byreline run",
    )
    run.add_argument(
        "--only",
        choices=("web", "scheduler"),
        help="be one of the two, where several machines share a database",
    )


def _run(arguments: argparse.Namespace) -> int:
    from scheduler import __main__ as beating_alone
    from scheduler import runner
    from service.bootstrap import build
    from service.wsgi import serve

    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    logging.getLogger("alembic").setLevel(logging.WARNING)
    settings = settings_with()
    if arguments.only == "scheduler":
        return beating_alone.main()
    runtime = _built(settings, build)
    beating = None if arguments.only == "web" else runner.start(runtime)
    try:
        print(f"byreline: listening on http://{settings.host}:{settings.port}", flush=True)
        serve(runtime)
    except OSError as error:
        raise WrongCall(f"cannot listen on {settings.host}:{settings.port}: {error.strerror}") from None
    except KeyboardInterrupt:
        return GOOD
    finally:
        if beating is not None:
            beating.shutdown()
        runtime.close()
    return GOOD


def _built(settings: Settings, build: Callable[[Settings], Runtime]) -> Runtime:
    import sqlalchemy as sa

    try:
        return build(settings)
    except sa.exc.SQLAlchemyError as error:
        raise WrongCall(f"the database cannot be used ({type(error).__name__})") from None


# --- read ------------------------------------------------------------------------------------------


def _add_read(commands: Commands) -> None:
    read = command(
        commands,
        "read",
        _read,
        "says how texts would be understood: one text a line in, one JSON object a line out",
        "echo 'Maziwa Neema 6' | byreline read --now 2026-03-02T06:40+03:00",
    )
    read.add_argument("--herd", metavar="HERD.json", help="the farm's animals; without it any name is one")
    read.add_argument("--now", metavar="MOMENT", help="when the texts are sent (ISO 8601); without it, now")
    read.add_argument("--language", choices=("sw", "en"), default="sw", help="of a neutral text")


def _read(arguments: argparse.Namespace) -> int:
    from dialogs.grammar.place import Place
    from dialogs.grammar.read import read
    from dialogs.reading import Problem, as_json
    from dialogs.replies import question

    settings = settings_with()
    herd = None if arguments.herd is None else _herd(arguments.herd)
    now = _moment(arguments.now, settings)
    place = Place(region=settings.region, currency=settings.currency)
    sys.stdin.reconfigure(encoding="utf-8", errors="replace")  # type: ignore[union-attr]
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    for line in sys.stdin:
        text = line.rstrip("\r\n")
        reading = read(text, herd, now=now, language=arguments.language, place=place)

        def ask(problem: Problem, language: str = reading.language) -> str:
            return question(problem, language, today=now.date())

        print(json.dumps(as_json(text, reading, ask), ensure_ascii=False), flush=True)
    return GOOD


def _moment(text: str | None, settings: Settings) -> datetime:
    """*text* as an aware moment in the farms' zone."""
    if text is None:
        return SystemClock().now().astimezone(settings.zone)
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise WrongCall(f"--now {text} is no moment such as 2026-03-02T06:40+03:00") from None
    if moment.tzinfo is None:
        return moment.replace(tzinfo=settings.zone)
    return moment.astimezone(settings.zone)


def _herd(path: str) -> Herd:
    try:
        given = json.loads(Path(path).read_text(encoding="utf-8"))
        return Herd(tuple(map(_known, given["animals"])))
    except OSError as error:
        raise WrongCall(f"{path} cannot be read: {error.strerror}") from None
    except (ValueError, KeyError, TypeError, AttributeError):
        raise WrongCall(
            f"{path} is no herd: an object with a list of animals, each with name and sex"
        ) from None


def _known(animal: dict[str, str | None]) -> Known:
    name, sex, born, status = (animal.get(key) for key in ("name", "sex", "born", "status"))
    if not isinstance(name, str):
        raise TypeError("name")
    return Known(
        name=name,
        names=(name,),
        sex=None if sex is None else Sex(sex),
        status=None if status is None else Status(status),
        born=None if born is None else date.fromisoformat(born),
        in_calf=status == Status.IN_CALF_HEIFER,
    )


# --- play ------------------------------------------------------------------------------------------


def _add_play(commands: Commands) -> None:
    play = command(
        commands,
        "play",
        _play,
        "plays conversation scripts against a fresh service under a virtual clock",
        "byreline play tests/conversations/sw/joto-asubuhi.talk --log heat.jsonl",
    )
    play.add_argument("scripts", nargs="+", metavar="SCRIPT", help="a conversation script (*.talk)")
    play.add_argument("--log", metavar="LOG.jsonl", help="write what happened, one JSON object a line")
    play.add_argument("--database", metavar="URL", help="a database without a farm; only with one script")


def _play(arguments: argparse.Namespace) -> int:
    from simulator.player import play

    return play(arguments.scripts, log=arguments.log, database=arguments.database)


# --- export ----------------------------------------------------------------------------------------


def _add_export(commands: Commands) -> None:
    export = command(
        commands,
        "export",
        _export,
        "everything kept, one JSON object a line",
        "byreline export --phone +255621234567",
    )
    export.add_argument("--phone", metavar="PHONE", help="only the farm of this phone")
    add_database(export)


def _export(arguments: argparse.Namespace) -> int:
    from service.flow.export import UnknownPhone, export

    settings = settings_with(database_url=arguments.database)
    phone = None if arguments.phone is None else phone_in(arguments.phone, settings)
    now = SystemClock().now()
    with reading(settings) as conn:
        try:
            for line in export(conn, phone=phone, now=now, zone=settings.zone):
                print(json.dumps(line, ensure_ascii=False))
        except UnknownPhone:
            raise WrongCall(f"no farm has the phone {arguments.phone}") from None
    return GOOD


# --- check -----------------------------------------------------------------------------------------


def _add_check(commands: Commands) -> None:
    command(
        commands,
        "check",
        _check,
        "says whether settings, database, migrations and gateway are usable",
        "BYRELINE_DATABASE_URL=postgresql://localhost/byreline byreline check",
    )


def _check(arguments: argparse.Namespace) -> int:
    from service.check import faults

    found = faults(os.environ)
    for sentence in found:
        print(sentence)
    if not found:
        print("Settings, database, migrations and gateway are usable.")
    return FAILED if found else GOOD
