"""Whether a clause that names no animal speaks of one or of several: "amepewa", "wamepewa"."""

from __future__ import annotations

import re

from dialogs.grammar.clauses import Clause

_SHE = ("she", "he", "her", "him", "yeye", "ana", "hana", "yuko", "yupo", "is", "was", "has")
_THEY = ("they", "them", "both", "wote", "wawili", "hao", "hawa", "wao", "all")

_SINGULAR = re.compile(
    r"(?:a|ha)(?:me|na|li|ka|mesha|lisha|ja|ku)?(?:ku)?|ka|h?a|(?:ni|tu)(?:me|li)(?:m|mw|mu)"
)
"""Marks before a verb whose subject, or whose object, is one animal."""


def speaks_of_one(clause: Clause) -> bool:
    """Whether a clause that names no animal speaks of one: "amepewa", "nimempa", "she was served"."""
    if any(item.word in _THEY or item.has("everyone", "each") for item in clause.items):
        return False
    verbs = [item for item in clause.items if item.prefix and item.sort in ("cue", "word")]
    if verbs:
        return _SINGULAR.fullmatch(verbs[0].prefix) is not None
    return any(item.word in _SHE for item in clause.items)
