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
    Recovery,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death, Naming, NewAnimal
from service.husbandry.kinds.instructions import (
    Ask,
    Contest,
    Fix,
    Helper,
    Language,
    Later,
    NoAnswer,
    Pin,
    Start,
    Stop,
    Undo,
    Willing,
)
from service.husbandry.kinds.milk import Milk, MilkReason
from service.husbandry.kinds.one_day import Abortion, DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import BullLeft, Service
from service.husbandry.kinds.trade import (
    Delivery,
    Expense,
    Feeding,
    MilkPay,
    MilkSale,
    OtherIncome,
    Payment,
)

__all__ = [
    "BY_KEY",
    "KINDS",
    "Abortion",
    "AnimalSale",
    "Ask",
    "BullLeft",
    "Calving",
    "Condition",
    "Contact",
    "Contest",
    "Death",
    "Delivery",
    "Deworming",
    "Disinfection",
    "Done",
    "DryingOff",
    "Expense",
    "Feeding",
    "Fix",
    "Girth",
    "Heat",
    "Helper",
    "Illness",
    "Language",
    "Later",
    "Milk",
    "MilkPay",
    "MilkReason",
    "MilkSale",
    "Naming",
    "NewAnimal",
    "NoAnswer",
    "OtherIncome",
    "Payment",
    "Pin",
    "PregnancyCheck",
    "Recovery",
    "Service",
    "Setting",
    "Spraying",
    "Start",
    "Stop",
    "Treatment",
    "Undo",
    "Vaccination",
    "Weaning",
    "Weight",
    "Willing",
]  # fmt: skip

KINDS: tuple[type[Entry], ...] = (
    NewAnimal, Naming, Calving, Abortion, Heat, Service, BullLeft, PregnancyCheck, Milk, MilkReason,
    DryingOff, Weaning, Girth, Weight, Condition, Illness, Recovery, Treatment, Deworming, Spraying,
    Vaccination, Disinfection,
    Feeding, MilkSale, Payment, Delivery, MilkPay, Expense, OtherIncome, Contact, Setting, AnimalSale, Death,
    Done, Later, NoAnswer, Undo, Fix, Contest, Helper, Pin, Willing, Ask, Language, Stop, Start,
)  # fmt: skip

BY_KEY: dict[str, type[Entry]] = {kind.KIND: kind for kind in KINDS}
