"""
From a text to what it tells: entries that stand, and questions about the rest.

A text is cut into tokens and items, its times put together, cut into clauses of one kind each; a small
function of each kind fills in its fields; the checks settle what stands. Never raises, whatever the text.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from dialogs.grammar import bind, body, book, breeding, checks, first_telling, health, milk, money, trade
from dialogs.grammar.clauses import Clause, clauses
from dialogs.grammar.found import Found, Scene, Subject
from dialogs.grammar.gather import gather
from dialogs.grammar.instructions import instructions
from dialogs.grammar.items import Item, Text, read_items
from dialogs.grammar.names import Names
from dialogs.grammar.place import Place
from dialogs.reading import Code, Problem, Reading
from service.husbandry.forms import Sort, form
from service.husbandry.herd import Herd
from service.husbandry.kinds import Calving, Heat, Illness, NewAnimal, Undo
from service.husbandry.units import Money, litres_of_kg

_FILL: dict[str, Callable[[Clause, Scene], list[Found]]] = {
    "milk": milk.milk,
    "heat": breeding.heat,
    "service": breeding.service,
    "pregnancy_check": breeding.pregnancy_check,
    "calving": breeding.calving,
    "abortion": breeding.abortion,
    "drying_off": breeding.drying_off,
    "weaning": breeding.weaning,
    "girth": body.girth,
    "weight": body.weight,
    "condition": body.condition,
    "deworming": health.deworming,
    "spraying": health.spraying,
    "vaccination": health.vaccination,
    "disinfection": health.disinfection,
    "treatment": health.treatment,
    "illness": health.illness,
    "feeding": trade.feeding,
    "milk_sale": trade.milk_sale,
    "delivery": trade.delivery,
    "milk_pay": money.milk_pay,
    "expense": money.expense,
    "other_income": money.other_income,
    "animal_sale": book.animal_sale,
    "death": book.death,
    "naming": book.naming,
    "new_animal": book.new_animal,
    "undo": lambda clause, scene: [Found(Undo, {})],
}

MOST = 40
"""Tellings read from one text; more is no farmer's message."""


def read(text: str, herd: Herd | None, *, now: datetime, language: str, place: Place) -> Reading:
    """
    What *text* tells.

    Args:
        text: As it came from the phone.
        herd: The farm's animals present. None: every name is taken as an animal's; no animals: the
            farm's first telling, in which names told become animals.
        now: Aware, in the farm's zone; what days and hours count from.
        language: ``sw`` or ``en``: what a text that is of neither falls back on.
        place: Region and currency.
    """
    names = Names.of(herd)
    items = read_items(text, names)
    scene = Scene(items, names, now, place)
    tongue = language_of(items, language)
    bind.cows_called_like_words(items, knows=names.has)
    ready = prepare(items, now)
    found = _found(ready, scene, first=herd is not None and not herd.animals)
    checked = [one for telling in found[:MOST] for one in checks.check(telling, names, now)]
    checked = checks.contradictions(checked)
    entries = tuple(one.entry for one in checked if one.entry is not None)
    problems = tuple(one.problem for one in checked if one.problem is not None)
    if not entries and not problems:
        problems = (not_understood(),)
    return Reading(language=tongue, entries=entries, problems=problems)


def prepare(text: Text, now: datetime) -> list[Item]:
    """The items of *text* with times and units put together, denials marked and names settled."""
    bind.set_people_apart(text.items)
    bind.settle_names(text.items)
    items = gather(text, now)
    items = bind.milkings_by_am_and_pm(bind.bind_units(items))
    bind.mark_denials(items)
    return items


def not_understood() -> Problem:
    return checks.problem(Code.NOT_UNDERSTOOD, None, {})


def _found(items: list[Item], scene: Scene, *, first: bool) -> list[Found]:
    told = instructions(items, scene)
    if told is not None:
        return told
    if first:
        entered = first_telling.first_telling(items, scene, _fill)
        if entered is not None:
            return entered
    found: list[Found] = []
    for clause in clauses(scene.text, items):
        told_now = _fill(clause, scene)
        _blood_after_calving(told_now, found)
        _of_newcomers(told_now, scene)
        found += told_now
    return found


def _blood_after_calving(told: list[Found], before: list[Found]) -> None:
    """Blood of a cow whose calving the same text tells is no sign of heat."""
    calved = {s.name for found in before if found.kind is Calving for s in found.subjects}
    for number, found in enumerate(told):
        if (
            found.kind is Heat
            and found.values.get("bleeding")
            and any(s.name in calved for s in found.subjects)
        ):
            on = found.values["first_seen"].date()
            told[number] = Found(Illness, {"on": on, "signs": ("bleeding",)}, found.subjects)


_FEMALE = ("milk", "pregnancy_check", "calving", "service", "heat", "abortion", "drying_off")


def _of_newcomers(told: list[Found], scene: Scene) -> None:
    """What is told of an animal that the same text has just entered is told of her."""
    for found in told:
        if found.kind is NewAnimal and "name" in found.values:
            scene.newcomers.append(found)
        elif scene.newcomers and found.kind.KIND in _FEMALE:
            newcomer = scene.newcomers[-1]
            name = newcomer.values["name"]
            if found.subjects and all(s.unknown != name for s in found.subjects):
                continue
            found.subjects = [Subject(name)]
            newcomer.values.setdefault("sex", "female")


_GRAVE = {
    "death": ("die", "slaughter", "lost", "stolen"),
    "animal_sale": ("sell",),
    "abortion": ("abort",),
    "pregnancy_check": ("pregnant", "empty", "unsure"),
}
"""Kinds that are not recorded on a misspelt word alone, and the words that tell them."""


def _only_by_a_slip(clause: Clause, concepts: tuple[str, ...]) -> bool:
    cues = [item for item in clause.cues(*concepts) if not item.denied or clause.kind == "pregnancy_check"]
    if clause.kind == "death" and any(_as_if_she_stole(clause, item) for item in cues):
        return True
    return bool(cues) and all(item.corrected and _may_mislead(clause, item) for item in cues)


def _may_mislead(clause: Clause, item: Item) -> bool:
    """Whether a slip is too doubtful for its kind: of a pregnancy, a letter put for another ("mamba")."""
    if clause.kind != "pregnancy_check":
        return True
    token = clause.text.tokens[item.start]
    written = clause.text.raw[token.start : token.end].lower()
    return len(written) == len(token.word) and sorted(written) != sorted(token.word)


def _as_if_she_stole(clause: Clause, item: Item) -> bool:
    """ "Neema ameiba": a cow does not steal, so the word may be another one misspelt."""
    at = clause.index(item)
    return (
        item.word.endswith("iba")
        and item.prefix[:1] in ("a", "k")
        and at > 0
        and clause.items[at - 1].sort == "animal"
    )


def _fill(clause: Clause, scene: Scene) -> list[Found]:
    fill = _FILL.get(clause.kind)
    if fill is None:
        return []
    found = fill(clause, scene)
    if clause.kind in _GRAVE and _only_by_a_slip(clause, _GRAVE[clause.kind]):
        for telling in found:
            telling.flags.append("slip")
    for item in clause.items:
        if item.doubtful:
            _leave_out(item, found)
    if clause.when.impossible:
        for telling in found:
            telling.flags.append("no_such_day")
    if clause.to_come and (clause.when.day is None or clause.when.day.on >= scene.now.date()):
        for telling in found:
            telling.future = True
    return found


def _leave_out(number: Item, found: list[Found]) -> None:
    """Takes a number that may be another out of what it was filled into, so that it is asked for."""
    for telling in found:
        for field in form(telling.kind):
            value = telling.values.get(field.name)
            if value is None or field.sort not in (Sort.NUMBER, Sort.MONEY):
                continue
            plain = value.amount if isinstance(value, Money) else value
            if plain in (number.value, litres_of_kg(number.value)):
                del telling.values[field.name]


def language_of(text: Text, fallback: str) -> str:
    """The language of most of a text's words; of an even mixture, or of none, the *fallback*."""
    swahili, english = text.votes.get("sw", 0), text.votes.get("en", 0)
    if swahili > 3 * english:
        return "sw"
    if english > 3 * swahili:
        return "en"
    return fallback
