"""Finding one's way: pages, going back, what a wrong answer does, the screen after a record."""

from __future__ import annotations

from datetime import datetime

import pytest

from dialogs.screens import days, menu
from dialogs.screens.branches import BRANCHES
from dialogs.screens.layout import LIMIT
from dialogs.screens.state import At, State
from service.husbandry.herd import Herd, Known, Sex, Status
from service.sms import measure
from tests.unit.dialogs.screens.builders import NOW, SMALL, ZONE, caller, kept, known, tell


def test_dialling_shows_the_main_menu() -> None:
    turn = menu.dial(caller())
    assert turn.text.splitlines()[:2] == ["Byreline", "1 Maziwa"]
    assert turn.more
    assert turn.effects == ()


@pytest.mark.parametrize("language", ["sw", "en"])
def test_the_main_menu_is_one_page(language: str) -> None:
    turn = menu.dial(caller(language))
    assert len(turn.text.splitlines()) == 1 + len(BRANCHES["main"]) + 1
    assert "9 " not in turn.text


def test_a_long_branch_turns_its_page_and_comes_round() -> None:
    turns = tell(caller(), ["5", "9", "9"])
    assert "Hapokei simu" in turns[2].text
    assert turns[3].text == turns[1].text


def test_back_from_a_question_of_the_second_page_shows_the_second_page() -> None:
    turns = tell(caller(), ["5", "9", "2", "0"])
    assert turns[4].text == turns[2].text


def test_back_from_the_first_question_shows_the_branch_it_came_from() -> None:
    turns = tell(caller(), ["8", "2", "0"])
    assert turns[3].text == turns[1].text


def test_closing_the_main_menu_ends_the_session() -> None:
    turn = tell(caller(), ["0"])[-1]
    assert (turn.text, turn.more, turn.state.at) == ("Asante, kwaheri.", False, At.OVER)


def test_back_keeps_what_was_answered_and_offers_to_leave_it() -> None:
    turns = tell(caller(), ["3", "neema", "2", "Simba", "0", "0"])
    assert turns[-1].state.values == {"animal": "Neema", "method": "bull", "sire": "Simba"}
    assert "# Acha ilivyo" in turns[-1].text
    (entry,) = tell(caller(), ["#", "#", "1"], start=turns[-1])[-1].effects
    assert (entry.method, entry.sire) == ("bull", "Simba")  # type: ignore[union-attr]


def test_another_answer_takes_the_place_of_the_first() -> None:
    (entry,) = tell(caller(), ["1", "neema", "6", "0", "7", "1"])[-1].effects
    assert entry.litres == 7  # type: ignore[union-attr]


def test_where_nothing_may_be_a_value_a_star_goes_back() -> None:
    turns = tell(caller(), ["1", "neema", "0"])
    assert turns[-1].state.values["litres"] == 0
    assert turns[-2].text.endswith("* Rudi")
    assert menu.answer(turns[-2].state, "*", caller()).state.question == "animal"


@pytest.mark.parametrize(
    ("answers", "reason"),
    [
        (["8x"], "Andika namba iliyo hapa."),
        (["1", "Hayupo"], "Jina hilo halipo kundini."),
        (["1", "neema", "51"], "Kati ya 0 na 50 tu."),
        (["7", "5", "neema", "59"], "Kati ya 60 na 230 tu."),
        (["7", "6", "neema", "1201"], "Kati ya 15 na 1200 tu."),
        (["7", "7", "neema", "5.25"], "Kati ya 1 na 5 tu."),
        (["7", "7", "neema", "2.6"], "Robo tu, mfano 2.75."),
        (["7", "7", "neema", "6"], "Andika namba iliyo hapa."),
        (["1", "neema", "sijui"], "Hatukuelewa jibu hilo."),
        (["5", "7", "3/3/2026"], "Siku hiyo bado haijafika."),
        (["4", "1", "neema", "#"], "Jibu hili linahitajika."),
        (["7", "1", "Mrembo wa Mbeya"], "Jina liwe na herufi 1 hadi 12."),
        (["7", "1", "NEEMA"], "Jina hilo lina mwenyewe."),
    ],
)
def test_a_wrong_answer_says_why_and_asks_again(answers: list[str], reason: str) -> None:
    *_, before, after = tell(caller(), answers)
    assert after.text.splitlines()[0] == reason
    assert (after.state, after.effects) == (before.state, ())


@pytest.mark.parametrize("kind", ["2", "3"])
def test_heat_and_service_offer_grown_females_only(kind: str) -> None:
    names = {option.split(" ", 1)[1] for option in tell(caller(), [kind])[-1].text.splitlines()[1:-2]}
    assert names == {"Neema", "Zawadi", "Tausi", "Malaika"}


def test_milk_offers_the_cows_in_milk_first_and_of_them_the_last_told_of() -> None:
    shown = tell(caller(recent=("Tausi", "Zawadi")), ["1"])[-1].text.splitlines()
    assert shown[1:5] == ["1 Zawadi", "2 Neema", "3 Tausi", "4 Wote kwa jumla"]


def test_calving_offers_the_cows_in_calf_first() -> None:
    assert tell(caller(), ["4", "2"])[-1].text.splitlines()[1] == "1 Tausi"


def test_a_cow_is_found_by_any_of_her_names() -> None:
    two = Known(name="Mrembo", names=("Mrembo", "0417"), sex=Sex.FEMALE, status=Status.MILKING)
    turn = tell(caller(herd=Herd((*SMALL.animals, two))), ["1", "0417"])[-1]
    assert turn.state.values == {"animal": "Mrembo"}


def test_a_large_herd_comes_in_pages() -> None:
    herd = Herd(tuple(known(f"Ng'ombe-{number:03}") for number in range(30)))
    who = caller(herd=herd)
    seen: set[str] = set()
    turn = tell(who, ["1"])[-1]
    for _ in range(8):
        seen |= {line.split(" ", 1)[1] for line in turn.text.splitlines() if "Ng'ombe-" in line}
        turn = menu.answer(turn.state, "9", who)
    assert seen == {animal.name for animal in herd.animals}


def test_the_reply_leaves_room_for_the_way_on() -> None:
    last = tell(caller(), ["1", "1", "6", "1"])[-1]
    shown = menu.closing("x" * 160, last, caller())
    assert (measure(shown.text).units, shown.more) == (179, True)
    assert measure(menu.closing("x" * 163, last, caller()).text).units == LIMIT


def test_a_longer_reply_is_the_last_screen() -> None:
    last = tell(caller(), ["1", "1", "6", "1"])[-1]
    shown = menu.closing("x" * 164, last, caller())
    assert (shown.text, shown.more, shown.state) == ("x" * 164, False, State(at=At.OVER))


def test_after_other_work_the_way_on_leads_to_its_branch() -> None:
    last = menu.closing("Sawa.", tell(caller(), ["6", "6", "2", "5000", "1"])[-1], caller())
    assert menu.answer(last.state, "1", caller()).text.startswith("Maziwa na pesa")


def test_a_line_of_work_beyond_the_first_page_keeps_its_own_number() -> None:
    who = caller(tasks=tuple(f"Ng'ombe wa {number}: angalia joto asubuhi na jioni" for number in range(1, 8)))
    turns = tell(who, ["8", "1", "9", "1"])
    line = turns[3].text.splitlines()[1].removeprefix("1 ")
    assert turns[4].text.startswith(line)
    (entry,) = tell(who, ["1"], start=turns[4])[-1].effects
    assert who.tasks[entry.numbers[0] - 1] == line  # type: ignore[union-attr]


def test_a_state_comes_back_from_json_as_it_was() -> None:
    for turn in tell(caller(), ["5", "5", "3 9", "#", "Dawa", "4", "30", "3 14", "2"]):
        assert kept(turn.state) == turn.state


@pytest.mark.parametrize(
    ("hour", "first"), [(2, "morning"), (6, "morning"), (11, "midday"), (14, "midday"), (15, "evening")]
)
def test_the_milking_under_way_is_offered_first(hour: int, first: str) -> None:
    assert days.milkings(NOW.replace(hour=hour))[0] == days.Milking(first, 0)


def test_no_moment_to_choose_is_still_to_come() -> None:
    for hour in range(24):
        now = datetime(2026, 3, 2, hour, 30, tzinfo=ZONE)
        assert all(moment.at <= now for moment in days.moments(now))


def test_months_to_choose_reach_over_the_new_year() -> None:
    found = days.months(datetime(2026, 1, 5, 8, 0, tzinfo=ZONE))
    assert [month.isoformat() for month in found] == ["2025-12-01", "2026-01-01", "2025-11-01"]
