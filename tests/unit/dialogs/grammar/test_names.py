"""Which animal is meant."""

import pytest

from service.husbandry.herd import Herd, Known, Sex, Status
from tests.unit.dialogs.grammar.reading import HERD, entries, entry, problem, reading


def cow(name: str, **more: object) -> Known:
    return Known(name=name, names=(name,), sex=Sex.FEMALE, status=Status.MILKING, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("told", ["a 12", "A12", "a12", "A 12"])
def test_a_tag_is_read_in_pieces_too(told: str) -> None:
    assert entry(f"{told} lita 6")["animal"] == "A12"


@pytest.mark.parametrize("told", ["nema", "Neemaa", "NEEMA", "neem", "nemaa"])
def test_a_slip_near_one_name_is_that_animal(told: str) -> None:
    assert entry(f"{told} 6")["animal"] == "Neema"


@pytest.mark.parametrize(
    "text", ["Chausku amekufa", "sold Mwesi for 900000", "Nema treated with penicillin", "Nyta amezaa jike"]
)
def test_a_slip_is_asked_about_where_it_would_hurt(text: str) -> None:
    assert problem(text)[0] == "confirm"


def test_a_slip_near_two_names_is_asked_about() -> None:
    herd = Herd((cow("Rosa"), cow("Rose")))
    assert problem("Rosi 6", herd=herd)[0] == "which_animal"


def test_a_name_that_the_farm_has_not_is_said() -> None:
    found = reading("Neema 6, Furaha 4")
    assert [p.name for p in found.problems] == ["Furaha"]
    assert problem("B07 calved a heifer calf")[0] == "unknown_animal"
    assert problem("0988 gave 5 litres")[0] == "unknown_animal"


def test_all_is_a_star_and_all_but_is_listed() -> None:
    assert entry("Nimeogesha ng'ombe wote")["animals"] == ["*"]
    names = [animal.name for animal in HERD.animals if animal.name != "Kito"]
    assert entry("nimeogesha wote isipokuwa Kito")["animals"] == names
    assert entry("sprayed all but Kito")["animals"] == names


def test_a_group_is_listed_by_name() -> None:
    assert entry("dewormed the calves")["animals"] == ["Kito", "Sumu"]
    assert entry("sprayed the calves and Nyota")["animals"] == ["Kito", "Sumu", "Nyota"]


def test_an_animal_named_through_another() -> None:
    calf = Known(name="Kito", names=("Kito",), sex=Sex.MALE, status=Status.CALF, dam="Neema")
    herd = Herd((cow("Neema"), cow("Zawadi"), calf))
    assert entry("ndama wa Neema anaharisha", herd=herd)["animal"] == "Kito"
    assert entry("Neema's calf is coughing", herd=herd)["animal"] == "Kito"
    assert entry("mama wa Kito ana joto", herd=herd)["animal"] == "Neema"


@pytest.mark.parametrize(
    ("text", "animal"),
    [("Maziwa 6", "Maziwa"), ("Maziwa Neema 6", "Neema"), ("Jumapili lita 5", "Jumapili")],
)
def test_a_cow_called_like_a_word(text: str, animal: str) -> None:
    herd = Herd((cow("Neema"), cow("Maziwa"), cow("Jumapili")))
    assert entry(text, herd=herd)["animal"] == animal


def test_a_name_that_is_a_word_is_the_word_where_another_animal_is_meant() -> None:
    assert entry("Kito amekufa kwa sumu")["animal"] == "Kito"
    assert entry("nimeuza asali lita 2 elfu 20")["kind"] == "other_income"
    assert entry("Asali ana joto")["animal"] == "Asali"
    herd = Herd((cow("Neema"), cow("Jumapili")))
    assert entry("Neema kapandishwa jumapili", herd=herd)["on"] == "2026-03-01"


def test_the_only_milking_cow_needs_no_name() -> None:
    assert entry("lita 6", herd=Herd((cow("Neema"),)))["animal"] == "Neema"
    assert problem("lita 6")[0] == "which_animal"


def test_without_a_herd_every_name_is_an_animals() -> None:
    assert entry("Furaha 6", herd=None)["animal"] == "Furaha"
    assert [e["animal"] for e in entries("Zawadi na Neema wana joto", herd=None)] == ["Zawadi", "Neema"]
