"""Answers to milk sold, handed in and paid for: what it comes to, what is left, what to look at next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal

from dialogs.confirm.noted import Ways, follow, noted
from dialogs.outcome import Outcome, example_name
from service.husbandry.herd import Told
from service.husbandry.kinds.trade import Delivery
from service.husbandry.reconcile import KG, Reconciled
from service.messages import Say, say

REASONS: Mapping[str, tuple[str, ...]] = {
    "drug": ("dawa", "antibio", "drug", "medicine", "penicil", "residue"),
    "clots": (
        "bonge", "clot", "cmt", "usaha", "pus", "damu", "blood", "kiwele", "udder", "flake", "vipande",
    ),
    "water": (
        "water", "maji", "density", "lactometer", "thin", "nyepesi", "adulter", "laktomita", "uzito",
    ),
    "sour": (
        "sour", "chach", "acid", "alcohol", "alkoho", "ganda", "mgando", "curdl", "spoil", "haribika",
        "fermen", "warm", "moto", "hot",
    ),
    "smell": ("harufu", "smell", "nuka", "odour", "odor", "taint", "stink"),
    "dirt": ("chafu", "dirt", "takataka", "taka", "sediment", "nywele", "hair", "nzi", "flies", "mavi"),
}  # fmt: skip
"""What a centre says of milk that it turns back, by beginnings or parts of words as farmers write them,
the gravest first. Words of the trade, common practice, no source."""

DAYS_NAMED = 6
"""Days named one by one; of more, their number stands beside the first."""


def sale(told: Told, outcome: Outcome, language: str) -> Ways:
    """Milk sold or a payment taken in, with what other entries make of it; without that where it must be."""
    more = outcome.follows.get(told.id, ())
    return (*follow(told, outcome, language, *more), *noted(told, outcome, language))


def reason_of(words: str | None) -> str | None:
    """Under which of ``REASONS`` the centre's *words* fall; None: under none."""
    told = (words or "").casefold()
    return next((reason for reason, parts in REASONS.items() if any(part in told for part in parts)), None)


def delivery(told: Told, outcome: Outcome, language: str) -> Ways:
    """A load handed in; of one turned back, what to look at before the next milking."""
    entry = told.entry
    if not isinstance(entry, Delivery) or not entry.rejected:
        return noted(told, outcome, language)
    care = say(f"rejected.{reason_of(entry.reason) or 'other'}", name=example_name(outcome.farm))
    return (*follow(told, outcome, language, care), (say("rejected.noted"), care))


def milk_pay(told: Told, outcome: Outcome, language: str) -> Ways:
    """What the centre paid, and whether it is for all that was handed in."""
    more = outcome.follows.get(told.id, ())
    if not more:
        return noted(told, outcome, language)
    return (*follow(told, outcome, language, *more), (say("pay.noted"), *more))


def reconciled(found: Reconciled) -> tuple[Say, ...]:
    """The comparison in one sentence: agreed, days missing, or the difference and how to look for it."""
    if found.paid is None or not found.days:
        return ()
    values = {
        "delivered": amount(found.delivered, found.unit),
        "paid": amount(found.paid, found.unit),
        "difference": amount(abs(found.short), found.unit),
    }
    if found.agrees:
        return (Say("pay.agrees", values),)
    if found.short < 0:
        return (Say("pay.over", {**values, "few": found.days}),)
    if found.missing:
        return (Say("pay.missing", {**values, "dates": dates(found.missing)}),)
    key = "pay.less" if found.less else "pay.short" if found.has_list else "pay.short_no_list"
    return (Say(key, {**values, "dates": dates(tuple(found.less))}),)


def amount(of: Decimal, unit: str) -> Say:
    """``lita 352``, ``kilo 352``: milk in the unit it is counted in."""
    return say("quantity.kg", kg=of) if unit == KG else say("quantity.litres", litres=of)


def dates(days: Sequence[date]) -> Say:
    """``9, 17, 23 Machi``: days of one month; of many the first and how many more."""
    if not days:
        return say("plain", words="")
    named = days if len(days) <= DAYS_NAMED else days[: DAYS_NAMED - 1]
    listed = ", ".join(str(day.day) for day in named)
    if len(named) == len(days):
        return say("dates", words=listed, on=days[0])
    return say("dates.more", words=listed, on=days[0], count=len(days) - len(named))
