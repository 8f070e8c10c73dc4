"""The metronome: APScheduler calls the runtime's heartbeat once a second, and knows no due time."""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING

from apscheduler.schedulers.background import BackgroundScheduler

from service.faults import describe

if TYPE_CHECKING:
    from service.bootstrap import Runtime

log = logging.getLogger(__name__)

SECONDS = 1
"""Between two beats: a reply leaves within about this time of the text it answers."""


def start(runtime: Runtime) -> BackgroundScheduler:
    """
    Beat for *runtime* in a thread of its own until the scheduler that is returned is shut down.

    One beat at a time; beats missed while one was long are made up for by a single one.
    """
    logging.getLogger("apscheduler").setLevel(
        logging.ERROR
    )  # it warns of every beat that a long one swallows
    scheduler = BackgroundScheduler(timezone=runtime.settings.zone)
    scheduler.add_job(
        beat,
        "interval",
        args=(runtime,),
        seconds=SECONDS,
        id="heartbeat",
        max_instances=1,
        coalesce=True,
        misfire_grace_time=None,  # a late beat is still a beat
    )
    scheduler.start()
    return scheduler


def beat(runtime: Runtime) -> None:
    """One heartbeat. One that fails is told to the log; the next one finds all that it left undone."""
    try:
        runtime.heartbeat()
    except Exception as error:  # noqa: BLE001 - whatever it was, the next beat must come
        log.error("a heartbeat failed: %s", describe(error))
