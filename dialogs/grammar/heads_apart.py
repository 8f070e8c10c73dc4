"""
Kinds that a few words of their own tell, before the general rules: a bull that runs with the herd, debts
paid, an animal well again, tubes at drying off.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from dialogs.grammar import heads_drugs, heads_pay
from dialogs.grammar.items import Item
from dialogs.grammar.said import DENIED
from service.husbandry.herd import Status


def told_apart(items: Sequence[Item]) -> str | None:
    """The kind that *items* tell by words of its own; None where none of these is told."""
    told: set[str] = set()
    for item in items:
        if item.sort == "cue" and not item.denied:
            told.update(item.concepts)
    return next((kind for kind, rule in _RULES if rule(items, told)), None)


def bull_of(items: Sequence[Item]) -> Item | None:
    """The bull spoken of: by the noun, or an animal of the herd that is one."""
    return next((item for item in items if _is_bull(item)), None)


def _is_bull(item: Item) -> bool:
    if item.sort == "animal":
        return item.value is not None and item.value.status is Status.BULL
    return item.sort == "cue" and item.has("bull_animal", "bull") and not item.denied


_OF_SOMETHING_ELSE = (
    "serve", "ai", "sell", "die", "slaughter", "stolen", "calve", "new", "buy", "named", "calf", "feed",
    "spray", "deworm", "treat", "vaccinate", "female",
)  # fmt: skip
_GONE = ("left", "gone", "removed", "away")


def _runs(items: Sequence[Item], told: set[str]) -> bool:
    return "bull_running" in told and bull_of(items) is not None and told.isdisjoint(_OF_SOMETHING_ELSE)


def _left(items: Sequence[Item], told: set[str]) -> bool:
    if bull_of(items) is None or not told.isdisjoint(_OF_SOMETHING_ELSE):
        return False
    taken_out = any(i.prefix and i.has("deduct", "reject") and not i.denied for i in items)
    return "bull_gone" in told or taken_out or any(i.word in _GONE for i in items)


def _recovered(items: Sequence[Item], told: set[str]) -> bool:
    own = [i for i in items if i.has("recover") and not i.denied]
    if not own or not told.isdisjoint(_NO_RECOVERY):
        return False
    if any(item.word in ("than", "kuliko") for item in items):
        return False
    return not any(i.prefix[:2] in ("ni", "tu") or _UNREAL.match(i.prefix) for i in own)


def _calf_sucked(items: Sequence[Item], told: set[str]) -> bool:
    """What she gave in the bucket is less, as the calf had some; beside litres it is those that are told."""
    if "calf_sucked" not in told or not told.isdisjoint(("die", "calve", "wean", "sell", "buy")):
        return False
    told_more = any(item.sort == "number" or item.word in ("vizuri", "well") for item in items)
    return not told_more and any(item.sort == "animal" for item in items)


_NO_RECOVERY = ("calve", "die", "stillborn", "wish", "treat", "price_word", "buy", "sell", "spend", "pay")
_UNREAL = re.compile(r"(?:a|wa)(?:nge|ngeli|ngali|ki)")
"""Of what would be or is only looked forward to: angepona, akipona."""


def _afterbirth_out(items: Sequence[Item], told: set[str]) -> bool:
    return "afterbirth_out" in told and told.isdisjoint(("calve", "treat")) and not _in_part(items)


def _afterbirth_half_out(items: Sequence[Item], told: set[str]) -> bool:
    return "afterbirth_out" in told and told.isdisjoint(("calve", "treat")) and _in_part(items)


def _in_part(items: Sequence[Item]) -> bool:
    return any(item.word in _NOT_WHOLLY or item.hint == "part" for item in items)


_NOT_WHOLLY = ("nusu", "half", "partly", "kidogo", "part", "some", "piece", "kipande", "hand", "mkono")

_RULES: tuple[tuple[str, Callable[[Sequence[Item], set[str]], bool]], ...] = (
    ("afterbirth_out", _afterbirth_out),
    ("illness", _afterbirth_half_out),
    ("bull_left", _left),
    ("service", _runs),
    ("recovery", _recovered),
    ("milk_reason", _calf_sucked),
    ("payment", heads_pay.paid_what_was_owed),
    ("milk_sale", heads_pay.sold_to_a_buyer_named),
    ("milk_sale", heads_pay.taken_on_credit),
    ("delivery", heads_pay.handed_in),
    ("expense", heads_pay.paid_to_somebody),
    ("milk_pay", heads_pay.kept_back),
    (DENIED, heads_pay.no_record),
    ("milk_sale", heads_pay.sold_to_named),
    ("expense", heads_pay.priced_drug),
    ("expense", heads_pay.paid_for_a_drug),
    ("expense", heads_pay.priced_feed),
    ("other_income", heads_pay.earned),
    ("vaccination", heads_drugs.jabbed),
    ("treatment", heads_drugs.tubes),
    ("treatment", heads_drugs.injected),
    ("treatment", heads_drugs.given_drug),
    ("treatment", heads_drugs.drug_for),
    ("illness", heads_drugs.has_disease),
    ("milk_pay", heads_pay.month_paid),
)
