"""Milk told: litres of each cow, milking by milking, in whichever order names, numbers and times come."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import (
    JOINERS,
    Found,
    Scene,
    Subject,
    as_values,
    day_values,
    in_list,
    is_strange,
    relation,
    subject_of,
    subjects,
)
from dialogs.grammar.items import Item
from dialogs.grammar.milk_times import Quantity, days_of_parts, give_times, milkings_in_a_row, parts
from dialogs.grammar.names import joined
from dialogs.grammar.said import PEOPLE
from dialogs.grammar.when import Part, When, begun, session_of
from dialogs.grammar.words import is_swahili
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.herd import Status
from service.husbandry.kinds import Milk, MilkReason
from service.husbandry.units import litres_of_kg


def milk(clause: Clause, scene: Scene) -> list[Found]:
    items = clause.items
    quantities = [
        Quantity(i, item, []) for i, item in enumerate(items) if item.sort == "number" and _is_milk(items, i)
    ]
    if not quantities:
        return [_single(clause, scene, None, subjects(clause, scene), clause.when)]
    if any(item.has("except") and not item.denied for item in items) and any(
            item.has("everyone", "milking_all") for item in items):  # fmt: skip
        return _all_but(clause, scene, quantities)
    named = [i for i, item in enumerate(items) if _is_name(items, i, scene)]
    _name(quantities, items, named, clause)
    give_times(quantities, items, clause)
    days_of_parts(quantities, items, scene)
    milkings_in_a_row(quantities)
    told = [found for group in _lists(quantities) for found in _entries(clause, scene, group)]
    if clause.has("credit") and not clause.says("sell"):  # "Neema 3 mkopo": her milk, or a buyer of her name
        for found in told:
            found.flags.append("slip")
    return told + _without_litres(clause, scene, quantities, [items[n] for n in named])


def calf_sucked(clause: Clause, scene: Scene) -> list[Found]:
    """Why there was less of her milk: the calf had some."""
    values = {**day_values(clause, scene), "reason": "calf"}
    return [Found(MilkReason, values, subjects(clause, scene))]


def milkings(clause: Clause, scene: Scene) -> list[tuple[Item, When]]:
    """The quantities of milk that *clause* tells, each with its own time."""
    items = clause.items
    numbered = [(i, item) for i, item in enumerate(items) if item.sort == "number"]
    quantities = [Quantity(i, item, []) for i, item in numbered if _is_milk(items, i)]
    if not quantities:
        return []
    give_times(quantities, items, clause)
    days_of_parts(quantities, items, scene)
    return [(q.item, When(q.day, q.part, q.clock, clause.when.period)) for q in quantities]


def _all_but(clause: Clause, scene: Scene, quantities: list[Quantity]) -> list[Found]:
    """ "wote isipokuwa Neema lita 5 kila mmoja": one sum of several cows is not told of any of them."""
    who = [s for s in subjects(clause, scene) if s.known is None or s.known.status is Status.MILKING]
    if len(quantities) == 1 and clause.says("each") and who:
        return [_single(clause, scene, quantities[0].item, [subject], clause.when) for subject in who]
    several = Subject(fits=tuple(s.name for s in who if s.name))
    return [_single(clause, scene, q.item, [several], clause.when) for q in quantities]


def _without_litres(
    clause: Clause, scene: Scene, quantities: list[Quantity], named: list[Item]
) -> list[Found]:
    """ "Neema 6 na Tausi": whose litres are not told, they are asked for."""
    taken = {id(item) for quantity in quantities for item in quantity.names}
    bare = [item for item in named if id(item) not in taken and item.sort == "animal"]
    if any(i.has("sell", "deliver", "buy", "drink", "negation", "label_none") for i in clause.items):
        return []
    return [_single(clause, scene, None, [subject_of(item, scene)], clause.when) for item in bare]


_MOST_OF_ONE = 25
"""Litres above which a day's milk told without a name is the herd's."""

MOST_LITRES = 1000
"""A bare number from here on is money."""


def _is_milk(items: list[Item], at: int) -> bool:
    item = items[at]
    if item.unit in ("l", "kg"):
        return True
    if item.unit is not None or item.hint not in ("", "fraction", "part") or item.value >= MOST_LITRES:
        return False
    follows = items[at + 1] if at + 1 < len(items) else None
    counted = follows is not None and follows.has("cattle", "cow", "calf", "heifer", "female", "male")
    return not counted or (follows is not None and is_swahili(follows.word))


def _is_name(items: list[Item], at: int, scene: Scene) -> bool:
    item = items[at]
    if item.sort == "animal" or item.has("everyone", "milking_all", "rest"):
        return True
    if _misspelt_name(items, at):
        return True
    if not is_strange(item) or _beside_her_name(items, at, scene):
        return False
    after = next(
        (i for i in items[at + 1 :] if i.word not in ("ni", "=", ":", "-", "is") and i.sort != "when"), None
    )
    before = items[at - 1] if at else None
    beside = (after is not None and after.sort == "number") or (
        before is not None
        and (before.sort == "number" or before.word in ("kwa", "from", "of", "za", "ya", "for"))
    )
    return item.sort == "tag" or beside or scene.names.open or in_list(items, at)


_MILK_WORDS = (
    "milk", "yield", "got", "give", "all_of_it", "whole_sum", "everyone", "milking_all", "rest", "each",
    "fewer", "grown", "then", "but", "about_animal", "done", "later", "greeting", "except", "calf_sucked",
    "deliver", "sell", "drink", "whole_day", "calf", "spill", "negation", "label_none", "session",
    "when.saa", "task_word",
)  # fmt: skip


def _misspelt_name(items: list[Item], at: int) -> bool:
    """
    Whether a word that is known only by a slip stands as a name does in a row: "Neema 6, Tima 4".

    Its number is no other cow's, whatever the word is near to.
    """
    item, follows = items[at], items[at + 1] if at + 1 < len(items) else None
    before = items[at - 1] if at else None
    if follows is None or follows.sort != "number" or follows.unit not in (None, "l") or item.prefix:
        return False
    apart = before is None or before.sort in ("number", "mark") or before.word in ("na", "and")
    initial = item.sort == "word" and not item.known and len(item.word) <= 2 and item.word not in ("x", "u")
    if apart and initial and any(i.sort == "animal" for i in items):
        return True  # "Neema 6, T 5"
    plain = item.sort in ("word", "cue") and item.end - item.start == 1 and len(item.word) > 2
    heads = item.sort == "cue" and (before is None or before.sort == "mark")
    of_milk = item.has(*_MILK_WORDS) or item.starts("unit.") or item.starts("part.")
    wanted = (item.corrected or heads) and not of_milk
    other_person = item.word in PEOPLE and item.word not in ("i", "im")
    return apart and plain and (wanted or other_person) and any(i.sort == "animal" for i in items)


def _beside_her_name(items: list[Item], at: int, scene: Scene) -> bool:
    """Whether a strange word right after a cow's name is hardly a name itself: "Neema amata 6"."""
    item = items[at]
    if at == 0 or items[at - 1].sort != "animal" or item.sort == "tag" or scene.names.open:
        return False
    mixed = not scene.text.raw.isupper() and not scene.text.raw.islower()
    return item.word not in scene.text.words.names and not (item.capital and mixed)


def _name(quantities: list[Quantity], items: list[Item], named: list[int], clause: Clause) -> None:
    """Gives each quantity its names: those before it, or after it where quantities come first."""
    if not named:
        return
    quantity_first = quantities[0].at < named[0]
    if quantity_first and clause.carried and _goes_on_before(quantities, items, named):
        quantities[0].names = list(clause.carried)
        quantities = quantities[1:]
        quantity_first = False
    for quantity in quantities:
        after = [n for n in named if n > quantity.at]
        before = [n for n in named if n < quantity.at]
        if quantity_first and after:
            chosen = _run(items, after[0], named, 1)
        elif before:
            chosen = _run(items, before[-1], named, -1)
        else:
            chosen = _run(items, after[0], named, 1)
        quantity.names = [items[n] for n in sorted(chosen)]


def _goes_on_before(quantities: list[Quantity], items: list[Item], named: list[int]) -> bool:
    """ "Tausi not eating, 4 litres only, Daisy 5": the first litres are hers of whom was told before."""
    apart = any(parts(item) for item in items[quantities[0].at : named[0]])
    own = len(quantities) > 1 and quantities[1].at > named[0] and quantities[-1].at > named[-1]
    return apart and own


def _run(items: list[Item], start: int, named: list[int], step: int) -> list[int]:
    """The names that stand in one list with the one at *start*, with no number between."""
    chosen = [start]
    at = start + step
    while 0 <= at < len(items):
        if at in named:
            chosen.append(at)
        elif items[at].word not in JOINERS:
            break
        at += step
    return chosen


def _lists(quantities: list[Quantity]) -> list[list[Quantity]]:
    """Quantities told for one list of names stand together: "Neema na Zawadi 6 na 5"."""
    groups: list[list[Quantity]] = []
    for quantity in quantities:
        if groups and len(quantity.names) > 1 and groups[-1][0].names == quantity.names:
            groups[-1].append(quantity)
        else:
            groups.append([quantity])
    return groups


def _entries(clause: Clause, scene: Scene, group: list[Quantity]) -> list[Found]:
    first = group[0]
    whole = [name for name in first.names if name.has("milking_all", "everyone")]
    names = whole[:1] or first.names
    if any(name.has("rest") for name in names):
        return _of_the_rest(clause, scene, group)
    if len(names) > 1:
        if len(group) == len(names):
            return [
                _made(clause, scene, q, [subject_of(n, scene)]) for q, n in zip(group, names, strict=True)
            ]
        if clause.says("each") or all(q.item.ditto for q in group):
            return [_made(clause, scene, q, [subject_of(n, scene)]) for q in group for n in names]
        strange = next((s for s in (subject_of(n, scene) for n in names) if s.unknown is not None), None)
        if strange is not None:
            return [_made(clause, scene, q, [strange]) for q in group]
        several = Subject(fits=tuple(subject_of(n, scene).name or "" for n in names))
        return [_made(clause, scene, q, [several]) for q in group]
    if not names:
        return [_made(clause, scene, q, _unnamed(clause, scene)) for q in group]
    related = relation(clause, clause.items, scene)
    if related is not None and len(names) == 1:
        return [_made(clause, scene, q, related) for q in group]
    who = names[0]
    if who.has("everyone", "milking_all"):
        if (clause.says("each") or _each_one(clause, who)) and scene.names.herd:
            cows = scene.names.group("milking")
            return [
                _made(clause, scene, q, [Subject(c, scene.names.by_name[joined(c)])])
                for q in group
                for c in cows
            ]
        return [_made(clause, scene, q, [Subject(EVERY_ANIMAL)]) for q in group]
    return [_made(clause, scene, q, [subject_of(who, scene)]) for q in group]


def _of_the_rest(clause: Clause, scene: Scene, group: list[Quantity]) -> list[Found]:
    """ "Neema 6, wengine 4 kila mmoja": each of those not named; one sum of several is nobody's."""
    named = {item.value.name for item in clause.items if item.sort == "animal" and item.value is not None}
    others = [c for c in scene.names.group("milking") if c not in named]
    who = [Subject(c, scene.names.by_name[joined(c)]) for c in others]
    if clause.says("each") or len(who) == 1:
        return [_made(clause, scene, q, [subject]) for q in group for subject in who]
    return [_made(clause, scene, q, [Subject(fits=tuple(others))]) for q in group]


def _each_one(clause: Clause, group: Item) -> bool:
    return clause.text.tokens[group.start].word in ("kila", "every", "each")


def _unnamed(clause: Clause, scene: Scene) -> list[Subject]:
    found = subjects(clause, scene)
    if found:
        return found
    if clause.says("all_of_it"):
        return [Subject(EVERY_ANIMAL)]
    if clause.says("whole_day") and any(i.sort == "number" and i.value > _MOST_OF_ONE for i in clause.items):
        return [Subject(EVERY_ANIMAL)]  # "maziwa ya siku nzima lita 41": more than one cow gives
    milking = [a for a in scene.names.herd if a.status is Status.MILKING]
    return [Subject(milking[0].name, milking[0])] if len(milking) == 1 else []


def _made(clause: Clause, scene: Scene, quantity: Quantity, who: list[Subject]) -> Found:
    when = When(quantity.day, quantity.part, quantity.clock, clause.when.period)
    return _single(clause, scene, quantity.item, who, when)


def _single(clause: Clause, scene: Scene, item: Item | None, who: list[Subject], when: When) -> Found:
    day, session = session_of(when, scene.now)
    if clause.says("whole_day"):
        session = "day"
    values: dict[str, Any] = {**as_values(day), "session": session}
    if item is not None:
        litres: Decimal = litres_of_kg(item.value) if item.unit == "kg" else item.value
        values["litres"] = litres
    found = Found(Milk, values, who, [], scene.names.group("milking"), future=_to_come(when, scene))
    if item is not None and _of_more_than_a_day(when):
        found.flags.append("slip")
    found.guessed = item is not None and (item.ditto or (when.part is not None and when.part.guessed))
    return found


def _of_more_than_a_day(when: When) -> bool:
    """Whether the litres are of a week or a month: no milking, and no day's milk."""
    return (when.day is None and when.period is not None) or (when.day is not None and when.day.about)


def _to_come(when: When, scene: Scene) -> bool:
    """Whether a milking of today is told before its part of the day has begun."""
    if when.part is None or when.day is None or when.day.on != scene.now.date():
        return False
    night = when.part.name == "night"  # "tonight", told of the evening's milking
    return not begun(Part("evening") if night else when.part, scene.now)
