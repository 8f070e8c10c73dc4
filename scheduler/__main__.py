"""The scheduler as a process of its own: ``python -m scheduler``, beside any number of web processes."""

from __future__ import annotations

import logging
import os
import signal
import sys

from sqlalchemy.exc import SQLAlchemyError

from scheduler import runner
from service.bootstrap import build
from service.settings import Settings, SettingsError

STOP = frozenset({signal.SIGINT, signal.SIGTERM})


def main() -> int:
    """Beat until told to stop. 2 when the settings or the database cannot be used."""
    signal.pthread_sigmask(signal.SIG_BLOCK, STOP)  # before any thread: it would be the one to be stopped
    try:
        runtime = build(Settings.from_env(os.environ))
    except SettingsError as error:
        return _wrong(str(error))
    except SQLAlchemyError as error:
        return _wrong(f"The database cannot be used ({type(error).__name__}).")
    beating = runner.start(runtime)
    signal.sigwait(STOP)
    beating.shutdown()
    runtime.close()
    return 0


def _wrong(sentence: str) -> int:
    print(f"byreline: {sentence}", file=sys.stderr)
    return 2


if __name__ == "__main__":
    logging.basicConfig(level=logging.INFO, format="%(asctime)s %(levelname)s %(name)s: %(message)s")
    sys.exit(main())
