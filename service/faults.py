"""How a fault of our own is told to the log: its kind and its place, never its message."""

from __future__ import annotations

import traceback


def describe(error: BaseException) -> str:
    """
    The kind of *error* and the lines of code it came through, the innermost last.

    Its message is left out, and so are the lines' values: they may hold what a farmer wrote.
    """
    places = [
        f"{frame.filename}:{frame.lineno} {frame.name}" for frame in traceback.extract_tb(error.__traceback__)
    ]
    return " <- ".join([type(error).__name__, *reversed(places[-8:])])
