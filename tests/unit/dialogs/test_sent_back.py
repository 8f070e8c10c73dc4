"""Every word a text asks to be sent back is understood by the reader."""

from __future__ import annotations

import re

import pytest

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.texts import CATALOGUES
from service.husbandry.herd import Herd, Known, Sex, Status
from tests.unit.husbandry.book import at

COWS = (("Neema", Status.MILKING), ("Zawadi", Status.MILKING))
HERD = Herd(tuple(Known(name=n, names=(n,), sex=Sex.FEMALE, status=status) for n, status in COWS))
CALF = Herd((Known(name="Neema", names=("Neema",), sex=Sex.FEMALE, status=Status.CALF),))
NOW = at("2026-03-02 07:00")

SENT_BACK = {
    "sw": [
        ("FUTA", "undo"), ("HAPOKEI", "no_answer"), ("TAYARI 1 3", "done"), ("BAADAYE 2", "later"),
        ("MSAADA", "ask"), ("HESABU", "ask"), ("KAZI", "ask"), ("ANZA", "start"), ("ACHA", "stop"),
        ("ENGLISH", "language"), ("KISWAHILI", "language"), ("NIMPIGIE NANI", "ask"),
        ("NEEMA AMEPANDISHWA", "service"), ("NEEMA AMEPANDISHWA JANA", "service"),
        ("NEEMA JOTO", "heat"), ("NEEMA JOTO SAA 1 ASUBUHI", "heat"),
        ("NEEMA DAMU BAADA YA JOTO", "heat"), ("NEEMA ANA MIMBA", "pregnancy_check"),
        ("NEEMA HANA MIMBA", "pregnancy_check"), ("NEEMA MIMBA MIEZI 5", "pregnancy_check"),
        ("NEEMA ANA MIMBA MIEZI 5", "pregnancy_check"), ("NEEMA AMETUPA MIMBA", "abortion"),
        ("NEEMA AMEZAA", "calving"), ("NEEMA AMEZAA NDAMA JIKE", "calving"),
        ("NEEMA AMEZAA MAPACHA", "calving"), ("NEEMA AMEKAUKA", "drying_off"),
        ("NEEMA AMEACHISHWA", "weaning"), ("NEEMA 6", "milk"), ("ZAWADI 7.5", "milk"),
        ("NEEMA 6 JANA JIONI", "milk"), ("WOTE LITA 20", "milk"),
        ("NEEMA AMEPEWA DAWA, MAZIWA YASIUZWE SIKU 4", "treatment"), ("NEEMA HATAKI KULA", "illness"),
        ("NIMEOGESHA WOTE", "spraying"), ("DAWA YA KUPE KILA SIKU 7", "setting"),
        ("NIMEWAPA DAWA YA MINYOO WOTE", "deworming"), ("NEEMA KIFUA 150", "girth"),
        ("NG'OMBE MPYA NEEMA JIKE", "new_animal"), ("NG'OMBE MPYA NEEMA JIKE ANAKAMULIWA", "new_animal"),
        ("NG'OMBE MPYA NEEMA ANAKAMULIWA", "new_animal"), ("MTAMBA MPYA ASALI", "new_animal"),
        ("NG'OMBE WANGU", "ask"), ("HALI YA NEEMA", "ask"), ("NIMEMUUZA NEEMA 800000", "animal_sale"),
        ("UKUMBUSHO SAA 12 ASUBUHI", "setting"), ("NIMEUZA LITA 10 KWA 12000", "milk_sale"),
        ("NIMEUZA LITA 10 KWA MAMA ASHA MKOPO", "milk_sale"),
        ("NIMENUNUA PUMBA 20000", "expense"), ("NIMEPELEKA LITA 20 KITUONI", "delivery"),
        ("DAKTARI JUMA 0600000000", "contact"),
        ("DOZI NEEMA ML 1 KWA KILO 10 MWISHO ML 30", "ask"),
        ("LISHE NEEMA", "ask"), ("PUMBA INALIPA 700", "ask"), ("BANDA NG'OMBE 5", "ask"),
        ("AKIBA HEI MAROBOTA 100 NG'OMBE 2", "ask"),
        ("CHANGANYA ML 20 KWA LITA 20 NG'OMBE 5", "ask"), ("CHANGANYA 1:400 PAMPU LITA 16", "ask"),
    ],
    "en": [
        ("UNDO", "undo"), ("NO ANSWER", "no_answer"), ("DONE 1 3", "done"), ("LATER 2", "later"),
        ("HELP", "ask"), ("MONEY", "ask"), ("TASKS", "ask"), ("START", "start"), ("STOP", "stop"),
        ("WHO TO CALL", "ask"), ("NEEMA SERVED", "service"),
        ("NEEMA SERVED YESTERDAY", "service"), ("NEEMA HEAT", "heat"), ("NEEMA HEAT 7AM", "heat"),
        ("NEEMA BLOOD AFTER HEAT", "heat"), ("NEEMA IN CALF", "pregnancy_check"),
        ("NEEMA EMPTY", "pregnancy_check"), ("NEEMA IN CALF 5 MONTHS", "pregnancy_check"),
        ("NEEMA ABORTED", "abortion"), ("NEEMA CALVED", "calving"), ("NEEMA CALVED HEIFER", "calving"),
        ("NEEMA CALVED TWINS", "calving"), ("NEEMA DRY", "drying_off"), ("NEEMA WEANED", "weaning"),
        ("NEEMA 6", "milk"), ("NEEMA 6 YESTERDAY EVENING", "milk"), ("ALL 20 LITRES", "milk"),
        ("NEEMA TREATED, NO MILK FOR 4 DAYS", "treatment"),
        ("NEEMA TREATED, MILK HOLD 4 DAYS", "treatment"), ("NEEMA NOT EATING", "illness"),
        ("SPRAYED ALL", "spraying"), ("SPRAY EVERY 7", "setting"), ("DEWORMED ALL", "deworming"),
        ("NEEMA GIRTH 150", "girth"), ("NEW COW NEEMA", "new_animal"),
        ("NEW COW NEEMA MILKING", "new_animal"), ("NEW HEIFER ASALI", "new_animal"), ("MY COWS", "ask"),
        ("HOW IS NEEMA", "ask"), ("SOLD NEEMA 800000", "animal_sale"), ("NEEMA DIED", "death"),
        ("REMIND 6AM", "setting"), ("SOLD 10 LITRES FOR 12000", "milk_sale"),
        ("SOLD 10 LITRES TO MAMA ASHA ON CREDIT", "milk_sale"),
        ("BOUGHT MEAL 20000", "expense"), ("TOOK 20 LITRES TO THE CENTRE", "delivery"),
        ("VET JUMA 0600000000", "contact"), ("DOSE NEEMA 1 ML PER 10 KG MAX 30 ML", "ask"),
        ("RATION NEEMA", "ask"), ("FEED WORTH 700", "ask"), ("SPACE 5 COWS", "ask"),
        ("FODDER 100 BALES HAY 2 COWS", "ask"),
        ("MIX 20 ML IN 20 L FOR 5 COWS", "ask"), ("MIX 1:400 IN 16 L", "ask"),
    ],
}  # fmt: skip
CASES = [(language, text, kind) for language, some in SENT_BACK.items() for text, kind in some]


def spoken(language: str) -> str:
    """All texts of a language, with Neema for every cow and whole of their parts."""
    whole = " ".join(CATALOGUES[language].values())
    named = re.sub(r"\{(name|first_name):upper\}", "NEEMA", whole)
    return re.sub(r"<\d:|>", "", re.sub(r"\{number\}", "1", named))


@pytest.mark.parametrize(("language", "text", "kind"), CASES)
def test_what_is_to_be_sent_back_is_asked_for_and_understood(language, text, kind):
    assert text in spoken(language)
    herd = CALF if kind == "weaning" else Herd(()) if kind == "new_animal" else HERD
    reading = read(text, herd, now=NOW, language=language, place=Place())
    assert [entry.KIND for entry in reading.entries] == [kind]
    assert reading.problems == ()
