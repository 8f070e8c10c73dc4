"""``python -m tests.bench [MEASUREMENT...]``: measure, print, and write docs/reference/benchmarks.md."""

from __future__ import annotations

import sys
from collections.abc import Callable

from tests.bench import heartbeat, reading, report, segments, start, texts
from tests.bench.report import Figure

MEASUREMENTS: dict[str, Callable[[], list[Figure]]] = {
    **texts.MEASURES,
    "heartbeat": heartbeat.measure,
    "reading": reading.measure,
    "start": start.measure,
    "segments": segments.measure,
}


def main(wanted: list[str]) -> int:
    """0 where every goal was met, 1 where one was not, 2 for a name that is no measurement."""
    if unknown := [name for name in wanted if name not in MEASUREMENTS]:
        print(
            f"no such measurement: {', '.join(unknown)}; there are {', '.join(MEASUREMENTS)}", file=sys.stderr
        )
        return 2
    figures = []
    for name in wanted or MEASUREMENTS:
        made = MEASUREMENTS[name]()
        print(report.as_table(made), flush=True)
        figures += made
    if not wanted:
        report.write(figures)
    return int(any(figure.met is False for figure in figures))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
