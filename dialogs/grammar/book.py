"""Who belongs to the herd: sales, deaths, new animals, names."""

from __future__ import annotations

import itertools
from datetime import date, timedelta
from typing import Any

from dialogs.grammar import slots
from dialogs.grammar.buyers import buyer, on_credit
from dialogs.grammar.clauses import Clause
from dialogs.grammar.found import (
    Found,
    Scene,
    Subject,
    as_values,
    day_values,
    display,
    is_strange,
    likely,
    subjects,
)
from dialogs.grammar.items import Item
from dialogs.grammar.when import ABOUT_DAY, Day, about_month, collect, months_before
from dialogs.grammar.words import VOCABULARY
from service.husbandry.herd import Status
from service.husbandry.kinds import AnimalSale, Death, Naming, NewAnimal, PregnancyCheck

_FEMALE = (
    "female", "cow", "heifer", "in_calf_heifer", "milking", "milking_all", "dry_now", "pregnant", "calve",
    "milk",
)  # fmt: skip
_MALE = ("male", "bull_animal", "steer")


def animal_sale(clause: Clause, scene: Scene) -> list[Found]:
    credit = on_credit(clause)
    who_bought = buyer(clause)
    used = [
        i for i in clause.items if who_bought and clause.text.written(i.start, i.end) in who_bought.split()
    ]
    used = [i for i in used if i.sort != "animal"]
    values: dict[str, Any] = {
        **day_values(clause, scene), "amount": slots.first_sum(clause, scene), "buyer": who_bought,
        "credit": credit,
    }  # fmt: skip
    return [Found(AnimalSale, values, subjects(clause, scene, used), [], likely(clause, scene))]


def death(clause: Clause, scene: Scene) -> list[Found]:
    used: list[Item] = []
    reason = _reason(clause, used)
    who = subjects(clause, scene, used)
    if clause.has("calf") and not any(s.known is None or s.known.status is Status.CALF for s in who):
        who = []  # the calf that died is not the cow named beside it
    return [Found(Death, {**day_values(clause, scene), "reason": reason}, who, [], likely(clause, scene))]


def _reason(clause: Clause, used: list[Item]) -> str | None:
    for concept in ("slaughter", "stolen", "accident"):
        if clause.has(concept):
            return {"slaughter": "slaughtered"}.get(concept, concept)
    if clause.has("lost") and not clause.has("die"):
        return "lost"
    for item in clause.items:
        if item.sort == "cue" and (item.has("sickness", "unwell") or item.starts("sign.")):
            return "sick"
    for index, item in enumerate(clause.items):
        if (
            item.word in ("kwa", "of", "from", "by", "due", "because", "sababu", "after", "kutokana")
            and index
        ):
            told = slots.phrase_after(clause, index)
            if told is not None and not (told[1][0].sort == "animal" and told[1][0].other is None):
                used.extend(told[1])
                words = [w for w in told[0].split() if w.lower() not in ("sababu", "ya", "to", "of", "na")]
                return " ".join(words) or None
    return None


def naming(clause: Clause, scene: Scene) -> list[Found]:
    items = clause.items
    intro = max((i for i, item in enumerate(items) if item.has("named", "rename", "call_word")), default=None)
    to = next(
        (
            i
            for i, item in enumerate(items)
            if item.word in ("to", "kuwa", "iwe", "as", "liwe", "awe", "kwenda")
            and intro is not None
            and i > intro
        ),
        None,
    )
    if intro is None:
        intro = next((i for i, item in enumerate(items) if item.word in ("is", "ni")), None)
    name: Item | None = None
    for start in (to, intro):
        if start is None or name is not None:
            continue
        name = next((i for i in items[start + 1 :] if _nameable(i)), None)
    if name is not None and name.sort == "animal" and sum(i.sort == "animal" for i in items) < 2:
        name = next((i for i in items[items.index(name) + 1 :] if _nameable(i)), None)
    if name is None:
        name = next((i for i in reversed(items) if is_strange(i)), None)
    who = subjects(clause, scene, [] if name is None else [name])
    values: dict[str, Any] = {**day_values(clause, scene)}
    if name is not None:
        values["name"] = display(scene.text, name)
    return [Found(Naming, values, who[:1], [], likely(clause, scene))]


def _nameable(item: Item) -> bool:
    return (
        is_strange(item)
        or item.sort == "animal"
        or (item.capital and not item.digits and item.sort in ("word", "cue", "when", "number"))
    )


def _described(clause: Clause, scene: Scene) -> list[Found] | None:
    """What is told of an animal of the herd beside what is known: "Neema ni Friesian"."""
    known = [item for item in clause.items if item.sort == "animal" and item.value is not None]
    if not known or clause.has("new", "buy"):
        return None
    child = _child(clause, known)  # also in "mama wa Neema ni Zawadi"
    values: dict[str, Any] = {"name": child.value.name, "breed": _breed(clause), **_birth(clause, scene)}
    if child.value.sex is not None:
        values["sex"] = child.value.sex.value
    mother = next((item for item in known if item is not child), None)
    if mother is not None and clause.says("dam"):
        values["dam"] = mother.value.name
    return [Found(NewAnimal, {key: value for key, value in values.items() if value is not None})]


def _child(clause: Clause, known: list[Item]) -> Item:
    """Whose mother is told: the first named, but in "Neema ni mama wa Kito" the second."""
    at = next((i for i, item in enumerate(clause.items) if item.has("dam")), None)
    if at is None or len(known) < 2:
        return known[0]
    before = [i for i in clause.items[:at] if i.word not in ("the", "a")]
    is_hers = len(before) > 1 and before[-1].word in ("ni", "is", "was") and before[-2] is known[0]
    return known[1] if is_hers else known[0]


def new_animal(clause: Clause, scene: Scene) -> list[Found]:
    described = _described(clause, scene)
    if described is not None:
        return described
    name = new_name(clause)
    used = [] if name is None else [name]
    values: dict[str, Any] = {"sex": sex(clause), "status": status(clause), "breed": _breed(clause)}
    values = {key: value for key, value in values.items() if value is not None}
    if name is not None and name.sort == "animal" and name.value is not None and name.value.sex is not None:
        values.setdefault("sex", name.value.sex.value)  # told as new again: it is asked about
    if name is not None:
        values["name"] = display(scene.text, name)
    values.update(_birth(clause, scene))
    dam = _dam(clause, used)
    if dam is not None:
        values["dam"] = dam
    if any(i.has("buy", "price_word", "money_word") for i in clause.items if i.sort == "cue") or slots.sums(
        clause
    ):
        price = [
            i for i in slots.sums(clause) if not (1990 <= i.value <= 2099 and i.unit is None and not i.hint)
        ]
        if price:
            values["price"] = slots.money(price[0], scene)
    return [Found(NewAnimal, values), *in_calf_too(clause, scene, values)]


def in_calf_too(clause: Clause, scene: Scene, values: dict[str, Any]) -> list[Found]:
    """The pregnancy of a cow told with her entering; a heifer's status says it unless months are told."""
    months = next(iter(clause.numbers("month")), None)
    if not clause.has("pregnant") or clause.kind == "pregnancy_check" or "name" not in values:
        return []
    if months is None and values.get("status") not in ("dry", "milking"):
        return []
    told = {
        "on": values.get("on", scene.now.date()),
        "result": "pregnant",
        "months": None if months is None else months.value,
    }
    return [Found(PregnancyCheck, told, [Subject(values["name"])])]


def new_name(clause: Clause) -> Item | None:
    """The item that names the animal entered."""
    items = clause.items
    for index, item in enumerate(items):
        if item.has("named") and not item.has("dam"):
            if any(b.has("dam", "sire_word") for b in items[max(0, index - 1) : index]):
                continue
            named = next((i for i in items[index + 1 : index + 4] if _nameable(i) and i.word != "ni"), None)
            if named is not None:
                return named
    for index, item in enumerate(items):
        before = items[index - 1] if index else None
        if (is_strange(item) or (item.sort == "animal")) and not (
            before is not None
            and (before.has("dam", "sire_word", "buy") or before.word in ("from", "to", "by", "kwa", "of"))
        ):
            return item
    return next((item for item in items[1:] if _odd_name(clause, item)), None)


_SAYS_WHAT_IT_IS = (
    "cattle", "calf", "breed", "new", "born", "named", "dam", "sire_word", "buy", "age", "price_word",
)  # fmt: skip


def _odd_name(clause: Clause, item: Item) -> bool:
    """A word of the vocabulary that is a name here, by its capital: "register dry cow Bibi"."""
    if item.digits:
        return False
    if item.word in VOCABULARY.names and not item.has("breed", "milk"):
        return True
    if not item.capital or clause.text.raw.isupper():
        return False
    if item.sort == "cue":
        return not item.has(*_FEMALE, *_MALE, *_SAYS_WHAT_IT_IS)
    return item.sort in ("word", "number")


def sex(clause: Clause) -> str | None:
    """Female or male, where a word tells it."""
    for item in clause.items:
        if item.sort != "cue" or item.denied:
            continue
        if item.has(*_MALE) and not item.has("heifer"):
            return "male"
        if item.has(*_FEMALE):
            return "female"
    return None


def status(clause: Clause) -> str | None:
    heifer = clause.has("heifer", "in_calf_heifer")
    if clause.has("in_calf_heifer") or (heifer and clause.has("pregnant")):
        return "in_calf_heifer"
    if clause.has("steer"):
        return "steer"
    if clause.has("calf"):
        return "calf"
    if heifer:
        return "heifer"
    if clause.has("dry_now"):
        return "dry"
    if clause.has("milking", "milking_all"):
        return "milking"
    if clause.has("bull_animal") and not clause.has("calf"):
        return "bull"
    return None


def _breed(clause: Clause) -> str | None:
    named = [i for i in clause.items if i.sort == "cue" and i.has("breed")]
    if named:
        last = named[0]
        for item in named[1:]:
            if item.start == last.end:
                last = item
        return clause.text.written(named[0].start, last.end)
    for index, item in enumerate(clause.items):
        if item.has("breed_word") and item.word in ("breed", "aina"):
            told = next(
                (i for i in clause.items[index + 1 : index + 3] if i.sort == "word" and not i.known), None
            )
            if told is not None:
                return clause.text.written(told.start, told.end)
    return None


def _dam(clause: Clause, used: list[Item]) -> str | None:
    items = clause.items
    for before, item in itertools.pairwise(items):
        if before.word == "to" and item.sort == "animal" and item.value is not None and clause.says("born"):
            return str(item.value.name)
    for index, item in enumerate(items):
        if item.has("dam") and item.word != "from":
            named = slots.name_after(clause, index)
            if named is not None and all(i is not u for i in named[1] for u in used):
                used.extend(named[1])
                first = named[1][0]
                return (
                    str(first.value.name) if first.sort == "animal" and first.value is not None else named[0]
                )
    return None


def _birth(clause: Clause, scene: Scene) -> dict[str, Any]:
    """The day of birth and the day of entering; an age gives the birth within its month."""
    today = scene.now.date()
    items = clause.items
    born_at = next((i for i, item in enumerate(items) if item.has("born")), None)
    days = [i for i, item in enumerate(items) if item.sort == "when" and isinstance(item.value, Day)]
    entered = collect([items[i] for i in days if born_at is None or i < born_at])
    on = as_values(entered.day) if entered.day is not None else {"on": today}
    if born_at is None:
        return {**on, **_by_age(clause, today)}
    told = next((items[i].value for i in days if i > born_at), None)
    if told is None and days:
        told, on = items[days[0]].value, {"on": today}
    if told is not None:
        return {**on, "born": told.on, **({"about": True} if told.about else {})}
    year = next(
        (
            i
            for i in items[born_at + 1 :]
            if i.sort == "number" and i.digits and 1990 <= i.value <= today.year
        ),
        None,
    )
    if year is not None:
        return {**on, "born": about_month(today, 7, int(year.value)), "about": True}
    return {**on, **_by_age(clause, today)}


def _by_age(clause: Clause, today: date) -> dict[str, Any]:
    for item in clause.items:
        if item.sort != "number" or item.unit not in ("day", "week", "month", "year") or item.value > 1000:
            continue
        if clause.has("pregnant", "in_calf_heifer", "milking", "milk") and not clause.has("age"):
            continue
        if item.unit in ("day", "week"):
            return {"born": today - timedelta(days=int(item.value * (7 if item.unit == "week" else 1)))}
        months = int(item.value * (12 if item.unit == "year" else 1))
        year, month = months_before(today, months)
        return {"born": min(date(year, month, ABOUT_DAY), today), "about": True}
    return {}
