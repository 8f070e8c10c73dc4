"""The way to a line of the menu, and what is answered on the way to its end."""

from __future__ import annotations

from collections import deque

from dialogs.screens import menu
from dialogs.screens.state import At
from tests.unit.dialogs.screens.builders import caller

SCREENS = 6
"""From dialling to the answer, both of them counted."""

ANSWERS: dict[str, tuple[str, ...]] = {
    "litres": ("12", "#"), "price": ("1200", "#"), "amount": ("9000",), "product": ("dawa", "#"),
    "cm": ("165",), "kg": ("120",), "quantity": ("12 kg", "12"), "name": ("Mrembo", "#"),
    "phone": ("0754000000",), "count": ("3",), "secret": ("4821", "4821 7733"), "dose_rate": ("1 10",),
    "mix_rate": ("20 10", "1:400"), "every_days": ("14",), "born": ("12/2",), "sire": ("Simba", "#"),
    "buyer": ("Asha", "#"), "milking": ("1", "12/2"),
}  # fmt: skip
"""Question -> what is typed: where it has no choices, or where several of its answers lead apart."""


def way(item: str, language: str) -> list[str]:
    """What is typed from dialling on to begin the line *item*; turned pages are in it."""
    who = caller(language)
    waiting = deque([([typed], menu.dial(who).state) for typed in "123456789"])
    seen = set()
    while waiting:
        typed, state = waiting.popleft()
        after = menu.answer(state, typed[-1], who).state
        if after.item == item:
            return typed
        if after.at == At.MENU and (after.branches, after.page) not in seen:
            seen.add((after.branches, after.page))
            waiting.extend(([*typed, key], after) for key in "123456789")
    raise AssertionError(item)
