"""The kinds that tell of milk and money changing hands, of feed, and of quantities that are no record."""

from __future__ import annotations

from dialogs.grammar.heads_cow import calved
from dialogs.grammar.said import DENIED, PEOPLE, Said, speaker, third_person
from dialogs.grammar.words import VOCABULARY


def milk_money(said: Said) -> str | None:
    if said.has("deduct") and any(i.word in _DEDUCTIONS for i in said.items) and any(
            i.has("receive") and "lipwa" in i.word for i in said.items):  # fmt: skip
        return "milk_pay"  # "nimelipwa 180000, makato 20000 chakula"
    if _litres_to(said):
        return "milk_sale"
    if (
        said.has("milk_pay")
        or (said.has("centre") and said.has("pay") and not speaker(said, "pay"))
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
    if (
        said.any("reject")
        and not _cow_refuses(said)
        and (
            said.has("milk", "centre", "deliver")
            or said.units & {"l", "kg"}
            or (said.count and not said.animals)
        )
    ):
        return "delivery"
    if (
        said.has("sell")
        and (not said.animals or _milk_of_a_cow(said))
        and not said.has("hold", "goods")
        and (
            said.has("milk", "per_litre")
            or "l" in said.units
            or ("kg" in said.units and not said.has("manure", "feed"))
        )
    ):
        return "milk_sale"
    if priced_litres(said):
        return "milk_sale"
    if (
        said.has("take")
        and "l" in said.units
        and not said.animals
        and third_person(said, "take")
        and not said.has("centre")
    ):
        return "milk_sale"
    if (
        said.has("buy")
        and (said.has("milk") or "l" in said.units)
        and not said.animals
        and not speaker(said, "buy")
        and not said.has("feed", "product", "drug")
        and third_person(said, "buy")
    ):
        return "milk_sale"
    if (
        said.has("deliver", "centre")
        and (said.has("milk", "centre") or said.units & {"l", "kg"})
        and not ("kg" in said.units and said.has("feed", "goods", "manure"))
        and not said.has("spend", "buy", "vet")
        and not calved(said)
        and not said.animals
        and not _to_bull(said)
    ) and (said.has("deliver") or (said.count and said.units & {"l", "kg"})):
        return "delivery"
    return None


def _cow_refuses(said: Said) -> bool:
    """ "Neema kakataa kukamuliwa", "maziwa ya Neema yamemwagwa": nothing was handed in."""
    if not said.animals or said.has("centre", "deliver"):
        return False
    return any(
        i.has("reject") and (i.prefix in ("ame", "ka", "ali", "ana") or i.word.endswith("mwagwa"))
        for i in said.items if i.sort == "cue"
    )  # fmt: skip


_DEDUCTIONS = ("makato", "deductions", "deduction", "deducted")


def _litres_to(said: Said) -> bool:
    """ "3 litres to Ana": litres handed to a person named."""
    if "l" not in said.units or said.animals or said.has("got", "deliver", "centre", "feed_verb", "hold"):
        return False
    for index, item in enumerate(said.items[:-1]):
        name = said.items[index + 1]
        person = name.word in PEOPLE or name.word in VOCABULARY.people
        strange = name.sort == "word" and name.capital and (not name.known or name.word == "ana")
        if (item.word == "to" and (strange or person)) or (item.word == "kwa" and person and not name.known):
            return True
    return False


LEAST_SUM = 400
"""Shillings from which a bare number beside litres sold is what was paid."""


def _milk_of_a_cow(said: Said) -> bool:
    """ "nimeuza lita 5 za maziwa ya Neema kwa 6000": it is her milk that was sold."""
    items = said.items
    paid = any(i.sort == "number" and i.unit in (None, "money") and i.value >= LEAST_SUM for i in items)
    if len(said.animals) == 1 and "l" in said.units and paid:
        return True  # "Tausi lita 4 nimemuuzia Asha 4800"
    for index in range(2, len(items)):
        of = items[index - 1].word in ("ya", "za", "of", "from") and items[index - 2].has("milk")
        if items[index].sort == "animal" and of:
            return "l" in said.units and len(said.animals) == 1
    return False


def priced_litres(said: Said) -> bool:
    """ "lita 6 @1200", "10 litres 12000": litres and a sum, and no animal that gave them."""
    sums = [i for i in said.items if i.sort == "number" and i.unit in (None, "money", "l") and i.value >= 400]
    other = said.animals or said.has(
        "yield", "feed", "product", "drug", "buy", "deliver", "centre", "hold", "pay", "milk_pay", "everyone",
        "deduct", "treat", "goods", "spend", "receive",
    )  # fmt: skip
    priced = said.has("per_litre") or any(item.word == "@" for item in said.items)
    litres = any(i.sort == "number" and i.unit == "l" and i.value < 400 for i in said.items)
    return litres and bool(sums) and not other and (priced or not said.strange)


def _to_bull(said: Said) -> bool:
    return said.has("bull", "serve")


def not_kept(said: Said) -> str | None:
    """Quantities that are no record: milk a calf drank or that was spilt, water given."""
    counted = said.count > 0 and not said.has(
        "hold", "treat", "product", "drug", "sell", "disinfect", "spray"
    )
    water = any(item.word in ("maji", "water") for item in said.items) and "l" in said.units
    drunk = (said.has("drink", "spill") and said.units & {None, "l"}) or (
        said.has("lost") and "l" in said.units
    )
    if counted and any(item.word in ("than", "kuliko") for item in said.items) and not said.has("fewer"):
        return DENIED  # "gave 2 litres less than yesterday"
    return DENIED if counted and (drunk or (water and not said.has("milk", "yield"))) else None


def money(said: Said) -> str | None:
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


def feeding(said: Said) -> str | None:
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
