"""Answers to illness, the question of the morning after, and texts of danger that could not be read."""

from __future__ import annotations

from dataclasses import replace

import pytest

from dialogs import how_is_it
from dialogs.grammar.danger import speaks_of_danger
from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.reading import Code, Draft
from dialogs.replies import question, reply
from scheduler.digest import digest
from service import sms
from service.husbandry.herd import Herd, Known, Person, Sex, Status
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.health import Illness, Recovery, Treatment
from service.husbandry.signs import ILLNESS_SIGNS
from service.husbandry.triage import DANGER, MILD
from tests.unit.dialogs.farmhouse import FAR_VET, LONG, VET, Farmhouse, new
from tests.unit.husbandry.book import at, day

ON = day("2026-03-02")
LANGUAGES = ("sw", "en")
OFFICE = Person(role="office", name=None, phone="+255621000009")


def ill(*signs: str, animal: str = "Neema", worse: bool = False) -> Illness:
    return Illness(animal=animal, on=ON, signs=signs, worse=worse)


def answer(entry: Illness, language: str = "sw", house: Farmhouse | None = None) -> str:
    return reply((house or Farmhouse(people={"vet": VET})).tell(entry), None, language)


# --- the answer ------------------------------------------------------------------------------------


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("sign", [s for s in ILLNESS_SIGNS if s not in (*MILD, "abortion")])
def test_with_the_longest_names_one_can_still_say_that_nobody_answered(sign, language):
    house = Farmhouse(*LONG, people={"vet": FAR_VET})
    text = answer(ill(sign, animal=LONG[0]), language, house)
    assert sms.septets(text) <= 160
    assert "+260971234567" in text
    assert ("HAPOKEI" if language == "sw" else "NO ANSWER") in text


@pytest.mark.parametrize("sign", [sign for sign in MILD if sign != "ticks"])
def test_what_is_watched_is_told_of_again_by_its_weekday_with_whom_to_call_if_worse(sign):
    sw, en = (answer(ill(sign), language) for language in LANGUAGES)
    assert "mtazame" in sw
    assert "Akizidi" in sw
    assert "watch her" in en
    assert "Worse, or fever: call Mushi 0754123456" in en
    assert "SASA" not in sw


def test_the_next_day_is_named_as_a_weekday():
    assert "Jumanne tuambie yukoje" in answer(ill("off_feed"))
    assert "Tell us on Tuesday how she is" in answer(ill("off_feed"), "en")


def test_a_sign_told_later_the_same_day_counts_with_the_first():
    house = Farmhouse(people={"vet": VET})
    answer(ill("off_feed"), house=house)
    assert "mwite leo" in answer(ill("milk_drop"), house=house)


def test_worse_is_for_the_vet_sooner():
    assert "mwite leo" in answer(ill("off_feed", worse=True))
    assert answer(ill("fever", worse=True)).startswith("HATARI")


def test_where_there_is_room_it_is_said_that_only_a_vet_knows():
    assert "Only a vet can tell why" in answer(ill("fever"), "en")
    assert "Sababu ataisema daktari" in answer(ill("fever"))


@pytest.mark.parametrize("sign", ["wild", "drooling"])
def test_nobody_reaches_into_the_mouth_and_who_was_bitten_washes_and_goes_to_hospital(sign):
    sw, en = (answer(ill(sign), language) for language in LANGUAGES)
    assert "USITIE mkono mdomoni" in sw
    assert "sabuni dakika 15, hospitali" in sw
    assert "NO hand in her mouth" in en
    assert "soap 15 minutes, hospital" in en


def test_a_calf_that_scours_is_for_the_vet_today_with_a_care_of_its_own():
    house = Farmhouse(people={"vet": VET})
    house.book.tell(new("Tupu", status="calf", born="2026-01-10"))
    assert "kidogo kidogo" in answer(ill("diarrhoea", animal="Tupu"), house=house)
    assert "mtazame" in answer(ill("diarrhoea"))


def test_within_a_week_of_calving_nothing_is_watched():
    house = Farmhouse(people={"vet": VET})
    house.tell(Calving(animal="Neema", on=day("2026-02-25")))
    assert "mwite leo" in answer(ill("off_feed"), house=house)


def test_where_only_the_office_is_known_it_is_called():
    assert "ofisi 0621000009" in answer(ill("down"), house=Farmhouse(people={"office": OFFICE}))


def test_a_recovery_is_written_down_and_a_hold_goes_on():
    house = Farmhouse(people={"vet": VET})
    assert reply(house.tell(Recovery(animal="Neema", on=ON)), None, "en").startswith(
        "Written down: Neema, is well again, today."
    )
    house.tell(Treatment(animals=("Neema",), on=ON, milk_hold_days=None))
    assert "still held" in reply(house.tell(Recovery(animal="Neema", on=ON)), None, "en")


# --- the morning after -----------------------------------------------------------------------------


def morning(house: Farmhouse, language: str) -> list[str]:
    house.at("2026-03-03 06:00")
    due = house.due("illness_check")
    made = digest(due, house.book.farm, house.people, house.now, language)
    assert made.left == ()
    return [text.text for text in made.texts]


def test_one_is_asked_about_by_number():
    house = Farmhouse(people={"vet": VET})
    house.tell(ill("off_feed"))
    assert morning(house, "en") == [
        "Neema, 2 Mar: does not eat. How is she? Reply the number: 1 well again 2 the same 3 worse "
        "4 got a drug. Worse: call Mushi 0754123456"
    ]


def test_of_several_it_is_asked_in_words():
    house = Farmhouse(people={"vet": VET})
    for name in ("Neema", "Zawadi"):
        house.tell(ill("cough", animal=name))
    (text,) = morning(house, "sw")
    assert text.startswith("Neema na Zawadi waliumwa. Leo wakoje?")
    assert "NEEMA AMEPONA" in text


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("sign", [sign for sign in ILLNESS_SIGNS if sign not in ("ticks", "sudden_death")])
def test_the_question_fits_with_the_longest_names(sign, language):
    house = Farmhouse(*LONG, people={"vet": FAR_VET})
    house.tell(ill(sign, animal=LONG[0]))
    (text,) = morning(house, language)
    assert sms.septets(text) <= 160
    assert "+260971234567" in text


NEEMA = Known(name="Neema", names=("Neema",), sex=Sex.FEMALE, status=Status.MILKING, ill_signs=("off_feed",))
ZAWADI = replace(NEEMA, name="Zawadi", names=("Zawadi",), ill_signs=())
HERD = Herd((NEEMA, ZAWADI))
ASKED = Draft(kind=Illness, values={"animal": "Neema", "on": ON, "signs": ("off_feed",)})
NEXT, MORNING = day("2026-03-03"), at("2026-03-03 07:00")


@pytest.mark.parametrize(
    ("text", "kind", "worse"),
    [
        ("1", Recovery, None), ("amepona", Recovery, None), ("well again", Recovery, None),
        ("she is better", Recovery, None), ("2", Illness, False), ("bado", Illness, False),
        ("vilevile", Illness, False), ("not better", Illness, False), ("hajapona", Illness, False),
        ("3", Illness, True), ("amezidi", Illness, True), ("Neema is worse", Illness, True),
        ("4", Treatment, None), ("amepewa dawa", Treatment, None),
    ],
)  # fmt: skip
def test_how_she_is_can_be_said_by_number_or_in_words(text, kind, worse):
    told = how_is_it.answered(text, ASKED, HERD, NEXT)
    assert told is not None
    assert (told.kind, told.values["on"]) == (kind, NEXT)
    if kind is Illness:
        assert (told.values["signs"], told.values["worse"]) == (("off_feed",), worse)


@pytest.mark.parametrize(
    "text", ["5", "ok", "asante", "sawa", "Zawadi bado", "nimeuza maziwa lita tano bado sijalipwa"]
)
def test_what_says_nothing_of_her_is_no_answer(text):
    assert how_is_it.answered(text, ASKED, HERD, NEXT) is None


@pytest.mark.parametrize(
    ("text", "worse"),
    [
        ("NEEMA BADO ANAUMWA", False),
        ("Neema still ill", False),
        ("Neema is worse", True),
        ("Neema amezidi", True),
    ],
)
def test_how_she_is_can_be_told_without_being_asked(text, worse):
    reading = read(text, HERD, now=MORNING, language="sw", place=Place())
    told = how_is_it.volunteered(text, reading, HERD, NEXT)
    assert told is not None
    assert (told.values["animal"], told.values["worse"]) == ("Neema", worse)
    assert told.values["signs"] == ("off_feed",)


@pytest.mark.parametrize("text", ["Zawadi is worse", "bado", "Neema 6", "Neema cannot stand", "habari"])
def test_of_one_that_is_not_ill_or_not_named_nothing_is_told(text):
    reading = read(text, HERD, now=MORNING, language="sw", place=Place())
    assert how_is_it.volunteered(text, reading, HERD, NEXT) is None


# --- danger that could not be read -----------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        "ng'ombe anakufa", "cow dying!!", "ndama amekwama", "calf stuck", "amekula sumu", "poison",
        "anatetemeka", "she is convulsing", "damu nyingi", "blood everywhere", "tumbo limevimba",
        "she cant get up", "HATARI", "hawezi kusimama", "ameshindwa kuzaa", "poisened",
        "ameng\u2019atwa na mbwa", "mahututti",
    ],
)  # fmt: skip
def test_a_word_of_danger_in_either_language_is_known(text):
    assert speaks_of_danger(text)


@pytest.mark.parametrize(
    "text", ["habari za asubuhi", "asante sana", "how are you", "maziwa ngapi", "kesho", ""]
)
def test_other_texts_speak_of_none(text):
    assert not speaks_of_danger(text)


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_was_not_understood_but_speaks_of_danger_names_whom_to_call(language):
    reading = read("xyz poison qwe", HERD, now=MORNING, language=language, place=Place())
    text = question(reading.problems[0], language, people={"vet": FAR_VET}, example=LONG[0])
    assert reading.problems[0].code is Code.NOT_UNDERSTOOD
    assert sms.septets(text) <= 160
    assert "+260971234567" in text
    assert ("SASA" if language == "sw" else "NOW") in text


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_was_half_read_and_speaks_of_danger_names_whom_to_call_first(language):
    reading = read("ng'ombe hawezi kusimama", HERD, now=MORNING, language=language, place=Place())
    text = question(reading.problems[0], language, people={"vet": FAR_VET})
    assert reading.problems[0].code is Code.WHICH_ANIMAL
    assert sms.septets(text) <= 160
    assert text.startswith(("Hatari? Mpigie SASA +260971234567.", "Danger? Call NOW +260971234567."))
    assert "1 Neema 2 Zawadi" in text


def test_blood_told_of_a_heat_is_no_danger():
    reading = read("nimeona damu baada ya joto", HERD, now=MORNING, language="sw", place=Place())
    assert not any(problem.ask.values.get("danger") for problem in reading.problems)


def test_who_is_dying_is_not_written_down_as_dead():
    for text in ("Neema anakufa", "Neema is dying", "Neema atakufa"):
        assert read(text, HERD, now=MORNING, language="sw", place=Place()).entries == ()


def test_every_danger_has_a_care_of_its_own():
    cares = {answer(ill(sign)).partition("0754123456. ")[2] for sign in DANGER}
    assert len(cares) >= len(DANGER) - 1
