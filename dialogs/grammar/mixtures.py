"""What a question about a dose or a mixture tells: the label's rate as read out, never a number not told."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from dialogs.grammar.found import Found, Subject, display, is_strange
from dialogs.grammar.measures import Measure, measures
from dialogs.grammar.normalise import clean
from dialogs.grammar.phrases import Wording
from dialogs.grammar.when import Clock
from dialogs.grammar.whole import Whole
from service.husbandry.kinds import Ask, Weight

MILLILITRES = Decimal(1000)  # in a litre


def dose(whole: Whole) -> list[Found] | None:
    """ "DOSE NEEMA 1 ML PER 10 KG (MAX 30 ML)"; a weight told beside the rate is an entry of its own."""
    wording = Wording(whole.scene.text.raw, "dosing")
    if not _asks_for("dose", whole, wording):
        return None
    told = dose_fields(whole)
    weighed = _weight(whole, told)
    return [*weighed, Found(Ask, {"topic": "dose", **told})]


def mix(whole: Whole) -> list[Found] | None:
    """ "MIX 20 ML IN 20 L FOR 5 COWS", "CHANGANYA 1:400 PAMPU LITA 16"."""
    wording = Wording(whole.scene.text.raw, "dosing")
    if not _asks_for("mix", whole, wording):
        return None
    return [Found(Ask, {"topic": "mix", **mix_fields(whole)})]


def _asks_for(meaning: str, whole: Whole, wording: Wording) -> bool:
    """Whether the text opens with the word for it, or asks; what was given or mixed is a telling."""
    first = next(wording.spots(meaning), None)
    if first is None or wording.says("given") or (not whole.asks and _of_a_time(whole)):
        return False
    return whole.asks or (first.start <= _MOST_POLITENESS and not whole.has("product"))


_MOST_POLITENESS = 2


def _of_a_time(whole: Whole) -> bool:
    """Whether a time is told, as of a dose that was given: "dozi ya mwisho jana saa 11 jioni"."""
    times = [item.value for item in whole.items if item.sort == "when"]
    return any(not isinstance(time, Clock) or time.style == "saa" for time in times)


def dose_fields(whole: Whole) -> dict[str, Any]:
    """The fields of a question about a dose, those told alone."""
    wording = Wording(whole.scene.text.raw, "dosing")
    told = measures(whole)
    values: dict[str, Any] = {"animal": _one_animal(whole), "route": _route(wording)}
    for measure in told:
        if measure.unit == "ml":
            name = "highest_ml" if _near(measure, "highest", wording) else "rate_ml"
            values.setdefault(name, measure.value)
    per = next((m for m in told if m.unit == "kg" and _follows(m, "per", wording)), None)
    if per is not None and "rate_ml" in values:
        values["per_kg"] = per.value
    return {key: value for key, value in values.items() if value is not None}


def _one_animal(whole: Whole) -> str | None:
    """The one animal named; None where none or several are."""
    if len(whole.animals) > 1:
        return None
    for item in whole.animals:
        return None if item.value is None else str(item.value.name)
    if not whole.scene.names.open:
        return None
    strange = [i for i in whole.items if is_strange(i) and i.word not in _NO_NAMES]
    return display(whole.scene.text, strange[0]) if len(strange) == 1 else None


_NO_NAMES = frozenset({
    "dose", "dozi", "max", "maximum", "mwisho", "isizidi", "kisichozidi", "pour", "oral", "sindano", "wormer",
    "highest", "drench", "mdomo", "mgongoni", "injection", "minyoo", "limit", "isiyozidi", "usizidishe",
})  # fmt: skip
"""Words of the question itself, which the vocabulary may not know."""


def _route(wording: Wording) -> str | None:
    """How it is given; a needle or the back, where named, before the mouth that "minyoo" implies."""
    return next((way for way in ("injection", "pour", "mouth") if wording.says(way)), None)


def _weight(whole: Whole, told: dict[str, Any]) -> list[Found]:
    """Her weight, where it is told beside a whole rate and so can be nothing else."""
    name = told.get("animal")
    if name is None or "per_kg" not in told:
        return []
    wording = Wording(whole.scene.text.raw, "dosing")
    kilos = [m for m in measures(whole) if m.unit == "kg" and not m.bare]
    own = [m for m in kilos if not _follows(m, "per", wording) and m.value >= _LEAST_WEIGHT]
    if len(own) != 1:
        return []
    known = next((i.value for i in whole.animals), None)
    values = {"on": whole.scene.now.date(), "kg": own[0].value}
    return [Found(Weight, values, [Subject(name, known)])]


_LEAST_WEIGHT = 15
"""Kilograms that the lightest calf weighs (as the contract's range)."""


def _follows(measure: Measure, meaning: str, wording: Wording) -> bool:
    """Whether a phrase of *meaning* stands right before *measure*."""
    return any(spot.end == measure.start for spot in wording.spots(meaning))


def _near(measure: Measure, meaning: str, wording: Wording) -> bool:
    """Whether a phrase of *meaning* stands beside *measure*, or a word away before it."""
    return any(
        0 <= measure.start - spot.end <= 1 or spot.start == measure.end for spot in wording.spots(meaning)
    )


@dataclass(slots=True)
class _Mixture:
    """What is being filled in, measure by measure."""

    wording: Wording
    told: Sequence[Measure]
    values: dict[str, Any] = field(default_factory=dict)
    used: set[int] = field(default_factory=set)

    def put(self, name: str, measure: Measure, value: Decimal | None = None) -> None:
        self.values.setdefault(name, measure.value if value is None else value)
        self.used.add(measure.start)

    def left(self, *units: str | None) -> list[Measure]:
        return [m for m in self.told if m.unit in units and m.start not in self.used]


def mix_fields(whole: Whole) -> dict[str, Any]:
    """The fields of a question about a mixture, those told alone."""
    wording = Wording(whole.scene.text.raw, "dosing")
    found = _Mixture(wording, measures(whole))
    _ratio(found, clean(whole.scene.text.raw))
    _cattle(found)
    _filled(found)
    if "part" not in found.values:
        _rate(found)
    for measure in found.left("l"):
        if not measure.bare:
            found.put("tank_litres", measure)
    use = _use(found)
    return {**found.values, **({} if use is None else {"use": use})}


_RATIO = re.compile(r"(?<!\d)1\s*:\s*(\d+(?:[.,]\d+)?)(?![\d:])")
_TO = frozenset({"to", "kwa", "in", "kati", "katika", ":"})


def _ratio(found: _Mixture, plain: str) -> None:
    """The 400 of "1:400", "1 kwa 400", "moja kwa mia nne"."""
    written = _RATIO.search(plain)
    words = found.wording.words
    for one, other in zip(found.told, found.told[1:], strict=False):
        between = words[one.end : other.start]
        told = one.value == 1 and one.unit is None and other.unit is None
        if told and len(between) == 1 and between[0] in _TO:
            found.used.add(one.start)
            found.put("part", other)
            return
    if written is not None:
        found.values["part"] = Decimal(written[1].replace(",", "."))


def _cattle(found: _Mixture) -> None:
    """How many are washed, and the wash for each."""
    for measure in found.left(None):
        if _beside(measure, "counted", found.wording):
            found.put("animals_count", measure)
    for measure in found.left("l"):
        if not measure.bare and _beside(measure, "each", found.wording):
            found.put("litres_each", measure)


def _beside(measure: Measure, meaning: str, wording: Wording) -> bool:
    return any(spot.end == measure.start or spot.start == measure.end for spot in wording.spots(meaning))


def _filled(found: _Mixture) -> None:
    """The litres of what is to be filled, where it is named."""
    for measure in found.left("l", None):
        if not measure.bare and any(
            0 <= measure.start - spot.end <= 1 or (spot.start - measure.end in (0, 1) and measure.unit == "l"
            and not _tank_follows(found, measure, spot.end))
            for spot in found.wording.spots("tank")
        ):  # fmt: skip
            found.put("tank_litres", measure)


def _tank_follows(found: _Mixture, measure: Measure, end: int) -> bool:
    """Whether the vessel after *measure* has an amount of its own: "IN 10 L PUMP 16 L"."""
    return any(0 <= other.start - end <= 1 for other in found.left("l", None) if other is not measure)


def _rate(found: _Mixture) -> None:
    """The label's millilitres and the litres of water that they are for."""
    drug = next(iter(found.left("ml")), None) or _drug_in_litres(found)
    if drug is None:
        return
    found.put("rate_ml", drug, drug.value if drug.unit == "ml" else drug.value * MILLILITRES)
    for water in found.left("ml", "l"):
        if water.start < drug.start:
            continue
        found.put("in_litres", water, water.value if water.unit == "l" else water.value / MILLILITRES)
        return


def _drug_in_litres(found: _Mixture) -> Measure | None:
    """ "1 L IN 100 L": the first of two amounts of litres with "in" or "kwa" between."""
    litres = [m for m in found.left("l") if not m.bare]
    if len(litres) < 2:
        return None
    between = found.wording.words[litres[0].end : litres[1].start]
    return litres[0] if len(between) == 1 and between[0] in _TO else None


def _use(found: _Mixture) -> str | None:
    """What it is for; a place or another beast named before cattle, cattle counted before a place."""
    wording = found.wording
    if wording.says("other"):
        return "other"
    if "animals_count" in found.values or "litres_each" in found.values:
        return "cattle"
    return "shed" if wording.says("shed") else "cattle" if wording.says("cattle") else None
