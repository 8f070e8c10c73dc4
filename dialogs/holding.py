"""How it is said what keeps milk or meat from being sold, and from which milking on it may be."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from dialogs.phrases import when
from service.husbandry.herd import Animal
from service.husbandry.holds import Hold, Milking, drug_hold, meat_hold, milk_hold
from service.husbandry.life import gives_milk, is_cow
from service.messages import Say, say

IN_SUM = "_in_sum"
"""What the key of a caution ends in, where the milk of several cows is told in one sum."""


def milking(first: Milking) -> Say:
    """``7 Machi asubuhi``."""
    return when(first.on, None, "evening" if first.evening else "morning")


def half_day(first: Milking) -> Say:
    """``2 Aprili``; ``31 Machi jioni`` where the morning of that day is still held."""
    return milking(first) if first.evening else say("day", on=first.on)


def latest(holds: Iterable[Hold]) -> Milking | None:
    """The milking from which on nothing of *holds* stands; None where a label is not told."""
    firsts = [hold.first for hold in holds]
    known = [first for first in firsts if first is not None]
    return max(known, default=None) if len(known) == len(firsts) else None


def under_a_drug(animals: Iterable[Animal], on: date, session: str | None = None) -> dict[str, Hold]:
    """Of those of *animals* that give milk and whose milk of that day a drug holds: name -> hold."""
    held = ((animal.name, drug_hold(animal, on, session)) for animal in animals if gives_milk(animal))
    return {name: hold for name, hold in held if hold is not None}


def milk_caution(animals: Iterable[Animal], on: date, session: str | None, *, summed: bool) -> list[Say]:
    """What is said with milk of a day: whose may not be sold, and from when on it may. Drugs come first."""
    milked = (animal for animal in animals if gives_milk(animal) or not summed)
    held = {a.name: hold for a in milked if (hold := milk_hold(a, on, session)) is not None}
    drugs = {name: hold for name, hold in held.items() if hold.drug}
    if not held:
        return []
    those = drugs or held
    first = latest(those.values())
    key = f"milk.{'first_days' if not drugs else 'held_unknown' if first is None else 'held'}"
    names = tuple(those)
    values = {"names": names, "name": names[0], "milking": _shown(first)}
    return [Say(key + IN_SUM if summed else key, values)]


def _shown(first: Milking | None) -> Say | None:
    return None if first is None else milking(first)


def told_buyer(animal: Animal, on: date) -> list[Say]:
    """What the buyer of *animal* must know: of a cow that her milk is held, else that the meat is."""
    milk = drug_hold(animal, on) if is_cow(animal) else None
    hold, what = (milk, "milk") if milk is not None else (meat_hold(animal, on), "meat")
    if hold is None:
        return []
    if hold.first is None:
        return [say(f"sale.{what}_unknown")]
    return [say(f"sale.{what}_held", milking=half_day(hold.first))]
