"""Animals that a text enters or names: newcomers, calves, and names that are words as well."""

import pytest

from service.husbandry.herd import Herd, Known, Sex, Status
from tests.unit.dialogs.grammar.reading import EMPTY, HERD, entries, entry, problem, reading


def without(*names: str) -> Herd:
    return Herd(tuple(animal for animal in HERD.animals if animal.name not in names))


NEW = [
    ("Ng'ombe mpya Malaika, anakamuliwa", {"name": "Malaika", "status": "milking"}),
    ("New cow Lulu, milking", {"name": "Lulu", "status": "milking"}),
    ("NEW COW NAMED LULU, IN MILK", {"name": "Lulu", "status": "milking"}),
    ("Ng'ombe mpya Malaika, mtamba mwenye mimba", {"name": "Malaika", "status": "in_calf_heifer"}),
    ("new heifer Asali", {"name": "Asali", "status": "heifer"}),
    ("new heifer asali", {"name": "Asali", "status": "heifer"}),
    ("New cow Asali Jersey milking", {"name": "Asali", "breed": "Jersey", "status": "milking"}),
    ("New cow Safi, Jersey, 4 years, dam Neema, price 1,200,000",
     {"name": "Safi", "breed": "Jersey", "dam": "Neema", "born": "2022-03-15"}),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), NEW)
@pytest.mark.parametrize("herd", [EMPTY, without("Asali")], ids=["first telling", "a herd"])
def test_what_is_told_of_a_newcomer_is_the_newcomers(text: str, told: dict[str, str], herd: Herd) -> None:
    if herd is EMPTY and "dam" in told:
        pytest.skip("a dam is one of the herd")
    read = entry(text, herd=herd)
    assert (read["kind"], read["sex"]) == ("new_animal", "female")
    assert {key: read.get(key) for key in told} == told


@pytest.mark.parametrize("herd", [EMPTY, HERD], ids=["first telling", "a herd"])
def test_a_newcomer_in_calf_is_entered_with_her_months(herd: Herd) -> None:
    cow, check = entries("New cow Safi dry in calf 7 months", herd=herd)
    assert (cow["name"], cow["status"]) == ("Safi", "dry")
    assert (check["kind"], check["animal"], check["months"]) == ("pregnancy_check", "Safi", 7)


def test_a_counted_list_of_names_is_not_taken_for_what_follows_it() -> None:
    read = reading("nina ng'ombe wawili Neema na Tausi, na ndama mmoja dume", herd=EMPTY)
    assert [e.name for e in read.entries] == ["Ndama"]  # type: ignore[attr-defined]
    assert [(p.code, p.draft.values["name"]) for p in read.problems if p.draft] == [
        ("missing", "Neema"), ("missing", "Tausi"),
    ]  # fmt: skip


def test_every_name_of_a_counted_list_is_what_the_count_is_of() -> None:
    read = entries("nina mitamba miwili Asha na Furaha, na ndama mmoja dume", herd=EMPTY)
    assert [(e["name"], e["status"]) for e in read] == [
        ("Asha", "heifer"), ("Furaha", "heifer"), ("Ndama", "calf"),
    ]  # fmt: skip


def test_a_cow_of_the_herd_called_like_a_word_is_she() -> None:
    assert (entry("Asali served 10/2")["kind"], entry("Asali served 10/2")["animal"]) == ("service", "Asali")
    assert entry("bull jasiri served bahati on 1 March")["animal"] == "Bahati"


@pytest.mark.parametrize(
    ("text", "name", "kind"),
    [
        ("Neema 9 Mwezi 7", "Mwezi", "milk"), ("Mwezi in calf", "Mwezi", "pregnancy_check"),
        ("Asali ana joto", "Asali", "heat"), ("nimeuza Asali laki 5", "Asali", "animal_sale"),
        ("nimeuza Pendo laki 5", "Pendo", "animal_sale"),
        ("sold pendo 500000", "Pendo", "animal_sale"),
    ],
)  # fmt: skip
def test_where_only_a_name_can_stand_a_word_is_an_unknown_animal(text: str, name: str, kind: str) -> None:
    found = reading(text, herd=without("Mwezi", "Asali", "Pendo"))
    (held,) = found.problems
    assert (held.code, held.name) == ("unknown_animal", name)
    assert held.draft is not None
    assert kind == held.draft.kind.KIND


def test_a_word_that_cows_are_called_by_stays_a_word_elsewhere() -> None:
    herd = without("Mwezi", "Asali")
    assert entry("nimeuza asali elfu 20", herd=herd)["kind"] == "other_income"
    assert entry("Nyota ana mimba mwezi wa 4", herd=herd)["kind"] == "pregnancy_check"


CALF = Known(name="Neema calf", names=("Neema calf",), sex=Sex.MALE, status=Status.CALF)
NAMINGS = [
    "calf of Neema is called Radi", "ndama wa Neema anaitwa Radi", "Neema's calf is Radi",
    "Neema's calf is called Radi", "ndama wa Neema jina lake ni Radi",
]  # fmt: skip


@pytest.mark.parametrize("text", NAMINGS)
def test_a_calf_is_named_through_its_dam(text: str) -> None:
    read = entry(text, herd=Herd((*HERD.animals, CALF)))
    assert (read["kind"], read["animal"], read["name"]) == ("naming", "Neema calf", "Radi")


@pytest.mark.parametrize("text", NAMINGS)
def test_a_calf_that_is_not_known_is_asked_for_and_its_dam_keeps_her_name(text: str) -> None:
    assert (entries(text), problem(text)[0]) == ([], "which_animal")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Neema amezaa ndama dume Kito", "Kito"), ("Neema calved a bull calf Radi", "Radi"),
        ("neema amezaa jike lulu jana", "Lulu"), ("Neema calved, heifer calf named Lulu", "Lulu"),
    ],
)  # fmt: skip
def test_a_calf_is_born_under_the_name_told(text: str, name: str) -> None:
    (calf,) = entry(text)["calves"]
    assert calf["name"] == name


def test_two_calves_are_told_one_after_the_other() -> None:
    read = entry("Neema had a heifer calf and bull calf yesterday, vet helped")
    assert [calf["sex"] for calf in read["calves"]] == ["female", "male"]
    assert (read["ease"], read["on"]) == ("helped", "2026-03-01")


def test_the_heifers_of_a_calving_are_calves_and_not_the_heifers_of_the_herd() -> None:
    read = entry("Neema calved two heifers Lulu and Radi")
    assert (read["animal"], [calf["name"] for calf in read["calves"]]) == ("Neema", ["Lulu", "Radi"])


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Neema ni Friesian", {"name": "Neema", "breed": "Friesian"}),
        ("Neema is a Friesian", {"name": "Neema", "breed": "Friesian"}),
        ("Neema mama yake ni Zawadi", {"name": "Neema", "dam": "Zawadi"}),
        ("Asali alizaliwa 2024-06-01", {"name": "Asali", "born": "2024-06-01"}),
    ],
)
def test_what_was_not_known_of_an_animal_is_told_later(text: str, told: dict[str, str]) -> None:
    read = entry(text)
    assert (read["kind"], read["sex"]) == ("new_animal", "female")
    assert {key: read.get(key) for key in told} == told


def test_a_birth_other_than_the_one_known_is_asked_about() -> None:
    assert problem("Asali alizaliwa mwaka jana Machi")[0] == "confirm"


def test_more_animals_may_be_listed_when_the_herd_has_some() -> None:
    told = entries("nina mitamba miwili Asha na Bahari")
    assert [(e["name"], e["status"]) for e in told] == [("Asha", "heifer"), ("Bahari", "heifer")]
