"""Vaccinations that the cooperative announces, as texts: the call, and the answers to her answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from dialogs import texts
from dialogs.confirm.vaccination import age
from dialogs.phrases import disease as named
from service import sms
from service.husbandry.vaccines import CALENDAR
from service.messages import Say, say

PLACE_ROOM = 24
"""Septets of the longest place: with it every announcement is one segment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Announced:
    """What is announced. ``start`` (farm-local) and ``place`` None: farms are gathered, no day is set."""

    disease: str
    start: datetime | None
    place: str | None


def announcement(what: Announced, animals: Sequence[str], language: str, *, willing: bool = False) -> str:
    """
    One segment to a farm: the day, or the question who would come; which of its *animals*; how to answer.

    Args:
        animals: Names of those that are of the right age and sex; as many as fit are named.
        willing: To a farm that has agreed: how to take that back, in place of the question.
    """
    word = say(f"campaign.word.{what.disease}")
    count = max(len(animals), 1)
    keys = ("campaign.change",) if willing else ("campaign.answer", "campaign.answer_short")
    answers = [say(key, word=word, count=count) for key in keys]
    first, last = _begin(what), _caution(what)
    which = "campaign.fit" if what.start is None else "campaign.bring"
    those = [(Say(which, {"words": words}),) for words in _words(animals, language)]
    candidates = [(first, *bring, *last, how) for bring in (*those, ()) for how in answers]
    return texts.first_that_fits(*candidates, language=language)


def _begin(what: Announced) -> Say:
    if what.start is None:
        vaccine = CALENDAR[what.disease]
        young = age(vaccine.youngest_months, vaccine.youngest_days)
        return say("campaign.gather", disease=named(what.disease), age=young)
    return say("campaign.day", **_day(what))


def _day(what: Announced) -> dict[str, object]:
    start = what.start
    on = None if start is None else start.date()
    return {"disease": named(what.disease), "on": on, "start": start, "place": what.place}


def _caution(what: Announced) -> tuple[Say, ...]:
    """One caution; a gathering says itself who may come."""
    vaccine = CALENDAR[what.disease]
    if what.start is None:
        return ()
    if vaccine.oldest_months is not None:
        heifers = say("campaign.caution_heifers", low=vaccine.youngest_months, high=vaccine.oldest_months)
        return (heifers,)
    return (say("campaign.caution_in_calf" if vaccine.not_in_calf else "campaign.caution"),)


def _words(animals: Sequence[str], language: str) -> Iterator[Say]:
    """Her animals: all by name, then ever fewer and how many more, then their number alone."""
    for shown in range(len(animals), 0, -1):
        yield _names(animals, shown, language)
    if animals:
        yield say("campaign.count", count=len(animals))


def _names(animals: Sequence[str], shown: int, language: str) -> Say:
    plain = [sms.plain(name) for name in animals]
    if shown == len(plain):
        last = plain[-1:] if shown == 1 else [texts.render(say("names", names=tuple(plain[-2:])), language)]
        return say("plain", words=", ".join((*plain[:-2], *last)))
    return say("campaign.names_more", names=", ".join(plain[:shown]), count=len(plain) - shown)


def noted(what: Announced, count: int, language: str) -> str:
    """The answer to a farm that would bring *count* animals; 0: none."""
    values = {**_day(what), "word": say(f"campaign.word.{what.disease}"), "count": count}
    if count == 0:
        return texts.render(Say("campaign.noted_no", values), language)
    key = "campaign.noted" if what.start is None else "campaign.noted_day"
    return texts.render(Say(key, values), language)
