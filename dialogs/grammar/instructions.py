"""What a sender wants done rather than tells: done, later, undo, language, stop and start."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from datetime import timedelta
from typing import Any

from dialogs.grammar.advice import advice
from dialogs.grammar.feeding_questions import feeding_question
from dialogs.grammar.found import Found, Scene, display, is_strange
from dialogs.grammar.items import Item
from dialogs.grammar.mixtures import dose, mix
from dialogs.grammar.people import contest, helper, pin, willing
from dialogs.grammar.questions import ask
from dialogs.grammar.routine import contact, setting
from dialogs.grammar.semen import semen
from dialogs.grammar.when import Day
from dialogs.grammar.whole import RECORDS, Whole, is_short, task_of
from service.husbandry.forms import EVERY_ANIMAL
from service.husbandry.kinds import Done, Language, Later, NoAnswer, Start, Stop, Undo


def instructions(items: Sequence[Item], scene: Scene) -> list[Found] | None:
    """The instruction that the whole text is; None where it tells something."""
    whole = Whole(items, scene)
    for rule in _RULES:
        found = rule(whole)
        if found is not None:
            return found
    asked = any(item.sort == "mark" and item.word == "?" for item in whole.items)
    return (
        [] if asked and not whole.animals and not whole.said.count else None
    )  # a question that we have no answer to


def _language(whole: Whole) -> list[Found] | None:
    if not whole.has("to_sw", "to_en") or whole.animals or whole.said.count:
        return None
    if not whole.has("language") and len(whole.words) > (7 if not whole.has(*RECORDS) else 2):
        return None
    last = [i for i in whole.items if i.has("to_sw", "to_en") and not i.denied]
    return [Found(Language, {"to": "sw" if last[-1].has("to_sw") else "en"})] if last else None


def _stop_start(whole: Whole) -> list[Found] | None:
    if whole.animals or whole.has(*RECORDS) or (whole.said.count and not whole.has("service_word")):
        return None
    if (
        whole.has("start")
        and not whole.asks
        and not (whole.has("stop") and not _again(whole))
        and is_short(whole, 9)
    ):
        return [Found(Start, {})]
    if (
        whole.has("stop")
        and not whole.asks
        and not whole.has("spray", "deworm", "milk", "dry", "bull_animal", "cattle", "calf")
        and is_short(whole, 9)
    ):
        return [Found(Stop, {})]
    return None


def _again(whole: Whole) -> bool:
    return any(item.word in ("tena", "again", "kurudi", "back") for item in whole.items)


def _no_answer(whole: Whole) -> list[Found] | None:
    if any(i.has("no_answer") for i in whole.items if i.sort == "cue") and not whole.animals:
        return [Found(NoAnswer, {})]
    return None


def _done(whole: Whole) -> list[Found] | None:
    if not whole.has("done") or whole.asks or whole.has("debt"):
        return None
    task, numbers = task_of(whole.items), _numbers(whole)
    others = [
        i
        for i in whole.items
        if i.sort == "cue" and i.has(*RECORDS) and not any(c.startswith("task.") for c in i.concepts)
    ]
    measured = any(i.unit in ("l", "kg", "cm", "ml", "money") for i in whole.items if i.sort == "number")
    if others or measured or (whole.animals and task is None):
        return None
    if _work_of_a_day(whole, task):
        return None
    if task is not None and (_finished_verb(whole) or _told_as_done(whole, task)):
        return None
    values: dict[str, Any] = {"numbers": numbers if task is None else (), "on": whole.scene.now.date()}
    if task is not None:
        values["task"] = task
        values["animals"] = _animals(whole)
        return [Found(Done, values)]
    values["animals"] = ()
    if not numbers and not is_short(whole, 4):
        return None
    return [Found(Done, values)]


def _work_of_a_day(whole: Whole, task: str | None) -> bool:
    """ "tick spray done jumanne wote", "lumpy skin vaccine done for Neema": the work itself is told."""
    if task is None:
        return whole.has("spray", "deworm") and whole.has("everyone")
    return task == "vaccinate" and bool(whole.animals) and bool(whole.said.sign("disease."))


def _numbers(whole: Whole) -> tuple[Any, ...]:
    """The numbers of the list; in "zote mbili, kazi 1 na 2" the first only counts them."""
    numbers = whole.plain_numbers
    for item, follows in itertools.pairwise(whole.items):
        if item.has("everyone") and follows.sort == "number" and len(numbers) > 1:
            return tuple(numbers[1:])
    return numbers


def _finished_verb(whole: Whole) -> bool:
    """ "tayari nimeogesha": a verb that tells the work itself."""
    return any(
        i.sort == "cue"
        and i.prefix[:3] in ("nim", "tum", "nil", "tul", "nime", "ame", "wam")
        and not i.has("done")
        and i.has("spray", "deworm", "vaccinate", "disinfect", "dry", "wean", "serve", "measure")
        for i in whole.items
    )


def _told_as_done(whole: Whole, task: str) -> bool:
    """ "minyoo done leo for Bahati": the work itself, told with its animals or day and not as a task."""
    if task not in ("spray", "deworm", "disinfect", "dry_off", "weaning") or whole.has("task_word"):
        return False
    day = any(i.sort == "when" and isinstance(i.value, Day) for i in whole.items)
    return day or (bool(whole.animals) and not any(i.has("done") for i in whole.items[:1]))


def _animals(whole: Whole) -> tuple[str, ...]:
    if whole.has("everyone"):
        return (EVERY_ANIMAL,)
    bearers = [i.value or (i.fits[0] if len({k.name for k in i.fits}) == 1 else None) for i in whole.animals]
    named = [known.name for known in bearers if known is not None]
    if not named and whole.scene.names.open:
        named = [display(whole.scene.text, i) for i in whole.items if is_strange(i)]
    return tuple(named)


def _later(whole: Whole) -> list[Found] | None:
    if not (whole.any("later") or _tomorrow(whole)) or whole.asks or whole.animals or whole.has(*RECORDS):
        return None
    others = [
        i
        for i in whole.items
        if i.sort == "cue"
        and not i.has("later", "remind", "task_word", "greeting", "not_yet")
        and not i.starts("task.")
    ]
    undone = [i for i in others if i.denied and i.has("done", "said_verb")]
    if [i for i in others if i not in undone and not i.has("set_word", "negation")] or not is_short(whole, 8):
        return None
    return [Found(Later, {"numbers": whole.plain_numbers})]


def _tomorrow(whole: Whole) -> bool:
    """ "kesho 2": the second item, tomorrow; a day further off is a plan, not a putting off by a day."""
    tomorrow = whole.scene.now.date() + timedelta(days=1)
    return any(i.sort == "when" and isinstance(i.value, Day) and i.value.on == tomorrow for i in whole.items)


def _undo(whole: Whole) -> list[Found] | None:
    if (
        whole.has("undo")
        and not whole.animals
        and not whole.said.count
        and not whole.asks
        and is_short(whole, 8)
    ):
        return [Found(Undo, {})]
    return None


_RULES: tuple[Callable[[Whole], list[Found] | None], ...] = (
    advice, semen, dose, mix, feeding_question, helper, pin, willing, contest, _no_answer, contact,
    _language, _undo, _stop_start, setting, _done, _later, ask,
)  # fmt: skip
