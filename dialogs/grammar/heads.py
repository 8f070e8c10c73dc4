"""Which kind a piece of a text tells of, by the meanings in it: one rule after another, the surest first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from dialogs.grammar.items import Item
from service.husbandry.herd import Status

DENIED = "denied"
"""The kind of a piece that says that something did not happen."""

_NOUNS = ("cattle", "cow", "heifer", "in_calf_heifer", "calf", "bull_animal", "steer")


class Said:
    """The meanings of a piece, and how they are told."""

    def __init__(self, items: Sequence[Item]) -> None:
        self.items = items
        self.told: set[str] = set()
        self.refused: set[str] = set()
        for item in items:
            if item.sort == "cue":
                (self.refused if item.denied else self.told).update(item.concepts)
        self.animals = [item for item in items if item.sort == "animal"]
        self.units = {item.unit for item in items if item.sort == "number"}
        self.count = sum(item.sort == "number" for item in items)

    def has(self, *concepts: str) -> bool:
        return not self.told.isdisjoint(concepts)

    def any(self, *concepts: str) -> bool:
        return any(c in self.told or c in self.refused for c in concepts)

    def denies(self, *concepts: str) -> bool:
        return any(c in self.refused for c in concepts)

    def sign(self, prefix: str) -> bool:
        return any(c.startswith(prefix) for c in self.told)

    @property
    def names_cattle(self) -> bool:
        return bool(self.animals) or self.has(*_NOUNS) or self.has("everyone", "calves_all", "heifers_all")

    @property
    def strange(self) -> bool:
        """A word that may be the name of an animal."""
        return any(i.sort == "tag" or (i.sort == "word" and not i.known and len(i.word) > 2) for i in self.items)


def _speaker(said: Said, concept: str) -> bool:
    """Whether the verb of *concept* is said by the farmer of herself (ni-, tu-, "we")."""
    return any(i.has(concept) and i.prefix[:2] in ("ni", "tu", "n") for i in said.items if i.sort == "cue")


def _milk_money(said: Said) -> str | None:
    if said.has("milk_pay") or (said.has("centre") and said.has("pay") and not _speaker(said, "pay")) or (
        said.has("pay", "receive") and said.has("milk") and not said.has("sell", "buy") and "l" not in said.units
        and any(i.has("pay", "receive") and ("lipwa" in i.word or i.word in ("received", "paid")) for i in said.items)
    ):  # fmt: skip
        return "milk_pay"
    if said.any("reject") and (said.has("milk", "centre", "deliver") or "l" in said.units or "kg" in said.units):
        return "delivery"
    if said.has("sell") and not said.animals and not said.has("hold") and (
        said.has("milk", "per_litre") or "l" in said.units or ("kg" in said.units and not said.has("manure", "feed"))
    ):
        return "milk_sale"
    if said.has("buy") and (said.has("milk") or "l" in said.units) and not said.animals and not _speaker(said, "buy") \
            and not said.has("feed", "product", "drug") and _third_person(said, "buy"):  # fmt: skip
        return "milk_sale"
    if said.has("deliver", "centre") and (said.has("milk", "centre") or "l" in said.units) and not said.has(
        "spend", "buy", "vet"
    ) and not _calved(said) and not said.animals and not _to_bull(said):
        if said.has("deliver") or (said.count and said.units & {"l", "kg"}):
            return "delivery"
    return None


def _to_bull(said: Said) -> bool:
    return said.has("bull", "serve")


def _third_person(said: Said, concept: str) -> bool:
    """ "Juma amenunua maziwa": somebody else did it (English: a name before the verb)."""
    for index, item in enumerate(said.items):
        if item.sort == "cue" and item.has(concept):
            if item.prefix:
                return item.prefix[:1] in ("a", "k", "w")
            return index > 0 and said.items[index - 1].sort == "word" and said.items[index - 1].word not in ("i", "we", "have", "ive")
    return False


def _book(said: Said) -> str | None:
    """Who belongs to the herd."""
    if said.has("rename") and said.names_cattle and not said.has("new", "calve") and (said.animals or said.has("calf")):
        return "naming"
    if said.has("new") and (said.has(*_NOUNS, "breed") or said.strange) and not said.has("calve", "sell", "rename"):
        return "new_animal"
    if said.has("buy") and said.has(*_NOUNS) and not said.has("feed", "product", "drug", "milk", "deworm", "spray", "ai"):
        return "new_animal"
    if said.has("slaughter", "stolen", "lost", "die") and (said.animals or said.has(*_NOUNS) or said.strange) \
            and not said.has("calve", "stillborn_only", "hold"):  # fmt: skip
        return "death"
    if said.has("die", "slaughter") and len(said.items) <= 2 and not said.has("stillborn_only", "hold", "meat"):
        return "death"
    if said.has("sell") and (said.animals or said.has(*_NOUNS)) and not said.has("hold", "milk", "manure") \
            and "l" not in said.units:  # fmt: skip
        return "animal_sale"
    if said.has("call_word") and len(said.animals) == 1 and said.strange and not said.has("vet", "technician"):
        return "naming"
    if said.has("named") and said.animals and not said.has("calve", "buy", "new", "straw", "serve", "ai", "born"):
        return "naming"
    return None


def _calved(said: Said) -> bool:
    """ "delivered" alone may be milk."""
    sure = any(i.has("calve") and not i.has("deliver") for i in said.items if i.sort == "cue" and not i.denied)
    milk = said.has("milk", "centre") or bool(said.units & {"l", "kg"})
    return sure or (said.has("calve") and not milk)


def _breeding(said: Said) -> str | None:
    if _calved(said) and not said.has("not_calving"):
        return "calving"
    if said.has("born") and said.has("calf") and said.animals and not said.has("new", "named", "buy"):
        return "calving"
    if said.has("abort") and not said.sign("disease."):
        return "abortion"
    served = said.has("serve", "ai") and not said.has("named_bull_only")
    if served and not _only_straw(said):
        return "service"
    if said.has("pregnant", "empty", "unsure") or said.denies("pregnant"):
        if said.any("pregnant", "empty") or said.has("pd") or said.has("unsure"):
            return "pregnancy_check"
    if said.has("mounted") and not said.sign("heat."):
        return "service"
    if said.has("pd") and not said.has("weight", "chest", "bcs", "task.weigh") and not said.count and not said.sign("sign."):
        return "pregnancy_check"
    if said.has("mounts") and said.has("bull") and len(said.animals) >= 1 and not said.has("mating"):
        return "service"
    if said.has("mounts") and len(said.animals) == 2:
        return "service"
    return None


def _only_straw(said: Said) -> bool:
    return False


def _heat(said: Said) -> str | None:
    if said.has("body_heat") and not said.has("mating"):
        return "illness"
    if said.has("heat", "mating", "hot") or said.sign("heat."):
        return "heat"
    if said.has("blood") and said.any("vulva", "after_heat") or (
        said.has("blood") and _bled(said) and not said.has("outside") and not _other_blood(said)
    ):
        return "heat"
    return None


def _bled(said: Said) -> bool:
    return not any(c.startswith("sign.") and c not in ("sign.bleeding",) for c in said.told)


def _other_blood(said: Said) -> bool:
    return said.has("milk")


def _work(said: Said) -> str | None:
    """What is done to keep a herd well or to treat it."""
    if said.has("vaccinate") and not said.has("spend", "buy", "ask_price"):
        return "vaccination"
    if said.has("disinfect") or (said.has("shed") and (said.has("clean", "spray") and said.has("drug", "product", "spray", "clean_drug"))):
        return "disinfection"
    if said.has("deworm") and not said.has("buy"):
        return "deworming"
    if said.has("spray") and not said.has("buy"):
        return "spraying"
    if said.has("treat") and not said.has("buy", "pay", "spend"):
        return "treatment"
    if said.has("product") and (said.has("give") or said.animals) and not said.has("buy", "feed", "pay", "spend"):
        return "treatment"
    return None


def _body(said: Said) -> str | None:
    if said.has("bcs") and "cm" not in said.units and "kg" not in said.units:
        return "condition"
    if said.has("dry") and not said.has("feed") and not said.has("new"):
        return "drying_off"
    if said.has("wean"):
        return "weaning"
    if said.has("weight") or said.has("chest"):
        if said.has("chest") and "kg" not in said.units or "cm" in said.units:
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
    if said.has("milk", "yield", "feed", "give", "feed_verb", "buy", "sell", "deliver", "centre", "got", "all_of_it"):
        return False
    kilos = max(item.value for item in said.items if item.unit == "kg")
    dryly = [a for a in said.animals if a.value is not None and a.value.status in (Status.CALF, Status.BULL, Status.STEER, Status.HEIFER)]
    return bool(said.animals) and (bool(dryly) or kilos > MOST_MILK_KG)


def _money(said: Said) -> str | None:
    if said.has("hold"):
        return None
    if said.has("sell", "receive") and (said.has("manure", "feed") or said.has("receive") and said.count) \
            and not said.has("give") and not said.sign("sign."):  # fmt: skip
        return "other_income"
    if said.has("sell") and (said.count or said.has("goods", "manure", "feed")):
        return "other_income"
    if said.has("buy"):
        return "expense"
    if said.has("spend", "pay") and (said.count or said.has("money_word")):
        return "expense"
    return None


def _feeding(said: Said) -> str | None:
    if said.has("feed_verb") and not said.sign("sign.") and not said.has("buy"):
        return "feeding"
    if said.has("feed") and said.has("give", "eat", "feed_verb") and not said.has("buy", "sell", "pay"):
        return "feeding"
    if said.has("feed") and "kg" in said.units and not said.has("buy", "sell", "pay", "spend") and "money" not in said.units:
        return "feeding"
    return None


def _milk(said: Said) -> str | None:
    if said.sign("sign.") or said.denies("yield", "milk") or (said.has("hold", "meat") and not said.has("yield")):
        return None
    if said.units & {"day", "hour"} and not said.units & {None, "l", "kg"}:
        return None
    if said.has("milk", "yield") and not said.has("feed"):
        return "milk"
    if said.count and "l" in said.units:
        return "milk"
    return None


def _illness(said: Said) -> str | None:
    if said.has("unwell") or said.sign("sign.") or (said.has("milk") and said.has("fewer")):
        return "illness"
    if said.has("degrees"):
        return "illness"
    return None


_RULES: tuple[Callable[[Said], str | None], ...] = (
    _milk_money, _book, _breeding, _body, _work, _feeding, _heat, _money, _illness, _milk,
)  # fmt: skip

_DENIABLE = (
    "serve", "ai", "mounted", "calve", "abort", "dry", "wean", "vaccinate", "deworm", "spray", "disinfect", "treat",
    "sell", "die", "slaughter", "lost", "stolen", "heat", "mating", "milk", "yield", "feed_verb", "give", "buy",
    "deliver", "pay", "measure", "chest", "weight", "done",
)  # fmt: skip


def head_of(items: Sequence[Item]) -> str | None:
    """The kind that *items* tell of; ``denied`` where they deny one; None where they name none."""
    said = Said(items)
    if said.has("undo") and not said.animals and not said.has("serve", "calve"):
        return "undo"
    for rule in _RULES:
        kind = rule(said)
        if kind is not None:
            return kind
    if said.has("hold") and said.animals and said.count:
        return "treatment"
    if said.denies(*_DENIABLE) or any(
        i.denied and i.starts("sign.") for i in said.items if i.sort == "cue"
    ):
        return DENIED
    if said.animals or said.strange:
        bare = [i for i in items if i.sort == "number" and i.unit in (None, "l", "kg")]
        if bare and not said.has("hold"):
            return "milk"
    return None
