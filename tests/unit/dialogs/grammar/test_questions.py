"""What is asked of the service, and when its reminders come."""

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, problem


@pytest.mark.parametrize("text", ["milk of zawadi", "maziwa ya zawadi", "maziwa ya zawadi?"])
def test_milk_of_a_cow_without_a_number_is_asked_about(text: str) -> None:
    assert entry(text) == {"kind": "ask", "topic": "milk", "animal": "Zawadi"}


def test_milk_and_a_name_alone_lack_the_litres() -> None:
    assert problem("maziwa Neema") == ("missing", "litres")


@pytest.mark.parametrize(
    ("text", "period"), [("what is to be done this week?", "week"), ("nifanye nini leo", "today")]
)
def test_the_work_of_a_span_is_asked_for(text: str, period: str) -> None:
    assert entry(text) == {"kind": "ask", "topic": "tasks", "period": period}


@pytest.mark.parametrize("text", ["remind me at 7 am", "nikumbushe saa 1 asubuhi"])
def test_the_hour_of_reminders_follows_its_clock(text: str) -> None:
    assert entry(text)["hour"] == 7


def test_kilograms_delivered_are_milk_at_the_centre() -> None:
    assert (entry("Delivered 14 kg")["kind"], entry("Delivered 14 kg")["kg"]) == ("delivery", 14)


def test_who_served_and_with_what_is_kept() -> None:
    read = entry("AI done on Tausi by Mr Komba, Friesian straw, 25000")
    assert (read["technician"], read["sire"], read["cost"]["amount"]) == ("Komba", "Friesian", "25000.00")


def test_what_the_centre_refused_of_a_delivery_is_told_beside_it() -> None:
    taken, refused = entries("took 20 litres to centre this morning, 3 rejected watery")
    assert (taken["litres"], "rejected" in taken) == (20, False)
    assert (refused["litres"], refused["rejected"], refused["reason"]) == (3, True, "watery")


def test_who_took_the_milk_is_the_buyer() -> None:
    assert entry("mteja Asha kachukua lita 5")["buyer"] == "Asha"


def test_thousands_written_apart_beside_an_instruction_do_no_harm() -> None:
    assert entries("150 000 nimeshafanya") is not None
