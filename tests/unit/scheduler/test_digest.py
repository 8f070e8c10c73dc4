"""Reminders as texts: one segment, numbered, with dates, cautions and whom to call."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from dialogs import texts
from dialogs.work import BY_URGENCY, Due
from scheduler.digest import Digest, digest, items, serve_text
from service import sms
from service.husbandry.forms import Calf
from service.husbandry.kinds import (
    Calving,
    Deworming,
    Disinfection,
    Heat,
    Illness,
    PregnancyCheck,
    Service,
    Setting,
    Spraying,
    Treatment,
    Vaccination,
)
from service.husbandry.task import Key, Task
from tests.unit.dialogs.farmhouse import FAR_INSEMINATOR, FAR_VET, INSEMINATOR, LONG, VET, Farmhouse, moment
from tests.unit.husbandry.book import day

LANGUAGES = ("sw", "en")
D = Decimal
ON = day("2026-03-01")


@pytest.fixture(autouse=True)
def nothing_is_cut(monkeypatch):
    def refuse(text: str, room: int) -> str:
        assert room < 100, text
        return text

    monkeypatch.setattr(texts.sms, "cut", refuse)


def morning(house: Farmhouse, *works: str, language: str = "sw", texts: int = 2) -> Digest:
    return digest(house.due(*works), house.book.farm, house.people, house.now, language, texts=texts)


def only(house: Farmhouse, *works: str, language: str = "sw") -> str:
    (text,) = morning(house, *works, language=language).texts
    return text.text


def served(*names: str, house: Farmhouse | None = None) -> Farmhouse:
    house = house or Farmhouse()
    house.tell(*(Service(animal=name, on=ON) for name in names))
    return house


def in_calf(*names: str, house: Farmhouse | None = None) -> Farmhouse:
    house = served(*names, house=house)
    house.tell(*(PregnancyCheck(animal=n, on=day("2026-05-01"), result="pregnant") for n in names))
    return house


def test_a_single_item_gets_its_own_full_text_and_is_still_number_one():
    house = served("Tausi").at("2026-03-18 06:00")
    made = morning(house, "return_heat")
    assert made.texts[0].text == (
        "Tausi alipandishwa 1 Machi. Tarehe 19 hadi 25 Machi angalia joto asubuhi na jioni. "
        "Ukiliona jibu: TAUSI JOTO. Usipoliona, mimba bado si hakika."
    )
    assert made.texts[0].items == ((house.due("return_heat")[0].id,),)
    assert made.texts[0].first_number == 1
    assert made.left == ()


@pytest.mark.parametrize(
    ("work", "now", "words"),
    [
        ("pregnancy_check", "2026-04-30 06:00", ("siku 60", "bila kipimo tunakisia", "NEEMA ANA MIMBA")),
        ("dry_off", "2026-10-09 06:00", ("8 Des", "acha kumkamua", "daktari kwanza")),
        ("steam_up", "2026-11-17 06:00", ("8 Des", "kilo 1", "amenona usiongeze")),
        ("calving", "2026-11-29 06:00", ("nusu saa", "Mushi 0754123456")),
        ("calving_overdue", "2026-12-22 06:00", ("8 Des, siku 14", "NEEMA AMEZAA", "Mushi 0754123456")),
    ],
)
def test_the_year_of_a_cow_found_in_calf(work, now, words):
    house = in_calf("Neema", house=Farmhouse(people={"vet": VET}))
    if work == "pregnancy_check":
        house = served("Neema")
    text = only(house.at(now), work)
    assert all(word in text for word in words), text


@pytest.mark.parametrize(("work", "now"), [("dry_off", "2026-10-09 06:00"), ("steam_up", "2026-11-17 06:00")])
def test_drying_off_and_steaming_up_of_a_cow_not_found_in_calf_ask_for_the_check(work, now):
    text = only(served("Neema").at(now), work)
    assert "ampime mimba" in text
    assert "acha kumkamua" not in text
    assert "pumba" not in text


def test_a_heifer_is_given_an_hour():
    house = Farmhouse("Nyota", status="heifer")
    text = only(in_calf("Nyota", house=house).at("2026-11-29 06:00"), "calving")
    assert "dakika 60" in text


def test_a_watch_after_blood_or_a_missed_heat_names_no_service():
    house = Farmhouse(now="2026-03-02 18:00")
    house.tell(Heat(animal="Neema", first_seen=moment("2026-02-28 07:00")))
    text = only(house.at("2026-03-18 06:00"), "return_heat")
    assert "alipandishwa" not in text
    assert "18 hadi 24 Machi" in text


def routine() -> Farmhouse:
    house = Farmhouse()
    house.tell(Spraying(on=ON), Disinfection(on=ON), Deworming(on=ON))
    return house


@pytest.mark.parametrize(
    ("work", "now", "words"),
    [
        ("spray", "2026-03-07 06:00", ("Jumapili", "usichanganye dawa mbili", "glavu", "wajawazito")),
        ("disinfect", "2026-03-08 06:00", ("Jumapili", "chupa", "glavu", "watoto")),
        ("deworm", "2026-06-01 06:00", ("Pima uzito", "chupa", "muulize daktari", "maziwa")),
    ],
)
def test_a_reminder_that_could_hurt_carries_its_caution(work, now, words):
    text = only(routine().at(now), work)
    assert all(word in text for word in words), text


def test_the_end_of_a_hold_is_told_as_what_was_told_us():
    house = Farmhouse()
    house.tell(Treatment(animals=("Neema",), on=ON, milk_hold_days=D(4), meat_hold_days=D(28)))
    text = only(house.at("2026-03-05 06:00"), "milk_hold_end")
    assert "maziwa ya kwanza kuuzwa ni 6 Machi asubuhi" in text
    assert "usiuze" in text


def test_calf_feeding_goes_by_age():
    house = Farmhouse()
    house.tell(Calving(animal="Neema", on=ON, calves=(Calf("female"),)))
    assert "chakula cha ndama kidogo" in only(house.at("2026-03-07 06:00"), "calf_feed")
    assert "ndama wakubwa" in only(house.at("2026-05-31 06:00"), "calf_feed")
    assert "mtamba" in only(house.at("2026-10-30 06:00"), "calf_feed")


def test_the_same_work_of_several_animals_is_one_item():
    house = served("Neema", "Zawadi", "Tausi").at("2026-04-30 06:00")
    made = morning(house, "pregnancy_check")
    assert [len(item) for text in made.texts for item in text.items] == [3]
    assert "Neema, Zawadi na Tausi" in made.texts[0].text


def busy() -> Farmhouse:
    """Nine different things due on one morning."""
    house = Farmhouse("Neema", "Zawadi", "Tausi", "Pendo", "A12", "0417")
    house.tell(
        Service(animal="Neema", on=day("2026-03-01")),
        Service(animal="Zawadi", on=day("2026-01-18")),
        Calving(animal="Tausi", on=day("2026-02-02"), calves=(Calf("male"),)),
        Spraying(on=day("2026-03-12")),
        Disinfection(on=day("2026-03-12")),
        Deworming(on=day("2025-12-19")),
        Treatment(animals=("Pendo",), on=day("2026-03-14"), milk_hold_days=D(4)),
        Service(animal="A12", on=day("2025-05-28")),
    )
    return house.at("2026-03-19 06:00")


def test_more_than_two_things_are_a_numbered_list_most_urgent_first():
    made = morning(busy(), "return_heat", "pregnancy_check", "spray")
    (text,) = made.texts
    assert text.text.startswith("Leo: 1 Neema, angalia joto 19 hadi 25 Machi. 2 Zawadi, kupima mimba. 3 ")
    assert "TAYARI 1" in text.text


def test_a_morning_has_at_most_two_texts_of_three_things_and_numbers_run_on():
    house = busy()
    due = house.due()
    made = digest(due, house.book.farm, {}, house.now, "sw")
    first, second = made.texts
    assert first.first_number == 1
    assert second.first_number == len(first.items) + 1
    assert len(first.items) <= 3
    assert len(second.items) <= 3
    assert f"{second.first_number} " in second.text
    told = {one for text in made.texts for item in text.items for one in item}
    assert told | set(made.left) == {d.id for d in due}
    assert not told & set(made.left)
    assert first.items[0] == tuple(d.id for d in due if d.task.key.task == "return_heat")


def test_the_last_of_four_things_has_a_text_of_its_own():
    made = morning(busy(), "return_heat", "pregnancy_check", "spray", "milk_hold_end")
    assert [len(text.items) for text in made.texts] == [3, 1]
    assert "watoto" in made.texts[1].text.casefold()


def test_without_room_everything_is_left():
    house = busy()
    made = morning(house, texts=0)
    assert made.texts == ()
    assert set(made.left) == {due.id for due in house.due()}


@pytest.mark.parametrize("room", [1, 2])
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_return_heat_never_waits(room, language):
    names = tuple(f"Ng'ombe {number:03}" for number in range(12))
    house = Farmhouse(*names)
    house.tell(*(Service(animal=name, on=day(f"2026-02-{14 + n:02}")) for n, name in enumerate(names)))
    house.tell(Spraying(on=day("2026-02-27")))
    house.at("2026-03-06 06:00")
    due = house.due("return_heat", "spray")
    heats = {d.id for d in due if d.task.key.task == "return_heat"}
    made = digest(due, house.book.farm, {}, house.now, language, texts=room)
    assert not heats & set(made.left)


def test_of_a_thing_to_come_the_weekday_is_named():
    house = served("Neema", "Zawadi").at("2026-03-18 06:00")
    house.tell(Spraying(on=day("2026-03-12")), Disinfection(on=day("2026-03-11")))
    made = morning(house, "return_heat", "spray", "disinfect")
    assert made.texts[0].text.startswith("Kazi: 1 Neema na Zawadi, angalia joto 19 hadi 25 Machi.")
    assert "kuanzia Alhamisi" in made.texts[0].text
    assert "kesho" not in made.texts[0].text


def test_the_serve_reminder_names_the_inseminator_and_the_hours_left():
    house = Farmhouse(people={"technician": INSEMINATOR}, now="2026-03-02 07:00")
    house.tell(Heat(animal="Neema", first_seen=moment("2026-03-02 07:00")))
    house.at("2026-03-02 13:00")
    made = serve_text(house.due("serve"), house.book.farm, house.people, house.now, "sw")
    assert "Mpigie SASA Juma 0621000111" in made.text
    assert "sasa hadi saa 2 usiku" in made.text
    assert made.items == ((house.due("serve")[0].id,),)


@pytest.mark.parametrize("count", [2, 3, 9])
@pytest.mark.parametrize("language", LANGUAGES)
def test_several_cows_to_serve_are_one_text(count, language):
    names = tuple(f"Ng'ombe {number:04}" for number in range(count))
    house = Farmhouse(*names, people={"technician": FAR_INSEMINATOR}, now="2026-03-02 07:10")
    house.tell(*(Heat(animal=name, first_seen=moment("2026-03-02 07:10")) for name in names))
    made = serve_text(house.due("serve"), house.book.farm, house.people, house.now, language)
    assert len(made.items) == count
    assert sms.measure(made.text).segments == 1
    assert "+260971234567" in made.text


def test_all_work_has_words_and_fits_with_the_longest_names():
    """Every task due in a year and a half of a busy farm, on its own and in lists."""
    house = Farmhouse(*LONG, people={"vet": FAR_VET, "technician": FAR_INSEMINATOR})
    in_calf(*LONG[:2], house=house)
    house.tell(
        Service(animal=LONG[2], on=ON),
        Spraying(on=ON), Disinfection(on=ON), Deworming(on=ON),
        Treatment(animals=LONG, on=ON, milk_hold_days=D(4), meat_hold_days=D(28)),
        Setting(task="weigh", every_days=D(30), on=ON),
        *(Illness(animal=name, on=day("2026-03-03"), signs=("udder_clots",)) for name in LONG[:2]),
        Vaccination(animals=LONG, on=ON, disease="fmd"), Vaccination(animals=LONG, on=ON, disease="rvf"),
        Calving(animal=LONG[2], on=day("2025-12-20"), calves=(Calf("female"), Calf("male"))),
    )  # fmt: skip
    seen = set()
    for days in range(0, 540, 3):
        house.at(f"{day('2026-03-02') + timedelta(days=days)} 06:00")
        due = house.due()
        seen |= {item.work for item in items(due, house.now)}
        for language in LANGUAGES:
            alone = [digest([d for i in [item] for d in i.tasks], house.book.farm, house.people, house.now,
                            language) for item in items(due, house.now)]  # fmt: skip
            for made in (*alone, digest(due, house.book.farm, house.people, house.now, language)):
                for text in made.texts:
                    size = sms.measure(text.text)
                    assert (size.encoding, size.segments) == ("gsm7", 1), text.text
                    assert "  " not in text.text
    assert seen >= set(BY_URGENCY) - {"serve", "afterbirth", "heat_after_calving", "milk_record", "statement"}


@pytest.mark.parametrize(
    ("work", "words"), [("milk_record", "NEEMA 6"), ("statement", "HESABU"), ("weigh", "tepu")]
)
def test_work_asked_for_says_what_to_send(work, words):
    house = Farmhouse()
    animal = house.book.animal("Neema") if work == "weigh" else None
    key = Key(task=work, animal=animal.id if animal else None)
    due = Due(1, Task(key=key, due=ON, until=None, since=ON), animal)
    (text,) = digest([due], house.book.farm, {}, house.at("2026-03-01 06:00").now, "sw").texts
    assert words in text.text


def test_after_calving_heat_is_looked_for_until_a_day():
    house = Farmhouse()
    house.tell(Calving(animal="Neema", on=ON, calves=(Calf("female"),)))
    text = only(house.at("2026-04-15 06:00"), "heat_after_calving")
    assert "30 Mei" in text  # calving + 90 days
    assert "NEEMA JOTO" in text
