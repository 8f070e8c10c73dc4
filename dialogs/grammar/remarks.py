"""
Remarks beside what is told: what will be told later, and things that are down or gone.

"Tausi 5, 0417 6, mengine kesho", "sorry, the network was down": no record, and no part of one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from dialogs.grammar.items import Item
from dialogs.grammar.when import Day

_REST = ("mengine", "zingine", "nyingine", "wengine", "waliobaki", "rest", "others", "more", "other")
_LATER = ("later", "baadaye", "baadae", "kesho", "tomorrow", "soon", "tonight", "next", "badae")
_SENDS = re.compile(
    r"(?:ni|tu)ta(?:ku|wa|ya|zi)?(?:tuma|tumia|andika|andikia|leta|letea|pa|ambia|eleza|ripoti|maliza|julisha)"
    r"|will|ill|shall"
)
_THINGS = frozenset({
    "network", "internet", "signal", "simu", "umeme", "mtandao", "mitandao", "system", "phone", "battery",
    "charge", "power", "electricity", "gari", "pikipiki", "car", "lorry", "bridge", "daraja", "intaneti",
    "bundle", "vocha", "price", "bei", "prices", "chaji", "betri", "website", "line", "laini", "road",
    "barabara",
    "tractor", "generator", "pump", "fence", "uzio", "mtoni", "mto", "river", "weather", "hewa", "nchi",
})  # fmt: skip


_NO_REMARK = ("cattle", "cow", "calf", "heifer", "milk", "buy", "sell", "question", "ask_price", "help")


def without_remarks(items: list[Item]) -> list[Item]:
    """*items* without such remarks, where the text tells of animals elsewhere."""
    parts = _parts(items)
    told = [part for part in parts if any(item.sort in ("animal", "number") for item in part)]
    if not told:
        return items
    kept = [part for part in parts if not (_promises_the_rest(part) or _of_a_thing(part))]
    return [item for part in kept for item in part] if len(kept) < len(parts) else items


def _parts(items: Sequence[Item]) -> list[list[Item]]:
    """The stretches of *items*, each with the mark before it."""
    parts: list[list[Item]] = [[]]
    for item in items:
        if item.sort == "mark" and item.word in ".,;!?\n":
            parts.append([item])
        else:
            parts[-1].append(item)
    return parts


def _promises_the_rest(part: Sequence[Item]) -> bool:
    """ "mengine kesho", "nitatuma zingine jioni", "will send the rest later"."""
    if any(item.sort in ("animal", "number") for item in part):
        return False
    rest = any(item.word in _REST for item in part)
    when = any(item.word in _LATER or (item.sort == "when" and isinstance(item.value, Day)) for item in part)
    sends = any(_SENDS.fullmatch(item.word) for item in part)
    done = any(item.prefix[:3] in ("ame", "wam", "nim", "tum") for item in part)
    return not done and rest and (when or sends)


def _of_a_thing(part: Sequence[Item]) -> bool:
    """ "the network was down", "bei imeshuka": said of no animal."""
    if any(item.sort in ("animal", "number") or item.has(*_NO_REMARK) for item in part):
        return False
    return any(item.word in _THINGS for item in part) and not any(item.has("spend", "pay") for item in part)
