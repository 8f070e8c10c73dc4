"""What is done to keep a herd well or to treat it, and the signs of illness."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import Found, Scene, Subject, day_values, likely, subjects
from dialogs.grammar.heads_drugs import INTO_THE_UDDER, drug_put_in, is_drying
from dialogs.grammar.items import Item
from dialogs.grammar.names import joined
from dialogs.grammar.when import Clock, Part, When, moment_of
from service.husbandry.forms import EVERY_ANIMAL, Entry
from service.husbandry.kinds import (
    Deworming,
    Disinfection,
    Done,
    DryingOff,
    Illness,
    Recovery,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.signs import ILLNESS_SIGNS

FEVER_FROM = Decimal("39.5")
"""Degrees C from which a temperature told is a sign of illness (alarm of the trade sheet, from memory)."""


def _group(kind: type[Entry], clause: Clause, scene: Scene, *, everyone: bool) -> tuple[Found, list[Item]]:
    used: list[Item] = []
    product = None if kind is Vaccination else slots.product(clause, scene, used)
    who = subjects(clause, scene, [*used, *_all_of_the_udder(clause)])
    group = likely(clause, scene)
    who = who or of_group(clause, scene)
    if not who and everyone and not group:
        who = [Subject(EVERY_ANIMAL)]
    values: dict[str, Any] = {**day_values(clause, scene), **slots.holds(clause)}
    if kind is not Vaccination:
        values["product"] = product
    return Found(kind, values, who, [], likely(clause, scene)), used


def _all_of_the_udder(clause: Clause) -> list[Item]:
    """The "all" of "chuchu zote nne", "all four quarters": of teats, not of animals."""
    items = clause.items
    return [
        item for at, item in enumerate(items)
        if item.has("everyone") and any(i.word in INTO_THE_UDDER for i in items[max(0, at - 2) : at + 3])
    ]  # fmt: skip


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
        or (item.word in _PLURALS and not item.has("female", "male"))
        for item in clause.items
        if item.sort == "cue"
    )


_PLURALS = ("ndama", "ndma", "mitamba", "calves", "calfs", "heifers")


def count(found: Found) -> int | None:
    """How many animals a telling is about; None for all."""
    return None if any(s.name == EVERY_ANIMAL for s in found.subjects) else len(found.subjects)


def deworming(clause: Clause, scene: Scene) -> list[Found]:
    found, _ = _group(Deworming, clause, scene, everyone=True)
    amounts = clause.numbers("ml")
    if len(amounts) == len(found.subjects) > 1:  # "Neema ml 30 Tausi ml 25"
        return [
            Found(Deworming, {**found.values, "amount_ml": item.value}, [subject], [], found.options)
            for item, subject in zip(amounts, found.subjects, strict=True)
        ]
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
    if _why_refused(clause, scene):
        return []
    if any(
        token.word in _FINISHED
        for item in clause.items
        for token in clause.text.tokens[item.start : item.end]
    ):
        found.flags.append("slip")  # "finished her antibiotics": which day she last had them is not told
    found.values["reason"] = _reason(clause, used)
    found.values["last_dose"] = _last_dose(clause, scene)
    if not _at_drying_off(clause, scene):
        return [found]
    found.values.update(dry_cow=True, reason=None)
    if found.values.get("product") is None:
        found.values["product"] = _drug_named(clause)
    return [found, *(_dried(found) if _is_dried(clause) else [])]


_FINISHED = frozenset(
    {"finished", "completed", "ended", "amemaliza", "kamaliza", "wamemaliza", "imeisha", "imekwisha"}
)


def _why_refused(clause: Clause, scene: Scene) -> bool:
    """Whether a drug only tells why milk was refused: "centre refused 8 litres, antibiotics"."""
    own = any(item.sort == "animal" or item.has("everyone") or item.prefix for item in clause.items)
    refused = any(item.has("reject") and not item.denied for item in scene.text.items)
    return refused and not own and not clause.has("give")


def _at_drying_off(clause: Clause, scene: Scene) -> bool:
    """Whether the drug was put in as she was dried off, told in this clause or beside it."""
    if clause.cues("dry_tube") or any(map(is_drying, clause.items)):
        return True
    beside = any(map(is_drying, scene.text.items))
    local = any(item.word in INTO_THE_UDDER for item in clause.items) or clause.says("sign.udder_hard")
    nameless = drug_put_in(clause.items) is not None and not clause.says("product")
    return beside and (local or nameless) and not clause.says("sickness", "deworm")


def _is_dried(clause: Clause) -> bool:
    """Whether a verb says that she is dried; in "dawa ya kukausha" it only names the drug."""
    for index, item in enumerate(clause.items):
        before = clause.items[index - 1].word if index else ""
        infinitive = item.prefix.startswith("ku") or item.word.startswith("kukau")
        if is_drying(item) and not item.has("dry_tube") and not (infinitive and before in _NAMING):
            return True
    return False


_NAMING = ("ya", "za", "la", "cha", "for", "to", "of", "wakati")


def _drug_named(clause: Clause) -> str | None:
    """The drug as written, with what it is said to be for: "dawa ya kukausha", "tubes"."""
    tubes = next(iter(clause.cues("dry_tube")), None)
    if tubes is not None:
        words = [token.word for token in clause.text.tokens[tubes.start : tubes.end]]
        noun = next((at for at, word in enumerate(words) if word in _NOUNS_OF_A_DRUG), 0)
        return clause.text.written(tubes.start + noun, tubes.end)
    drug = drug_put_in(clause.items)
    if drug is None:
        return None
    at, start = clause.index(drug), drug.start + bool(drug.prefix)
    beside = clause.items[at + 1 : at + 3]
    joined_on = len(beside) == 2 and beside[0].word in _NAMING and beside[1].sort in ("word", "cue")
    named = clause.text.written(start, beside[1].end if joined_on else drug.end)
    return named if named.lower() not in _SAY_NOTHING else None


_NOUNS_OF_A_DRUG = frozenset({
    "dawa", "sindano", "tube", "tubes", "tyubu", "dry", "drying", "long", "antibiotic", "medicine",
})  # fmt: skip
"""Words that a drug's name begins with, after the verb of giving it and perhaps the cow's name."""

_SAY_NOTHING = ("", "dawa", "drug", "medicine", "drugs", "sindano", "injection", "treatment", "treated")


_PARTLY = frozenset({
    "kidogo", "slightly", "bit", "little", "getting", "taratibu", "polepole", "somewhat", "anaendelea",
    "improving", "kiasi", "slowly", "almost", "karibu", "partly", "hope", "hoping", "natumaini",
    "tunatumaini", "pray", "naomba", "tunaomba",
    "if", "when", "akipona", "wakipona", "until", "mpaka", "hadi", "ikiwa", "kama", "would",
})  # fmt: skip
"""Words by which she is not well yet, or is only hoped to be."""


def _only_partly(clause: Clause) -> bool:
    if any(token.word in ("bado", "still") for token in clause.text.tokens):
        return True
    return any(token.word in _PARTLY for i in clause.items for token in clause.text.tokens[i.start : i.end])


def _dried(tubes: Found) -> list[Found]:
    """The drying off that the same words tell: "amekaushwa na dawa ya kukaushia"."""
    when: dict[str, Any] = {key: tubes.values[key] for key in ("on", "about") if key in tubes.values}
    return [Found(DryingOff, {**when}, [subject]) for subject in tubes.subjects]


def _last_dose(clause: Clause, scene: Scene) -> datetime | None:
    """The hour of the dose, of several the last; None where none is told."""
    clocks = [i for i in clause.items if i.sort == "when" and isinstance(i.value, Clock)]
    if not clocks:
        return None
    parts = [i.value for i in clause.items if i.sort == "when" and isinstance(i.value, Part)]
    return moment_of(When(clause.when.day, parts[-1] if parts else None, clocks[-1].value), scene.now)


def afterbirth_out(clause: Clause, scene: Scene) -> list[Found]:
    """The afterbirth of the cow named has come: what was watched for is over."""
    who = tuple(s.name for s in subjects(clause, scene) if s.name not in (None, EVERY_ANIMAL))
    if not who:
        return []
    return [Found(Done, {"task": "afterbirth", "animals": who, "numbers": (), "on": scene.now.date()})]


def recovery(clause: Clause, scene: Scene) -> list[Found]:
    if _only_partly(clause):
        return []
    return [Found(Recovery, day_values(clause, scene), subjects(clause, scene), [], likely(clause, scene))]


def _reason(clause: Clause, used: list[Item]) -> str | None:
    """What a treatment was for, as written: the illness or sign named."""
    taken = {id(item) for item in used}
    cues = [item for item in clause.items if item.sort == "cue" and id(item) not in taken]
    named = [i for i in cues if i.starts("sign.") or i.starts("disease.") or i.has("lactation_fever")]
    for item in named or [i for i in cues if i.has("deworm")]:
        return clause.text.written(item.start, item.end)
    for index, item in enumerate(clause.items):
        if item.has("sickness") and item.word in ("ugonjwa", "disease"):
            told = slots.phrase_after(clause, index)
            return clause.text.written(item.start, item.end) + (f" {told[0]}" if told else "")
    return None


def illness(clause: Clause, scene: Scene) -> list[Found]:
    signs = [s for s in clause.signs("sign.") if s in ILLNESS_SIGNS]
    if clause.says("afterbirth_out"):  # told of in an illness, it has come in part
        signs.append("afterbirth")
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
    if "udder_clots" in signs and _only_named(clause):
        signs = [sign for sign in signs if sign != "udder_hard"]
    values: dict[str, Any] = day_values(clause, scene)
    if signs:
        values["signs"] = tuple(_plain(signs))
    return [Found(Illness, values, subjects(clause, scene), [], likely(clause, scene))]


def _only_named(clause: Clause) -> bool:
    """Whether a hard udder is told by the name of the illness alone, which its own signs put closer."""
    hard = [item for item in clause.items if item.has("sign.udder_hard")]
    return all(item.word in ("mastitis", "mastaitis") for item in hard)


def _plain(signs: list[str]) -> list[str]:
    """Without a general sign that only words a closer one: blood in milk is clots, not bleeding."""
    closer = {"udder_clots", "red_urine"} & set(signs)
    return [s for s in dict.fromkeys(signs) if s != "bleeding" or not closer]
