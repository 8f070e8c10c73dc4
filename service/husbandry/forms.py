"""
How a kind of record declares its fields: once, on the dataclass of its entries.

A kind is a frozen dataclass derived from :class:`Entry`. Each of its fields is declared with one of
the functions below (``animal()``, ``number()``, ``choice()`` ...), which says what the field is, which
values are possible and whether a record can do without it. The reader, the questions asked back, the
menu, the JSON of the contract and the reference in docs all follow from that declaration.

``None`` means "not told"; ``()`` and ``False`` are the "not told" of lists and flags.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Any, ClassVar

from service.husbandry.units import Money
from service.husbandry.units import number as json_number

if TYPE_CHECKING:
    from service.husbandry.herd import Animal, Farm, Told

EVERY_ANIMAL = "*"
"""In a list of animals: all animals present on the day."""


class Sort(Enum):
    """What a field holds."""

    ANIMAL = "animal"  # the name of one animal of the farm ("*" where the kind allows the herd's sum)
    ANIMALS = "animals"  # several names, or ("*",)
    DAY = "day"  # a farm-local date
    MOMENT = "moment"  # an aware datetime in the farm's zone
    MONTH = "month"  # the first day of a month
    NUMBER = "number"  # a Decimal in the unit of the field's name
    CHOICE = "choice"  # one of the options
    SEVERAL = "several"  # any of the options, in the order told
    WORDS = "words"  # as the farmer wrote it, trimmed
    NAME = "name"  # a name for an animal or a person
    PHONE = "phone"  # E.164
    MONEY = "money"
    FLAG = "flag"
    CALVES = "calves"  # of a calving
    DEDUCTIONS = "deductions"  # of a milk payment
    NUMBERS = "numbers"  # item numbers of a numbered list


@dataclass(frozen=True, slots=True)
class Calf:
    """One calf of a calving; ``name`` only if the farmer gave one."""

    sex: str | None = None
    alive: bool = True
    name: str | None = None


@dataclass(frozen=True, slots=True)
class Deduction:
    """What the centre kept back, and for what."""

    what: str
    amount: Money


@dataclass(frozen=True, slots=True)
class Field:
    """
    One field of a kind.

    ``low``..``high`` is the possible range (outside it: ``out_of_range``), above ``usual`` it is asked
    about first. Units are in the field's name (``cm``, ``kg``, ``amount_ml``, ``litres``).
    """

    name: str
    sort: Sort
    needed: bool
    low: Decimal | None = None
    high: Decimal | None = None
    usual: Decimal | None = None
    options: tuple[str, ...] = ()


def _field(sort: Sort, *, needed: bool = False, default: Any = None, **more: Any) -> Any:
    declared = {"sort": sort, "needed": needed, **more}
    if needed:
        return dataclasses.field(metadata=declared)
    return dataclasses.field(default=default, metadata=declared)


def animal() -> Any:
    return _field(Sort.ANIMAL, needed=True)


def animals(*, needed: bool = True) -> Any:
    """Several animals; where none needs be named, none named means all."""
    return _field(Sort.ANIMALS, needed=needed, default=(EVERY_ANIMAL,))


def day() -> Any:
    """The day it happened; the reader fills in the day of telling when none is told."""
    return _field(Sort.DAY, needed=True)


def some_day() -> Any:
    """A day that may well be unknown, such as a birth date."""
    return _field(Sort.DAY)


def moment() -> Any:
    return _field(Sort.MOMENT, needed=True)


def some_moment() -> Any:
    """A moment that may well be unknown, such as the hour of a dose."""
    return _field(Sort.MOMENT)


def month(*, needed: bool = False) -> Any:
    return _field(Sort.MONTH, needed=needed)


def quantity(low: str | int, high: str | int, *, usual: str | int | None = None, needed: bool = False) -> Any:
    return _field(
        Sort.NUMBER,
        needed=needed,
        low=Decimal(low),
        high=Decimal(high),
        usual=None if usual is None else Decimal(usual),
    )


def choice(*options: str, needed: bool = False) -> Any:
    return _field(Sort.CHOICE, needed=needed, options=options)


def several(*options: str, needed: bool = False) -> Any:
    return _field(Sort.SEVERAL, needed=needed, default=(), options=options)


def words() -> Any:
    return _field(Sort.WORDS)


def name(*, needed: bool = True) -> Any:
    return _field(Sort.NAME, needed=needed)


def phone() -> Any:
    return _field(Sort.PHONE)


def money(*, needed: bool = False) -> Any:
    return _field(Sort.MONEY, needed=needed)


def flag() -> Any:
    return _field(Sort.FLAG, default=False)


def calves() -> Any:
    return _field(Sort.CALVES, default=())


def deductions() -> Any:
    return _field(Sort.DEDUCTIONS, default=())


def numbers() -> Any:
    return _field(Sort.NUMBERS, default=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """
    One record as told: the fields of §2 of the contract under their own names.

    Animals are named as the farm names them; who told it and when is kept around it (:class:`Told`).
    """

    KIND: ClassVar[str] = ""
    INSTRUCTION: ClassVar[bool] = False
    """Instructions (undo, ask ...) are carried out, not kept."""

    PLANS: ClassVar[bool] = True
    """Whether the state of an animal or of the farm, and so its plan, can change by it."""

    SHOWN_EMPTY: ClassVar[frozenset[str] | None] = None
    """The fields that stand in the JSON even where they are not told; None: all."""

    def after(self, animal: Animal, told: Told) -> Animal:
        """The *animal* as it is once this has happened to it."""
        return animal

    def farm_after(self, farm: Farm, told: Told) -> Farm:
        """The *farm* (its herd's routine, rules, people to call) once this has happened."""
        return farm

    @property
    def happened_on(self) -> date:
        """Farm-local day on which it happened."""
        on: date = self.on  # type: ignore[attr-defined]
        return on

    @property
    def named(self) -> tuple[str, ...]:
        """Names of the animals it is about, in the order told; ``("*",)`` for all, ``()`` for none."""
        one = getattr(self, "animal", None)
        return (one,) if one is not None else getattr(self, "animals", ())


_FORMS: dict[type[Entry], tuple[Field, ...]] = {}


def form(kind: type[Entry]) -> tuple[Field, ...]:
    """The declared fields of *kind*, in the order in which they are asked for."""
    declared = _FORMS.get(kind)
    if declared is None:
        declared = tuple(Field(name=f.name, **f.metadata) for f in dataclasses.fields(kind))
        _FORMS[kind] = declared
    return declared


def field_of(kind: type[Entry], name: str) -> Field:
    """
    The field *name* of *kind*.

    Raises:
        LookupError: *kind* has no such field.
    """
    for field in form(kind):
        if field.name == name:
            return field
    raise LookupError(f"{kind.KIND} has no field {name}")


def day_field(kind: type[Entry]) -> str:
    """The field that tells when it happened."""
    return next(field.name for field in form(kind) if field.sort in (Sort.DAY, Sort.MOMENT))


def is_told(value: Any) -> bool:
    """Whether a field's *value* was told: None, and of lists and flags () and False, are not."""
    return value is not None and value != () and value is not False


def _dump(sort: Sort, value: Any) -> Any:
    if value is None:
        return None
    match sort:
        case Sort.NUMBER:
            return json_number(value)
        case Sort.DAY:
            return value.isoformat()
        case Sort.MOMENT:
            return value.isoformat(timespec="minutes")
        case Sort.MONTH:
            return value.strftime("%Y-%m")
        case Sort.MONEY:
            return {"amount": str(value.amount), "currency": value.currency}
        case Sort.CALVES:
            return [{"sex": c.sex, "alive": c.alive, "name": c.name} for c in value]
        case Sort.DEDUCTIONS:
            return [{"what": d.what, "amount": _dump(Sort.MONEY, d.amount)} for d in value]
        case Sort.ANIMALS | Sort.SEVERAL | Sort.NUMBERS:
            return list(value)
    return value


def _load(sort: Sort, value: Any) -> Any:
    if value is None:
        return None
    match sort:
        case Sort.NUMBER:
            return Decimal(str(value))
        case Sort.DAY:
            return date.fromisoformat(value)
        case Sort.MOMENT:
            return datetime.fromisoformat(value)
        case Sort.MONTH:
            return date.fromisoformat(f"{value}-01")
        case Sort.MONEY:
            return Money(Decimal(value["amount"]), value["currency"])
        case Sort.CALVES:
            return tuple(Calf(**calf) for calf in value)
        case Sort.DEDUCTIONS:
            return tuple(Deduction(d["what"], _load(Sort.MONEY, d["amount"])) for d in value)
        case Sort.ANIMALS | Sort.SEVERAL | Sort.NUMBERS:
            return tuple(value)
    return value


def dump_values(kind: type[Entry], values: Mapping[str, Any]) -> dict[str, Any]:
    """JSON-ready values of some fields of *kind* (a half-told record keeps its place this way)."""
    return {name: _dump(field_of(kind, name).sort, value) for name, value in values.items()}


def load_values(kind: type[Entry], stored: Mapping[str, Any]) -> dict[str, Any]:
    """The inverse of :func:`dump_values`; keys that *kind* does not declare are left out."""
    known = {field.name: field.sort for field in form(kind)}
    return {name: _load(known[name], value) for name, value in stored.items() if name in known}


def values_of(entry: Entry) -> dict[str, Any]:
    """All fields of *entry*, by name."""
    return {field.name: getattr(entry, field.name) for field in form(type(entry))}


def dump(entry: Entry) -> dict[str, Any]:
    """*entry* as the JSON object of the contract, ``kind`` first; ``about`` only where it is true."""
    values = values_of(entry)
    if values.get("about") is False:
        del values["about"]
    if entry.SHOWN_EMPTY is not None:
        values = {key: v for key, v in values.items() if v not in (None, ()) or key in entry.SHOWN_EMPTY}
    return {"kind": entry.KIND, **dump_values(type(entry), values)}
