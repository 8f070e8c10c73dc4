"""Questions on feeding: is it enough, does more meal pay, will the fodder last; and on room for cattle."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from dialogs.grammar.found import Found, display, is_strange
from dialogs.grammar.measures import Measure, measures
from dialogs.grammar.phrases import Wording
from dialogs.grammar.when import Day
from dialogs.grammar.whole import Whole
from service.husbandry import feeds, fodder
from service.husbandry.feeds import BY_KEY, Feed
from service.husbandry.fodder import Stock
from service.husbandry.kinds import Ask
from service.husbandry.units import Money

_MOST_POLITENESS = 2
"""Words before the one that names the question: "naomba lishe ya Neema"."""


def feeding_question(whole: Whole) -> list[Found] | None:
    """The question on feeding that the whole text is; None where it is none."""
    wording = Wording(whole.scene.text.raw, "feeding")
    if wording.says("gave") or _tells(whole):
        return None
    for rule in (_worth, _fodder, _space, _ration):
        values = rule(whole, wording)
        if values is not None:
            told = {key: value for key, value in values.items() if value is not None}
            return [Found(Ask, told)]
    return None


def _tells(whole: Whole) -> bool:
    """Whether something is told of an animal beside: a sign, a heat."""
    return not whole.asks and (whole.said.sign("sign.") or whole.said.sign("heat."))


def _opens(wording: Wording, meaning: str) -> bool:
    first = next(wording.spots(meaning), None)
    return first is not None and first.start <= _MOST_POLITENESS


def _worth(whole: Whole, wording: Wording) -> dict[str, Any] | None:
    """ "PUMBA INALIPA 700", "does more meal pay for Neema?"."""
    if not wording.says("feed_worth"):
        return None
    return {"topic": "feed_worth", "animal": _animal(whole), "price": _price(whole, LEAST_MEAL_PRICE)}


def _ration(whole: Whole, wording: Wording) -> dict[str, Any] | None:
    """ "LISHE NEEMA", "is Neema fed enough?"; what she drinks may stand beside it."""
    if not (_opens(wording, "ration") or (whole.asks and wording.says("ration_asked"))):
        return None
    return {"topic": "ration", "animal": _animal(whole), "water_litres": _water(whole, wording)}


def _space(whole: Whole, wording: Wording) -> dict[str, Any] | None:
    """ "BANDA NG'OMBE 5", "how big a shed for 5 cows?"."""
    if wording.says("built") or whole.animals:
        return None
    count = _count(whole, wording)
    asked = whole.asks and wording.says("space_asked") and wording.says("counted")
    if not asked and not (_opens(wording, "space") and count is not None):
        return None
    return {"topic": "space", "animals_count": count}


def _fodder(whole: Whole, wording: Wording) -> dict[str, Any] | None:
    """ "AKIBA HEI MAROBOTA 40 NG'OMBE 2", "how long will 40 bales of hay last for 2 cows?"."""
    if not (_opens(wording, "fodder") or (whole.asks and wording.says("fodder_asked"))):
        return None
    stocks = tuple(_stocks(whole, wording))
    return {
        "topic": "fodder",
        "about": fodder.written(stocks) or None,
        "animals_count": _count(whole, wording),
        "price": _price(whole, LEAST_BALE_PRICE, wording),
        "until": _until(whole, wording),
    }


# --- the parts -------------------------------------------------------------------------------------

LEAST_MEAL_PRICE = 50
LEAST_BALE_PRICE = 500
"""Shillings below which a bare number is no price of a kilogram of meal, of a bale (common practice)."""


def _animal(whole: Whole) -> str | None:
    """The one animal named; None where none or several are."""
    named = {item.value.name for item in whole.animals if item.value is not None}
    if len(named) == 1:
        return str(named.pop())
    if named or not whole.scene.names.open:
        return None
    strange = [display(whole.scene.text, item) for item in whole.items if is_strange(item) and item.capital]
    return strange[0] if len(strange) == 1 else None


def _price(whole: Whole, least: int, wording: Wording | None = None) -> Money | None:
    """The last plain number that can be a price; beside counts only where a word says so."""
    found = [m for m in measures(whole) if m.unit is None and m.value >= least]
    if wording is not None:
        ends = {spot.end for spot in wording.spots("price")}
        found = [m for m in found if m.start in ends]
    return Money.of(found[-1].value, whole.scene.place.currency) if found else None


def _water(whole: Whole, wording: Wording) -> Decimal | None:
    if not wording.says("water"):
        return None
    return next((m.value for m in measures(whole) if m.unit == "l" and not m.bare), None)


def _count(whole: Whole, wording: Wording) -> Decimal | None:
    """How many cattle, a whole number."""
    counted = counts(whole, wording)
    found = (m.value for m in measures(whole) if counted.get(m.start) == "counted")
    return next((value for value in found if value == int(value) and value >= 1), None)


def _until(whole: Whole, wording: Wording) -> date | None:
    """The day named after "until"; one that the calendar has behind it is next year's."""
    if not wording.says("until"):
        return None
    today = whole.scene.now.date()
    days = [item.value.on for item in whole.items if item.sort == "when" and isinstance(item.value, Day)]
    ahead = [on if on > today else _next_year(on) for on in days]
    return next((on for on in ahead if on > today), None)


def _next_year(on: date) -> date:
    return on + timedelta(days=365)


# --- what is kept ----------------------------------------------------------------------------------

_LOADS = ("bale", "headload", "bundle", "bag", "barrow", "cart", "tonne")

_ENGLISH = frozenset({
    "cow", "cows", "cattle", "heifer", "heifers", "animal", "animals", "head", "bale", "bales", "bails",
    "headload", "headloads", "load", "loads", "bundle", "bundles", "bag", "bags", "sack", "sacks", "barrow",
    "barrows", "wheelbarrow", "wheelbarrows", "cart", "carts", "cartload", "cartloads", "tonne", "tonnes",
    "ton", "tons",
})  # fmt: skip

_USUAL_FEED = {"bale": "hay", "headload": "napier", "bundle": "stover", "tonne": "silage"}
"""What a load is of where no feed is named (common practice, no source)."""


def counts(whole: Whole, wording: Wording) -> dict[int, str]:
    """
    What the plain numbers count, by the place of each: cattle, or a load.

    A Kiswahili word has its number after it, an English one before it; where there is none, the other side.
    """
    plain = [m for m in measures(whole) if m.unit is None]
    words = [(spot, meaning) for meaning in ("counted", *_LOADS) for spot in wording.spots(meaning)]
    found: dict[int, str] = {}
    named: set[int] = set()
    for own_side in (True, False):
        for spot, meaning in words:
            after = (wording.words[spot.start] in _ENGLISH) is not own_side
            place = (m.start for m in plain if (m.start == spot.end if after else m.end == spot.start))
            start = next((start for start in place if start not in found), None)
            if start is not None and spot.start not in named:
                found[start] = meaning
                named.add(spot.start)
    return found


def _stocks(whole: Whole, wording: Wording) -> Iterator[Stock]:
    """Each amount told, with its feed."""
    counted = counts(whole, wording)
    told = [m for m in measures(whole) if not m.bare]
    loads = [(m, "kg" if m.unit == "kg" else counted.get(m.start, "")) for m in told]
    loads = [(m, load) for m, load in loads if load in (*_LOADS, "kg")]
    amounts = [(m, load) for m, load in loads if not _is_each(m, load, wording)]
    weights = [m for m, load in loads if _is_each(m, load, wording)]
    begins = next((spot.end for spot in wording.spots("fodder")), 0)
    ends = [*(m.start for m, _ in amounts[1:]), len(wording.words)]
    first = bool(amounts) and next(_runs(wording.words[begins : amounts[0][0].start]), None) is not None
    for (measure, load), last in zip(amounts, ends, strict=False):
        place = (begins, measure.start) if first else (measure.end, last)
        feed = _feed(wording.words[slice(*place)], load)
        each = next((m.value for m in weights if measure.end <= m.start < last), None)
        if feed is not None:
            yield Stock(feed, measure.value, load, each)
        begins = measure.end


def _is_each(measure: Measure, load: str, wording: Wording) -> bool:
    """Whether it is what one load weighs: "marobota 40 ya kilo 12", "40 bales of 12 kg"."""
    before = wording.words[measure.start - 1] if measure.start else ""
    return load == "kg" and before in ("ya", "la", "za", "of", "each")


def _feed(words: Sequence[str], load: str) -> Feed | None:
    """The feed that these words hold, else the load's usual one."""
    usual = _USUAL_FEED.get(load)
    return next(_runs(words), None if usual is None else BY_KEY[usual])


def _runs(words: Sequence[str]) -> Iterator[Feed]:
    """What runs of up to four words mean, the longest first."""
    for length in (4, 3, 2, 1):
        for at in range(len(words) - length + 1):
            meant = feeds.exactly(" ".join(words[at : at + length]))
            if meant is not None and meant.feed.is_roughage:
                yield meant.feed
