"""Short replies to a question: one field of a kind, a choice by number, yes or no."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from dialogs.grammar import book, slots
from dialogs.grammar.births import calves_told
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Scene, display, is_strange, subjects
from dialogs.grammar.heads import head_of
from dialogs.grammar.items import Item, read_items
from dialogs.grammar.names import Names
from dialogs.grammar.normalise import clean
from dialogs.grammar.place import Place
from dialogs.grammar.read import prepare
from dialogs.grammar.routine import e164
from dialogs.grammar.when import SESSION, Day, Period, collect, day_of, moment_of
from dialogs.grammar.whole import Whole, task_of
from dialogs.grammar.words import meanings, vocabulary
from service.husbandry.forms import EVERY_ANIMAL, Calf, Deduction, Field, Sort
from service.husbandry.herd import NAME_LENGTH, Herd
from service.husbandry.units import Money

YES = frozenset(
    {
        "ndiyo",
        "ndio",
        "ndiyoo",
        "ndioo",
        "ndyo",
        "ndo",
        "naam",
        "eeh",
        "ee",
        "eeeh",
        "ehe",
        "sawa",
        "sawasawa",
        "kweli",
        "hakika",
        "yes",
        "y",
        "yeah",
        "yep",
        "yea",
        "ok",
        "okay",
        "correct",
        "sure",
        "true",
        "right",
    }
)
NO = frozenset(
    {
        "hapana",
        "hapna",
        "la",
        "siyo",
        "sio",
        "si",
        "sivyo",
        "hakuna",
        "hata",
        "kataa",
        "no",
        "n",
        "nope",
        "not",
        "wrong",
        "never",
    }
)


def read_yes_no(text: str) -> bool | None:
    """Whether a reply says yes or no; None where it says neither plainly."""
    told = clean(text[:60]).replace("'", "").replace(",", " ").replace(".", " ").split()
    if not told or len(told) > 4:
        return None
    first = told[0].strip("!?;:-")
    if first in NO:
        return False
    if first in YES:
        return None if any(word in NO for word in told[1:]) else True
    return None


def read_choice(text: str, options: Sequence[str]) -> int | None:
    """The index of the option that a reply chooses, by its number or its name."""
    items = read_items(text, Names.of(None)).items
    numbers = [i for i in items if i.sort == "number" and i.value == int(i.value)]
    if len(numbers) == 1 and len(items) <= 3 and 1 <= numbers[0].value <= len(options):
        return int(numbers[0].value) - 1
    said = clean(text).replace("'", "").strip(" .!,")
    exact = [i for i, option in enumerate(options) if clean(option).replace("'", "") == said]
    if exact:
        return exact[0]
    held = [i for i, option in enumerate(options) if clean(option).replace("'", "") in said.split()]
    return held[0] if len(held) == 1 else None


def read_answer(text: str, field: Field, *, now: datetime, herd: Herd | None, place: Place) -> Any:
    """
    The value that a short reply gives to *field*; None where it gives none.

    The value has the field's declared type (``Sort``); whether it is possible is for the caller to check
    as for any other telling.
    """
    names = Names.of(herd)
    read = read_items(text, names, vocabulary(place.local))
    scene = Scene(read, names, now, place)
    clause = Clause(read, "", prepare(read, now))
    clause.when = collect(clause.items)
    return _READ[field.sort](clause, scene, field)


def _number(clause: Clause, scene: Scene, field: Field) -> Decimal | None:
    numbers = [i for i in clause.items if i.sort == "number"]
    if not numbers:
        return Decimal(0) if field.low == 0 and _none(clause) else None
    item = numbers[0]
    if field.name.endswith("_days"):
        return slots.days(item)
    if field.name == "every_days":
        return slots.days(item)
    return Decimal(item.value)


def _none(clause: Clause) -> bool:
    return any(i.has("label_none", "negation") for i in clause.items)


def _animal(clause: Clause, scene: Scene, field: Field) -> str | None:
    if head_of(clause.items) not in (None, "milk"):
        return None  # "Neema died" tells a deed of its own, it does not answer "which cow?"
    found = subjects(clause, scene)
    named = [s.name for s in found if s.name is not None and s.name != EVERY_ANIMAL]
    if len(named) == 1:
        return named[0]
    return EVERY_ANIMAL if field.name == "animal" and any(s.name == EVERY_ANIMAL for s in found) else None


def _animals(clause: Clause, scene: Scene, field: Field) -> tuple[str, ...] | None:
    found = subjects(clause, scene)
    if not found or any(s.name is None for s in found):
        return None
    return tuple(s.name for s in found if s.name is not None)


def _day(clause: Clause, scene: Scene, field: Field) -> date | None:
    if clause.when:
        day = day_of(clause.when, scene.now)
        vague = field.name == "born" and day.about and _only_a_year(clause)
        return None if vague else day.on
    number = next((i for i in clause.items if i.sort == "number"), None)
    if number is not None and number.unit in ("day", "week"):
        return scene.now.date() - timedelta(days=int(slots.days(number)))
    return None


def _only_a_year(clause: Clause) -> bool:
    """ "mwaka jana": too wide for a birth from which her first service is reckoned."""
    told = {concept for token in clause.text.tokens for concept in meanings(token.word)}
    return "span.year" in told and not any(c.startswith("month.") or c == "span.month" for c in told)


def _moment(clause: Clause, scene: Scene, field: Field) -> datetime | None:
    return moment_of(clause.when, scene.now) if clause.when else None


def _month(clause: Clause, scene: Scene, field: Field) -> date | None:
    for item in clause.items:
        if item.sort == "when" and isinstance(item.value, Day):
            return item.value.on.replace(day=1)
        if item.sort == "when" and isinstance(item.value, Period):
            return scene.now.date().replace(day=1)
        if item.sort == "number" and item.unit is None and 1 <= item.value <= 12:
            month, today = int(item.value), scene.now.date()
            return date(today.year if month <= today.month else today.year - 1, month, 1)
    return None


_CHOICES: dict[str, dict[str, tuple[str, ...]]] = {
    "result": {"unsure": ("unsure", "not_denial"), "empty": ("empty", "negation"), "pregnant": ("pregnant",)},
    "method": {"ai": ("ai", "technician"), "bull": ("bull", "bull_animal")},
    "sex": {"female": ("female", "cow", "heifer"), "male": ("male", "bull_animal", "steer")},
    "ease": {"hard": ("hard",), "helped": ("helped",), "easy": ("easy",)},
    "role": {"vet": ("vet",), "technician": ("technician",), "other": ("role_other",)},
    "session": {
        "morning": ("part.morning", "part.dawn"),
        "midday": ("part.midday",),
        "evening": ("part.evening", "part.night"),
        "day": ("whole_day",),
    },
}
_YES_MEANS = {"result": ("pregnant", "empty")}


def _choice(clause: Clause, scene: Scene, field: Field) -> str | None:
    told = clean(clause.text.raw).strip(" .!")
    for option in field.options:
        if told == option.replace("_", " "):
            return option
    if field.name == "status":
        return book.status(clause)
    if field.name == "session":
        return _session(clause)
    if field.name == "disease" or (field.options and not _CHOICES.get(field.name)):
        return next(iter(clause.signs("disease.")), None)
    concepts = {c for i in clause.items if i.sort == "cue" and not i.denied for c in i.concepts}
    denied = {c for i in clause.items if i.sort == "cue" and i.denied for c in i.concepts}
    if (field.name == "result" and "pregnant" in denied) or _lone(clause, "hana", "haina", "hamna"):
        return "empty" if field.name == "result" else None
    if field.name == "result" and _lone(clause, "ana", "anayo", "ndani", "ipo"):
        return "pregnant"
    fits = [option for option, known in _CHOICES.get(field.name, {}).items() if concepts & set(known)]
    if not fits and field.name in _YES_MEANS:
        answer = read_yes_no(clause.text.raw)
        return None if answer is None else _YES_MEANS[field.name][0 if answer else 1]
    return fits[0] if fits else None


def _lone(clause: Clause, *expected: str) -> bool:
    spoken = [i.word for i in clause.items if i.sort in ("word", "cue")]
    return len(spoken) == 1 and spoken[0] in expected


def _session(clause: Clause) -> str | None:
    if clause.when.part is not None:
        return SESSION[clause.when.part.name]
    return "day" if clause.says("whole_day") or clause.when.period else None


def _several(clause: Clause, scene: Scene, field: Field) -> tuple[str, ...] | None:
    signs = [s for prefix in ("sign.", "heat.") for s in clause.signs(prefix) if s in field.options]
    return tuple(dict.fromkeys(signs)) or None


def _words(clause: Clause, scene: Scene, field: Field) -> str | None:
    if field.name == "task":
        return task_of(clause.items)
    told = clause.text.raw.strip()
    return told[:60] or None


def _name(clause: Clause, scene: Scene, field: Field) -> str | None:
    strange = [i for i in clause.items if is_strange(i) or i.sort == "animal"]
    if strange:
        return display(clause.text, strange[-1])
    said = [i for i in clause.items if i.sort in ("word", "cue", "when", "number")]
    if len(said) == 1 and not said[0].digits:
        return display(clause.text, said[0])
    told = clause.text.raw.strip()
    return told if told and len(told) <= NAME_LENGTH else None


def _phone(clause: Clause, scene: Scene, field: Field) -> str | None:
    written = next((i.word for i in clause.items if i.sort == "phone"), None)
    digits = next(
        (i.word for i in clause.items if i.sort == "number" and i.digits and len(i.word) >= 8), None
    )
    found = written or digits
    return None if found is None else e164(found, scene)


def _money(clause: Clause, scene: Scene, field: Field) -> Money | None:
    numbers = [i for i in clause.items if i.sort == "number"]
    marked = [i for i in numbers if slots.is_sum(i)]
    chosen = marked or numbers
    if not chosen:
        return Money.of(0, scene.place.currency) if _none(clause) else None
    return slots.money(chosen[0], scene)


def _flag(clause: Clause, scene: Scene, field: Field) -> bool | None:
    return read_yes_no(clause.text.raw)


def _calves(clause: Clause, scene: Scene, field: Field) -> tuple[Calf, ...] | None:
    if not clause.says("female", "male", "stillborn", "die", "twins", "calf", "alive"):
        return None
    used: list[Item] = []
    return calves_told(clause, scene, used)


def _deductions(clause: Clause, scene: Scene, field: Field) -> tuple[Deduction, ...] | None:
    sums = slots.sums(clause)
    if not sums:
        return () if _none(clause) else None
    return tuple(Deduction(_beside(clause, item), slots.money(item, scene)) for item in sums)


def _beside(clause: Clause, item: Item) -> str:
    at = clause.index(item)
    before = [i for i in clause.items[max(0, at - 2) : at] if i.sort in ("word", "cue")]
    return clause.text.written(before[0].start, before[-1].end) if before else ""


def _numbers(clause: Clause, scene: Scene, field: Field) -> tuple[int, ...] | None:
    return Whole(clause.items, scene).plain_numbers or None


_READ = {
    Sort.ANIMAL: _animal, Sort.ANIMALS: _animals, Sort.DAY: _day, Sort.MOMENT: _moment, Sort.MONTH: _month,
    Sort.NUMBER: _number, Sort.CHOICE: _choice, Sort.SEVERAL: _several, Sort.WORDS: _words, Sort.NAME: _name,
    Sort.PHONE: _phone, Sort.MONEY: _money, Sort.FLAG: _flag, Sort.CALVES: _calves,
    Sort.DEDUCTIONS: _deductions, Sort.NUMBERS: _numbers,
}  # fmt: skip
