"""
Answers to "how much do I give?" and "how much do I mix?": arithmetic on the label's rate, with its cautions.

Byreline names no drug and knows no rate: it counts with what the farmer reads out, and says who decides.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

from dialogs import texts
from dialogs.outcome import example_name, gives_milk
from dialogs.phrases import who
from service.husbandry import dose as doses
from service.husbandry import girth, mixing
from service.husbandry.herd import Animal, Farm, Person
from service.husbandry.kinds.body import Girth
from service.husbandry.kinds.instructions import Ask
from service.messages import Say, say

ROOM = texts.THREE_SEGMENTS

TANKS = (Decimal(10), Decimal(16), Decimal(20))
"""Litres of a bucket, a knapsack and a jerrican: what a mixture is counted for where no tank is told."""

SMALLEST_TANK = Decimal(5)
"""Litres of the rate from which they may be those of the tank itself ("20 ml in 20 l")."""


def _short(value: Decimal) -> Decimal:
    """*value* to a tenth: what is not measured is not told more exactly."""
    return value.quantize(Decimal("0.1"))


# --- dose ------------------------------------------------------------------------------------------


def answer_dose(
    ask: Ask, animal: Animal | None, farm: Farm, people: Mapping[str, Person], today: date, language: str
) -> str:
    """
    The dose of *animal* by mouth, or why it is not counted and what is needed for it.

    Args:
        ask: What was asked, with the rate as read out.
        animal: Whom it is for; None: nobody of the herd was named.
        farm: For an example of how to ask.
        people: Whom to call.
        today: Farm-local.
        language: sw, en.
    """
    return texts.compose(*_dose(ask, animal, farm, people, today), language=language, room=ROOM)


def _dose(
    ask: Ask, animal: Animal | None, farm: Farm, people: Mapping[str, Person], today: date
) -> list[Say]:
    if ask.route in ("injection", "pour"):
        return [say(f"dose.{ask.route}", who=who(people, "vet"))]
    if animal is None or ask.rate_ml is None or ask.per_kg is None:
        return [say("dose.how", name=example_name(farm) if animal is None else animal.name)]
    if not doses.is_likely(ask.rate_ml, ask.per_kg):
        return [say("dose.unlikely", rate=ask.rate_ml, per=ask.per_kg)]
    kg = doses.recent_weight(animal, today)
    if kg is None:
        return [say("dose.weigh", name=animal.name)]
    return _counted(ask, animal, kg, ask.rate_ml, ask.per_kg, today)


def _counted(
    ask: Ask, animal: Animal, kg: Decimal, rate_ml: Decimal, per_kg: Decimal, today: date
) -> list[Say]:
    tape = animal.weight_from == Girth.KIND
    found = doses.dose(kg, rate_ml, per_kg, highest_ml=ask.highest_ml, tape=tape)
    if found.ml == 0:
        return [say("dose.unlikely", rate=rate_ml, per=per_kg)]
    says = _in_calf(animal, today)
    values = {"name": animal.name, "kg": kg, "rate": rate_ml, "per": per_kg, "ml": found.ml}
    says.append(Say("dose.capped" if found.capped else "dose.is", {**values, "exact": _short(found.exact)}))
    if found.low < found.high:
        says.append(say("dose.tape", error=girth.error_kg(kg), low=found.low, high=found.high))
    if ask.highest_ml is None:
        says.append(say("dose.highest"))
    if gives_milk(animal):
        says.append(say("dose.milk"))
    return [*says, say("dose.care")]


def _in_calf(animal: Animal, today: date) -> list[Say]:
    """The question that comes before any worm medicine of a cow in calf, or perhaps in calf."""
    if animal.in_calf:
        return [say("dose.in_calf", name=animal.name)]
    if animal.served is not None and doses.may_be_in_early_calf(animal, today):
        return [say("dose.served", name=animal.name, on=animal.served.on)]
    return []


# --- mix -------------------------------------------------------------------------------------------


def answer_mix(ask: Ask, farm: Farm, language: str) -> str:
    """The concentrate and water of a tick wash or of the shed's disinfectant, by the rate read out."""
    return texts.compose(*_mix(ask, farm), language=language, room=ROOM)


def _mix(ask: Ask, farm: Farm) -> list[Say]:
    if ask.use == "other":
        return [say("mix.other")]
    strength = mixing.strength(rate_ml=ask.rate_ml, in_litres=ask.in_litres, part=ask.part)
    if strength is None:
        return [say("mix.how")]
    on_cattle = ask.use == "cattle" or ask.animals_count is not None
    if not mixing.is_likely(strength, on_cattle=on_cattle):
        return [say("mix.unlikely", ml=_short(strength))]
    counted = _for_cattle(ask, strength, farm) if on_cattle else _for_tank(ask.tank_litres, strength)
    return [*counted, *_cautions(ask, on_cattle=on_cattle)]


def _for_tank(tank_litres: Decimal | None, strength: Decimal) -> list[Say]:
    if tank_litres is not None:
        return [_filled(mixing.fill(strength, tank_litres))]
    return [_filled(mixing.fill(strength, litres)) for litres in TANKS]


def _filled(mix: mixing.Mix) -> Say:
    return say("mix.tank", litres=mix.litres, ml=mix.ml)


def _for_cattle(ask: Ask, strength: Decimal, farm: Farm) -> list[Say]:
    count = ask.animals_count or Decimal(sum(animal.present for animal in farm.animals.values()))
    if not count:
        return _for_tank(ask.tank_litres, strength)
    tank = ask.tank_litres or _tank_of_the_rate(ask.in_litres)
    washing = mixing.wash(strength, count, litres_each=ask.litres_each, tank_litres=tank)
    says = [_washed(washing, count, ask.litres_each)]
    if tank is not None and washing.fills is not None and washing.fills[1] > 1:
        one = mixing.fill(strength, tank)
        few, many = washing.fills
        key = "mix.fills" if few < many else "mix.fills_same"
        says.append(say(key, litres=tank, ml=one.ml, few=few, many=many))
    return says


def _tank_of_the_rate(in_litres: Decimal | None) -> Decimal | None:
    return in_litres if in_litres is not None and in_litres >= SMALLEST_TANK else None


def _washed(washing: mixing.Washing, count: Decimal, litres_each: Decimal | None) -> Say:
    least, most = washing.least, washing.most
    if litres_each is not None:
        return say("mix.wash_each", count=count, each=litres_each, litres=least.litres, ml=least.ml)
    low, high = mixing.WASH_LITRES
    values = {"count": count, "low": low, "high": high, "litres": least.litres, "litres_high": most.litres}
    return Say("mix.wash", {**values, "ml": least.ml, "ml_high": most.ml})


def _cautions(ask: Ask, *, on_cattle: bool) -> list[Say]:
    if on_cattle:
        return [say("mix.cattle"), say("mix.only_cattle"), say("mix.label")]
    if ask.use == "shed" or ask.part is not None:
        return [say("mix.shed"), say("mix.label")]
    return [say("mix.care"), say("mix.only_cattle"), say("mix.label")]
