"""
What stands and what is asked first: the animal known, nothing missing, possible, not to come, not doubtful.

Each check takes one telling and gives the problem it finds, the gravest first; no problem means that the
entry stands. Nothing here guesses: a doubt is a question.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from dialogs.grammar.found import Found, Subject
from dialogs.grammar.names import Names, joined
from dialogs.reading import Code, Draft, Problem
from service.husbandry.forms import EVERY_ANIMAL, Entry, Field, Sort, dump_values, form
from service.husbandry.herd import NAME_LENGTH, Known, Sex, Status
from service.husbandry.kinds import (
    AnimalSale,
    Calving,
    Death,
    Delivery,
    Heat,
    Illness,
    Milk,
    MilkSale,
    Naming,
    NewAnimal,
    PregnancyCheck,
    Recovery,
    Service,
    Treatment,
)
from service.husbandry.kinds.trade import disagree
from service.messages import say

_BREEDING = (Milk, Heat, Service, PregnancyCheck, Calving)
_GRAVE = (Death, AnimalSale, Treatment, Calving)
"""Kinds in which a name with a slip is asked about rather than recorded."""

BLEEDS_AFTER_CALVING = timedelta(days=21)
"""Blood within three weeks after a calving is no sign of heat."""


@dataclass(frozen=True, slots=True)
class Checked:
    """
    One telling, settled: an entry that stands, or the problem that holds it back.

    ``shaky``: the entry was read with some doubt (a name or word put right, a milking guessed).
    """

    entry: Entry | None = None
    problem: Problem | None = None
    shaky: bool = False


def problem(
    code: Code,
    kind: type[Entry] | None,
    values: dict[str, Any],
    *,
    field: str | None = None,
    name: str | None = None,
    options: Sequence[str] = (),
    why: str | None = None,
) -> Problem:
    """A problem with the question that would settle it."""
    known = {} if kind is None else {f.name for f in form(kind)}
    kept = {key: value for key, value in values.items() if key in known}
    draft = None if kind is None else Draft(kind=kind, values=kept)
    told: dict[str, Any] = {
        "kind": None if kind is None else kind.KIND,
        "draft": {} if kind is None else dump_values(kind, kept),
        "name": name,
        "options": tuple(options),
    }
    if field is not None:
        told["field"] = field
    if why is not None:
        told["why"] = why
    return Problem(
        code=code,
        ask=say(f"ask.{code.value}", **told),
        field=field,
        draft=draft,
        options=tuple(options),
        name=name,
    )


def check(found: Found, names: Names, now: datetime) -> list[Checked]:
    """The entries and problems of one telling: one of each animal where the kind is of one animal."""
    fields = {field.name: field for field in form(found.kind)}
    if "animal" in fields and not found.kind.INSTRUCTION:
        if not found.subjects:
            return [_to_come(found) if _is_to_come(found, now) else _nobody(found, names)]
        whole_herd = found.kind is not Milk and any(s.name == EVERY_ANIMAL for s in found.subjects)
        if whole_herd and found.kind not in (Illness, Recovery):
            return [_nobody(found, names)]
        told = _everyone(names) if whole_herd else found.subjects
        return [_one(found, subject, names, now) for subject in told] or [_nobody(found, names)]
    if "animals" in fields and not found.kind.INSTRUCTION and found.kind.KIND != "done":
        return _several(found, names, now)
    return [settled(found, dict(found.values), [], names, now)]


def _everyone(names: Names) -> list[Subject]:
    return [Subject(animal.name, animal) for animal in names.herd]


def _nobody(found: Found, names: Names) -> Checked:
    field = "animal" if any(f.name == "animal" for f in form(found.kind)) else "animals"
    if len(found.options) == 1 and len(names.herd) > 1 and found.kind is not Milk:
        options: Sequence[str] = found.options
    else:
        options = found.options or names.all_names()
    return Checked(problem=problem(Code.WHICH_ANIMAL, found.kind, found.values, field=field, options=options))


def _is_to_come(found: Found, now: datetime) -> bool:
    return found.future or _in_future(found.values, now)


def _to_come(found: Found) -> Checked:
    return Checked(problem=problem(Code.IN_FUTURE, found.kind, found.values, field="on"))


def _name_problem(found: Found, subject: Subject, field: str, values: dict[str, Any]) -> Problem | None:
    if subject.unknown is not None:
        return problem(Code.UNKNOWN_ANIMAL, found.kind, values, field=field, name=subject.unknown)
    if subject.name is None:
        return problem(Code.WHICH_ANIMAL, found.kind, values, field=field, options=subject.fits)
    if len(subject.name) > NAME_LENGTH:
        return problem(Code.OUT_OF_RANGE, found.kind, values, field=field, name=subject.name)
    return None


def _one(found: Found, subject: Subject, names: Names, now: datetime) -> Checked:
    bad = _name_problem(found, subject, "animal", found.values)
    if bad is not None:
        return Checked(problem=bad)
    values = {**found.values, "animal": subject.name}
    known = subject.known
    seen = values.get("first_seen")
    if (
        values.get("bleeding")
        and seen is not None
        and known is not None
        and _blood_is_illness(known, seen.date())
    ):
        found = Found(Illness, {"on": values["first_seen"].date(), "signs": ("bleeding",)}, [subject], [])
        values = {**found.values, "animal": subject.name}
    return settled(found, values, [subject], names, now)


def _blood_is_illness(known: Known, on: date) -> bool:
    """Whether blood seen *on* that day is none of a heat."""
    if known.sex is Sex.MALE or known.status is Status.CALF or _in_calf(known, on):
        return True
    return known.calved_on is not None and timedelta(0) <= on - known.calved_on <= BLEEDS_AFTER_CALVING


def _in_calf(known: Known, on: date | None) -> bool:
    """Whether she was known to be in calf that day: what is told late of a day before the check is likely."""
    if not (known.in_calf or known.status is Status.IN_CALF_HEIFER):
        return False
    return on is None or known.in_calf_from is None or on >= known.in_calf_from


def _several(found: Found, names: Names, now: datetime) -> list[Checked]:
    good = [s for s in found.subjects if s.name is not None]
    bad = [s for s in found.subjects if s.name is None]
    checked: list[Checked] = []
    if good:
        values = {**found.values, "animals": tuple(s.name for s in good)}
        checked.append(settled(found, values, good, names, now))
    for subject in bad:
        trouble = _name_problem(found, subject, "animals", found.values)
        checked.append(Checked(problem=trouble))
    return checked or [_to_come(found) if _is_to_come(found, now) else _nobody(found, names)]


def settled(
    found: Found, values: dict[str, Any], subjects: Sequence[Subject], names: Names, now: datetime, *,
    confirmed: bool = False,
) -> Checked:  # fmt: skip
    """The entry, if nothing holds it back; *confirmed*: what is unlikely was asked about and is meant."""
    kind = found.kind
    if found.future:
        return _to_come(Found(kind, values))
    missing = _missing(kind, values, found)
    if missing is not None:
        return Checked(
            problem=problem(Code.MISSING, kind, values, field=missing, options=_options(kind, missing))
        )
    wrong = _out_of_range(kind, values, found)
    if wrong is not None:
        return Checked(problem=problem(Code.OUT_OF_RANGE, kind, values, field=wrong))
    if _in_future(values, now):
        return Checked(problem=problem(Code.IN_FUTURE, kind, values, field="on"))
    gone = next((s.name for s in subjects if _had_left(s, values)), None)
    if gone is not None:
        field = "animal" if "animal" in values else "animals"
        rest = {key: value for key, value in values.items() if key != field}
        return Checked(problem=problem(Code.UNKNOWN_ANIMAL, kind, rest, field=field, name=gone))
    doubt = None if confirmed else _doubt(found, values, subjects, names)
    if doubt is not None:
        named = subjects[0].name if subjects else None
        return Checked(problem=problem(Code.CONFIRM, kind, values, name=named, why=doubt))
    return Checked(
        entry=kind(
            **{key: value for key, value in values.items() if value is not None or not _needed(kind, key)}
        ),
        shaky=found.guessed or any(subject.near for subject in subjects),
    )


def _had_left(subject: Subject, values: dict[str, Any]) -> bool:
    """Whether the animal was in the herd no more on the day told of."""
    on = values["first_seen"].date() if values.get("first_seen") else values.get("on")
    left = None if subject.known is None else subject.known.left_on
    return left is not None and on is not None and on > left


def _options(kind: type[Entry], field: str) -> tuple[str, ...]:
    return next((f.options for f in form(kind) if f.name == field), ())


def _needed(kind: type[Entry], name: str) -> bool:
    return any(field.name == name and field.needed for field in form(kind))


def _missing(kind: type[Entry], values: dict[str, Any], found: Found) -> str | None:
    for field in form(kind):
        if field.needed and values.get(field.name) in (None, ()):
            return field.name
    if kind is MilkSale and values.get("litres") is None and values.get("amount") is None:
        return "litres"
    if kind is Delivery and values.get("litres") is None and values.get("kg") is None:
        return "litres"
    if kind.KIND == "milk_pay" and values.get("amount") is None:
        return "amount"
    if kind.KIND == "contact" and values.get("phone") is None and "bad_phone" not in found.flags:
        return "phone"
    if kind.KIND == "setting" and values.get("every_days") is None and values.get("hour") is None \
            and values.get("task") != "advice":  # fmt: skip
        return "every_days"
    return None


def _out_of_range(kind: type[Entry], values: dict[str, Any], found: Found) -> str | None:
    if "bad_phone" in found.flags:
        return "phone"
    if "no_such_day" in found.flags:
        return "first_seen" if kind is Heat else "on"
    for field in form(kind):
        value = values.get(field.name)
        if value is not None and not _possible(kind, field, value, values):
            return field.name
    return None


_QUARTER = Decimal("0.25")


def _possible(kind: type[Entry], field: Field, value: Any, values: dict[str, Any]) -> bool:
    if field.sort is Sort.NUMBER:
        if field.low is not None and value < field.low:
            return False
        if field.name == "score" and value % _QUARTER:
            return False
        if kind is Milk and values.get("animal") == EVERY_ANIMAL:
            return True
        return field.high is None or bool(value <= field.high)
    if field.sort is Sort.NAME and kind in (NewAnimal, Naming):
        return 1 <= len(value) <= NAME_LENGTH
    return True


def _in_future(values: dict[str, Any], now: datetime) -> bool:
    on, seen = values.get("on"), values.get("first_seen")
    born = values.get("born")
    return bool(
        (on is not None and on > now.date())
        or (seen is not None and seen > now)
        or (born is not None and born > now.date())
    )


def _doubt(found: Found, values: dict[str, Any], subjects: Sequence[Subject], names: Names) -> str | None:
    kind = found.kind
    if "heat_or_fever" in found.flags:
        return "heat_or_fever"
    if "slip" in found.flags and not kind.INSTRUCTION:
        return "unusual"
    if kind is MilkSale and _hardly_paid(values):
        return "price_or_sum" if (values.get("litres") or 0) > 1 and values.get("amount") else "unusual"
    if kind is AnimalSale and _hardly_an_animals(values):
        return "unusual"
    if kind is MilkSale and disagree(values.get("litres"), values.get("price"), values.get("amount")):
        return "sum"
    if kind is NewAnimal and _entered_before(values, names):
        return "twice"
    for subject in subjects:
        if kind in _GRAVE and subject.near:
            return "near_name"
        if subject.known is not None and kind in _BREEDING:
            why = _unlikely(kind, subject.known, _day_of(values))
            if why is not None:
                return why
    usual = next((f for f in form(kind) if f.usual is not None), None)
    if usual is not None and usual.usual is not None and values.get(usual.name) is not None:
        limit = usual.usual
        if kind is Milk and values.get("animal") == EVERY_ANIMAL:
            limit = max(
                limit,
                limit * max(1, len(names.group("milking"))) * (2 if values.get("session") == "day" else 1),
            )
        if values[usual.name] > limit:
            return "unusual"
    return None


def _entered_before(values: dict[str, Any], names: Names) -> bool:
    """Whether the herd has the animal, and more is told than what was not known of her."""
    known = names.by_name.get(joined(values["name"]))
    if known is None:
        return False
    if values.get("price") is not None or values.get("status") not in (None, known.status):
        return True
    if values["sex"] != known.sex or known.left_on is not None:
        return True
    new = [
        values.get("breed") is not None,
        values.get("born") is not None and known.born in (None, values["born"]),
        values.get("dam") is not None and known.dam in (None, values["dam"]),
    ]
    told = [values.get(name) is not None for name in ("breed", "born", "dam")]
    return not any(told) or new != told


MOST_SOLD = Decimal(300)
"""Litres above which a number told of a sale is rather its price ("nimeuza lita 1,500")."""

LEAST_PRICE, MOST_PRICE = Decimal(500), Decimal(4000)
"""
Shillings between which a litre of raw milk is sold, widely; common practice, no source. Below, a price was
told and not the whole ("10 litres 1200"); above, the whole and not a price.
"""


def _hardly_paid(values: dict[str, Any]) -> bool:
    price, litres = values.get("price"), values.get("litres")
    if litres is not None and litres > MOST_SOLD:
        return True
    if price is None or price.currency != "TZS" or not price.amount:
        return False
    return not LEAST_PRICE <= price.amount <= MOST_PRICE


LEAST_SALE = Decimal(30_000)
"""Shillings below which no animal is sold, not even a calf; common practice, no source."""


def _hardly_an_animals(values: dict[str, Any]) -> bool:
    amount = values.get("amount")
    return amount is not None and amount.currency == "TZS" and amount.amount < LEAST_SALE


def _day_of(values: dict[str, Any]) -> date | None:
    seen = values.get("first_seen")
    on: date | None = values.get("on")
    return on if seen is None else seen.date()


def _unlikely(kind: type[Entry], known: Known, on: date | None) -> str | None:
    """Why *kind* is hardly told of such an animal, of that day."""
    if known.sex is Sex.MALE or known.status in (Status.BULL, Status.STEER):
        return "male"
    if known.status is Status.CALF:
        return "calf"
    if kind is Milk and known.status is Status.DRY:
        return "dry" if on is None or known.dry_from is None or on >= known.dry_from else None
    if kind is Milk and known.status in (Status.HEIFER, Status.IN_CALF_HEIFER):
        return "heifer"
    return "in_calf" if kind in (Service, Heat) and _in_calf(known, on) else None
