"""What is said of a vaccination: after it was told, and when one is due."""

from __future__ import annotations

from decimal import Decimal

import pytest

from dialogs import texts
from dialogs.reminders import own_text
from dialogs.replies import reply
from dialogs.values import LANGUAGES
from dialogs.work import Item
from scheduler.digest import digest
from service import sms
from service.husbandry.kinds.health import Vaccination
from service.husbandry.signs import DISEASES
from service.husbandry.vaccines import CALENDAR
from tests.unit.dialogs.farmhouse import FAR_VET, LONG, VET, Farmhouse, new
from tests.unit.husbandry.book import Book, day

ON = day("2026-03-02")


def house(*animals: dict[str, str], vet: bool = True) -> Farmhouse:
    """A farm of *animals* (as :func:`new` takes them), with a vet."""
    made = Farmhouse(people={"vet": VET} if vet else None)
    made.book = Book(*(new(**animal) for animal in animals))
    return made


def told(disease: str, *animals: dict[str, str], on: str = "2026-03-02") -> str:
    names = tuple(animal["name"] for animal in animals)
    telling = Vaccination(animals=names, disease=disease, on=day(on))
    return reply(house(*animals).tell(telling), None, "sw")


COW = {"name": "Neema"}
BULL = {"name": "Simba", "sex": "male", "status": "bull"}
IN_CALF = {"name": "Tausi", "status": "in_calf_heifer"}
CALF = {"name": "Asali", "status": "calf", "born": "2025-10-02"}
NEWBORN = {"name": "Zuri", "status": "calf", "born": "2026-02-20"}


@pytest.mark.parametrize(
    ("disease", "said"),
    [
        ("fmd", "Tumeandika: Asali, chanjo ya midomo na miguu, leo. Ni ya kwanza? Ya pili baada ya mwezi: "
                "muulize daktari. Tena karibu na 2 Sep 2026. Si sahihi? Jibu: FUTA"),
        ("brucellosis", "Tumeandika: Asali, chanjo ya brusela, leo. Aliyejichoma nayo aende kliniki. "
                        "Akivimba au akipata homa, mwite daktari. Si sahihi? Jibu: FUTA"),
        ("ecf", "Tumeandika: Asali, chanjo ya ndigana kali, leo. Daktari ampe na dawa yake siku hiyo hiyo. "
                "Hadi 30 Machi akipata homa au hataki kula, mwite daktari."),
        ("rabies", "Tumeandika: Asali, chanjo ya kichaa cha mbwa, leo. Akivimba au akipata homa, mwite "
                   "daktari. Tena karibu na 2 Machi 2027. Si sahihi? Jibu: FUTA"),
    ],
)  # fmt: skip
def test_the_reply_names_the_next_day_and_what_to_heed(disease: str, said: str) -> None:
    """The watch after East Coast fever's: 2 March + 28 d = 30 March; common practice, no source."""
    assert told(disease, CALF) == said


@pytest.mark.parametrize("disease", [d for d, vaccine in CALENDAR.items() if vaccine.live and d != "ecf"])
def test_after_a_live_vaccine_who_was_pricked_goes_to_the_clinic(disease: str) -> None:
    assert "Aliyejichoma nayo aende kliniki." in told(disease, CALF)


@pytest.mark.parametrize(
    ("disease", "animal", "said"),
    [
        ("brucellosis", BULL, "Chanjo hii si ya madume (Simba)."),
        ("brucellosis", COW, "Chanjo hii haitolewi baada ya miezi 8 (Neema)."),
        ("brucellosis", NEWBORN, "Chanjo hii haitolewi kabla ya miezi 3 (Zuri)."),
        ("ecf", NEWBORN, "Chanjo hii haitolewi kabla ya mwezi mmoja (Zuri)."),
        ("rvf", IN_CALF, "Chanjo hii si ya mwenye mimba (Tausi)."),
    ],
)
def test_what_was_not_for_her_is_written_down_said_and_left_to_the_vet(
    disease: str, animal: dict[str, str], said: str
) -> None:
    text = told(disease, animal)
    assert text.startswith(f"Tumeandika: {animal['name']}, chanjo ya ")
    assert f"{said} Mpigie Mushi 0754123456 leo." in text


def test_of_the_very_young_the_vet_is_asked_when_it_is_to_be_repeated() -> None:
    assert told("cbpp", NEWBORN).startswith(
        "Tumeandika: Zuri, chanjo ya mapafu, leo. Kabla ya siku 14 chanjo haishiki vizuri (Zuri): muulize "
        "daktari irudiwe lini. Aliyejichoma nayo aende kliniki."
    )


def test_only_those_it_was_not_for_are_named() -> None:
    text = told("brucellosis", CALF, BULL)
    assert text.startswith(
        "Tumeandika: Asali na Simba, chanjo ya brusela, leo. Chanjo hii si ya madume (Simba)."
    )


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("disease", DISEASES)
@pytest.mark.parametrize("hold", [None, Decimal(0), Decimal(300)])
@pytest.mark.parametrize(
    "animal",
    [
        {},
        {"sex": "male", "status": "bull"},
        {"status": "in_calf_heifer"},
        {"status": "calf", "born": "2026-02-28"},
    ],
)
def test_the_reply_is_one_segment_with_the_longest_names(
    monkeypatch: pytest.MonkeyPatch, language: str, disease: str, hold: Decimal | None, animal: dict[str, str]
) -> None:
    cut = sms.cut

    def refuse(text: str, room: int) -> str:
        assert room < sms.ONE["gsm7"], f"cut: {text}"
        return cut(text, room)  # a person's long name

    monkeypatch.setattr(sms, "cut", refuse)
    far = house(*({"name": name, **animal} for name in LONG[:2]), {"name": LONG[2]})
    far.people = {"vet": FAR_VET}
    for on in (ON, day("2026-02-28")):
        entry = Vaccination(animals=LONG, disease=disease, on=on, milk_hold_days=hold)
        text = reply(far.tell(entry), None, language)
        assert sms.septets(text) <= sms.ONE["gsm7"]


# --- reminders ------------------------------------------------------------------------------------


def due(disease: str, *names: str, language: str) -> str:
    farm = Farmhouse(*names, people={"vet": FAR_VET}, now="2026-03-02 06:00")
    farm.tell(Vaccination(animals=names, disease=disease, on=day("2025-03-02")))
    farm.at("2026-03-02 06:00")
    tasks = farm.due("vaccinate")
    return digest(tasks, farm.book.farm, farm.people, farm.now, language).texts[0].text


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("disease", ["fmd", "lsd", "anthrax", "blackquarter", "cbpp", "rvf", "rabies"])
def test_a_reminder_puts_people_first_and_leaves_the_rest_to_the_vet(language: str, disease: str) -> None:
    text = due(disease, *LONG, language=language)
    assert sms.septets(text) <= sms.ONE["gsm7"]
    assert ("Wajawazito" if language == "sw" else "regnant women") in text
    assert ("Mwite daktari" if language == "sw" else "Call the vet") in text
    if CALENDAR[disease].live:
        assert ("aliyejichoma" if language == "sw" else "anyone pricked") in text


def test_the_reminder_of_a_live_vaccine_says_that_none_in_calf_gets_it() -> None:
    assert "USICHANJE mwenye mimba" in due("rvf", "Neema", language="sw")
    assert "NOT for one in calf" in due("rvf", "Neema", language="en")


def test_the_reminder_of_a_window_names_its_last_day() -> None:
    farm = house({"name": "Asali", "status": "calf", "born": "2025-12-02"})
    farm.at("2026-03-02 06:00")
    item = Item(tuple(farm.due("vaccinate")))
    [text] = own_text(item, farm.book.farm, farm.people, farm.now)
    assert texts.render(text, "sw") == (
        "Asali: chanjo ya brusela, hadi 2 Agosti tu. Mwite daktari. Wajawazito na watoto mbali, glavu; "
        "aliyejichoma nayo aende kliniki."
    )


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_reminder_of_once_for_life_says_who_may_have_it(language: str) -> None:
    farm = house({"name": "Zuri", "status": "calf", "born": "2026-02-01"}, COW)
    farm.tell(Vaccination(animals=("Neema",), disease="ecf", on=day("2025-09-01")))
    farm.at("2026-03-01 06:00")
    [item] = [Item((due,)) for due in farm.due("vaccinate")]
    [said] = own_text(item, farm.book.farm, farm.people, farm.now)
    text = texts.render(said, language)
    assert ("mzima tu, apimwe uzito" if language == "sw" else "healthy only, weighed and seen first") in text
