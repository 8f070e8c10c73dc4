"""Answers to an illness told, and to a recovery: how soon the vet, what to do meanwhile, what not to do."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta

from dialogs.confirm.breeding import abortion
from dialogs.confirm.noted import Ways, follow, noted, one_way
from dialogs.outcome import Outcome
from dialogs.phrases import signs, who
from service.husbandry.herd import Animal, Told
from service.husbandry.holds import drug_hold
from service.husbandry.kinds.health import Illness
from service.husbandry.life import gives_milk, is_calf
from service.husbandry.triage import DANGER, Triage, Urgency, triage
from service.messages import Say, say

CARE: Mapping[str, str] = {
    **{sign: sign for sign in DANGER},
    "afterbirth": "afterbirth",
    "udder_clots": "udder",
    "udder_hard": "udder",
    "mouth_sores": "apart",
    "skin_lumps": "apart",
    "diarrhoea": "diarrhoea",
    "lame": "lame",
    "milk_drop": "milk_drop",
}
"""Signs that have a care of their own until the vet comes, and its text."""

HOW: Mapping[Urgency, str] = {
    Urgency.NOW: "illness.danger",
    Urgency.TODAY: "illness.today",
    Urgency.WATCH: "illness.watch",
}


def illness(told: Told, outcome: Outcome, language: str) -> Ways:
    entry, animal = told.entry, outcome.animal(told)
    if not isinstance(entry, Illness) or animal is None:
        return noted(told, outcome, language)
    if "abortion" in entry.signs:
        return abortion(told, outcome, language)
    values = {"name": animal.name, "who": who(outcome.people, "vet")}
    if "sudden_death" in entry.signs:
        return one_way(Say("illness.sudden", {**values, "meanwhile": say("meanwhile.sudden_death")}))
    if entry.signs == ("ticks",):
        return one_way(Say("illness.ticks", values))
    found = sorted_out(entry, animal)
    values["meanwhile"] = say(f"meanwhile.{_care(found, entry, animal)}")
    if found.urgency is Urgency.WATCH:
        values["on"] = outcome.today + timedelta(days=1)
    return tuple(
        (Say(HOW[found.urgency], {**values, "what": signs(those, language)}), say("illness.caution"))
        for those in (entry.signs, (found.sign,))
    )


def sorted_out(entry: Illness, animal: Animal) -> Triage:
    """How urgent *entry* is, with what was told of the same day before; it names a sign of its own."""
    earlier = animal.ill_signs if animal.ill_on == entry.on else ()
    alone = triage(entry.signs, animal, entry.on, worse=entry.worse)
    together = tuple(dict.fromkeys((*entry.signs, *earlier)))
    return Triage(triage(together, animal, entry.on, worse=entry.worse).urgency, alone.sign)


def _care(found: Triage, entry: Illness, animal: Animal) -> str:
    if found.sign == "diarrhoea" and is_calf(animal, entry.on):
        return "scour"
    return CARE.get(found.sign, "default")


def recovery(told: Told, outcome: Outcome, language: str) -> Ways:
    """It is not asked about any more; where a drug was given, its hold goes on."""
    animal = outcome.animal(told)
    held = None if animal is None or not gives_milk(animal) else drug_hold(animal, outcome.today)
    return follow(told, outcome, language, *([say("recovery.held")] if held is not None else []))
