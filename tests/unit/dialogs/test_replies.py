"""What is answered: dates, cautions and numbers to call, in one segment whatever was told."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest

from dialogs import replies, texts
from dialogs.asking import question
from dialogs.phrases import summary
from dialogs.reading import Code, Draft, Problem
from dialogs.replies import alerts, called, held_milk_warning, reply
from dialogs.work import items
from service import sms
from service.husbandry.forms import Calf, Deduction, Entry, form
from service.husbandry.kinds import (
    KINDS,
    Abortion,
    AnimalSale,
    BullLeft,
    Calving,
    Condition,
    Contact,
    Death,
    Delivery,
    Deworming,
    Disinfection,
    Done,
    DryingOff,
    Expense,
    Feeding,
    Girth,
    Heat,
    Illness,
    Milk,
    MilkPay,
    MilkReason,
    MilkSale,
    Naming,
    NewAnimal,
    OtherIncome,
    Payment,
    PregnancyCheck,
    Recovery,
    Service,
    Setting,
    Spraying,
    Treatment,
    Vaccination,
    Weaning,
    Weight,
)
from service.husbandry.signs import DISEASES, ILLNESS_SIGNS, MILK_REASONS
from service.husbandry.triage import DANGER, MILD
from service.husbandry.units import Money
from service.messages import say
from tests.unit.dialogs.farmhouse import (
    FAR_INSEMINATOR,
    FAR_VET,
    INSEMINATOR,
    LONG,
    VET,
    Farmhouse,
    moment,
    new,
)
from tests.unit.husbandry.book import day

ON = day("2026-03-02")
LANGUAGES = ("sw", "en")
D = Decimal


def shillings(amount: int | str) -> Money:
    return Money.of(amount, "TZS")


@pytest.fixture(autouse=True)
def nothing_is_cut(monkeypatch):
    """A reply that had to be cut at its end would lose what matters most."""

    def refuse(text: str, room: int) -> str:
        raise AssertionError(f"cut: {text}")

    monkeypatch.setattr(texts.sms, "cut", lambda text, room: text if room < 100 else refuse(text, room))


def milk(animal: str, litres: str = "6", session: str = "morning", on: str = "2026-03-02") -> Milk:
    return Milk(animal=animal, litres=D(litres), session=session, on=day(on))


def both(outcome: Any, problem: Problem | None = None) -> tuple[str, str]:
    sw, en = (reply(outcome, problem, language) for language in LANGUAGES)
    return sw, en


# --- heat ----------------------------------------------------------------------------------------


def test_a_heat_says_whom_to_call_now_and_the_good_hours():
    house = Farmhouse(people={"technician": INSEMINATOR})
    sw, en = both(house.tell(Heat(animal="Neema", first_seen=moment("2026-03-02 07:00"))))
    assert "Neema ana joto tangu saa 1 asubuhi. Mpigie SASA Juma 0621000111." in sw
    assert "leo saa 7 mchana hadi saa 2 usiku" in sw
    assert "Call NOW: Juma 0621000111." in en
    assert "today 1 pm to 8 pm" in en


def test_without_a_name_told_the_inseminator_is_called_by_his_office():
    sw, en = both(Farmhouse().tell(Heat(animal="Neema", first_seen=moment("2026-03-02 07:00"))))
    assert "Mpigie SASA mhimilishaji." in sw
    assert "Call NOW: the inseminator." in en


def test_an_evening_heat_names_the_morning():
    house = Farmhouse(now="2026-03-02 18:30")
    sw, en = both(house.tell(Heat(animal="Neema", first_seen=moment("2026-03-02 17:00"))))
    assert "Jumanne saa 11 alfajiri hadi saa 3 asubuhi" in sw
    assert "Tuesday 5 am to 9 am" in en


def test_restlessness_or_bellowing_alone_is_looked_at_again_before_a_straw_is_spent():
    told = Heat(animal="Neema", first_seen=moment("2026-03-02 07:00"), signs=("restless", "bellowing"))
    sw, en = both(Farmhouse().tell(told))
    assert "si hakika" in sw
    assert "ute safi" in sw
    assert "clear mucus" in en
    assert "Call NOW" not in en


def test_a_heat_told_after_its_window_names_the_days_to_watch():
    house = Farmhouse(now="2026-03-02 18:30")
    sw, en = both(house.tell(Heat(animal="Neema", first_seen=moment("2026-02-28 17:00"))))
    assert "18 hadi 24 Machi" in sw
    assert "usimpandishe sasa" in sw
    assert "18-24 Mar" in en


def test_blood_means_too_late_and_the_days_of_the_next_heat():
    told = Heat(animal="Neema", first_seen=moment("2026-03-02 06:00"), bleeding=True)
    sw, en = both(Farmhouse().tell(told))
    assert "limeshapita, usimpandishe sasa" in sw
    assert "17 hadi 25 Machi" in sw  # blood + 15 .. + 23 days
    assert "17-25 Mar" in en


def test_blood_soon_after_a_service_keeps_the_watch_of_the_service():
    house = Farmhouse()
    house.tell(Service(animal="Neema", on=day("2026-03-01")))
    sw, _ = both(house.tell(Heat(animal="Neema", first_seen=moment("2026-03-02 06:00"), bleeding=True)))
    assert "baada ya kupandishwa 1 Machi" in sw
    assert "19 hadi 25 Machi" in sw


def test_a_cow_recorded_in_calf_is_examined_and_not_served():
    house = Farmhouse()
    house.tell(PregnancyCheck(animal="Neema", on=ON, result="pregnant", months=D(5)))
    sw, en = both(house.tell(Heat(animal="Neema", first_seen=moment("2026-03-02 06:00"))))
    assert "Usimpandishe sasa" in sw
    assert "SASA" not in sw
    assert "Don't serve her now" in en


# --- service, check, calving ---------------------------------------------------------------------


def test_a_service_names_watch_check_and_calving_and_promises_no_calf():
    told = Service(animal="Neema", on=day("2026-03-03"), method="ai", sire="K77")
    sw, en = both(Farmhouse(now="2026-03-03 09:00").tell(told))
    assert en == (
        "Neema: served 3 Mar by K77. Look for heat 21-27 Mar. Check for calf from 2 May. "
        "If she holds, due about 10 Dec. Not right? Reply: UNDO"
    )
    assert "Akishika, atazaa karibu na 10 Des" in sw


def test_a_service_of_about_a_day_is_said_to_be_a_guess():
    sw, en = both(Farmhouse().tell(Service(animal="Neema", on=day("2026-01-15"), about=True)))
    assert "karibu na 15 Jan. Tarehe ni makisio." in sw
    assert "about 15 Jan. The date is a guess." in en


@pytest.mark.parametrize(
    ("result", "kiswahili", "english"),
    [
        ("pregnant", "Atazaa karibu na 8 Des", "Due about 8 Dec"),
        ("empty", "1 hadi 25 Mei", "1-25 May"),
        ("unsure", "kuanzia 31 Mei", "from 31 May"),
    ],
)
def test_a_check_says_what_follows(result, kiswahili, english):
    house = Farmhouse()
    house.tell(Service(animal="Neema", on=day("2026-03-01")))
    house.at("2026-05-01 10:00")
    sw, en = both(house.tell(PregnancyCheck(animal="Neema", on=day("2026-05-01"), result=result)))
    assert kiswahili in sw
    assert english in en


def test_in_calf_since_an_unknown_day_asks_for_the_months():
    sw, en = both(Farmhouse().tell(PregnancyCheck(animal="Neema", on=ON, result="pregnant")))
    assert "NEEMA MIMBA MIEZI 5" in sw
    assert "NEEMA IN CALF 5 MONTHS" in en


def test_a_calving_congratulates_and_names_first_milk_navel_afterbirth_and_the_calf():
    house = Farmhouse(now="2026-03-02 06:00")
    sw, en = both(house.tell(Calving(animal="Neema", on=ON, calves=(Calf("female"),))))
    assert sw == (
        "Hongera! Ndama wa Neema (Neema calf): dang'a lita 2 kabla ya saa 4 asubuhi, na 2 tena mchana. "
        "Kitovu: iodini. Usivute kondo; likibaki hadi Jumanne, daktari."
    )
    assert "2 l of first milk before 10 am" in en
    assert "(Neema calf)" in en
    assert "stays to Tuesday" in en


@pytest.mark.parametrize("calves", [(Calf("male", False),), (Calf("male", False), Calf("male", False))])
def test_a_dead_calf_is_no_occasion_for_congratulation(calves):
    sw, en = both(Farmhouse().tell(Calving(animal="Neema", on=ON, calves=calves)))
    assert sw.startswith("Pole")
    assert "glavu" in sw
    assert "Hongera" not in sw
    assert "Well done" not in en


def test_of_twins_one_dead_the_other_is_still_fed():
    told = Calving(animal="Neema", on=ON, calves=(Calf("female"), Calf("male", False)))
    sw, _ = both(Farmhouse().tell(told))
    assert sw.startswith("Pole kwa ndama aliyekufa. Neema calf: dang'a")


def test_a_lost_calf_puts_people_first():
    sw, en = both(Farmhouse(people={"vet": VET}).tell(Abortion(animal="Neema", on=ON)))
    for word in ("Pole", "Mushi 0754123456", "glavu", "wajawazito", "Chemsha maziwa"):
        assert word.casefold() in sw.casefold()
    assert "Boil the milk" in en


# --- milk and holds ------------------------------------------------------------------------------


def test_milk_is_written_down_with_its_session_and_can_be_taken_back():
    sw, en = both(Farmhouse().tell(milk("Neema", "6.50")))
    assert sw == "Tumeandika: Neema, maziwa lita 6.5, leo asubuhi. Si sahihi? Jibu: FUTA"
    assert en == "Written down: Neema, 6.5 l of milk, this morning. Not right? Reply: UNDO"


def test_several_milkings_of_a_session_are_summed():
    sw, _ = both(Farmhouse().tell(milk("Neema"), milk("Zawadi", "7"), milk("Tausi", "4.5")))
    assert "Neema, maziwa lita 6, leo asubuhi; Zawadi lita 7; Tausi lita 4.5. Jumla lita 17.5." in sw


def test_what_does_not_fit_is_a_count():
    names = tuple(f"Ng'ombe {number:03}" for number in range(20))
    sw, en = both(Farmhouse(*names).tell(*(milk(name) for name in names)))
    assert "Na mengine" in sw
    assert "Jumla lita 120" in sw
    assert "more." in en


def test_a_treatment_names_the_first_milking_that_may_be_sold():
    told = Treatment(animals=("Tausi",), on=ON, product="penicillin", milk_hold_days=D(4))
    sw, en = both(Farmhouse().tell(told))
    assert "USIUZE, usinywe, usichanganye" in sw
    assert "Ya kwanza kuuzwa: 7 Machi asubuhi" in sw  # on + 4 + 1
    assert "First milk to sell: 7 Mar morning" in en


def test_the_latest_of_several_holds_counts():
    house = Farmhouse()
    house.tell(Treatment(animals=("Tausi",), on=ON, milk_hold_days=D(10)))
    sw, _ = both(house.tell(Treatment(animals=("Tausi",), on=ON, milk_hold_days=D(2))))
    assert "13 Machi asubuhi" in sw


@pytest.mark.parametrize("kind", [Treatment, Deworming])
def test_an_unknown_hold_holds_until_the_label_or_the_vet_says(kind):
    sw, en = both(Farmhouse().tell(kind(animals=("Tausi",), on=ON)))
    assert "chupa" in sw
    assert "daktari" in sw
    assert "label" in en
    assert "milk" in en.casefold()


def test_a_label_that_says_none_is_not_an_unknown_one():
    sw, _ = both(Farmhouse().tell(Treatment(animals=("Tausi",), on=ON, milk_hold_days=D(0))))
    assert "maziwa hayazuiwi" in sw
    sw, _ = both(Farmhouse().tell(Deworming(animals=("Tausi",), on=ON, milk_hold_days=D(0))))
    assert "Maziwa" not in sw


def test_nobody_waits_for_the_milk_of_a_bull():
    house = Farmhouse()
    house.book.tell(new("Jasiri", status="bull", sex="male"))
    sw, _ = both(house.tell(Treatment(animals=("Jasiri",), on=ON, milk_hold_days=D(4), meat_hold_days=D(28))))
    assert "Maziwa" not in sw
    assert "kabla ya 31 Machi" in sw  # on + 28 + 1


def test_each_milking_within_a_hold_is_told_so():
    house = Farmhouse()
    house.tell(Treatment(animals=("Neema",), on=ON, milk_hold_days=D(4)))
    sw, _ = both(house.tell(milk("Neema"), milk("Zawadi")))
    assert "Maziwa ya Neema USIUZE" in sw
    assert "Zawadi lita 6" in sw
    house.at("2026-03-07 07:00")
    sw, _ = both(house.tell(milk("Neema", on="2026-03-07")))
    assert "USIUZE" not in sw


@pytest.mark.parametrize(
    "sold",
    [
        MilkSale(litres=D(10), amount=shillings(12000), on=ON),
        Delivery(litres=D(10), session="morning", on=ON),
    ],
)
def test_milk_sold_within_a_hold_brings_a_warning(sold):
    house = Farmhouse(people={"vet": VET})
    house.tell(Treatment(animals=("Neema",), on=ON, milk_hold_days=D(4)))
    outcome = house.tell(sold)
    for language, word in (("sw", "Neema"), ("en", "NOW")):
        (warning,) = alerts(outcome, None, language)
        assert word in warning
        assert sms.measure(warning).segments == 1
    assert "7 Machi asubuhi" in str(held_milk_warning(outcome, "sw"))


def test_milk_turned_back_or_sold_after_the_hold_brings_none():
    house = Farmhouse()
    house.tell(Treatment(animals=("Neema",), on=ON, milk_hold_days=D(4)))
    assert held_milk_warning(house.tell(Delivery(litres=D(9), rejected=True, on=ON)), "sw") is None
    after = MilkSale(litres=D(9), on=day("2026-03-07"))
    assert held_milk_warning(house.at("2026-03-07 09:00").tell(after), "sw") is None
    assert held_milk_warning(house.tell(milk("Zawadi")), "sw") is None


# --- illness and death ---------------------------------------------------------------------------


@pytest.mark.parametrize("sign", ILLNESS_SIGNS)
def test_every_sign_is_told_with_whom_to_call_and_one_thing_not_to_do(sign):
    house = Farmhouse(people={"vet": VET})
    sw, en = both(house.tell(Illness(animal="Neema", on=ON, signs=(sign,))))
    assert "Mushi 0754123456" in sw
    assert "Mushi 0754123456" in en
    assert ("SASA" in sw) == (sign in DANGER)
    assert "US" in sw or sign in {"abortion", "ticks"}


@pytest.mark.parametrize("sign", [sign for sign in DANGER if sign != "sudden_death"])
def test_a_danger_says_so_and_how_to_say_that_nobody_answered(sign):
    sw, en = both(Farmhouse().tell(Illness(animal="Neema", on=ON, signs=(sign,))))
    assert sw.startswith("HATARI: Neema")
    assert "Jibu: HAPOKEI" in sw
    assert en.startswith("DANGER: Neema")
    assert "Reply: NO ANSWER" in en


@pytest.mark.parametrize("signs", [("off_feed", "down"), ("fever", "cough", "hard_breathing")])
def test_a_danger_among_other_signs_counts(signs):
    sw, _ = both(Farmhouse().tell(Illness(animal="Neema", on=ON, signs=signs)))
    assert sw.startswith("HATARI")


def test_a_sudden_death_is_not_opened_skinned_or_eaten():
    sw, en = both(Farmhouse().tell(Illness(animal="Neema", on=ON, signs=("sudden_death",))))
    assert "USIMPASUE, usimchune, usimle" in sw
    assert "DON'T open, skin or eat" in en


@pytest.mark.parametrize(
    ("reason", "vet"), [(None, True), ("sick", True), ("sumu", True), ("accident", False), ("stolen", False)]
)
def test_a_death_is_mourned_and_its_reminders_end(reason, vet):
    sw, en = both(Farmhouse().tell(Death(animal="Neema", on=ON, reason=reason)))
    assert sw.startswith("Pole kwa kumpoteza Neema")
    assert "Vikumbusho vyake vimekoma" in sw
    assert ("daktari" in sw) == vet
    assert en.startswith("Sorry")


# --- everything else -----------------------------------------------------------------------------

PLAIN: tuple[tuple[Entry, str, str], ...] = (
    (Girth(animal="Neema", cm=D(165), on=ON), "kifua sm 165", "girth 165 cm"),
    (Weight(animal="Neema", kg=D("350.5"), on=ON), "uzito kilo 350.5", "weight 350.5 kg"),
    (Condition(animal="Neema", score=D("3.25"), on=ON), "3.25", "3.25"),
    (Spraying(on=ON), "9 Machi", "9 Mar"),
    (Disinfection(on=ON), "9 Machi", "9 Mar"),
    (Deworming(on=ON), "2 Juni", "2 Jun"),
    (Vaccination(animals=("Neema",), disease="fmd", on=ON), "2 Sep 2026", "2 Sep 2026"),
    (Feeding(feed="nyasi kavu", kg=D(40), on=ON), "wote, nyasi kavu kilo 40", "nyasi kavu 40 kg"),
    (MilkSale(litres=D(10), amount=shillings(12000), on=ON), "lita 10 kwa 12,000/=", "10 l for 12,000/="),
    (Delivery(kg=D(20), session="evening", on=ON), "kilo 20, leo jioni", "20 kg"),
    (MilkPay(month=day("2026-02-01"), amount=shillings(366000), on=ON), "Februari 366,000/=", "February"),
    (AnimalSale(animal="Neema", amount=shillings(850000), on=ON), "850,000/=", "850,000/="),
    (Expense(what="mashudu", amount=shillings(45000), on=day("2026-03-01")), "45,000/=, jana", "yesterday"),
    (OtherIncome(what="samadi", amount=shillings(20000), on=ON), "samadi, imeingia 20,000/=", "20,000/="),
    (NewAnimal(name="Furaha", sex="female", status="heifer", on=ON), "Furaha: mtamba", "heifer"),
    (NewAnimal(name="Kito", sex="male", status="calf", on=ON), "ndama dume", "bull calf"),
    (Naming(animal="Neema", name="Pili", on=ON), "Neema sasa anaitwa Pili", "now called Pili"),
    (Contact(role="vet", name="Mushi", phone="+255754123456", on=ON), "Mushi 0754123456", "Your vet"),
    (Setting(task="spray", every_days=D(14), on=ON), "kila siku 14", "every 14 days"),
    (Setting(hour=D(18), on=ON), "saa 12 jioni", "6 pm"),
    (Done(task="calf_feed", animals=("Neema",), on=ON), "Neema, chakula cha ndama", "calf feed"),
    (DryingOff(animal="Neema", on=ON), "amekauka", "dried off"),
    (Weaning(animal="Neema", on=ON), "ameachishwa", "weaned"),
)


@pytest.mark.parametrize(("entry", "kiswahili", "english"), PLAIN, ids=lambda value: type(value).__name__)
def test_a_record_is_confirmed_with_what_follows(entry, kiswahili, english):
    sw, en = both(Farmhouse().tell(entry))
    assert kiswahili in sw
    assert english in en
    # How to take it back gives way to how much drug the shed wants.
    assert "FUTA" in sw or isinstance(entry, Disinfection)


def every_entry(a: str, b: str, c: str) -> list[Entry]:
    """One or more of every kind that is kept, with long values."""
    hold = {"milk_hold_days": D(365), "meat_hold_days": D(365)}
    seen = moment("2026-03-01 18:45")
    words = "maneno marefu sana ya mkulima mwenyewe"
    calf = Calf("female", name="Kalunde wa 2")
    return [
        *(milk(a, "49.75", session) for session in ("morning", "day")),
        milk("*"),
        *(Heat(animal=a, first_seen=seen, bleeding=blood) for blood in (False, True)),
        Heat(animal=a, first_seen=moment("2026-03-02 06:45"), signs=("bellowing",)),
        Heat(animal=a, first_seen=moment("2026-02-20 18:45")),
        Service(animal=a, on=ON, method="ai", sire=words, technician=words, cost=shillings(20000)),
        Service(animal=a, on=day("2026-02-25"), about=True, sire=words),
        *(PregnancyCheck(animal=a, on=ON, result=r, months=D(5)) for r in ("pregnant", "empty", "unsure")),
        *(Calving(animal=a, on=ON, calves=(calf,), ease=ease) for ease in ("easy", "hard")),
        Calving(animal=a, on=ON),
        Calving(animal=a, on=ON, calves=(Calf("male"), Calf("female"))),
        Calving(animal=a, on=ON, calves=(Calf("male"), Calf("female", False))),
        Calving(animal=a, on=ON, calves=(Calf("male", False),)),
        Calving(animal=a, on=day("2026-02-28"), calves=(Calf("male"), Calf("male"))),
        Calving(animal=a, on=day("2025-09-28"), calves=(Calf("male"),)),
        Abortion(animal=a, on=ON),
        DryingOff(animal=a, on=ON, about=True),
        Weaning(animal=a, on=ON),
        Girth(animal=a, on=ON, cm=D("165.5")),
        Weight(animal=a, on=ON, kg=D("1150.25")),
        Condition(animal=a, on=ON, score=D("3.25")),
        *(Deworming(animals=names, on=ON, product=words) for names in ((a,), (a, b, c), ("*",))),
        *(Deworming(animals=names, on=ON, **hold) for names in ((a,), (a, b, c), ("*",))),
        *(Spraying(animals=names, on=ON, **hold) for names in ((a,), (a, b, c), ("*",))),
        *(Vaccination(animals=(a, b, c), on=ON, disease=disease, **hold) for disease in DISEASES),
        Disinfection(on=ON, product=words),
        *(Treatment(animals=names, on=ON, product=words, **hold) for names in ((a,), (a, b, c), ("*",))),
        *(Treatment(animals=names, on=ON, product=words) for names in ((a,), (a, b, c), ("*",))),
        *(Illness(animal=a, on=ON, signs=(sign,)) for sign in ILLNESS_SIGNS),
        *(Illness(animal=a, on=ON, signs=(sign,), worse=True) for sign in MILD),
        Recovery(animal=a, on=ON),
        *(MilkReason(animal=name, on=ON, reason=reason) for name in (a, "*") for reason in MILK_REASONS),
        *(Illness(animal=a, on=ON, signs=(sign, *ILLNESS_SIGNS)) for sign in DANGER),
        Illness(animal=a, on=ON, signs=tuple(s for s in ILLNESS_SIGNS if s not in {*DANGER, "abortion"})),
        Feeding(animals=(a, b, c), feed=words, kg=D("1234.5"), on=ON),
        MilkSale(litres=D("1234.5"), price=shillings(1300), amount=shillings("9999999.50"), on=ON),
        MilkSale(litres=D("1234.5"), amount=shillings("9999999.50"), buyer=words, credit=True, on=ON),
        Payment(buyer=words, amount=shillings("9999999.50"), on=ON, about=True),
        Delivery(kg=D("1234.5"), session="evening", rejected=True, reason=words, on=ON),
        MilkPay(month=day("2026-02-01"), amount=shillings("9999999.50"), on=ON,
                deductions=(Deduction(words, shillings(5)),)),
        AnimalSale(animal=a, amount=shillings("9999999.50"), buyer=words, on=ON),
        Expense(what=words, amount=shillings("9999999.50"), on=ON),
        OtherIncome(what=words, amount=shillings("9999999.50"), on=ON, about=True),
        *(Death(animal=a, on=ON, reason=r) for r in (None, "sick", "lost", "slaughtered", words)),
        NewAnimal(name="Kalunde wa 3", sex="female", status="in_calf_heifer", on=ON),
        NewAnimal(name="Kalunde wa 4", sex="female", status="milking", on=ON),
        Naming(animal=a, name="Kalunde wa 5", on=ON),
        *(Contact(role=role, name=words, phone="+260971234567", on=ON) for role in ("vet", "technician")),
        Contact(role="other", name=words, phone=None, on=ON),
        Setting(task="disinfect", every_days=D(365), on=ON),
        Setting(hour=D(5), on=ON),
        Service(animal=a, on=ON, method="bull", running=True, about=True),
        BullLeft(animals=("*",), on=ON),
        Calving(animal=a, on=ON, calves=(Calf("female"), Calf("male"))),
        Calving(animal=a, on=ON, calves=(Calf("female"), Calf("male", False))),
        Done(task="heat_after_calving", animals=(a, b, c), on=ON),
    ]  # fmt: skip


FAR = {"vet": FAR_VET, "technician": FAR_INSEMINATOR}
EVERY = every_entry(*LONG)


def far(now: str = "2026-03-02 08:40") -> Farmhouse:
    """A farm whose names and numbers are as long as can be."""
    return Farmhouse(*LONG, people=FAR, now=now)


def test_every_kind_that_is_kept_is_answered():
    kept = {kind for kind in KINDS if not kind.INSTRUCTION}
    assert {type(entry) for entry in EVERY} == kept


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("entry", EVERY, ids=lambda entry: entry.KIND)
def test_the_longest_names_and_numbers_leave_one_segment(entry, language):
    text = reply(far().tell(entry), None, language)
    assert sms.septets(text) <= 160
    assert "  " not in text


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("entry", EVERY, ids=lambda entry: entry.KIND)
def test_beside_others_a_record_still_leaves_one_segment(entry, language):
    house = far()
    house.tell(Treatment(animals=LONG, on=ON, milk_hold_days=D(300)))
    more = [milk(LONG[1]), Spraying(on=ON), Heat(animal=LONG[2], first_seen=moment("2026-03-02 06:40"))]
    outcome = house.tell(entry, *more)
    text = reply(outcome, None, language)
    assert sms.septets(text) <= 160
    for alert in alerts(outcome, None, language):
        assert sms.septets(alert) <= 160


@pytest.mark.parametrize("entry", EVERY, ids=lambda entry: entry.KIND)
def test_a_phrase_names_the_animal_and_can_be_said_of_a_half_told_record(entry):
    values = {f.name: getattr(entry, f.name) for f in form(type(entry))}
    for language in LANGUAGES:
        assert summary(entry, language, today=ON)
        for left_out in values:
            known = {name: value for name, value in values.items() if name != left_out}
            assert summary(Draft(kind=type(entry), values=known), language)


# --- several, undo, questions --------------------------------------------------------------------


def test_the_most_urgent_leads_and_the_others_are_named_or_counted():
    outcome = Farmhouse().tell(
        milk("Neema"),
        Heat(animal="Zawadi", first_seen=moment("2026-03-02 06:00")),
        Illness(animal="Tausi", on=ON, signs=("down",)),
    )
    sw, _ = both(outcome)
    assert sw.startswith("HATARI: Tausi")
    assert "Pia: Neema" in sw or "Na mengine 2" in sw
    (alert,) = alerts(outcome, None, "sw")
    assert alert.startswith("Zawadi ana joto")


def test_an_undo_says_what_was_taken_out():
    house = Farmhouse()
    told = house.tell(milk("Neema")).recorded
    sw, en = both(house.outcome(undone=told))
    assert sw == "Tumefuta: Neema, maziwa lita 6, leo asubuhi. Mengine yote yapo."
    assert en == "Taken out: Neema, 6 l of milk, this morning. All the rest stands."


def test_a_correction_says_what_went_and_what_came():
    house = Farmhouse()
    old = house.tell(milk("Neema", "60")).recorded
    outcome = replace(house.tell(milk("Neema", "6")), undone=old)
    sw, _ = both(outcome)
    assert "Tumefuta: Neema, maziwa lita 60" in sw
    assert "Tumeandika: Neema, maziwa lita 6," in sw


def asked(code: Code, kind: type[Entry] | None = None, why: str | None = None, **more: Any) -> Problem:
    values = more.pop("values", {})
    draft = None if kind is None else Draft(kind=kind, values=values)
    return Problem(code=code, ask=say(f"ask.{code.value}", why=why), draft=draft, **more)


def test_the_question_comes_first_and_then_what_was_written_down():
    problem = asked(Code.UNKNOWN_ANIMAL, Milk, values={"litres": D(4)}, name="Furaha", options=("Neema",))
    sw, en = both(Farmhouse().tell(milk("Neema")), problem)
    assert sw.startswith("Hatuna ng'ombe aitwaye Furaha. Jibu namba: 1 Neema.")
    assert sw.endswith("Tumeandika: Neema, maziwa lita 6, leo asubuhi.")
    assert en.endswith("Written down: Neema, 6 l of milk, this morning.")


def test_which_animal_is_asked_with_numbers_and_says_nothing_is_kept_yet():
    problem = asked(Code.WHICH_ANIMAL, Milk, values={"litres": D(6)}, options=("Neema", "Zawadi"))
    sw, en = both(Farmhouse().outcome(), problem)
    assert sw == ("Maziwa lita 6: ng'ombe yupi? Jibu namba au jina: 1 Neema 2 Zawadi. Bado hatujaandika.")
    assert "1 Neema 2 Zawadi" in en


def test_a_text_not_read_is_apologised_for_with_examples_of_her_own_cow():
    house = Farmhouse("Pendo", people={"vet": VET})
    sw, en = both(house.outcome(), asked(Code.NOT_UNDERSTOOD))
    assert sw.startswith("Samahani")
    assert "PENDO 6" in sw
    assert "Mushi 0754123456" in sw
    assert "HELP" in en


@pytest.mark.parametrize("why", ["male", "calf", "dry", "heifer", "in_calf", "unusual", "contradiction",
                                 "twice", "near_name", "something new"])  # fmt: skip
def test_a_doubt_is_answered_by_yes_or_no(why):
    problem = asked(Code.CONFIRM, Milk, why=why, values={"animal": "Neema", "litres": D(30), "on": ON})
    sw, en = both(Farmhouse().outcome(), problem)
    assert "NDIYO au HAPANA" in sw
    assert "YES or NO" in en
    assert "Neema" in sw


def test_heat_or_fever_is_asked_by_number():
    problem = asked(Code.CONFIRM, Heat, why="heat_or_fever", values={"animal": "Neema"})
    sw, en = both(Farmhouse().outcome(), problem)
    assert "1 joto la kupandwa 2 homa" in sw
    assert "1 mating heat 2 fever" in en


def test_what_is_wanting_is_asked_for_in_a_question_of_its_own():
    problem = asked(Code.MISSING, Vaccination, field="disease", values={"animals": ("*",), "on": ON})
    sw, en = both(Farmhouse().outcome(), problem)
    assert "KIMETA" in sw
    assert "ANTHRAX" in en


def test_a_value_that_cannot_be_is_answered_with_what_can():
    problem = asked(Code.OUT_OF_RANGE, Girth, field="cm", values={"animal": "Neema", "cm": D(20)})
    sw, _ = both(Farmhouse().outcome(), problem)
    assert "60 hadi 230" in sw


def every_question() -> list[Problem]:
    """Every kind and field that can be asked for, with the longest names."""
    a = LONG[0]
    problems = [asked(Code.NOT_UNDERSTOOD)]
    for kind in KINDS:
        fields = form(kind)
        known = {"animal": a, "animals": LONG, "name": a, "on": ON, "first_seen": moment("2026-03-02 06:40")}
        values = {f.name: known[f.name] for f in fields if f.name in known}
        for field in fields:
            told = {name: value for name, value in values.items() if name != field.name}
            problems.append(asked(Code.MISSING, kind, field=field.name, values=told))
            problems.append(asked(Code.OUT_OF_RANGE, kind, field=field.name, values=told))
        for code in (Code.WHICH_ANIMAL, Code.UNKNOWN_ANIMAL, Code.IN_FUTURE):
            name = "Jina refu sana la ng'ombe"
            problems.append(asked(code, kind, values=values, name=name, options=LONG * 4))
        for why in ("male", "in_calf", "contradiction", "near_name", "heat_or_fever"):
            problems.append(asked(Code.CONFIRM, kind, why=why, values=values, name=a, options=LONG))
    return problems


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_question_is_one_segment_alone_and_beside_others(language):
    house = far()
    alone, beside = house.outcome(), house.tell(*(milk(name) for name in LONG))
    for problem in every_question():
        for outcome in (alone, beside):
            text = reply(outcome, problem, language)
            assert sms.septets(text) <= 160, text
            assert not outcome.recorded or re_written(text), text


def re_written(text: str) -> bool:
    """Whether what was written down is named or counted."""
    return any(word in text for word in ("Tumeandika", "tumeandika", "Written down", "written down"))


def test_a_question_can_be_put_without_a_farm():
    problem = asked(Code.MISSING, Milk, field="litres", values={"animal": "Neema"})
    assert question(problem, "en").startswith("Neema, milk: how many litres?")


def test_the_numbers_a_text_names_are_found_in_it():
    people = {"vet": VET, "technician": INSEMINATOR}
    text = reply(Farmhouse(people=people).tell(Illness(animal="Neema", on=ON, signs=("down",))), None, "sw")
    assert called(text, people) == (VET.phone,)


# --- answers -------------------------------------------------------------------------------------


def full_house() -> Farmhouse:
    house = Farmhouse(people={"vet": VET, "technician": INSEMINATOR})
    house.tell(
        Service(animal="Neema", on=day("2026-03-01")),
        Treatment(animals=("Tausi",), on=ON, milk_hold_days=D(4)),
        PregnancyCheck(animal="Tausi", on=ON, result="pregnant", months=D(5)),
    )
    return house


def test_the_herd_is_listed_with_what_each_is():
    house = full_house()
    answer = replies.answer_herd(house.book.farm, ON, "sw")
    assert answer.startswith("Ng'ombe wako 3: Neema anakamuliwa; ")
    assert "Tausi anakamuliwa, ana mimba, atazaa karibu na 10 Julai" in answer


def test_one_animal_is_told_with_its_work():
    house = full_house()
    farm, now = house.book.farm, house.now
    tasks = house.outcome().tasks
    neema = replies.answer_animal(house.book.animal("Neema"), tasks, farm, now, "sw")
    assert "mimba haijapimwa" in neema
    assert "angalia joto 19 Machi" in neema
    tausi = replies.answer_animal(house.book.animal("Tausi"), tasks, farm, now, "en")
    assert "milk NOT to sell, first to sell 7 Mar morning" in tausi


def test_the_work_is_numbered_and_two_cows_of_one_day_are_one_item():
    house = Farmhouse()
    house.tell(*(Service(animal=name, on=day("2026-03-01")) for name in ("Neema", "Zawadi")))
    some = items(house.due("return_heat", "pregnancy_check", days=90), house.now)
    answer = replies.answer_tasks(some, house.now, "sw")
    assert answer.startswith("Kazi: 1 Neema na Zawadi, angalia joto 19 hadi 25 Machi; 2 Neema na Zawadi,")
    assert replies.answer_tasks((), house.now, "sw").startswith("Hakuna kazi")


def test_milk_is_told_by_day_with_its_sum():
    rows = [(ON, "morning", D(6)), (ON, "evening", D("4.5")), (ON - timedelta(days=1), "day", D(9))]
    answer = replies.answer_milk("Neema", rows, "sw")
    assert answer == "Maziwa, Neema: 2 Machi lita 10.5; 1 Machi lita 9. Jumla lita 19.5."
    assert replies.answer_milk(None, [], "en").startswith("all: no milk")


def test_numbers_to_call_are_listed():
    people = {"vet": VET, "technician": INSEMINATOR}
    answer = replies.answer_call(people, "sw")
    assert answer == "Namba za kupiga: daktari Mushi 0754123456; mhimilishaji Juma 0621000111."
    assert replies.answer_call({}, "en").startswith("We have no number yet.")


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_long_list_keeps_to_three_segments_and_counts_the_rest(language):
    names = tuple(f"Ng'ombe {number:04}" for number in range(60))
    house = Farmhouse(*names)
    house.tell(*(Service(animal=name, on=day("2026-03-01")) for name in names))
    farm = house.book.farm
    some = items(house.due(days=400), house.now)
    entries = [told.entry for told in house.book.told]
    for answer in (
        replies.answer_herd(farm, ON, language),
        replies.answer_tasks(some, house.now, language),
        replies.answer_entries(entries, language),
    ):
        size = sms.measure(answer)
        assert (size.encoding, size.segments <= 3) == ("gsm7", True)
        assert len(answer) > 100
    assert "na mengine" in replies.answer_herd(farm, ON, "sw")
