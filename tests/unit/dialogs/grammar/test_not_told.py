"""What did not happen, or not yet, is never recorded: denials, wishes, plans, advice, what nearly was."""

import pytest

from tests.unit.dialogs.grammar.reading import HERD, entries, entry, reading

NOTHING = [
    # a drug never given
    "Neema hakupewa penicillin",
    "Neema was not given penicillin",
    "nahitaji penicillin kwa Neema",
    "daktari amesema nimpe Neema penicillin",
    "daktari amesema nimchome Neema penicillin siku 3",
    "vet said to give Neema penicillin",
    "vet advised penicillin for Neema",
    "Neema alipaswa kupewa penicillin",
    "nataka kumpa Neema dawa ya minyoo",
    "naomba chanjo ya FMD",
    # plans and wishes
    "nataka kuuza Mwezi",
    "nimempigia mhimilishaji aje kumpandisha Neema",
    "leo ni siku ya kuogesha",
    "fundi anakuja kesho kumpandisha Neema",
    "need to deworm all cows",
    "Neema should be served tomorrow",
    # what nearly was
    "Neema karibu kufa",
    "Neema anakaribia kufa",
    "Neema almost died",
    "Neema is dying",
    "Neema amepotea lakini amepatikana",
    # of others, and of the weather
    "ng'ombe wa jirani amekufa",
    "Juma amesema ng'ombe wake ana joto",
    "leo kuna joto sana",
    "it is very hot today",
    "Neema joto limeisha",
    # quantities that are no record
    "Neema gave 2 litres less than yesterday",
    "nimempa Neema maji lita 20",
    "lost 3 litres",
]


@pytest.mark.parametrize("text", NOTHING)
def test_what_did_not_happen_is_not_recorded(text: str) -> None:
    assert entries(text) == []


ASKED = [
    "nauza Mwezi milioni 1",
    "I'm selling Mwezi for 900000",
    "maybe Neema is pregnant",
    "perhaps Neema died",
    "labda Neema ana mimba",
    "Neema hna mimb",
    "Neema is nto pregnant",
    "Neema nt pregnant",
    "Neema ana minba",
    "sold 10 litres 1200",
    "nimeuza maziwa lita 10 kwa 1200",
    "nimeuza lita 1,500",
    "jumla ya maziwa wiki hii lita 140",
    "Tausi anampanda Neema",
    "Neema lita 5 au 6",
    "Neema 6 na Tausi",
]


@pytest.mark.parametrize("text", ASKED)
def test_what_is_doubtful_is_asked(text: str) -> None:
    assert reading(text).problems


@pytest.mark.parametrize("text", ["is Neema pregnant", "Has Neema calved", "did Neema give milk"])
def test_a_question_is_told_by_its_order_too(text: str) -> None:
    assert entry(text)["kind"] == "ask"


@pytest.mark.parametrize(
    ("text", "animals"),
    [
        ("Neema ana joto, Tausi hana", ["Neema"]),
        ("Neema is on heat, not Tausi", ["Neema"]),
        ("si Neema ni Tausi ana joto", ["Tausi"]),
        ("Neema ana joto na Tausi pia", ["Neema", "Tausi"]),
        ("all cows fine except Neema is on heat", ["Neema"]),
    ],
)
def test_each_animal_is_told_for_herself(text: str, animals: list[str]) -> None:
    assert [(e["kind"], e["animal"]) for e in entries(text)] == [("heat", name) for name in animals]


@pytest.mark.parametrize(
    ("text", "results"),
    [
        ("Neema ana mimba ila Tausi hana", {"Neema": "pregnant", "Tausi": "empty"}),
        (
            "Neema na Tausi wana mimba, Pendo hana",
            {"Neema": "pregnant", "Tausi": "pregnant", "Pendo": "empty"},
        ),
        (
            "Neema, Tausi na Pendo wamepimwa: Neema ana, Tausi hana, Pendo bado haijulikani",
            {"Neema": "pregnant", "Tausi": "empty", "Pendo": "unsure"},
        ),
        ("PD: Neema +, Tausi -", {"Neema": "pregnant", "Tausi": "empty"}),
        ("Neema is in calf, Tausi isn't", {"Neema": "pregnant", "Tausi": "empty"}),
        ("Neema in calf but not Tausi", {"Neema": "pregnant"}),
        ("Neema anamimba", {"Neema": "pregnant"}),
        ("Neema hanamimba", {"Neema": "empty"}),
    ],
)
def test_each_check_has_its_own_result(text: str, results: dict[str, str]) -> None:
    assert {e["animal"]: e["result"] for e in entries(text)} == results
    assert reading(text).problems == ()


CALVES = ("Kito", "Sumu")


@pytest.mark.parametrize(
    "text",
    ["nimewaogesha wote isipokuwa ndama", "sprayed everyone except the calves", "sprayed all but the calves"],
)
def test_a_group_is_left_out_as_told(text: str) -> None:
    assert entry(text)["animals"] == [a.name for a in HERD.animals if a.name not in CALVES]


def test_a_list_may_end_in_a_group() -> None:
    assert entry("nimeogesha Neema, Tausi na ndama")["animals"] == ["Neema", "Tausi", *CALVES]


def test_whom_a_but_excludes_is_not_treated() -> None:
    assert entry("sprayed Neema and Tausi but not Pendo")["animals"] == ["Neema", "Tausi"]
    assert entry("Neema amepewa dawa ya minyoo, ndama bado")["animals"] == ["Neema"]


def test_who_is_in_calf_is_asked_where_they_are_left_out() -> None:
    assert reading("dewormed all except those in calf").problems[0].code == "which_animal"
