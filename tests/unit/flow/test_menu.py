"""The menu on a real store: every line to its end, questions answered on the screen, nothing half told."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from dialogs.screens.branches import ITEMS
from dialogs.screens.layout import LIMIT
from dialogs.screens.state import At
from service.husbandry.kinds import KINDS
from service.records.base import Store, open_engine
from service.sms import measure
from tests.unit.dialogs.screens.ways import ANSWERS, SCREENS, way
from tests.unit.flow.menu_phone import Phone, Session

HERD = tuple(f"W{'w' * 10}{letter}" for letter in "abcdefghijklmnopqrst")
"""Twenty names of the longest kind."""

OF_ANIMALS = ("animal", "animals", "cows", "dam")
OF_LINE = {
    ("pin.change", "secret"): "4821 7733",
    ("naming", "name"): "Kito",
    ("animal_sale", "animal"): HERD[8],
    ("death", "animal"): HERD[12],
}
"""Questions of a line that want another answer than elsewhere: those sold or dead are told of no more."""

LANGUAGES = pytest.mark.parametrize("language", ["sw", "en"])


@pytest.fixture
def sqlite_store(sqlite_url: str) -> Iterator[Store]:
    engine = open_engine(sqlite_url)
    store = Store(engine)
    yield store
    store.close()


@pytest.fixture
def phone(store: Store) -> Phone:
    """A farm of Neema (in milk), Malaika (a heifer) and Tausi (dry); on each kind of database."""
    phone = Phone(store)
    phone.enter("Neema", "Malaika", "Tausi")
    return phone


def to_the_end(session: Session) -> None:
    """Answer what is asked, each time in the first way, until the line's answer is on the screen."""
    while session.state.at == At.ASK:
        assert len(session.screens) < SCREENS, session.text
        question = session.state.question or ""
        first = HERD[0] if question in OF_ANIMALS else ANSWERS.get(question, ("1",))[0]
        if question == "to":  # the language it has
            first = "1" if session.phone.language == "sw" else "2"
        session.type(OF_LINE.get((session.state.item or "", question), first))


def assert_fits(session: Session) -> None:
    for screen in session.screens:
        size = measure(screen.text)
        assert (size.encoding, size.units <= LIMIT) == ("gsm7", True), screen.text


@LANGUAGES
def test_every_line_of_a_large_herds_menu_ends_in_its_answer(sqlite_store: Store, language: str) -> None:
    phone = Phone(sqlite_store, language)
    phone.enter(*HERD)
    before = len(phone.told())
    told: set[str] = set()
    for item in (key for key in ITEMS if key != "fix"):
        count, session = len(phone.events), phone.session(*way(item, language))
        to_the_end(session)
        assert len(session.screens) <= SCREENS, item
        assert session.state.at in (At.AFTER, At.QUESTION, At.READ, At.OVER), (item, session.text)
        while session.state.at == At.READ:
            session.type("9" if "\n9 " in session.text else "0")
        if session.state.at == At.QUESTION:
            session.type("1" if session.text.splitlines()[-1].startswith("1 ") else "0")
        assert_fits(session)
        recorded = [event["entry"] for event in phone.events[count:] if event["event"] == "recorded"]
        told |= {str(entry["kind"]) for entry in recorded}  # type: ignore[index]
    assert len(phone.told()) > before
    assert told == {kind.KIND for kind in KINDS if not kind.INSTRUCTION} - {"done"}


@LANGUAGES
def test_a_task_told_done_is_recorded(sqlite_store: Store, language: str) -> None:
    phone = Phone(sqlite_store, language)
    phone.enter(*HERD)
    told = (
        "Tumenyunyizia ng'ombe wote tarehe 20 Februari" if language == "sw" else "Sprayed all cows on 20 Feb"
    )
    phone.text(told)
    session = phone.session("8", "1")
    assert_fits(session)
    session.type("1")
    session.type("1")
    assert_fits(session)
    assert phone.told()[-1]["kind"] == "spraying"


def test_the_hold_of_a_drug_is_asked_and_told_on_the_same_screen(phone: Phone) -> None:
    session = phone.session("5", "3", "neema", "penicillin", "1")
    assert "siku ngapi" in session.text
    assert session.text.endswith("\n# Hakuna 0 Baadaye")
    assert phone.told()[-1]["milk_hold_days"] is None
    reply = session.type("4")
    assert phone.told()[-1]["milk_hold_days"] == 4
    assert "7 Machi" in reply
    assert session.state.at == At.AFTER


def test_the_reply_is_the_one_that_a_text_would_get(phone: Phone) -> None:
    shown = phone.session("5", "3", "neema", "penicillin", "1")
    asked, held = shown.text.splitlines()[0], shown.type("4").splitlines()[0]
    phone.text("FUTA")
    phone.text("1")
    assert phone.text("Neema amepewa dawa penicillin") == asked
    assert phone.text("4") == held


def test_back_from_a_question_about_a_record_leaves_it_and_a_text_answers_it(phone: Phone) -> None:
    session = phone.session("5", "3", "neema", "penicillin", "1", "0")
    assert (session.text, session.screens[-1].more) == ("Sawa. Unaweza kujibu baadaye kwa SMS.", False)
    assert phone.told()[-1]["milk_hold_days"] is None
    phone.text("4")
    assert phone.told()[-1]["milk_hold_days"] == 4


def test_what_is_no_answer_asks_again_and_changes_nothing(phone: Phone) -> None:
    session = phone.session("5", "3", "neema", "penicillin", "1")
    told = phone.told()
    again = session.type("Neema amezaa")
    assert again.startswith("Hatukuelewa jibu hilo.\nMaziwa ya Neema")
    assert phone.told() == told
    session.type("4")
    assert phone.told()[-1]["milk_hold_days"] == 4


def test_what_is_unlikely_is_written_down_only_after_a_yes(phone: Phone) -> None:
    told = len(phone.told())
    session = phone.session("1", "neema", "30", "1")
    assert session.text.endswith("1 Ndiyo 2 Hapana")
    assert len(phone.told()) == told
    assert "hatujaandika" in session.type("2")
    assert len(phone.told()) == told
    session = phone.session("1", "neema", "30", "1", "1")
    assert phone.told()[-1]["litres"] == 30


def test_back_from_a_doubt_writes_nothing_and_leaves_nothing_open(phone: Phone) -> None:
    told = phone.told()
    phone.session("1", "neema", "30", "1", "0")
    phone.text("ndiyo")
    assert phone.told() == told


def test_the_price_of_a_sale_is_offered_and_taken_with_one_key(phone: Phone) -> None:
    phone.session("6", "1", "10", "1200", "1")
    session = phone.session("6", "1", "5", "#", "1")
    assert session.text.endswith("\n# Ndiyo 0 Baadaye")
    session.type("#")
    assert phone.told()[-1]["price"] == {"amount": "1200.00", "currency": "TZS"}


def test_who_took_milk_on_credit_is_asked(phone: Phone) -> None:
    session = phone.session("6", "2", "10", "1200", "1")
    assert "Nani amechukua" in session.text
    session.type("Mama Asha")
    assert (phone.told()[-1]["credit"], phone.told()[-1]["buyer"]) == (True, "Mama Asha")


def test_the_birth_of_a_heifer_is_asked(phone: Phone) -> None:
    session = phone.session("7", "1", "Rehani", "3", "1")
    assert "zaliwa" in session.text
    session.type("12/3/2025")
    assert phone.told()[-1]["born"] == "2025-03-12"


def test_what_another_phone_has_told_is_asked_with_its_choices(phone: Phone) -> None:
    phone.session("8", "5", "2", "0712345678", "Juma")
    phone.text("NDIYO", sender="+255712345678")
    phone.text("Neema lita 6", sender="+255712345678")
    session = phone.session("1", "neema", "7", "1")
    assert "Juma" in session.text
    session.type("2")
    milk = [entry["litres"] for entry in phone.told() if entry["kind"] == "milk"]
    assert milk == [7]


def test_a_question_that_waited_before_the_session_still_waits(phone: Phone) -> None:
    phone.text("Neema amepewa dawa penicillin")
    phone.session("7", "6", "tausi", "350", "1")
    phone.text("4")
    held = next(entry for entry in phone.told() if entry["kind"] == "treatment")
    assert held["milk_hold_days"] == 4


def test_a_long_answer_is_read_page_by_page_and_costs_no_text(sqlite_store: Store) -> None:
    phone = Phone(sqlite_store)
    phone.enter(*HERD)
    sent, session = phone.sent(), phone.session(*way("ask.herd", "sw"))
    read = [session.text.rsplit("\n", 1)[0]]
    while "\n9 " in session.text:
        read.append(session.type("9").rsplit("\n", 1)[0])
    assert len(read) > 1
    assert session.text.endswith("\n0 Mwisho")
    assert " ".join(read) == phone.text("KUNDI LANGU")
    assert phone.sent()[:-1] == sent
    assert session.type("0") == "Asante, kwaheri."


# --- putting right ---------------------------------------------------------------------------------


def test_an_entry_is_put_right_in_its_place(phone: Phone) -> None:
    phone.session("1", "neema", "6", "1")
    session = phone.session("8", "3", "1", "2", "7")
    assert len(session.screens) == SCREENS
    assert [entry["litres"] for entry in phone.told() if entry["kind"] == "milk"] == [7]
    assert phone.told()[-1]["session"] == "evening"
    assert session.text.startswith("Tumefuta: ")


def test_a_correction_in_the_menu_is_answered_as_one_by_text(phone: Phone) -> None:
    phone.session("1", "neema", "6", "1")
    shown = phone.session("8", "3", "1", "2", "7").text
    phone.text("REKEBISHA NEEMA 6")
    assert phone.text("REKEBISHA NEEMA 7").replace("lita 6", "") == shown.rsplit("\n", 1)[0].replace(
        "lita 6", ""
    )


def test_what_follows_from_a_corrected_value_is_worked_out_anew(phone: Phone) -> None:
    phone.session("6", "1", "10", "1200", "1")
    phone.session("8", "3", "1", "1", "12")
    assert phone.told()[-1]["amount"]["amount"] == "14400.00"


def test_the_animal_of_an_entry_can_be_put_right(phone: Phone) -> None:
    phone.session("7", "6", "neema", "350", "1")
    phone.session("8", "3", "1", "1", "tausi")
    assert [entry["animal"] for entry in phone.told() if entry["kind"] == "weight"] == ["Tausi"]


def test_the_day_of_a_milking_is_put_right_and_its_session_stays(phone: Phone) -> None:
    phone.session("1", "neema", "6", "1")
    phone.session("8", "3", "1", "3", "28/2")
    milk = next(entry for entry in phone.told() if entry["kind"] == "milk")
    assert (milk["on"], milk["session"], milk["litres"]) == ("2026-02-28", "evening", 6)


def test_the_numbers_of_the_list_stay_those_shown_when_something_is_told_meanwhile(phone: Phone) -> None:
    phone.session("1", "neema", "6", "1")
    session = phone.session("8", "3")
    phone.text("Neema uzito kilo 350")
    session.type("1")
    assert session.text.startswith("Neema, maziwa lita 6")


def test_nothing_is_put_right_by_looking(phone: Phone) -> None:
    told = phone.told()
    phone.session("8", "3", "1", "1", "#", "0", "0", "0", "0")
    assert phone.told() == told


# --- the list of work ------------------------------------------------------------------------------


def test_the_numbers_of_the_work_stay_those_shown_when_a_task_is_done_meanwhile(phone: Phone) -> None:
    for work in (
        "Tumenyunyizia ng'ombe wote tarehe 20 Februari",
        "Tumesafisha banda kwa dawa tarehe 20 Februari",
    ):
        phone.text(work)
    session = phone.session("8", "1")
    lines = session.text.splitlines()[1:-1]
    other = next(line[0] for line in lines if "banda" in line)
    first = next(line[0] for line in lines if "kupe" in line)
    phone.text("Tumenyunyizia ng'ombe wote leo")
    assert "banda" in session.type(other)
    session.type("1")
    assert phone.told()[-1]["kind"] == "disinfection"
    assert first != other


def test_the_list_in_the_menu_is_the_one_whose_numbers_a_text_means(phone: Phone) -> None:
    phone.text("Tumenyunyizia ng'ombe wote tarehe 20 Februari")
    shown = phone.session("8", "1").text
    number = next(line[0] for line in shown.splitlines()[1:] if "kupe" in line)
    phone.text(f"TAYARI {number}")
    assert phone.told()[-1]["kind"] == "spraying"


def test_telling_something_else_leaves_the_numbers_of_the_last_list(phone: Phone) -> None:
    phone.text("Tumenyunyizia ng'ombe wote tarehe 20 Februari")
    listed = phone.text("KAZI")
    assert listed.startswith("Kazi: 1 dawa ya kupe")
    phone.session("4", "7", "1", "1")
    phone.session("5", "5", "1", "#", "1")
    phone.text("TAYARI 1")
    assert phone.told()[-1]["kind"] == "spraying"


# --- the secret number -----------------------------------------------------------------------------


def test_a_secret_number_is_set_changed_given_and_taken_away_and_kept_nowhere(phone: Phone) -> None:
    phone.session("8", "7", "6", "4821")
    assert "Unawadai" not in phone.session("6", "9", "2").text
    asked = phone.session("6", "9", "2")
    assert "PIN" in asked.text
    assert "PIN si sahihi" in asked.type("4820")
    assert "PIN" not in asked.type("4821")
    assert "PIN si sahihi" in phone.session("8", "7", "7", "9999 7733").text
    phone.session("8", "7", "7", "4821 7733")
    phone.session("8", "7", "8", "7733")
    assert "PIN" not in phone.session("6", "9", "2").text
    kept = phone.everything_kept()
    assert not [number for number in ("4821", "4820", "7733", "9999") if number in kept]
    assert "****" in kept


# --- a helper's phone -------------------------------------------------------------------------------


@pytest.mark.parametrize(("typed", "welcome"), [("1", "Sasa unaweza"), ("2", "You can now")])
def test_an_invited_phone_that_dials_answers_the_owner(phone: Phone, typed: str, welcome: str) -> None:
    phone.session("8", "5", "2", "0712345678", "Juma")
    helper = Phone(phone.store, joins=False, number="+255712345678", sessions=100)
    session = helper.session()
    assert session.text.startswith("Rehema anaomba umsaidie kuandika ng'ombe.")
    assert welcome in session.type(typed)
    assert "Juma" in phone.text("WATU")
    assert "Neema" in helper.session("1").text


def test_a_helper_may_put_right_only_what_she_has_told(phone: Phone) -> None:
    phone.session("8", "5", "2", "0712345678", "Juma")
    helper = Phone(phone.store, joins=False, number="+255712345678", sessions=100)
    helper.session("1")
    phone.session("1", "neema", "6", "1")
    assert helper.session("8", "3").text.startswith("Hakuna la kurekebisha.")
    helper.session("1", "tausi", "5", "1", "1")
    assert "Tausi" in helper.session("8", "3").text


def test_a_helper_is_told_whom_to_ask_for_what_is_not_hers(phone: Phone) -> None:
    phone.session("8", "5", "2", "0712345678", "Juma")
    helper = Phone(phone.store, joins=False, number="+255712345678", sessions=100)
    helper.session("1")
    told = phone.told()
    assert "Rehema" in helper.session("6", "9", "2").text
    assert "Rehema" in helper.session("7", "4", "neema", "1", "1").text
    assert phone.told() == told


# --- sessions that drop, steps that repeat ---------------------------------------------------------

TELLINGS = (
    ("1", "neema", "6", "1"),
    ("3", "neema", "1", "#", "1"),
    ("4", "6", "1", "1"),
    ("5", "1", "neema", "1", "1"),
    ("6", "1", "10", "1200", "1"),
    ("8", "5", "2", "0712345678", "Juma"),
    ("8", "7", "6", "4821"),
)


@pytest.mark.parametrize("typed", TELLINGS)
def test_a_session_that_drops_before_its_last_answer_leaves_nothing(
    sqlite_store: Store, typed: tuple[str, ...]
) -> None:
    phone = Phone(sqlite_store)
    phone.enter("Neema", "Malaika", "Tausi")
    before, sent = phone.told(), phone.sent()
    for length in range(len(typed)):
        phone.session(*typed[:length])
    assert (phone.told(), phone.sent()) == (before, sent)
    assert "Juma" not in phone.text("WATU")


@pytest.mark.parametrize("typed", TELLINGS)
def test_a_step_that_is_sent_again_gets_the_same_screen_and_changes_nothing(
    sqlite_store: Store, typed: tuple[str, ...]
) -> None:
    phone = Phone(sqlite_store)
    phone.enter("Neema", "Malaika", "Tausi")
    session = phone.session(*typed)
    told, events = phone.told(), len(phone.events)
    for step, one in enumerate((None, *typed)):
        again = session.again(one, step)
        if step == len(typed):
            assert again == session.screens[-1]
    assert (phone.told(), len(phone.events)) == (told, events)


def test_an_answer_to_a_question_that_is_sent_again_changes_nothing(phone: Phone) -> None:
    session = phone.session("5", "3", "neema", "penicillin", "1", "4")
    told, events = phone.told(), len(phone.events)
    assert session.again("4", len(session.screens) - 1) == session.screens[-1]
    assert (phone.told(), len(phone.events)) == (told, events)
