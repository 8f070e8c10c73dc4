"""What is done to keep a herd well or to treat it, and the signs of illness."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, day_values, likely, subjects
from dialogs.grammar.items import Item
from dialogs.grammar.names import joined
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.kinds import Deworming, Disinfection, Illness, Spraying, Treatment, Vaccination
from service.husbandry.signs import ILLNESS_SIGNS

FEVER_FROM = Decimal("39.5")
"""Degrees C from which a temperature told is a sign of illness (alarm of the trade sheet, from memory)."""


def _group(kind: type[Entry], clause: Clause, scene: Scene, *, everyone: bool) -> tuple[Found, list[Item]]:
    used: list[Item] = []
    product = None if kind is Vaccination else slots.product(clause, scene, used)
    who = subjects(clause, scene, used)
    group = likely(clause, scene)
    who = who or of_group(clause, scene)
    if not who and everyone and not group:
        who = [Subject(EVERY_ANIMAL)]
    values: dict[str, Any] = {**day_values(clause, scene), **slots.holds(clause)}
    if kind is not Vaccination:
        values["product"] = product
    return Found(kind, values, who, [], likely(clause, scene)), used


def of_group(clause: Clause, scene: Scene) -> list[Subject]:
    """The whole group that a noun names, where it is told of several: "nimechanja ndama"."""
    if not _of_several(clause) or any(item.has("one_of") for item in clause.items):
        return []
    return [Subject(name, scene.names.by_name.get(joined(name))) for name in likely(clause, scene)]


def _of_several(clause: Clause) -> bool:
    """Whether it was done to several: by the verb (nimewachanja), or by a noun without a singular."""
    return any(
        item.prefix.startswith("wa")
        or (len(item.prefix) > 4 and item.prefix.endswith("wa"))
        or (item.word in ("ndama", "mitamba", "calves", "heifers") and not item.has("female", "male"))
        for item in clause.items
        if item.sort == "cue"
    )


def count(found: Found) -> int | None:
    """How many animals a telling is about; None for all."""
    return None if any(s.name == EVERY_ANIMAL for s in found.subjects) else len(found.subjects)


def deworming(clause: Clause, scene: Scene) -> list[Found]:
    found, _ = _group(Deworming, clause, scene, everyone=True)
    amount = next(iter(clause.numbers("ml")), None)
    if amount is not None:
        found.values["amount_ml"] = slots.share(clause, amount.value, scene, count(found))
    return [found]


def spraying(clause: Clause, scene: Scene) -> list[Found]:
    return [_group(Spraying, clause, scene, everyone=True)[0]]


def vaccination(clause: Clause, scene: Scene) -> list[Found]:
    found, _ = _group(Vaccination, clause, scene, everyone=False)
    diseases = list(clause.signs("disease."))
    if not diseases:
        return [found]
    return [
        Found(Vaccination, {**found.values, "disease": disease}, found.subjects, [], found.options)
        for disease in diseases
    ]


def disinfection(clause: Clause, scene: Scene) -> list[Found]:
    used: list[Item] = []
    product = slots.product(clause, scene, used)
    return [Found(Disinfection, {**day_values(clause, scene), "product": product})]


def treatment(clause: Clause, scene: Scene) -> list[Found]:
    found, used = _group(Treatment, clause, scene, everyone=False)
    found.values["reason"] = _reason(clause, used)
    return [found]


def _reason(clause: Clause, used: list[Item]) -> str | None:
    """What a treatment was for, as written: the illness or sign named."""
    taken = {id(item) for item in used}
    for item in clause.items:
        if (
            item.sort == "cue"
            and id(item) not in taken
            and (item.starts("sign.") or item.starts("disease.") or item.has("deworm", "lactation_fever"))
        ):
            return clause.text.written(item.start, item.end)
    for index, item in enumerate(clause.items):
        if item.has("sickness") and item.word in ("ugonjwa", "disease"):
            told = slots.phrase_after(clause, index)
            return clause.text.written(item.start, item.end) + (f" {told[0]}" if told else "")
    return None


def illness(clause: Clause, scene: Scene) -> list[Found]:
    signs = [s for s in clause.signs("sign.") if s in ILLNESS_SIGNS]
    if clause.says("body_heat") and "fever" not in signs:
        signs.append("fever")
    if (
        clause.says("degrees")
        and "fever" not in signs
        and any(
            item.value >= FEVER_FROM for item in clause.items if item.sort == "number" and item.unit is None
        )
    ):
        signs.append("fever")
    if clause.has("milk") and clause.has("fewer") and "milk_drop" not in signs:
        signs.append("milk_drop")
    if "bleeding" in signs and clause.has("milk") and not clause.says("vulva", "outside"):
        signs[signs.index("bleeding")] = "udder_clots"
    values: dict[str, Any] = day_values(clause, scene)
    if signs:
        values["signs"] = tuple(_plain(signs))
    return [Found(Illness, values, subjects(clause, scene), [], likely(clause, scene))]


def _plain(signs: list[str]) -> list[str]:
    """Without a general sign that only words a closer one: blood in milk is clots, not bleeding."""
    return [s for s in signs if s != "bleeding" or not {"udder_clots", "red_urine"} & set(signs)]
