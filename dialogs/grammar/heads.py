"""Which kind a piece of a text tells of, by the meanings in it: one rule after another, the surest first."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from dialogs.grammar.items import Item
from dialogs.grammar.words import VOCABULARY
from service.husbandry.herd import Status

DENIED = "denied"
"""The kind of a piece that says that something did not happen."""

_NOUNS = ("cattle", "cow", "heifer", "in_calf_heifer", "calf", "bull_animal", "steer")


_PEOPLE = frozenset({
    "mama", "baba", "mtoto", "watoto", "mke", "mume", "kaka", "dada", "bibi", "babu", "mimi", "jirani",
    "rafiki", "mwalimu", "shangazi", "mjomba", "i", "im", "wife", "husband", "child", "children",
    "mother", "father", "brother", "sister", "son", "daughter", "grandmother", "grandfather", "uncle",
    "aunt", "neighbour", "neighbor", "friend",
})  # fmt: skip
"""Words by which a text speaks of people's health, which is not ours to write down."""


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
    def of_people(self) -> bool:
        """Whether it is a person that is spoken of: "mtoto wangu ana homa"."""
        return not self.names_cattle and any(item.word in _PEOPLE for item in self.items)

    @property
    def strange(self) -> bool:
        """A word that may be the name of an animal."""
        return any(
            i.sort == "tag" or (i.sort == "word" and not i.known and len(i.word) > 2) for i in self.items
        )


def _speaker(said: Said, concept: str) -> bool:
    """Whether the verb of *concept* is said by the farmer of herself (ni-, tu-, "we")."""
    return any(
        i.has(concept) and i.prefix[:2] in ("ni", "tu", "n") and "lipwa" not in i.word
        for i in said.items
        if i.sort == "cue"
    )


def _milk_money(said: Said) -> str | None:
    if (
        said.has("milk_pay")
        or (said.has("centre") and said.has("pay") and not _speaker(said, "pay"))
        or (
            said.has("pay", "receive")
            and said.has("milk")
            and not said.has("sell", "buy")
            and "l" not in said.units
            and any(
                i.has("pay", "receive") and ("lipwa" in i.word or i.word in ("received", "paid"))
                for i in said.items
            )
        )
    ):
        return "milk_pay"
    if said.any("reject") and (
        said.has("milk", "centre", "deliver") or said.units & {"l", "kg"} or (said.count and not said.animals)
    ):
        return "delivery"
    if (
        said.has("sell")
        and not said.animals
        and not said.has("hold")
        and (
            said.has("milk", "per_litre")
            or "l" in said.units
            or ("kg" in said.units and not said.has("manure", "feed"))
        )
    ):
        return "milk_sale"
    if (
        said.has("take")
        and "l" in said.units
        and not said.animals
        and _third_person(said, "take")
        and not said.has("centre")
    ):
        return "milk_sale"
    if (
        said.has("buy")
        and (said.has("milk") or "l" in said.units)
        and not said.animals
        and not _speaker(said, "buy")
        and not said.has("feed", "product", "drug")
        and _third_person(said, "buy")
    ):
        return "milk_sale"
    if (
        said.has("deliver", "centre")
        and (said.has("milk", "centre") or said.units & {"l", "kg"})
        and not ("kg" in said.units and said.has("feed", "goods", "manure"))
        and not said.has("spend", "buy", "vet")
        and not _calved(said)
        and not said.animals
        and not _to_bull(said)
    ) and (said.has("deliver") or (said.count and said.units & {"l", "kg"})):
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
            return (
                index > 0
                and said.items[index - 1].sort == "word"
                and said.items[index - 1].word not in ("i", "we", "have", "ive")
            )
    return False


def _book(said: Said) -> str | None:
    """Who belongs to the herd."""
    for rule in (_renamed, _entered, _gone, _sold, _named):
        kind = rule(said)
        if kind is not None:
            return kind
    return None


def _renamed(said: Said) -> str | None:
    told = said.has("rename") and not said.has("new", "calve") and (said.animals or said.has("calf"))
    return "naming" if told else None


def _entered(said: Said) -> str | None:
    new = said.has("new") and (said.has(*_NOUNS, "breed") or said.strange)
    if new and not said.has("calve", "sell") and not (said.has("rename") and said.animals):
        return "new_animal"
    thing = said.has("feed", "product", "drug", "milk", "deworm", "spray", "ai")
    return "new_animal" if said.has("buy") and said.has(*_NOUNS) and not thing else None


def _gone(said: Said) -> str | None:
    if (
        said.of_people
        or said.has("goods", "calve", "hold")
        or not said.has("slaughter", "stolen", "lost", "die")
    ):
        return None
    if said.animals or said.has(*_NOUNS) or said.strange:
        return "death"
    alone = said.has("die", "slaughter") and len(said.items) <= 2 and not said.has("meat")
    return "death" if alone else None


def _sold(said: Said) -> str | None:
    animal = said.animals or said.has(*_NOUNS) or _sells_a_name(said)
    other = said.has("hold", "milk", "manure") or "l" in said.units
    return "animal_sale" if said.has("sell") and animal and not other else None


def _sells_a_name(said: Said) -> bool:
    """ "sold Furaha for 900000": a strange name, no goods, at the price of an animal."""
    if said.has("goods", "feed", "manure", "product") or not said.strange:
        return False
    capital = any(i.capital and i.sort in ("word", "tag") and not i.known for i in said.items)
    return capital or any(i.sort == "number" and i.value >= LEAST_ANIMAL_PRICE for i in said.items)


LEAST_ANIMAL_PRICE = 100_000
"""Shillings from which a strange word that is sold is rather an animal's name than a thing."""


def _named(said: Said) -> str | None:
    if _calf_is(said):
        return "naming"
    called = said.has("call_word") and len(said.animals) == 1 and said.strange
    if called and not said.has("vet", "technician"):
        return "naming"
    other = said.has("calve", "buy", "new", "straw", "serve", "ai") or (
        said.has("born") and not said.has("dam")  # "calf of Tausi born yesterday is called Baraka"
    )
    return "naming" if said.has("named") and said.animals and not other else None


def _calf_is(said: Said) -> bool:
    """ "Neema's calf is Radi", "ndama wa Neema ni Radi": a calf told by its dam, and one word after "is"."""
    items = said.items
    at = next((i for i, item in enumerate(items) if item.word in ("is", "ni")), None)
    calf = said.has("calf", "dam") or any(a.value and a.value.status is Status.CALF for a in said.animals)
    if at is None or at + 2 != len(items) or not said.animals or not calf:
        return False
    name = items[-1]
    strange = name.sort == "word" and not name.known
    return strange or (name.capital and name.word in VOCABULARY.names)


def _calved(said: Said) -> bool:
    """ "delivered" alone may be milk."""
    sure = any(
        i.has("calve") and not i.has("deliver") for i in said.items if i.sort == "cue" and not i.denied
    )
    milk = said.has("milk", "centre") or bool(said.units & {"l", "kg"})
    return sure or (said.has("calve") and not milk)


def _breeding(said: Said) -> str | None:
    if _calved(said) and not said.has("not_calving"):
        return "calving"
    if said.has("born") and said.has("calf") and said.animals and not said.has("new", "named", "buy"):
        return "calving"
    if said.has("deliver", "take") and said.has("bull") and said.animals and not said.has("sell", "milk"):
        return "service"
    if said.has("abort") and not said.sign("disease."):
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
        return "service"
    return None


def _heat(said: Said) -> str | None:
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


def _work(said: Said) -> str | None:
    """What is done to keep a herd well or to treat it."""
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
        and (said.has("clean", "spray") and said.has("drug", "product", "spray", "clean_drug"))
    ):
        return "disinfection"
    if (
        said.has("worm_drug")
        and (said.animals or said.has("give", "everyone"))
        and not said.has("buy", "sickness")
    ):
        return "deworming"
    if said.has("deworm") and not said.has("buy"):
        return "deworming"
    if said.has("spray") and not said.has("buy"):
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


def _body(said: Said) -> str | None:
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


def _money(said: Said) -> str | None:
    if said.has("hold"):
        return None
    if said.has("sell", "receive") and (said.has("manure", "feed") or (said.has("receive") and said.count)) \
            and not said.has("give") and not said.sign("sign."):  # fmt: skip
        return "other_income"
    if said.has("sell") and (said.count or said.has("goods", "manure", "feed")):
        return "other_income"
    if said.has("buy"):
        return "expense"
    if said.has("spend", "pay", "cost_noun") and (said.count or said.has("money_word")):
        return "expense"
    return None


def _feeding(said: Said) -> str | None:
    if said.has("feed_verb") and not said.sign("sign.") and not said.has("buy"):
        return "feeding"
    if said.has("feed") and said.has("give", "eat", "feed_verb") and not said.has("buy", "sell", "pay"):
        return "feeding"
    if (
        said.has("feed")
        and "kg" in said.units
        and not said.has("buy", "sell", "pay", "spend")
        and "money" not in said.units
    ):
        return "feeding"
    return None


def _milk(said: Said) -> str | None:
    if (
        said.sign("sign.")
        or said.denies("yield", "milk")
        or (said.has("hold", "meat") and not said.has("yield"))
        or (said.denies("sell", "deliver", "buy", "pay") and not (said.animals and said.count))
    ):
        return None
    if said.units & {"day", "hour"} and not said.units & {None, "l", "kg"}:
        return None
    if (
        said.count
        and not said.units & {"l", "kg"}
        and all(i.hint in ("k", "money") or i.value >= 1000 for i in said.items if i.sort == "number")
    ):
        return None  # money, not litres
    if said.has("milk", "yield") and not said.has("feed"):
        return "milk"
    if said.count and "l" in said.units:
        return "milk"
    return None


def _illness(said: Said) -> str | None:
    if said.of_people:
        return None
    if said.has("unwell") or said.sign("sign.") or (said.has("milk") and said.has("fewer")) \
            or said.has("lactation_fever"):  # fmt: skip
        return "illness"
    if said.has("degrees"):
        return "illness"
    return None


_RULES: tuple[Callable[[Said], str | None], ...] = (
    _milk_money, _book, _breeding, _body, _work, _feeding, _heat, _money, _illness, _milk,
)  # fmt: skip

_LITRES_HINT = ("", "fraction", "part")


def _beside(items: Sequence[Item], numbers: list[Item]) -> bool:
    """Whether a strange word stands right before a number that nothing but a time follows: "Furaha 4"."""
    for index, item in enumerate(items):
        if any(item is number for number in numbers):
            before = items[index - 1] if index else None
            after = [i for i in items[index + 1 :] if i.sort != "when"]
            name = before is not None and (
                before.sort == "tag" or (before.sort == "word" and not before.known)
            )
            if (name and not after) or (index == 0 and len(items) == 2 and items[1].sort in ("word", "tag")):
                return True
    return False


_WITHOUT_WORDS: tuple[Callable[[Said], str | None], ...] = (_milk,)
"""The rules that a piece of bare names and numbers needs."""

_DENIABLE = (
    "serve",
    "ai",
    "mounted",
    "calve",
    "abort",
    "dry",
    "wean",
    "vaccinate",
    "deworm",
    "spray",
    "disinfect",
    "treat",
    "sell",
    "die",
    "slaughter",
    "lost",
    "stolen",
    "heat",
    "mating",
    "milk",
    "yield",
    "feed_verb",
    "give",
    "buy",
    "deliver",
    "pay",
    "measure",
    "chest",
    "weight",
    "done",
)


def head_of(items: Sequence[Item]) -> str | None:
    """The kind that *items* tell of; ``denied`` where they deny one; None where they name none."""
    said = Said(items)
    undo = any(i.has("undo") and not i.corrected and not i.denied for i in items if i.sort == "cue")
    if undo and not said.animals and not said.has("serve", "calve"):
        return "undo"
    for rule in _RULES if said.told or said.units - {None, "l"} or said.refused else _WITHOUT_WORDS:
        kind = rule(said)
        if kind is not None:
            return kind
    if said.has("hold") and said.animals and said.count:
        return "treatment"
    if said.denies(*_DENIABLE) or any(i.denied and i.starts("sign.") for i in said.items if i.sort == "cue"):
        return DENIED
    if said.animals or said.strange:
        bare = [
            i
            for i in items
            if i.sort == "number" and i.unit in (None, "l", "kg") and i.value < 100 and i.hint in _LITRES_HINT
        ]
        if bare and not said.has("hold") and (said.animals or _beside(items, bare)):
            return "milk"
    return None
