"""What each kind takes from a text, one or two tellings of each in both languages and mixed."""

from typing import Any

import pytest

from service.husbandry.kinds import KINDS
from tests.unit.dialogs.grammar.reading import EMPTY, entries, entry

MONEY = {"currency": "TZS"}


def tzs(amount: int) -> dict[str, str]:
    return {"amount": f"{amount}.00", "currency": "TZS"}


TOLD: list[tuple[str, dict[str, Any]]] = [
    ("Maziwa Neema 6", {"kind": "milk", "animal": "Neema", "litres": 6}),
    ("Tausi milk 5.15kg", {"kind": "milk", "animal": "Tausi", "litres": 5}),
    ("jumla ya maziwa leo lita 22", {"kind": "milk", "animal": "*", "litres": 22}),
    ("Tausi anapandwa na wenzake", {"kind": "heat", "animal": "Tausi", "signs": ["standing"]}),
    ("Zawadi ametokwa na damu ukeni", {"kind": "heat", "animal": "Zawadi", "bleeding": True}),
    ("Nyota ametokwa na damu ukeni", {"kind": "illness", "animal": "Nyota", "signs": ["bleeding"]}),
    ("Neema mwili wake una joto", {"kind": "illness", "signs": ["fever"]}),
    ("Neema kapandishwa na fundi Juma kwa mbegu ya Shujaa elfu 25",
     {"kind": "service", "method": "ai", "technician": "Juma", "sire": "Shujaa", "cost": tzs(25000)}),
    ("A12 served na Jasiri jana", {"kind": "service", "method": "bull", "sire": "Jasiri"}),
    ("Juma inseminated Zawadi for 20000", {"kind": "service", "method": "ai", "technician": "Juma"}),
    ("Neema ana mimba ya miezi mitatu", {"kind": "pregnancy_check", "result": "pregnant", "months": 3}),
    ("Neema hana mimba", {"kind": "pregnancy_check", "result": "empty"}),
    ("daktari amempima Pendo mimba, hana", {"kind": "pregnancy_check", "result": "empty"}),
    ("Zawadi amezaa mapacha majike",
     {"kind": "calving", "calves": [{"sex": "female", "alive": True, "name": None}] * 2}),
    ("Chausiku had a hard calving, bull calf dead",
     {"kind": "calving", "ease": "hard", "calves": [{"sex": "male", "alive": False, "name": None}]}),
    ("Tausi amezaa ndama dume, jina lake Simba", {"kind": "calving",
     "calves": [{"sex": "male", "alive": True, "name": "Simba"}]}),
    ("Nyota ametupa mimba", {"kind": "abortion", "animal": "Nyota"}),
    ("zawadi amelose mimba, 4 months", {"kind": "abortion", "animal": "Zawadi"}),
    ("Nimeacha kumkamua Tausi tangu jana", {"kind": "drying_off", "animal": "Tausi", "on": "2026-03-01"}),
    ("Kito ameachishwa kunyonya", {"kind": "weaning", "animal": "Kito"}),
    ("Asali girth sm 148", {"kind": "girth", "cm": 148}),
    ("Kito kilo 45", {"kind": "weight", "kg": 45}),
    ("Neema condition score 3.25", {"kind": "condition", "score": 3.25}),
    ("Dewormed Neema and Zawadi with albendazole 40ml each",
     {"kind": "deworming", "animals": ["Neema", "Zawadi"], "product": "albendazole", "amount_ml": 80}),
    ("leo nimeogesha", {"kind": "spraying", "animals": ["*"]}),
    ("ndama wote wamechanjwa ndigana", {"kind": "vaccination", "disease": "ecf"}),
    ("sindano ya chambavu kwa Bahati", {"kind": "vaccination", "disease": "blackquarter"}),
    ("tumepulizia banda dawa", {"kind": "disinfection"}),
    ("Neema injected with oxytetracycline, no milk 4 days no meat 21 days",
     {"kind": "treatment", "product": "oxytetracycline", "milk_hold_days": 4, "meat_hold_days": 21}),
    ("Neema treated for mastitis with OTC, milk hold 72 hours",
     {"kind": "treatment", "product": "OTC", "reason": "mastitis", "milk_hold_days": 3}),
    ("Neema hali chakula na anakohoa", {"kind": "illness", "signs": ["off_feed", "cough"]}),
    ("kiwele cha Neema kimevimba", {"kind": "illness", "animal": "Neema", "signs": ["udder_hard"]}),
    ("fed Neema and Tausi 3 kg bran each", {"kind": "feeding", "animals": ["Neema", "Tausi"], "kg": 6}),
    ("Juma amenunua maziwa lita 5, amelipa jumla sh 6500",
     {"kind": "milk_sale", "litres": 5, "price": tzs(1300), "amount": tzs(6500), "buyer": "Juma"}),
    ("I sold milk worth 24000 at 1200 a litre", {"kind": "milk_sale", "litres": 20}),
    ("kituo kimekataa lita 10, yana maji",
     {"kind": "delivery", "litres": 10, "rejected": True, "reason": "yana maji"}),
    ("nimepeleka maziwa kituoni kilo 20", {"kind": "delivery", "kg": 20}),
    ("Nimelipwa maziwa ya mwezi uliopita 280,000 makato dawa 20,000",
     {"kind": "milk_pay", "month": "2026-02", "amount": tzs(280000),
      "deductions": [{"what": "dawa", "amount": tzs(20000)}]}),
    ("Mwezi sold 850k", {"kind": "animal_sale", "animal": "Mwezi", "amount": tzs(850000)}),
    ("nimenunua mashudu ya elfu arobaini na tano", {"kind": "expense", "amount": tzs(45000)}),
    ("sold manure 40,000", {"kind": "other_income", "what": "manure", "amount": tzs(40000)}),
    ("Mwezi amechinjwa leo", {"kind": "death", "animal": "Mwezi", "reason": "slaughtered"}),
    ("Nimenunua mtamba anaitwa Subira kwa laki 8",
     {"kind": "new_animal", "name": "Subira", "sex": "female", "status": "heifer", "price": tzs(800000)}),
    ("Badilisha jina la Kito kuwa Simba", {"kind": "naming", "animal": "Kito", "name": "Simba"}),
    ("daktari wetu ni Juma 0712345678",
     {"kind": "contact", "role": "vet", "name": "Juma", "phone": "+255712345678"}),
    ("SPRAY EVERY 14", {"kind": "setting", "task": "spray", "every_days": 14}),
    ("nitumie ujumbe saa moja asubuhi", {"kind": "setting", "hour": 7}),
    ("TAYARI 1,3", {"kind": "done", "numbers": [1, 3]}),
    ("kazi ya kupima uzito wa Sumu imekamilika", {"kind": "done", "task": "weigh", "animals": ["Sumu"]}),
    ("BAADAYE 2", {"kind": "later", "numbers": [2]}),
    ("daktari hapokei simu", {"kind": "no_answer"}),
    ("FUTA", {"kind": "undo"}),
    ("Neema atazaa lini?", {"kind": "ask", "topic": "animal", "animal": "Neema"}),
    ("hesabu ya Februari", {"kind": "ask", "topic": "statement", "month": "2026-02"}),
    ("badilisha lugha iwe kiingereza", {"kind": "language", "to": "en"}),
    ("SIMAMA", {"kind": "stop"}),
    ("dume ameondoka", {"kind": "bull_left", "animals": ["*"]}),
    ("Neema amepona", {"kind": "recovery", "animal": "Neema"}),
    ("Neema ndama amenyonya", {"kind": "milk_reason", "animal": "Neema", "reason": "calf"}),
    ("Zawadi was sucked by the calf", {"kind": "milk_reason", "animal": "Zawadi", "reason": "calf"}),
    ("Asha paid her debt 5000", {"kind": "payment", "buyer": "Asha", "amount": tzs(5000)}),
    ("SI KWELI", {"kind": "contest"}),
    ("ONGEZA MSAIDIZI JUMA 0712345678", {"kind": "helper", "act": "add", "phone": "+255712345678"}),
    ("PIN 4821", {"kind": "pin", "act": "give", "code": "4821"}),
    ("CHANJO NDIGANA 3", {"kind": "willing", "disease": "ecf", "count": 3}),
    ("FIX", {"kind": "fix"}),
    ("nataka kurudi kwenye huduma, anza tena", {"kind": "start"}),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), TOLD, ids=[text for text, _ in TOLD])
def test_a_telling_of_each_kind(text: str, told: dict[str, Any]) -> None:
    read = entry(text)
    assert {key: read.get(key) for key in told} == told


def test_no_kind_is_left_out() -> None:
    assert {told["kind"] for _, told in TOLD} == {kind.KIND for kind in KINDS}


def test_several_milkings_in_whichever_order() -> None:
    def told(text: str) -> list[tuple[str, float, str]]:
        return [(e["animal"], e["litres"], e["session"]) for e in entries(text)]

    assert told("Neema 6 5") == [("Neema", 6, "morning"), ("Neema", 5, "evening")]
    assert told("Neema 6 am 5 pm") == told("pendo am 6 pm 5".replace("pendo", "Neema"))
    assert told("asubuhi Neema 6, Zawadi 5; jioni Neema 4") == [
        ("Neema", 6, "morning"), ("Zawadi", 5, "morning"), ("Neema", 4, "evening"),
    ]  # fmt: skip
    assert told("6 litres from Neema and 5 from Zawadi") == [
        ("Neema", 6, "evening"),
        ("Zawadi", 5, "evening"),
    ]
    assert told("Neema na Zawadi 6 na 5") == [("Neema", 6, "evening"), ("Zawadi", 5, "evening")]
    assert told("Neema na Zawadi lita 6 kila mmoja") == [("Neema", 6, "evening"), ("Zawadi", 6, "evening")]


def test_what_is_told_together_is_taken_apart() -> None:
    def kinds(text: str) -> list[tuple[str, str | None]]:
        return [(e["kind"], e.get("animal")) for e in entries(text)]

    assert kinds("Neema amepandishwa jana na Zawadi ana joto leo") == [
        ("service", "Neema"),
        ("heat", "Zawadi"),
    ]
    assert kinds("Neema 6, ana joto") == [("milk", "Neema"), ("heat", "Neema")]
    assert kinds("maziwa Neema 6 nimeuza lita 4 kwa 1200 kwa lita") == [
        ("milk", "Neema"),
        ("milk_sale", None),
    ]
    assert kinds("Neema amezaa jike, kondo halijatoka") == [("calving", "Neema"), ("illness", "Neema")]
    assert kinds("nimeogesha na kuwapa dawa ya minyoo ng'ombe wote") == [
        ("spraying", None),
        ("deworming", None),
    ]


def test_the_first_telling_enters_the_herd() -> None:
    text = "Neema ana mimba miezi 5, Zawadi ananyonyesha, mtamba mmoja"
    assert entries(text, herd=EMPTY) == [
        {"kind": "new_animal", "name": "Neema", "sex": "female", "on": "2026-03-02"},
        {"kind": "pregnancy_check", "animal": "Neema", "on": "2026-03-02", "result": "pregnant", "months": 5},
        {"kind": "new_animal", "name": "Zawadi", "sex": "female", "status": "milking", "on": "2026-03-02"},
        {"kind": "new_animal", "name": "Mtamba", "sex": "female", "status": "heifer", "on": "2026-03-02"},
    ]


def test_animals_without_a_name_get_a_working_name() -> None:
    names = [e["name"] for e in entries("2 heifers, 1 bull", herd=EMPTY)]
    assert names == ["Heifer", "Heifer 2", "Bull"]
