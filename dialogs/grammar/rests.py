""" "Nyota tu hajapata dawa ya minyoo, wengine wote tayari": work told by those it was not done to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from dialogs.grammar.items import Item

_WORK = ("deworm", "spray", "vaccinate")
_READY = ("tayari", "done", "wamepata", "wamepewa", "wameogeshwa", "wamechanjwa", "finished", "wamemaliza")
_OTHERS = ("others", "rest", "wengine", "waliobaki")


def told_of_all_but(items: list[Item]) -> list[Item]:
    """*items* as "all but those", where the rest are said to be done with."""
    at = next((n for n, item in enumerate(items) if n and _is_the_rest(items, n)), None)
    if at is None or any(item.sort == "number" for item in items):
        return items
    first, rest = items[:at], items[at:]
    work = [item for item in first if item.has(*_WORK) or item.starts("disease.") is not None]
    refused = any(item.denied or item.has("negation") for item in first)
    left_out = [item for item in first if item.sort == "animal"]
    if not (left_out and refused and any(item.has(*_WORK) for item in work)):
        return items
    if any(item.sort == "animal" for item in rest):
        return items
    others = items[at]
    said = [replace(item, denied=False, prefix="") for item in work]
    groups = [
        replace(others, sort="cue", word="wote", concepts=("everyone",)),
        replace(others, sort="cue", word="except", concepts=("except",)),
    ]
    when = [item for item in items if item.sort == "when"]
    return [*said, *groups, *left_out, *when]


_GROUPS = ("everyone", "calves_all", "heifers_all", "milking_all", "dry_now")
_DONE_TO_MANY = (*_WORK, "feed_verb", "feed")


def whole_before_except(items: list[Item]) -> list[Item]:
    """*items* with the whole herd, or the group named, said where only "except Nyota" implies it."""
    at = next((n for n, item in enumerate(items) if item.has("except") and not item.denied), None)
    if at is None or any(item.has(*_GROUPS) for item in items):
        return items
    before, after = items[:at], items[at + 1 :]
    work = any(item.has(*_DONE_TO_MANY) or item.starts("disease.") for item in items)
    if not work or any(item.sort == "animal" or item.has("milk", "yield", "got") for item in before):
        return items
    named = [item for item in after if item.sort not in ("when", "mark") and item.word not in ("na", "and")]
    if not named or any(item.sort != "animal" for item in named):
        return items
    groups = (("calf", "calves_all"), ("heifer", "heifers_all"))
    group = next((whole for noun, whole in groups if any(i.has(noun) for i in before)), "everyone")
    whole = replace(items[at], word="wote", concepts=(group,))
    return [*before, whole, *items[at:]]


def _is_the_rest(items: Sequence[Item], at: int) -> bool:
    item = items[at]
    if not (item.has("rest") or item.word in _OTHERS):
        return False
    follows = [other for other in items[at + 1 : at + 5] if other.sort != "mark"]
    return any(other.has("done", *_WORK) or other.word in _READY for other in follows if not other.denied)
