"""The kinds that tell of an animal herself: breeding, heat, her body, illness, and what is done for her."""

from __future__ import annotations

import re

from dialogs.grammar.items import Item
from dialogs.grammar.said import DENIED, Said
from service.husbandry.herd import Status


def calved(said: Said) -> bool:
    """ "delivered" alone may be milk."""
    sure = any(
        i.has("calve") and not i.has("deliver") for i in said.items if i.sort == "cue" and not i.denied
    )
    milk = said.has("milk", "centre") or bool(said.units & {"l", "kg"})
    return sure or (said.has("calve") and not milk)


def _came_out(said: Said) -> bool:
    """ "alishika mimba lakini imetoka"."""
    at = next((i for i, item in enumerate(said.items) if item.has("pregnant")), len(said.items))
    return any(item.word in ("imetoka", "ilitoka", "imeharibika", "iliharibika") for item in said.items[at:])


def breeding(said: Said) -> str | None:
    if calved(said) and said.of_people and not any(i.word in ("i", "im", "mimi") for i in said.items):
        return None  # "mke wangu amejifungua"
    if calved(said) and not said.has("not_calving"):
        return "calving"
    told = said.has("female", "male") or not said.has("named")  # a sex beside the name tells of a birth
    if said.has("born") and said.has("calf") and said.animals and told and not said.has("new", "buy"):
        return "calving"
    if said.has("deliver", "take") and said.has("bull") and said.animals and not said.has("sell", "milk"):
        return "service"
    if (said.has("abort") or _came_out(said)) and not said.sign("disease."):
        return "abortion"
    if said.has("serve", "ai"):
        return "service"
    if said.denies("die", "slaughter", "stolen", "lost", "sell") and not said.animals:
        return None  # "no calf died"
    if said.has("pregnant", "empty", "unsure") or said.denies("pregnant"):
        return "pregnancy_check"
    if said.has("mounted") and not said.sign("heat."):
        return "service"
    if (
        said.has("pd")
        and not said.has("weight", "chest", "bcs", "task.weigh")
        and not said.count
        and not said.sign("sign.")
    ):
        return "pregnancy_check"
    if said.has("mounts") and said.has("bull") and len(said.animals) >= 1 and not said.has("mating"):
        return "service"
    if said.has("mounts") and len(said.animals) == 2:
        male = any(
            a.value is not None and a.value.status in (Status.BULL, Status.STEER) for a in said.animals
        )
        return "service" if male else "heat"  # a cow that mounts another serves her not
    return None


def _weather(said: Said) -> bool:
    """ "leo kuna joto sana", "it is very hot today": no animal is spoken of."""
    if said.names_cattle or said.strange or said.has("mating") or said.sign("heat."):
        return False
    speaks = any(i.word in ("kuna", "kali", "it", "weather", "hewa", "jua", "kulikuwa") for i in said.items)
    return (speaks and not said.sign("sign.")) or said.has("state", "shed")


_OVER = frozenset({"limeisha", "limekwisha", "limepita", "limetoka", "over", "gone", "finished", "ended"})


def heat(said: Said) -> str | None:
    if said.has("heat") and (said.has("done") or any(item.word in _OVER for item in said.items)):
        return DENIED  # "joto limeisha"
    if _weather(said) and not any(item.word in ("she", "he", "ana") for item in said.items):
        return None
    if said.has("body_heat") and not said.has("mating"):
        return "illness"
    if said.has("heat", "mating", "hot") or said.sign("heat."):
        return "heat"
    if said.has("blood") and (said.any("vulva", "after_heat") or _only_bled(said)):
        return "heat"
    return None


def _only_bled(said: Said) -> bool:
    """ "Zawadi ametokwa na damu": blood of a named animal, with no place and no other sign told."""
    other = any(c.startswith("sign.") and c != "sign.bleeding" for c in said.told)
    return bool(said.animals) and not other and not said.has("outside", "milk")


LEAST_PRICE = 500
"""Shillings from which a bare number beside a drug is its price."""


def _priced_drug(said: Said) -> bool:
    """ "dawa ya minyoo 8000", "nimelipia chanjo 12000": bought or paid for, of no animal told as done."""
    numbers = [i for i in said.items if i.sort == "number"]
    sums = [i for i in numbers if i.unit in (None, "money") and i.value >= LEAST_PRICE]
    drugs = [i for i in said.items if i.sort == "cue" and i.has(*_DRUGS) and not i.denied]
    done = said.has("give", "shed", "disinfect", "sell", "hold", "done")
    if not sums or not drugs or said.names_cattle or done:
        return False
    named = all(not i.prefix and not i.word.endswith("ed") for i in drugs)
    disease = said.sign("disease.") and not said.has("pay", "spend")
    return named and not disease and not any(i.unit in ("ml", "day", "l") for i in said.items)


_DRUGS = ("deworm", "spray", "vaccinate", "treat", "drug", "product", "worm_drug")


def _with_a_drug(item: Item) -> bool:
    """ "banda limepigwa dawa": a verb of cleaning that names the drug."""
    return item.has("clean") and item.end - item.start > 1


def work(said: Said) -> str | None:
    """What is done to keep a herd well or to treat it."""
    if _priced_drug(said):
        return "expense"
    if _jab(said):
        return "vaccination"
    if (
        said.has("drug")
        and said.animals
        and (said.sign("sign.") or said.has("sickness"))
        and not said.has("buy", "deworm")
    ):
        return "treatment"
    if said.has("vaccinate") and not said.has("spend", "buy", "ask_price"):
        return "vaccination"
    if said.has("disinfect") or (
        said.has("shed")
        and said.has("clean", "spray")
        and (said.has("drug", "product", "spray", "clean_drug") or any(_with_a_drug(i) for i in said.items))
    ):
        return "disinfection"
    if (
        said.has("worm_drug")
        and (said.animals or said.has("give", "everyone"))
        and not said.has("buy", "sickness")
    ):
        return "deworming"
    if said.has("deworm") and not said.has("buy") and not (said.has("spend") and _has_a_sum(said)):
        return "deworming"
    if said.has("spray") and not said.has("buy") and not (said.has("spend") and _has_a_sum(said)):
        return "spraying"
    if said.has("treat") and not said.has("buy", "pay", "spend"):
        return "treatment"
    if (
        said.has("product")
        and (said.has("give") or said.animals)
        and not said.has("buy", "feed", "pay", "spend")
    ):
        return "treatment"
    return None


def _has_a_sum(said: Said) -> bool:
    """Whether a number is money beyond doubt: "matumizi dawa ya kupe 12000/-"."""
    return any(i.sort == "number" and (i.unit == "money" or i.hint == "money" or i.value >= 1000)
               for i in said.items)  # fmt: skip


_NOT_A_COW = re.compile(r"(?:u|ki|vi|li|zi|pa)(?:me|na|li|ta)")


def _dried(said: Said) -> bool:
    """Whether an animal dried: "mto umekauka" is a river."""
    return any(
        i.has("dry") and not i.denied and not _NOT_A_COW.match(i.prefix)
        for i in said.items
        if i.sort == "cue"
    )


def _jab(said: Said) -> bool:
    """ "sindano ya chambavu": a needle against a disease that is vaccinated against, not cured."""
    needle = any(i.word in ("sindano", "injection", "jab", "shot") for i in said.items if i.sort == "cue")
    diseases = [c for c in said.told if c.startswith("disease.") and c != "disease.ecf"]
    return needle and bool(diseases) and not said.has("product", "buy")


def body(said: Said) -> str | None:
    if said.has("bcs") and "cm" not in said.units and "kg" not in said.units:
        return "condition"
    if _dried(said) and not said.has("feed") and not said.has("new"):
        return "drying_off"
    if said.has("wean"):
        return "weaning"
    if said.has("weight") or said.has("chest"):
        if (said.has("chest") and "kg" not in said.units) or "cm" in said.units:
            return "girth"
        return "weight"
    if "cm" in said.units:
        return "girth"
    if "kg" in said.units and (said.has("measure") or _bare_weight(said)):
        return "weight"
    return None


MOST_MILK_KG = 50
"""Kilograms above which a bare number beside a name is her weight, not her milk."""


def _bare_weight(said: Said) -> bool:
    """ "Kito kilo 45": kilograms of an animal that gives no milk, or too many to be milk."""
    if said.has(
        "milk", "yield", "feed", "give", "feed_verb", "buy", "sell", "deliver", "centre", "got", "all_of_it"
    ):
        return False
    kilos = max(item.value for item in said.items if item.unit == "kg")
    dryly = [
        a
        for a in said.animals
        if a.value is not None and a.value.status in (Status.CALF, Status.BULL, Status.STEER, Status.HEIFER)
    ]
    return bool(said.animals) and (bool(dryly) or kilos > MOST_MILK_KG)


def illness(said: Said) -> str | None:
    if said.of_people:
        return None
    if said.has("unwell") or said.sign("sign.") or (said.has("milk") and said.has("fewer")) \
            or said.has("lactation_fever"):  # fmt: skip
        return "illness"
    if said.has("degrees") or said.denies("afterbirth_out"):
        return "illness"
    return None
