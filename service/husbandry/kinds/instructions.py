"""What a sender wants done, as against what happened: carried out, never kept."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import ClassVar

from service.husbandry import forms
from service.husbandry.semen import TRAITS
from service.husbandry.signs import DISEASES
from service.husbandry.units import Money

TOPICS = (
    "help", "herd", "tasks", "animal", "statement", "milk", "entries", "price", "call", "dose", "mix",
    "owed", "pay", "people", "semen",
    "ration", "feed_worth", "fodder", "space",
)  # fmt: skip

MONEY_TOPICS = frozenset({"statement", "owed", "pay", "price", "feed_worth"})
"""Topics whose answer tells of the farm's money: the owner's, and of those whom she allows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Instruction(forms.Entry):
    INSTRUCTION: ClassVar[bool] = True
    PLANS: ClassVar[bool] = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Later(Instruction):
    """Tell these again tomorrow; the tasks stay."""

    KIND: ClassVar[str] = "later"

    numbers: tuple[int, ...] = forms.numbers()


@dataclass(frozen=True, slots=True, kw_only=True)
class NoAnswer(Instruction):
    """The person to call did not answer."""

    KIND: ClassVar[str] = "no_answer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Undo(Instruction):
    """Take back the sender's last telling; ``why``: asked for where that lifts a hold on milk."""

    KIND: ClassVar[str] = "undo"

    why: str | None = forms.words()


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix(Instruction):
    """What the same text tells goes in the place of what was told of the same before."""

    KIND: ClassVar[str] = "fix"


@dataclass(frozen=True, slots=True, kw_only=True)
class Contest(Instruction):
    """The owner says that what another phone has told of her farm is not so."""

    KIND: ClassVar[str] = "contest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Helper(Instruction):
    """Who else may tell of the farm, and what beyond recording she may do or see."""

    KIND: ClassVar[str] = "helper"

    act: str = forms.choice("add", "remove", "allow", "forbid", needed=True)
    phone: str | None = forms.phone()
    name: str | None = forms.name(needed=False)
    may: tuple[str, ...] = forms.several("money", "remove", "people")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin(Instruction):
    """A short secret before money and people: set, changed (``old`` to ``code``), taken away, or given."""

    KIND: ClassVar[str] = "pin"

    act: str = forms.choice("set", "clear", "give", needed=True)
    code: str | None = forms.words()
    old: str | None = forms.words()


@dataclass(frozen=True, slots=True, kw_only=True)
class Willing(Instruction):
    """The farm would bring ``count`` animals to a vaccination that is gathered for; 0: none."""

    KIND: ClassVar[str] = "willing"

    disease: str | None = forms.choice(*DISEASES)
    count: Decimal | None = forms.quantity(0, 1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask(Instruction):
    """A question; the fields beside ``topic`` belong to one topic each."""

    KIND: ClassVar[str] = "ask"
    SHOWN_EMPTY: ClassVar[frozenset[str]] = frozenset({"topic", "about", "animal", "period", "month"})

    topic: str = forms.choice(*TOPICS, needed=True)
    about: str | None = forms.words()
    animal: str | None = forms.words()
    period: str | None = forms.choice("today", "week", "month")
    month: date | None = forms.month()
    year: Decimal | None = forms.quantity(2000, 2100)  # statement: of a whole calendar year
    rate_ml: Decimal | None = forms.quantity("0.001", 5000)  # dose, mix: the label's millilitres
    per_kg: Decimal | None = forms.quantity("0.1", 1000)  # dose: of so many kilograms of live weight
    highest_ml: Decimal | None = forms.quantity("0.1", 5000)  # dose: the most the label allows one animal
    route: str | None = forms.choice("mouth", "injection", "pour")  # dose: how it is given
    in_litres: Decimal | None = forms.quantity("0.001", 10000)  # mix: of so many litres of water
    part: Decimal | None = forms.quantity(1, 100000)  # mix: the 400 of "1:400"
    tank_litres: Decimal | None = forms.quantity("0.1", 10000)  # mix: what is to be filled
    animals_count: Decimal | None = forms.quantity(1, 1000)  # mix, fodder, space: how many cattle
    litres_each: Decimal | None = forms.quantity("0.1", 100)  # mix: wash for each of them
    use: str | None = forms.choice("cattle", "shed", "other")  # mix: other: dogs, goats, poultry, crops
    water_litres: Decimal | None = forms.quantity(0, 500)  # ration: what she drinks in a day
    until: date | None = forms.some_day()  # fodder: the last day for which it should last
    aims: tuple[str, ...] = forms.several(*TRAITS)  # semen: what is wanted of a bull, the dearest first
    price: Money | None = forms.money()  # semen: most for a straw; feed_worth: a kg of meal; fodder: a bale


@dataclass(frozen=True, slots=True, kw_only=True)
class Language(Instruction):
    """Write to this phone in another language."""

    KIND: ClassVar[str] = "language"

    to: str = forms.choice("sw", "en", needed=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop(Instruction):
    """Send nothing unasked to this phone."""

    KIND: ClassVar[str] = "stop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Start(Instruction):
    """Send again."""

    KIND: ClassVar[str] = "start"
