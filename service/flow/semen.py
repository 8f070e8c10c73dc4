"""The question which semen to take for a cow, answered from the cooperative's list."""

from __future__ import annotations

from dataclasses import replace

from dialogs.answers_semen import answer_semen
from dialogs.phrases import called
from service.flow.finding import find_present
from service.flow.telling import Telling
from service.husbandry.kinds.instructions import Ask
from service.records import semen


def choose(telling: Telling, ask: Ask) -> None:
    """Up to three bulls for the cow asked about."""
    farm, people = telling.book.farm, telling.people()
    text = answer_semen(
        ask,
        find_present(farm, ask.animal),
        farm,
        semen.catalogue(telling.conn, telling.caller.cooperative_id),
        people,
        telling.local.date(),
        telling.language,
    )
    named = called(text, people)
    if named:
        telling.talk = replace(telling.talk, called=named)
    telling.answers.append(text)
