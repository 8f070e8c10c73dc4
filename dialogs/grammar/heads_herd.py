"""The kinds that tell who belongs to the herd: sales, deaths, new animals, names, and what they are."""

from __future__ import annotations

from collections.abc import Sequence

from dialogs.grammar.items import Item
from dialogs.grammar.said import NOUNS, PEOPLE, Said, third_person
from dialogs.grammar.words import VOCABULARY
from service.husbandry.herd import Status

_MINE = ("my", "our", "wangu", "wetu", "yangu", "yetu")


def of_others(said: Said) -> bool:
    """Whether it is another's cattle that is spoken of: "ng'ombe wa jirani", "Juma's cow"."""
    if not said.animals and (_of_a_neighbours_herd(said) or _of_other_beasts(said)):
        return True
    if said.animals or said.has("sell", "buy", "serve", "bull", "new", "named", "rename"):
        return False
    for index, item in enumerate(said.items[:-1]):
        follows = said.items[index + 1]
        hers = item.has("calf") and follows.word == "wake"  # "Neema na ndama wake"
        if item.has(*NOUNS) and not hers and (follows.word in ("wake", "wao", "wenzangu") or (
                follows.word in ("wa", "ya", "of") and _owner(said.items, index + 2))):  # fmt: skip
            return True
        owned = follows.has(*NOUNS) and item.sort in ("word", "cue") and item.word not in _MINE
        if owned and item.word in (
            "neighbours",
            "neighbors",
            "neighbour",
            "neighbor",
            "friends",
            "brothers",
            "their",
            "his",
            "fathers",
        ):
            return True
    return False


_NEIGHBOUR = ("jirani", "majirani", "neighbour", "neighbor", "neighbours", "neighbors", "rafiki", "friend")
_THEIR = ("wake", "wao", "his", "her", "their", "zake", "zao")


_BEASTS = frozenset({
    "mbwa", "paka", "kuku", "mbuzi", "kondoo", "nguruwe", "punda", "bata", "sungura", "dog", "dogs",
    "cat", "cats", "chicken", "chickens", "hen", "hens", "goat", "goats", "sheep", "pig", "pigs", "donkey",
    "ducks", "rabbit",
})  # fmt: skip


def _of_other_beasts(said: Said) -> bool:
    """ "mbwa wa jirani amekufa", "my goats are coughing": no cattle are spoken of."""
    beast = next((item for item in said.items if item.word in _BEASTS), None)
    event = said.has("die", "calve", "lost", "stolen", "heat", "abort", "unwell") or said.sign("sign.")
    by_it = any(item.has("bitten") or item.word in ("by", "na") for item in said.items)
    return beast is not None and event and not by_it and not said.has(*NOUNS) and not said.count


def _of_a_neighbours_herd(said: Said) -> bool:
    """ "jirani ameuza ng'ombe wake", "jirani yangu ana ng'ombe anatoa lita 20"."""
    opens = [item for item in said.items[:3] if item.sort in ("word", "cue") and not item.has("greeting")]
    who = next((item for item in opens if item.word in _NEIGHBOUR), None)
    if who is None or any(item.prefix[:2] in ("ni", "tu", "nm") for item in said.items):
        return False
    cattle = any(item.has(*NOUNS) for item in said.items)
    theirs = any(item.word in _THEIR for item in said.items)
    owns = any(item.word in ("ana", "has", "wana", "have") for item in said.items)
    return cattle and (theirs or owns)


def _owner(items: Sequence[Item], at: int) -> bool:
    if at >= len(items):
        return False
    item = items[at]
    return item.word in PEOPLE or (item.sort == "word" and not item.known and len(item.word) > 2)


def book(said: Said) -> str | None:
    """Who belongs to the herd."""
    for rule in (_renamed, _entered, _gone, _sold, _named):
        kind = rule(said)
        if kind is not None:
            return kind
    return None


def _renamed(said: Said) -> str | None:
    other = said.has("new", "calve", "technician", "vet") or _is_born(said)
    told = said.has("rename") and not other and (said.animals or said.has("calf"))
    return "naming" if told else None


def _is_born(said: Said) -> bool:
    """ "ndama wa Nyota aliyezaliwa jumapili ni jike tumemwita Furaha": a birth, as its sex is told."""
    return said.has("born") and said.has("calf") and said.has("female", "male")


_NEW = ("mpya", "jipya", "wapya", "new")


def _entered(said: Said) -> str | None:
    new = said.has("new") and (said.has(*NOUNS, "breed") or said.strange)
    got = said.has("got") and said.has("bull_animal", "cow", "heifer", "steer", "cattle") and (
        said.has("named") or any(item.word in _NEW for item in said.items))  # fmt: skip
    if got and not said.has("calve", "sell", "drug", "milk") and not said.animals:
        return "new_animal"
    if new and not said.has("calve", "sell") and not (said.has("rename") and said.animals):
        return "new_animal"
    milk = any(i.has("milk") and not i.has("milking") for i in said.items if i.sort == "cue")
    thing = milk or said.has("feed", "product", "drug", "deworm", "spray", "ai")
    sure = any(i.has("buy") and not i.corrected for i in said.items if i.sort == "cue")
    own = sure and bool(said.animals) and not thing and not third_person(said, "buy")
    if own and _buys_only_her(said):
        return "new_animal"  # "nimenunua Neema laki 9", though the herd has her: it is asked
    return "new_animal" if said.has("buy") and said.has(*NOUNS) and not thing else None


def _buys_only_her(said: Said) -> bool:
    """Whether nothing but the animal can be what was bought."""
    dear = any(i.sort == "number" and i.value >= LEAST_ANIMAL_PRICE for i in said.items)
    cues = [i for i in said.items if i.sort == "cue"]
    other = any(not i.has("buy", "money_word", "price_word", "greeting") for i in cues)
    return len(said.animals) == 1 and (dear or not (other or said.strange))


_SUCKED = ("sucked", "suckled", "suckling", "sucking", "drank")


def _gone(said: Said) -> str | None:
    if (
        said.of_people
        or said.has("goods", "calve", "hold")
        or not said.has("slaughter", "stolen", "lost", "die")
    ):
        return None
    if said.has("lost") and any("nyony" in item.word or item.word in _SUCKED for item in said.items):
        return None  # "ndama alimtoroka akanyonya yote": got loose, and is not gone
    if said.animals or said.has(*NOUNS) or said.strange:
        return "death"
    alone = said.has("die", "slaughter") and len(said.items) <= 2 and not said.has("meat")
    return "death" if alone else None


def _sold(said: Said) -> str | None:
    if (said.animals and _sells_litres(said)) or _of_meat(said):
        return None
    animal = said.animals or said.has(*NOUNS) or _sells_a_name(said) or _sells_her(said)
    other = said.has("hold", "milk", "manure") or "l" in said.units
    thing = other or said.has("feed", "product", "drug", "goods")
    if thing and not said.animals:
        return None  # "nimeuza majani ya ng'ombe"
    if said.has("buy") and said.animals and third_person(said, "buy") and not thing and said.count:
        return "animal_sale"  # "Juma kanunua Neema laki 9"
    return "animal_sale" if said.has("sell") and animal and not other else None


def _of_meat(said: Said) -> bool:
    """ "nyama ya Mwezi imeuzwa": what is sold is meat; but "sold for meat" is a sale."""
    for index, item in enumerate(said.items):
        if item.has("meat") and not item.has("slaughter", "hold"):
            return not (index and said.items[index - 1].word in ("kwa", "for", "as"))
    return False


def _sells_her(said: Said) -> bool:
    """ "ameuzwa laki 7", "nimemuuza": by the marks of the verb an animal was sold."""
    return any(
        i.has("sell") and ((i.word.endswith("uzwa") and i.prefix[:1] in ("a", "k"))
                           or (i.word.endswith("uza") and i.prefix.endswith(("m", "mu", "mw"))))
        for i in said.items if i.sort == "cue" and i.prefix and not i.denied
    )  # fmt: skip


def _sells_litres(said: Said) -> bool:
    """ "Neema 6 nikauza 4": small numbers alone are litres, not the price of a cow."""
    numbers = [item for item in said.items if item.sort == "number"]
    return bool(numbers) and all(n.unit in (None, "l") and not n.hint and n.value < 100 for n in numbers)


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
    other = said.has("calve", "buy", "new", "straw", "serve", "ai") or _is_born(said)
    other = other or (said.has("born") and not said.has("dam"))  # "calf of Tausi born ... is called"
    comes = any(item.word in ("aje", "waje", "come") for item in said.items)
    called_in = said.has("vet", "technician") and (comes or not said.strange)
    return "naming" if said.has("named") and said.animals and not (other or called_in) else None


def _calf_is(said: Said) -> bool:
    """ "Neema's calf is Radi", "ndama wa Neema ni Radi": a calf told by its dam, and one word after "is"."""
    items = said.items
    at = next((i for i, item in enumerate(items) if item.word in ("is", "ni")), None)
    child = any(i.has("dam") and i.word not in ("mama", "mother", "dam") for i in said.items)
    calf = said.has("calf") or child or any(a.value and a.value.status is Status.CALF for a in said.animals)
    if at is None or at + 2 != len(items) or not said.animals or not calf:
        return False
    name = items[-1]
    strange = name.sort == "word" and not name.known
    return strange or (name.capital and name.word in VOCABULARY.names)


def described(said: Said) -> str | None:
    """What a known animal is, told later: "Neema ni Friesian", "Asali alizaliwa Machi 2024"."""
    born = said.has("born", "breed", "age") or (said.has("breed_word") and said.strange)
    mother = said.has("dam") and len(said.animals) == 2 and not said.has("calf")
    aged = any(i.sort == "number" and i.unit in ("year", "month", "week") for i in said.items)
    other = any(i.sort == "number" and i.unit in ("l", "kg", "cm", "ml", "money") for i in said.items)
    if (
        not 1 <= len(said.animals) <= 2
        or other
        or said.has("pregnant", "pd", "milk", "hold", "after_calving")
    ):
        return None
    if mother or (len(said.animals) == 1 and (born or (aged and said.count == 1))):
        return "new_animal"
    return None
