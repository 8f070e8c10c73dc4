"""
The reply to a text: one segment, whatever the text held.

First what must be asked, then what was taken back, then what was written down and what it means; what
does not fit is told as a count. Never left out: a caution, a date, a number to call.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import islice

from dialogs import texts
from dialogs.answers import (
    answer_animal,
    answer_call,
    answer_entries,
    answer_herd,
    answer_milk,
    answer_tasks,
)
from dialogs.asking import numbered, question
from dialogs.confirm import body, breeding, health, herd, illness, trade, vaccination
from dialogs.confirm.noted import Ways, noted
from dialogs.holding import latest, milking, under_a_drug
from dialogs.outcome import Outcome, example_name
from dialogs.phrases import called, summary, who
from dialogs.reading import Code, Problem
from service import sms
from service.husbandry.forms import Entry
from service.husbandry.herd import Told
from service.husbandry.holds import Hold, drug_hold
from service.husbandry.kinds.body import Condition, Girth, Weight
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.farm import Contact, Done, Setting
from service.husbandry.kinds.health import (
    Deworming,
    Disinfection,
    Illness,
    Recovery,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.kinds.heat import Heat
from service.husbandry.kinds.herd_book import AnimalSale, Death, Naming, NewAnimal
from service.husbandry.kinds.milk import Milk, MilkReason
from service.husbandry.kinds.one_day import Abortion, DryingOff, Weaning
from service.husbandry.kinds.pregnancy_check import PregnancyCheck
from service.husbandry.kinds.service import BullLeft, Service
from service.husbandry.kinds.trade import Delivery, MilkPay, MilkSale, Payment
from service.husbandry.triage import DANGER
from service.messages import Say, say

__all__ = [
    "Outcome", "alerts", "answer_animal", "answer_call", "answer_entries", "answer_herd", "answer_milk",
    "answer_tasks", "answered", "called", "held_milk_warning", "question", "reply", "summary",
]  # fmt: skip

CONFIRM: Mapping[type[Entry], Callable[[Told, Outcome, str], Ways]] = {
    Illness: illness.illness,
    Abortion: breeding.abortion,
    Heat: breeding.heat,
    Treatment: health.treatment,
    Death: health.death,
    Calving: breeding.calving,
    Service: breeding.service,
    BullLeft: breeding.bull_left,
    PregnancyCheck: breeding.pregnancy_check,
    Deworming: health.deworming,
    Milk: herd.milk,
    MilkReason: herd.milk_reason,
    DryingOff: breeding.drying_off,
    Vaccination: vaccination.vaccination,
    Spraying: health.spraying,
    AnimalSale: herd.animal_sale,
    Weaning: breeding.weaning,
    Disinfection: health.disinfection,
    NewAnimal: herd.new_animal,
    Naming: herd.naming,
    Contact: herd.contact,
    Setting: herd.setting,
    Done: herd.done,
    Girth: body.girth,
    Weight: body.weight,
    Condition: body.condition,
    Recovery: illness.recovery,
    MilkSale: trade.sale,
    Payment: trade.sale,
    Delivery: trade.delivery,
    MilkPay: trade.milk_pay,
}
"""What is answered to each kind; kinds not listed are only noted. Of several told in one text the one
that stands first here is answered in full."""

LEADING = tuple(CONFIRM)[:9]
"""Kinds that lead the reply to a text of several; of the others all are noted alike."""

URGENT: tuple[type[Entry], ...] = (Illness, Abortion, Heat, Treatment)
"""Kinds whose answer carries what must be known today."""

TAIL = say("tail.undo")
CHECK = say("tail.check")

UNREAD_SHOWN = 24
"""Characters of what was not read that are said back: enough to know it again."""

FIRST_CHOICES = 3
"""Animals to choose from that stand in a question before there is room for anything else."""


def reply(outcome: Outcome, problem: Problem | None, language: str) -> str:
    """
    The reply to a text, in one segment.

    Args:
        outcome: What was recorded and taken back, and the farm after it.
        problem: What must be asked, if anything.
        language: sw, en.
    """
    if problem is not None:
        return _question(outcome, problem, language)
    if outcome.undone:
        return _undone(outcome, language)
    if not outcome.recorded:
        return texts.render(say("answer.nothing"), language)
    return _recorded(outcome, language)


def ways_of(told: Told, outcome: Outcome, language: str) -> Ways:
    """Ways of answering one entry, the fullest first."""
    return CONFIRM.get(type(told.entry), noted)(told, outcome, language)


def _recorded(outcome: Outcome, language: str) -> str:
    leader, rest = _leader(outcome.recorded)
    if leader is None:
        return _all_noted(outcome, language)
    ways = ways_of(leader, outcome, language)
    if not rest:
        return _with_doubts(ways, outcome, language)
    candidates = [(*way, *more) for way in ways for more in _also(rest, outcome, language)]
    return _with_doubts(candidates, outcome, language, tail=())


def _with_doubts(
    ways: Sequence[tuple[Say, ...]], outcome: Outcome, language: str, *, tail: tuple[Say, ...] = (TAIL,)
) -> str:
    """One of *ways*, with what was not read of the text and how to take back what was read with doubt."""
    doubts = _doubts(outcome)
    text = texts.fitting(*((*way, *doubts) for way in ways), language=language) if doubts else None
    return text or texts.first_that_fits(*((*way, *tail) for way in ways), language=language)


def _doubts(outcome: Outcome) -> tuple[Say, ...]:
    unread = (say("half.unread", words=outcome.unread[:UNREAD_SHOWN].strip()),) if outcome.unread else ()
    return (*unread, CHECK) if unread or outcome.shaky else ()


def _leader(recorded: tuple[Told, ...]) -> tuple[Told | None, tuple[Told, ...]]:
    """The entry that is answered in full, and the others."""
    if len(recorded) == 1:
        return recorded[0], ()
    leading = [told for told in recorded if type(told.entry) in LEADING]
    if not leading:
        return None, recorded
    leader = min(leading, key=_rank)
    return leader, tuple(told for told in recorded if told is not leader)


def _rank(told: Told) -> tuple[int, int]:
    danger = isinstance(told.entry, Illness) and bool(set(DANGER) & set(told.entry.signs))
    return (0 if danger else 1), LEADING.index(type(told.entry))


def _also(rest: tuple[Told, ...], outcome: Outcome, language: str) -> Iterator[tuple[Say, ...]]:
    """The other entries of a text, from all named to only counted; cautions with each."""
    phrases = _phrases(rest, outcome, language)
    cautions = _cautions(rest, outcome)
    for count in range(len(phrases), -1, -1):
        says = [say("noted.also", what="; ".join(phrases[:count]))] if count else []
        more = len(phrases) - count
        yield (*cautions, *says, *([say("noted.more", count=more)] if more else []))
    yield (say("noted.more", count=len(phrases)),)


def _cautions(told: tuple[Told, ...], outcome: Outcome) -> tuple[Say, ...]:
    """The hold of each cow whose milk is told, once."""
    milkings = ((t.entry, t) for t in told if isinstance(t.entry, Milk))
    says = [one for entry, t in milkings for one in herd.milk_held(entry, t, outcome)]
    return tuple(one for place, one in enumerate(says) if one not in says[:place])


def _phrases(told: tuple[Told, ...], outcome: Outcome, language: str) -> list[str]:
    """One phrase for each entry; the day is named at the last of those that share it."""
    return [summary(one.entry, language, today=outcome.today) for one in told]


def _all_noted(outcome: Outcome, language: str) -> str:
    """Several plain entries: each a phrase, with the milk's sum, as many as fit."""
    phrases = _short_milk(outcome, language) or _phrases(outcome.recorded, outcome, language)
    cautions = _cautions(outcome.recorded, outcome)
    candidates = []
    for count in range(len(phrases), 0, -1):
        more = len(phrases) - count
        says = [say("noted", what="; ".join(phrases[:count]))]
        if more:
            says.append(say("noted.more", count=more))
        candidates.append((*says, *cautions, *_total(outcome)))
    candidates.append((*cautions, say("noted.count", count=len(phrases))))
    return _with_doubts(candidates, outcome, language)


def _milkings(outcome: Outcome) -> list[Milk]:
    return [told.entry for told in outcome.recorded if isinstance(told.entry, Milk)]


def _short_milk(outcome: Outcome, language: str) -> list[str]:
    """Milkings of one session: the session said once, at the first. Empty where they differ."""
    milk = _milkings(outcome)
    same = len({(entry.on, entry.session) for entry in milk}) == 1
    if not same or len(milk) < len(outcome.recorded):
        return []
    first = summary(milk[0], language, today=outcome.today)
    others = (say("milk.short", names=(entry.animal,), litres=entry.litres) for entry in milk[1:])
    return [first, *(texts.render(one, language) for one in others)]


def _total(outcome: Outcome) -> tuple[Say, ...]:
    """The sum of several milkings, where nothing else was told."""
    milk = _milkings(outcome)
    if len(milk) < 2 or len(milk) < len(outcome.recorded):
        return ()
    return (say("milk.total", litres=sum(entry.litres for entry in milk)),)


def _undone(outcome: Outcome, language: str) -> str:
    """What was taken out, and what was put in its place."""
    phrases = _phrases(outcome.undone, outcome, language)
    instead: Ways = ((),)
    if outcome.recorded:
        leader, _ = _leader(outcome.recorded)
        instead = ways_of(leader or outcome.recorded[0], outcome, language)
    candidates = [(*out, *way) for way in instead for out in _taken_out(phrases)]
    if outcome.recorded:  # what stands now is never cut for the sake of what was taken out
        candidates += [(say("undo.mended"), *way) for way in instead]
    return texts.first_that_fits(*candidates, language=language)


def _taken_out(phrases: list[str]) -> Iterator[tuple[Say, ...]]:
    for count in range(len(phrases), 0, -1):
        more = len(phrases) - count
        says = (say("undo.done", what="; ".join(phrases[:count])),)
        yield (*says, say("noted.more", count=more)) if more else says


def _question(outcome: Outcome, problem: Problem, language: str) -> str:
    """The question first, then what of the text was written down all the same."""
    besides = _beside(outcome, language)
    if [told.id for told in outcome.recorded] == [problem.amends]:
        besides = islice(besides, 1)  # the question is about it: there is nothing else to be counted
    for beside in (*besides, ""):
        room = texts.SEGMENT - (sms.septets(beside) + 2 if beside else 0)
        asked = question(
            problem,
            language,
            people=outcome.people,
            today=outcome.today,
            example=example_name(outcome.farm),
            room=room,
        )
        if texts.fits(asked, room) and (not beside or _choices_shown(problem, asked)):
            return f"{texts.ended(asked)} {beside}" if beside else asked
    return sms.cut(asked, texts.SEGMENT)


def _choices_shown(problem: Problem, asked: str) -> bool:
    """Whether the first few choices stand in the question: they come before what was written down."""
    asks = problem.code in {Code.WHICH_ANIMAL, Code.UNKNOWN_ANIMAL}
    return not asks or numbered(problem.options[:FIRST_CHOICES]) in asked


def _beside(outcome: Outcome, language: str) -> Iterator[str]:
    """What was written down or taken out, from all named to only counted."""
    undone = _phrases(outcome.undone, outcome, language)
    if undone:
        yield texts.render(say("undo.done", what="; ".join(undone)), language)
    phrases = _phrases(outcome.recorded, outcome, language)
    for count in range(len(phrases), 0, -1):
        more = len(phrases) - count
        says = [say("noted.beside", what="; ".join(phrases[:count]))]
        says += [say("noted.more", count=more)] if more else []
        yield texts.compose(*says, language=language, room=0)
    if phrases:
        yield texts.render(say("noted.count", count=len(phrases)), language)


def answered(outcome: Outcome, answer: str, language: str) -> str:
    """*answer* to what a text asked, and what the same text told was written down; three segments."""
    for beside in _beside(outcome, language):
        text = f"{texts.ended(answer)} {beside}"
        if texts.fits(text, texts.THREE_SEGMENTS):
            return text
    return answer


def alerts(outcome: Outcome, problem: Problem | None, language: str) -> tuple[str, ...]:
    """
    Texts that must accompany the reply: answers in full to urgent entries that it could only count,
    and the warning where milk was sold within a hold. Each one segment; usually none.
    """
    leader = _asked_about(outcome, problem) if problem is not None else _leader(outcome.recorded)[0]
    urgent = (t for t in outcome.recorded if isinstance(t.entry, URGENT) and t is not leader)
    made = [texts.first_that_fits(*ways_of(told, outcome, language), language=language) for told in urgent]
    warnings = (held_milk_warning(outcome, language), *calved_warnings(outcome, language))
    return (*made, *(warning for warning in warnings if warning is not None))


def _asked_about(outcome: Outcome, problem: Problem) -> Told | None:
    """The entry whose answer in full is the question about it."""
    return next((told for told in outcome.recorded if told.id == problem.amends), None)


def held_milk_warning(outcome: Outcome, language: str) -> str | None:
    """The warning that belongs to milk sold or handed in while a cow's milk is held; None: no need."""
    held: dict[str, Hold] = {}
    for entry in (told.entry for told in outcome.recorded if _sold(told.entry)):
        held |= under_a_drug(outcome.farm.present, entry.happened_on, getattr(entry, "session", None))
    if not held:
        return None
    first = latest(held.values())
    values = {"names": tuple(held), "who": who(outcome.people, "vet")}
    if first is None:
        return texts.render(Say("alert.held_milk_unknown", values), language)
    return texts.render(Say("alert.held_milk", {**values, "milking": milking(first)}), language)


def calved_warnings(outcome: Outcome, language: str) -> Iterator[str]:
    """The hold that begins at a calving, of what was put into the udder at drying off."""
    for told in outcome.recorded:
        animal = outcome.animal(told)
        if not isinstance(told.entry, Calving) or animal is None:
            continue
        held = drug_hold(animal, told.entry.on)
        if held is not None and any(dose.calved_on == told.entry.on for dose in animal.doses):
            key = "alert.dry_cow_unknown" if held.first is None else "alert.dry_cow"
            first = None if held.first is None else milking(held.first)
            values = {"name": animal.name, "milking": first, "who": who(outcome.people, "vet")}
            yield texts.render(Say(key, values), language)


def _sold(entry: Entry) -> bool:
    """Whether milk went out to be drunk."""
    return isinstance(entry, MilkSale) or (isinstance(entry, Delivery) and not entry.rejected)
