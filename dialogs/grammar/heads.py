"""Which kind a piece of a text tells of, by the meanings in it: one rule after another, the surest first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from dialogs.grammar.heads_apart import told_apart
from dialogs.grammar.heads_cow import body, breeding, heat, illness, work
from dialogs.grammar.heads_herd import book, described, of_others
from dialogs.grammar.heads_money import feeding, milk_money, money, not_kept, priced_litres
from dialogs.grammar.items import Item
from dialogs.grammar.said import DENIED, NOUNS, Said
from dialogs.grammar.words import is_swahili


def _apart(said: Said) -> str | None:
    kind = told_apart(said.items)
    return None if kind == "recovery" and said.of_people else kind


def _milk(said: Said) -> str | None:
    if (
        said.sign("sign.")
        or said.denies("yield", "milk")
        or (said.has("hold", "meat") and not said.has("yield"))
        or (said.denies("sell", "deliver", "buy", "pay") and not (said.animals and said.count))
    ):
        return None
    if said.has("vulva") and not said.units & {"l", "kg"}:
        return None
    if said.units & {"day", "hour", "week", "month"} and not said.units & {None, "l", "kg"}:
        return None
    if (
        said.count
        and not said.units & {"l", "kg"}
        and all(i.hint in ("k", "money") or i.value >= 1000 for i in said.items if i.sort == "number")
    ):
        return None  # money, not litres
    if said.has("milk", "yield") and not said.has("feed"):
        return "milk"
    if said.count and "l" in said.units:
        return "milk"
    return None


_RULES: tuple[Callable[[Said], str | None], ...] = (
    _apart, milk_money, not_kept, book, breeding, body, work, feeding, heat, money, illness, described, _milk,
)  # fmt: skip

_LITRES_HINT = ("", "fraction", "part")


def _beside(items: Sequence[Item], numbers: list[Item]) -> bool:
    """Whether a strange word stands right before a number that nothing but a time follows: "Furaha 4"."""
    for index, item in enumerate(items):
        if any(item is number for number in numbers):
            before = items[index - 1] if index else None
            after = [i for i in items[index + 1 :] if i.sort != "when"]
            name = before is not None and (
                before.sort == "tag" or (before.sort == "word" and not before.known)
            )
            if (name and not after) or (index == 0 and len(items) == 2 and items[1].sort in ("word", "tag")):
                return True
    return False


def _counts_animals(items: Sequence[Item], number: Item) -> bool:
    """ "ng'ombe wawili", "2 heifers": a number of animals, not of litres."""
    at = next(i for i, item in enumerate(items) if item is number)
    before = items[at - 1] if at else None
    after = items[at + 1] if at + 1 < len(items) else None
    counted = before is not None and before.has(*NOUNS) and not number.digits
    return counted or (after is not None and after.has(*NOUNS) and not is_swahili(after.word))


def _is_ordinal(items: Sequence[Item], number: Item) -> bool:
    """ "dawa ya pili": the second, and no two litres."""
    at = next(i for i, item in enumerate(items) if item is number)
    before = items[at - 1] if at else number
    counted = before.word in ("ya", "wa", "la", "cha") or (before.word == "siku" and before.has("when.on"))
    return counted and not number.digits and not number.unit


def _only_a_sum(items: Sequence[Item]) -> bool:
    """ "wote 45", "leo jumla 38": nothing but all, a number and a time."""
    return all(
        i.sort in ("number", "when")
        or i.has("everyone", "all_of_it", "whole_sum", "part.x")
        or i.word == "ni"
        for i in items
    )


_WITHOUT_WORDS: tuple[Callable[[Said], str | None], ...] = (
    _apart, lambda said: "milk_sale" if priced_litres(said) else None, not_kept, _milk,
)  # fmt: skip
"""The rules that a piece of bare names and numbers needs."""

_DENIABLE = (
    "serve",
    "ai",
    "mounted",
    "calve",
    "abort",
    "dry",
    "wean",
    "vaccinate",
    "deworm",
    "spray",
    "disinfect",
    "treat",
    "sell",
    "die",
    "slaughter",
    "lost",
    "stolen",
    "heat",
    "mating",
    "milk",
    "yield",
    "feed_verb",
    "give",
    "buy",
    "deliver",
    "pay",
    "measure",
    "chest",
    "weight",
    "done",
)


def _before_exception(items: Sequence[Item]) -> Sequence[Item]:
    """What stands before the exception from a whole group; nothing where none is made."""
    at = next((i for i, item in enumerate(items) if i and item.has("except")), 0)
    group = any(item.has("everyone", "calves_all", "heifers_all", "milking_all") for item in items[: at + 1])
    if not at or not group:
        return ()
    return items[:at]


_WELL = (
    "ok", "okay", "mzima", "wazima", "fresh", "poa", "salama", "fine", "healthy", "sawa", "fit", "shwari",
    "fiti", "hajambo", "hawajambo", "normal", "well", "good", "great",
)  # fmt: skip


_TROUBLE = ("shida", "tatizo", "matatizo", "problem", "problems", "neno", "wasiwasi", "issue", "issues")


def _has_no_trouble(items: Sequence[Item]) -> bool:
    """ "Neema hana shida", "no problem with Tausi": nothing is told of a sign."""
    said = any(item.word in ("hana", "hawana", "no", "hakuna", "hamna", "bila") for item in items)
    return said and any(item.word in _TROUBLE or item.has("easy") for item in items)


def head_of(items: Sequence[Item]) -> str | None:
    """The kind that *items* tell of; ``denied`` where they deny one; None where they name none."""
    said = Said(items)
    undo = any(i.has("undo") and not i.corrected and not i.denied for i in items if i.sort == "cue")
    if undo and not said.animals and not said.has("serve", "calve"):
        return "undo"
    if of_others(said):
        return DENIED
    before = _before_exception(items)
    if before:
        kind = head_of(before)
        if kind is not None:
            return kind  # "dewormed all except those in calf"
    for rule in _RULES if said.told or said.units - {None, "l"} or said.refused else _WITHOUT_WORDS:
        kind = rule(said)
        if kind is not None:
            return kind
    held = said.has("hold") or (said.has("meat") and said.units & {"day", "hour", "week", "month"})
    if held and said.animals and said.count:
        return "treatment"
    if said.denies(*_DENIABLE) or any(i.denied and i.starts("sign.") for i in said.items if i.sort == "cue"):
        return DENIED
    well = any(item.word in _WELL or item.has("alive", "easy", "state") for item in items if not item.denied)
    if said.animals and not said.count and (well or _has_no_trouble(items)):
        return DENIED  # "Tausi yuko ok": nothing is wrong with her
    if said.animals or said.strange or said.has("everyone", "all_of_it"):
        bare = [
            i
            for i in items
            if i.sort == "number"
            and i.unit in (None, "l", "kg")
            and i.value < 100
            and i.hint in _LITRES_HINT
            and not _counts_animals(items, i)
            and not _is_ordinal(items, i)
        ]
        whole = said.has("everyone", "all_of_it") and _only_a_sum(items)
        if bare and not said.has("hold") and (said.animals or whole or _beside(items, bare)):
            return "milk"
    return None
