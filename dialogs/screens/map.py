"""The menu map of the documentation, drawn from the same data as the screens."""

from __future__ import annotations

from collections.abc import Iterator

from dialogs.screens import mend, plans
from dialogs.screens.branches import BRANCHES, Item
from dialogs.screens.words import word


def _asked(item: Item) -> str:
    if item.key == mend.FIX:
        return "`fix`: which of the entries told last, what of it, and that question again"
    asks = ", ".join(question.replace("_", " ") for question in item.asks) or "nothing"
    more = ", ".join(field.replace("_", " ") for field in plans.details(item))
    return f"`{item.kind}`: {asks}" + (f" (more: {more})" if more else "")


def _lines(branch: str, depth: int) -> Iterator[str]:
    for item in BRANCHES[branch]:
        label = f"{word(f'menu.{item.key}', 'sw')} / {word(f'menu.{item.key}', 'en')}"
        if item.kind is not None:
            yield f"{'  ' * depth}- {label} -> {_asked(item)}"
            continue
        yield f"{'  ' * depth}- {label}"
        yield from _lines(item.to or "", depth + 1) if item.to in BRANCHES else [_work(depth + 1)]


def _work(depth: int) -> str:
    choices = " or ".join(
        f"{word(f'line.{key}', 'sw')} / {word(f'line.{key}', 'en')}" for key in ("done", "later")
    )
    return f"{'  ' * depth}- the numbered list of work -> `done`, `later`: which line, {choices}"


def drawn() -> str:
    """Every line of the menu as a nested Markdown list: label in both languages, kind, what is asked."""
    return "\n".join(_lines("main", 0)) + "\n"
