"""What one text tells twice, or tells two ways."""

from __future__ import annotations

from typing import Any

from dialogs.grammar.checks import Checked, problem
from dialogs.reading import Code
from service.husbandry.forms import Entry, values_of
from service.husbandry.kinds import (
    AnimalSale,
    Calving,
    Death,
    Feeding,
    Heat,
    Illness,
    Milk,
    PregnancyCheck,
    Service,
)


def contradictions(checked: list[Checked]) -> list[Checked]:
    """Holds back what the same text tells twice, or tells two ways."""
    seen: dict[Any, int] = {}
    out: list[Checked] = []
    for one in checked:
        key = None if one.entry is None else _sameness(one.entry)
        if one.entry is None or key not in seen:
            if key is not None:
                seen[key] = len(out)
            out.append(one)
            continue
        first = out[seen[key]].entry
        why = "twice" if first == one.entry else "contradiction"
        if why == "contradiction":
            out[seen[key]] = Checked()  # neither stands without the answer
        values = values_of(one.entry)
        name = one.entry.named[0] if one.entry.named else None
        out.append(Checked(problem=problem(Code.CONFIRM, type(one.entry), values, name=name, why=why)))
    return out


def _sameness(entry: Entry) -> Any:
    """What two tellings that cannot both stand have in common."""
    match entry:
        case Milk():
            return ("milk", entry.animal, entry.on, entry.session)
        case PregnancyCheck() | Calving() | Death() | AnimalSale():
            return (entry.KIND, entry.named, entry.happened_on)
        case Heat():
            return ("heat", entry.animal, entry.first_seen.date())
        case Service():
            return ("service", entry.animal, entry.on)
        case Feeding() | Illness():
            return None
    return (entry.KIND, entry) if not entry.INSTRUCTION and entry.named else None
