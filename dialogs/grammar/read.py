"""
From a text to what it tells: entries that stand, and questions about the rest.

A text is cut into tokens and items, its times put together, cut into clauses of one kind each; a small
function of each kind fills in its fields; the checks settle what stands. Never raises, whatever the text.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from dialogs.grammar import (
    alternatives,
    asides,
    bind,
    births,
    body,
    book,
    breeding,
    bulls,
    buyers,
    checks,
    compared,
    counted,
    danger,
    delivery,
    doubts,
    first_telling,
    health,
    milk,
    money,
    mood,
    namewords,
    roll,
    told_by_day,
    trade,
    unreal,
)
from dialogs.grammar.clauses import Clause, clauses
from dialogs.grammar.contradictions import contradictions
from dialogs.grammar.corrections import mended
from dialogs.grammar.found import Found, Scene, Subject
from dialogs.grammar.gather import gather
from dialogs.grammar.instructions import instructions
from dialogs.grammar.items import Item, Text, read_items
from dialogs.grammar.names import Names
from dialogs.grammar.parted import parted
from dialogs.grammar.place import Place
from dialogs.grammar.remarks import without_remarks
from dialogs.grammar.rests import told_of_all_but, whole_before_except
from dialogs.grammar.unread import unread
from dialogs.grammar.words import vocabulary
from dialogs.reading import Code, Problem, Reading
from service.husbandry.forms import Entry, Sort, form
from service.husbandry.herd import Herd
from service.husbandry.kinds import Calving, Done, Fix, Heat, Illness, NewAnimal, PregnancyCheck, Undo
from service.husbandry.units import Money, litres_of_kg

_FILL: dict[str, Callable[[Clause, Scene], list[Found]]] = {
    "milk": milk.milk,
    "milk_reason": milk.calf_sucked,
    "heat": breeding.heat,
    "service": breeding.service,
    "pregnancy_check": breeding.pregnancy_check,
    "calving": births.calving,
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
    "recovery": health.recovery,
    "afterbirth_out": health.afterbirth_out,
    "bull_left": bulls.bull_left,
    "payment": buyers.payment,
    "feeding": trade.feeding,
    "milk_sale": trade.milk_sale,
    "delivery": delivery.delivery,
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
        place: Region, currency and local words.
    """
    names = Names.of(herd)
    items = read_items(text, names, vocabulary(place.local))
    scene = Scene(items, names, now, place)
    tongue = language_of(items, language)
    bind.cows_called_like_words(items, knows=names.has)
    namewords.misspelt_subjects(items.items, names)
    ready = prepare(items, now)
    found = _found(ready, scene, first=herd is not None and not herd.animals)
    checked = [one for telling in found[:MOST] for one in checks.check(telling, names, now)]
    checked = contradictions(checked)
    standing = [one for one in checked if one.entry is not None]
    entries = tuple(one.entry for one in standing if one.entry is not None)
    problems = tuple(one.problem for one in checked if one.problem is not None)
    if not entries and not problems:
        problems = (not_understood(),)
    return Reading(
        language=tongue,
        entries=entries,
        problems=danger.marked(problems, text),
        shaky=frozenset(at for at, one in enumerate(standing) if one.shaky),
        unread=unread(items, ready, found) if entries and not _instructs(entries) else "",
    )


def _instructs(entries: Sequence[Entry]) -> bool:
    return any(entry.INSTRUCTION or isinstance(entry, Done) for entry in entries)


def prepare(text: Text, now: datetime) -> list[Item]:
    """The items of *text* with times and units put together, denials marked and names settled."""
    text.items = bind.results_by_mark(bind.without_list_numbers(text.items))
    bind.set_people_apart(text.items)
    bind.settle_names(text.items)
    namewords.without_common_words(text.items)
    items = told_by_day.held_until(alternatives.either_animal(gather(text, now)), now.date())
    items = mood.without_whom_it_is_not(whole_before_except(items))
    items = asides.without_asides(mood.without_what_is_taken_back(bind.bind_units(items)))
    items = asides.milked_now(items, now)
    counted.mark(text, items)
    items = compared.without_their_sum(compared.without_what_it_was(alternatives.without_either_sex(items)))
    items = bind.milkings_by_am_and_pm(alternatives.either_number(without_remarks(items)))
    items = unreal.without_what_is_not_real(unreal.without_background(items))
    bind.scores(items)
    mood.mark(items)
    return told_of_all_but(items)


def not_understood() -> Problem:
    return checks.problem(Code.NOT_UNDERSTOOD, None, {})


def _found(items: list[Item], scene: Scene, *, first: bool) -> list[Found]:
    anew = mended(items)
    if anew is not None:
        told = _found(anew, scene, first=first) if anew else []
        return [Found(Fix, {}), *told] if told or not anew else []
    items = mood.without_what_it_is_not(items)
    apart = parted(items, scene)
    if apart is not None:
        told = _found(apart.items, scene, first=first)
        if told and not any(one.kind.INSTRUCTION for one in told):
            return [*apart.before, *told, *apart.after]
    strange = roll.as_listed(scene.text, items)
    listed = first_telling.lists_herd(strange, first=first)
    order = None if listed else instructions(items, scene)
    if order is not None:
        return order
    if first or listed:
        entered = first_telling.first_telling(strange, scene, _fill)
        if entered is not None:
            return entered
    found: list[Found] = []
    for clause in clauses(scene.text, items):
        told_now = _fill(clause, scene)
        _blood_after_calving(told_now, found)
        _of_newcomers(told_now, scene)
        found += told_now
    if _takes_back(items, found):
        for telling in found:
            telling.flags.append("slip")
    return _without_told_whole(found)


def _takes_back(items: Sequence[Item], found: Sequence[Found]) -> bool:
    """Whether what is told is taken back as well: "futa Neema 6", "nimekosea Neema 6 ni Tausi 6"."""
    said = [i for i in items if i.has("undo") and not i.denied and not i.corrected]
    if not said or any(telling.kind is Undo for telling in found):
        return False
    ordered = bool(found) and items[0] in said and items[0].word in _DELETE
    return len(found) > 1 or ordered


_DELETE = (
    "futa", "nifutie", "tendua", "ghairi", "batilisha", "ondoa", "cancel", "delete", "remove", "erase",
    "undo",
)  # fmt: skip


def _without_told_whole(found: list[Found]) -> list[Found]:
    """ "Neema na Tausi wamepimwa: Neema ana, Tausi hana": a check whose result follows is told once."""
    whole = {s.name for told in found if told.kind is PregnancyCheck and "result" in told.values
             for s in told.subjects}  # fmt: skip
    for told in found:
        if told.kind is PregnancyCheck and "result" not in told.values:
            told.subjects = [s for s in told.subjects if s.name not in whole] or told.subjects
    return [
        told
        for told in found
        if told.kind is not PregnancyCheck
        or "result" in told.values
        or not told.subjects
        or any(s.name not in whole for s in told.subjects)
    ]


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


_DATED = (
    "service", "pregnancy_check", "calving", "abortion", "drying_off", "weaning", "death", "vaccination",
    "treatment",
)  # fmt: skip
"""Kinds in which "20-4" is a day and no two quantities."""


def _fill(clause: Clause, scene: Scene) -> list[Found]:
    clause.items = namewords.told_apart(clause.items, clause.kind)
    clause.carried = namewords.told_apart(clause.carried, clause.kind)
    if clause.when.day is None and clause.kind in _DATED:
        clause.when.day = told_by_day.day_by_dash(clause.items, scene.now.date())
    fill = _FILL.get(clause.kind)
    if fill is None:
        return []
    found = fill(clause, scene)
    doubts.weigh(clause, found)
    for item in clause.items:
        if item.doubtful:
            _leave_out(item, found)
    if clause.when.impossible:
        for telling in found:
            telling.flags.append("no_such_day")
    if clause.to_come and _of_a_day_to_come(clause, scene):
        for telling in found:
            telling.future = True
    return found


def _of_a_day_to_come(clause: Clause, scene: Scene) -> bool:
    """Whether the day told can be meant of the future: "nitamkausha jumamosi" is no Saturday past."""
    day = clause.when.day
    if day is None or day.on >= scene.now.date():
        return True
    return day.latest and not clause.done_before_to_come


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
