"""
Every kind of record and instruction, one class each.

``KINDS`` is in the order in which things of one day happen to an animal: what is told of the same
day is replayed in this order, so that telling them in another order ends in the same state.
"""

from service.husbandry.forms import Entry
from service.husbandry.kinds.body import Condition, Girth, Weight
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Contact, Done, Setting
from service.husbandry.kinds.health import (
    Deworming,
    Disinfection,
    Illness,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death, Naming, NewAnimal
from service.husbandry.kinds.instructions import Ask, Language, Later, NoAnswer, Start, Stop, Undo
from service.husbandry.kinds.milk import Milk
from service.husbandry.kinds.one_day import Abortion, DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import Service
from service.husbandry.kinds.trade import (
    Delivery,
    Expense,
    Feeding,
    MilkPay,
    MilkSale,
    OtherIncome,
)

__all__ = [
    "BY_KEY", "KINDS", "Abortion", "AnimalSale", "Ask", "Calving", "Condition", "Contact", "Death",
    "Delivery", "Deworming", "Disinfection", "Done", "DryingOff", "Expense", "Feeding", "Girth",
    "Heat", "Illness", "Language", "Later", "Milk", "MilkPay", "MilkSale", "Naming", "NewAnimal",
    "NoAnswer", "OtherIncome", "PregnancyCheck", "Service", "Setting", "Spraying", "Start", "Stop",
    "Treatment", "Undo", "Vaccination", "Weaning", "Weight",
]  # fmt: skip

KINDS: tuple[type[Entry], ...] = (
    NewAnimal, Naming, Calving, Abortion, Heat, Service, PregnancyCheck, Milk, DryingOff, Weaning,
    Girth, Weight, Condition, Illness, Treatment, Deworming, Spraying, Vaccination, Disinfection,
    Feeding, MilkSale, Delivery, MilkPay, Expense, OtherIncome, Contact, Setting, AnimalSale, Death,
    Done, Later, NoAnswer, Undo, Ask, Language, Stop, Start,
)  # fmt: skip

BY_KEY: dict[str, type[Entry]] = {kind.KIND: kind for kind in KINDS}
