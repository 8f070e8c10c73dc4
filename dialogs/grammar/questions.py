"""Questions: what a sender asks of the service, and about which animal, month or span."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from dialogs.grammar import mixtures, slots, statements
from dialogs.grammar.found import Found, display, is_strange
from dialogs.grammar.phrases import Wording, words_of
from dialogs.grammar.when import Day, Period
from dialogs.grammar.whole import RECORDS, Whole, is_short, month_told
from service.husbandry.kinds import Ask

_TOPICS: tuple[tuple[str, str], ...] = (
    ("ask_mix", "mix"),
    ("ask_dose", "dose"),
    ("ask_call", "call"),
    ("statement", "statement"),
    ("ask_entries", "entries"),
    ("ask_price", "price"),
    ("ask_tasks", "tasks"),
    ("ask_herd", "herd"),
)


def ask(whole: Whole) -> list[Found] | None:
    if (
        whole.has("help")
        and not whole.animals
        and not whole.said.count
        and (whole.asks or not whole.has("calve"))
    ):
        return [Found(Ask, {"topic": "help", "about": _about(whole)})]
    of_year_or_cow = statements.asked(whole)
    if of_year_or_cow is not None:
        return [Found(Ask, of_year_or_cow)]
    amounts = any(
        i.sort == "number" and i.unit in ("l", "kg", "cm", "ml", "money") for i in whole.items
    ) or bool(slots.sums(whole.clause))
    if amounts and not whole.asks:
        return None
    topic = _asked_of_people_or_pay(whole) or _topic(whole)
    if topic is not None:
        read_out = _READ_OUT.get(topic["topic"])
        return [Found(Ask, topic if read_out is None else {**topic, **read_out(whole)})]
    return None


_READ_OUT: dict[str, Callable[[Whole], dict[str, Any]]] = {
    "dose": mixtures.dose_fields,
    "mix": mixtures.mix_fields,
}
"""Topics in which the sender reads a label out."""


def _asked_of_people_or_pay(whole: Whole) -> dict[str, Any] | None:
    """Who owes, who may tell of the farm, whether the centre paid right: asked by the whole text."""
    wording = Wording(whole.scene.text.raw, "asked")
    if whole.said.count or whole.animals:
        return None
    for topic in ("owed", "people"):
        if wording.is_only(topic, "polite") and wording.says(topic):
            return {"topic": topic}
    questioned = whole.asks and not whole.has("ask_price") and (
        whole.any("milk_pay") or (whole.any("pay") and whole.any("centre", "milk")))  # fmt: skip
    if questioned or (wording.says("pay") and _of_a_month_alone(whole, wording)):
        return {"topic": "pay", "month": month_told(whole)}
    return None


def _of_a_month_alone(whole: Whole, wording: Wording) -> bool:
    """Whether beside the pay only a month, a name for the centre or a word of politeness stands."""
    timed = {
        at
        for item in whole.items
        if item.sort == "when"
        for word in words_of(whole.scene.text.written(item.start, item.end))
        for at, other in enumerate(wording.words)
        if other == word
    }
    covered = {at for meaning in ("pay", "polite") for spot in wording.spots(meaning) for at in range(*spot)}
    return covered | timed >= set(range(len(wording.words)))


def _topic(whole: Whole) -> dict[str, Any] | None:
    for concept, topic in _TOPICS:
        if not whole.has(concept) or not _meant(whole, concept):
            continue
        values: dict[str, Any] = {"topic": topic}
        if topic == "tasks":
            values["period"] = _period(whole)
        if topic == "statement":
            values["month"] = month_told(whole)
        if topic == "call":
            values["about"] = None
        return values
    if (
        whole.asks
        and whole.any("vet", "technician")
        and any(i.word in ("who", "whom", "nani") for i in whole.items)
    ):
        return {"topic": "call"}
    if (
        whole.asks
        and whole.any("drug", "spray", "product")
        and any(i.word in ("water", "maji") for i in whole.items)
    ):
        return {"topic": "mix"}
    if (
        whole.asks
        and whole.any("deworm", "drug", "product")
        and any(i.word in ("how", "kiasi", "ngapi") for i in whole.items)
    ):
        return {"topic": "dose"}
    if whole.asks and whole.any("money_word", "ask_price") and whole.any("milk", "per_litre") \
            and not whole.animals and not whole.has("sell", "pay", "milk_pay", "receive"):  # fmt: skip
        return {"topic": "price"}
    animal = _asked_animal(whole)
    if (
        whole.has("milk", "yield")
        and (whole.asks or (whole.has("about_animal") and not whole.said.count))
        and not whole.has("serve")
        and not (animal is not None and whole.has("give") and whole.said.sign("sign."))
    ):
        return {"topic": "milk", "animal": animal}
    if (
        whole.has("milk")
        and not whole.said.count
        and _period_told(whole)
        and is_short(whole, 7)
        and not whole.said.sign("sign.")
    ):
        return {"topic": "milk", "animal": animal}
    if animal is not None and _milk_of(whole):
        return {"topic": "milk", "animal": animal}
    if animal is None:
        return None
    if whole.asks or (whole.has("about_animal") and not _tells(whole)):
        return {"topic": "animal", "animal": animal}
    if len(whole.words) == 1 and len(whole.animals) == 1:
        return {"topic": "animal", "animal": animal}
    return None


def _milk_of(whole: Whole) -> bool:
    """ "maziwa ya Zawadi", "milk of Zawadi": her milk is named and no number told."""
    items = [item for item in whole.items if item.sort not in ("mark", "when")]
    return (
        len(items) == 3
        and items[0].has("milk")
        and items[1].word in ("ya", "of", "za")
        and whole.said.count == 0
    )


def _tells(whole: Whole) -> bool:
    return whole.said.count > 0 or whole.has(*RECORDS) or whole.said.sign("sign.") or whole.said.sign("heat.")


def _meant(whole: Whole, concept: str) -> bool:
    """Whether a word that names a topic asks for it here."""
    if whole.asks:
        return not (concept in ("ask_herd", "ask_tasks", "ask_price", "ask_entries") and bool(whole.animals))
    if concept in ("ask_dose", "ask_mix") and (
        whole.animals or whole.has("give", "treat", "deworm", "spray")
    ):
        return whole.has("how") or (
            not whole.animals and not whole.has("treat", "give", "spray", "deworm") and is_short(whole, 5)
        )
    if whole.animals or whole.has(
        "serve",
        "calve",
        "sell",
        "buy",
        "pay",
        "spend",
        "vaccinate",
        "heat",
        "treat",
        "deworm",
        "spray",
        "done",
        "deliver",
        "die",
        "new",
        "feed_verb",
        "unwell",
    ):
        return False
    if whole.said.sign("sign.") or whole.said.count:
        return (
            concept in ("statement", "ask_tasks", "ask_entries")
            and not whole.said.sign("sign.")
            and concept != "ask_tasks"
        )
    return is_short(whole, 7)


def _about(whole: Whole) -> str | None:
    rest = [i for i in whole.items if i.sort in ("cue", "word") and not i.has("help", "greeting") and not (
        i.sort == "word" and i.known)]  # fmt: skip
    return whole.scene.text.written(rest[0].start, rest[-1].end) if rest else None


def _period_told(whole: Whole) -> bool:
    return any(i.sort == "when" and isinstance(i.value, Period) for i in whole.items)


def _period(whole: Whole) -> str | None:
    for item in whole.items:
        if item.sort == "when" and isinstance(item.value, Period):
            return item.value.name if item.value.name in ("week", "month") else None
        if item.sort == "when" and isinstance(item.value, Day) and item.value.on == whole.scene.now.date():
            return "today"
        if item.sort != "cue":
            continue
        written = [token.word for token in whole.scene.text.tokens[item.start : item.end]]
        for spoken, period in (
            (("leo", "today", "todays", "today's", "siku"), "today"),
            (("wiki", "week", "weekly", "wekly"), "week"),
            (("mwezi", "month"), "month"),
        ):
            if any(w in spoken for w in written):
                return period
        span = item.starts("span.")
        if span in ("week", "month"):
            return span
    return None


def _asked_animal(whole: Whole) -> str | None:
    for item in whole.animals:
        if item.value is not None or len({known.name for known in item.fits}) == 1:
            return str((item.value or item.fits[0]).name)
    if not whole.scene.names.open:
        return None
    return next((display(whole.scene.text, i) for i in whole.items if is_strange(i)), None)
