"""Dreams, hearsay that the teller has not seen, calves that died unborn, plans, and short ways of writing."""

from __future__ import annotations

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, problem


@pytest.mark.parametrize(
    "text",
    [
        "Dada yangu aliota Zawadi amezaa mapacha",
        "Mke wangu ameota Neema amekufa",
        "Watoto wameota Tausi ana joto",
        "My wife dreamed that Neema calved twins",
        "Neema amezaa ndotoni",
        "Tausi died in my dream",
        "I had a dream that Neema calved",
        "Neema amezaa, ilikuwa ndoto tu",
        "Neema calved, it was a dream",
    ],
)
def test_what_was_dreamt_is_never_recorded(text: str) -> None:
    assert entries(text) == []
    assert problem(text)[0] == "not_understood"


@pytest.mark.parametrize(
    "text",
    [
        "Jirani anasema Zawadi ana joto lakini mimi sijaona",
        "Mtoto anasema Neema ana joto lakini sijaona",
        "Fundi anasema Neema ana kikohozi ila sijathibitisha",
        "The neighbour says Zawadi is on heat but I have not seen it",
    ],
)
def test_what_another_says_and_the_teller_has_not_seen_is_not_recorded(text: str) -> None:
    assert entries(text) == []


@pytest.mark.parametrize("text", ["Neema ana joto lakini sijaona damu", "Jirani anasema Neema ana joto"])
def test_heat_that_is_not_itself_denied_is_recorded(text: str) -> None:
    assert entry(text)["kind"] == "heat"


@pytest.mark.parametrize(
    "text",
    [
        "Neema amezaa ndama dume, amefia tumboni",
        "Neema amezaa dume alikufa tumboni",
        "Neema calved a bull calf, it died inside",
    ],
)
def test_a_calf_that_died_inside_is_born_dead(text: str) -> None:
    (calf,) = entry(text)["calves"]
    assert (calf["sex"], calf["alive"]) == ("male", False)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Ndama wa Nyota aliyezaliwa jumapili ni jike tumemwita Furaha", "Furaha"),
        ("Ndama wa Tausi amezaliwa leo ni jike anaitwa Lulu", "Lulu"),
        ("ndama jike wa Neema aliyezaliwa jana tumempa jina Lulu", "Lulu"),
    ],
)
def test_a_calf_told_with_its_birth_sex_and_name_is_a_calving(text: str, name: str) -> None:
    told = entry(text)
    assert told["kind"] == "calving"
    assert [(calf["sex"], calf["name"]) for calf in told["calves"]] == [("female", name)]


@pytest.mark.parametrize("text", ["Tausi kiwele kiko hard", "Tausi kiwele kipo vibaya"])
def test_a_light_word_is_no_animals_name(text: str) -> None:
    assert entry(text)["animal"] == "Tausi"


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Tausi amepewa sindano ya oxy jana, hakuna kuuza maziwa masaa 84", 4),
        ("Neema amepewa penicillin leo, hamna kuuza maziwa siku 4", 4),
        ("Neema amechomwa oxy leo hakuna kuuza maziwa siku tatu", 3),
    ],
)
def test_no_selling_of_milk_for_so_long_is_a_hold(text: str, days: int) -> None:
    assert entry(text)["milk_hold_days"] == days


@pytest.mark.parametrize(
    "text",
    [
        "Neema hakupigwa chanjo ila Zawadi kapigwa ya kimeta leo",
        "Neema hajachanjwa lakini Zawadi kachomwa ya kimeta",
        "Zawadi amepigwa ya kimeta",
    ],
)
def test_only_the_cow_that_was_jabbed_is_vaccinated(text: str) -> None:
    told = entry(text)
    assert (told["kind"], told["animals"], told["disease"]) == ("vaccination", ["Zawadi"], "anthrax")


@pytest.mark.parametrize(
    "text",
    [
        "tausi asubuhi l.7 jion l.4",
        "Tausi asubuhi lt.7 jioni lt.4",
        "tausi alikuwa na lita 7 asubuhi lkn jion kashuka lita 4",
        "Tausi asubuhi 7 jioni kashuka 4",
    ],
)
def test_each_milking_has_its_own_litres(text: str) -> None:
    assert [(told["session"], told["litres"]) for told in entries(text)] == [("morning", 7), ("evening", 4)]


@pytest.mark.parametrize(
    "text",
    ["Spraying on Saturday next week", "Deworming on Friday next week", "kuogesha jumamosi wiki ijayo"],
)
def test_a_plan_for_another_week_is_not_put_off_to_tomorrow(text: str) -> None:
    assert entries(text) == []
    assert problem(text)[0] == "in_future"


@pytest.mark.parametrize(
    "text",
    [
        "Daktari amempima Bahati jana hajajua kama ana mimba au la",
        "Daktari amempima Bahati jana hana uhakika kama ana mimba au hapana",
        "The vet checked Bahati yesterday but does not know if she is pregnant",
    ],
)
def test_a_check_whose_result_is_not_known_is_unsure(text: str) -> None:
    told = entry(text)
    assert (told["kind"], told["result"], told["on"]) == ("pregnancy_check", "unsure", "2026-03-01")
