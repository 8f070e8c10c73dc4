"""
A text through HTTP to durable commit and reply, against the yardstick *B*, at 8 connections.

The service is the real one, started by its command (its doors only, so that sending does not share the
measured process: *B* sends nothing either); the reply is a row of the outbox by the time the text is
acknowledged, as it is in *B*.
"""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import datetime, timedelta
from itertools import islice
from tempfile import TemporaryDirectory

import sqlalchemy as sa

from service.clock import SystemClock
from service.records import tables
from service.records.base import open_engine
from tests.bench import farms, postgres
from tests.bench.load import Timing, drive, request
from tests.bench.report import Figure, at_least, at_most
from tests.bench.servers import BYRELINE, free_port, served

FARMS = 400
FIRST_DAY = ("Ng'ombe Neema anakamuliwa, ng'ombe Zawadi anakamuliwa, mtamba Pendo",)
MILK = tuple(
    f"{cow} lita {litres} {day} {part}"
    for day in ("jana", "juzi")
    for cow, litres in (("Neema", 7), ("Zawadi", 5))
    for part in ("asubuhi", "jioni")
)
WARMING = ("Neema lita 6 leo",)
PLANNING = (
    "Neema amepandwa leo na K77",
    "Nimenyunyiza leo",
    "Pendo ana mimba miezi 5",
    "Nimewapa wote dawa ya minyoo, maziwa siku 2",
)
ROUNDS = 3
CONNECTIONS = 8
THREADS = "8"


def _sms(sender: str, words: str, id: str, now: datetime) -> bytes:
    body = {
        "id": id,
        "from": sender,
        "to": farms.LINE,
        "text": words,
        "sent_at": now.isoformat(timespec="seconds"),
    }
    return request("/gateway/sms", body)


def _requests(senders: Sequence[str], texts: Sequence[str], now: datetime) -> Iterator[bytes]:
    """Each farm's first text, then each farm's second, and so on: no farm is told the same twice."""
    for words in texts:
        for sender in senders:
            yield _sms(sender, words, f"{words}-{sender}", now)


def _now() -> datetime:
    return SystemClock().now().astimezone(farms.ZONE) - timedelta(minutes=1)


def _warm(ports: Iterable[int], senders: Sequence[str]) -> None:
    """One text of every farm, not timed: a running service has heard of its farms before."""
    for port in ports:
        drive(port, list(_requests(senders, WARMING, _now())), connections=CONNECTIONS)


def _by_turns(ports: Sequence[int], senders: Sequence[str], texts: Sequence[str]) -> list[Timing]:
    """Rounds of the same texts at each of the *ports* by turns; what each took in all."""
    coming = {port: _requests(senders, texts, _now()) for port in ports}
    a_round = len(senders) * len(texts) // ROUNDS
    rounds: dict[int, list[Timing]] = {port: [] for port in ports}
    for port in (*ports,) * ROUNDS:
        rounds[port].append(drive(port, list(islice(coming[port], a_round)), connections=CONNECTIONS))
    return [Timing.together(rounds[port]) for port in ports]


def _against(url: str, *yardsticks: tuple[str, str]) -> Iterator[list[Timing]]:
    """All servers up, ours first; rounds of milk, then rounds of what plans."""
    service = farms.runtime(url, SystemClock())
    senders = list(farms.settle(service, FARMS, FIRST_DAY, SystemClock().now()))
    service.close()
    with contextlib.ExitStack() as up:
        ports = [free_port()]
        run = (*BYRELINE, "run", "--only", "web")
        up.enter_context(served(*run, port=ports[0], settings=farms.settings(url, ports[0])))
        for way, bare in yardsticks:
            ports.append(free_port())
            bench = (sys.executable, "-m", "tests.bench.baseline", way, bare, str(ports[-1]), THREADS)
            up.enter_context(served(*bench, port=ports[-1]))
        _warm(ports, senders)
        yield _by_turns(ports, senders, MILK)
        yield _by_turns(ports, senders, PLANNING)
    _check(url, len(senders) * (len(WARMING) + len(MILK) + len(PLANNING)))


def _check(url: str, least: int) -> None:
    """
    Raises:
        RuntimeError: Not every text was recorded as what it tells.
    """
    engine = open_engine(url)
    with engine.begin() as conn:
        entries = conn.execute(sa.select(sa.func.count()).select_from(tables.Entry)).scalar_one()
        questions = conn.execute(sa.select(sa.func.count()).select_from(tables.Conversation)).scalar_one()
    engine.dispose()
    if entries < least or questions:
        raise RuntimeError(f"{entries} entries of {least} texts at least, and {questions} questions open")


def _detail(ours: Timing, bare: Timing) -> str:
    def told(timing: Timing) -> str:
        return (
            f"{timing.rate:.0f} a second, median {timing.median * 1e3:.1f} ms, p99 {timing.p99 * 1e3:.1f} ms"
        )

    return f"{told(ours)}; *B*: {told(bare)}"


def _figures(where: str, goal: float, measured: Iterator[list[Timing]]) -> Iterator[Figure]:
    milk, planning = measured
    ours, bare, *leaner = milk
    what = f"texts a second on {where}, against *B*"
    yield at_least(f"{what}: milk", ours.rate / bare.rate, goal, _detail(ours, bare))
    for lean in leaner:
        past = f"the same against *B* past SQLAlchemy, on {where}"
        yield Figure(past, f"{ours.rate / lean.rate:.2f}", detail=_detail(ours, lean))
    yield at_most(f"p99 against the median of these, on {where}", ours.p99 / ours.median, 5.0)
    ours, bare, *_ = planning
    told = "service, spraying, check, deworming"
    yield Figure(f"{what}: {told}", f"{ours.rate / bare.rate:.2f}", detail=_detail(ours, bare))


def on_sqlite() -> list[Figure]:
    with TemporaryDirectory(prefix="byreline-bench-") as folder:
        ours, core, driver = (f"sqlite:///{folder}/{name}.db" for name in ("ours", "core", "driver"))
        return list(_figures("SQLite", 0.40, _against(ours, ("core", core), ("driver", driver))))


def on_postgres() -> list[Figure]:
    with postgres.server() as database:
        measured = _against(database("ours"), ("core", database("bare")))
        return list(_figures("PostgreSQL", 0.50, measured))


MEASURES: dict[str, Callable[[], list[Figure]]] = {"sqlite": on_sqlite, "postgres": on_postgres}
