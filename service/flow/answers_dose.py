"""Questions about a dose or a mixture, answered."""

from __future__ import annotations

from dataclasses import replace

from dialogs.dosing import answer_dose, answer_mix
from dialogs.phrases import called
from service.flow.finding import find_present
from service.flow.telling import Telling
from service.husbandry.kinds.instructions import Ask


def dose(telling: Telling, ask: Ask) -> None:
    farm, people = telling.book.farm, telling.people()
    animal = find_present(farm, ask.animal)
    text = answer_dose(ask, animal, farm, people, telling.local.date(), telling.language)
    named = called(text, people)
    if named:
        telling.talk = replace(telling.talk, called=named)
    telling.answers.append(text)


def mix(telling: Telling, ask: Ask) -> None:
    telling.answers.append(answer_mix(ask, telling.book.farm, telling.language))
