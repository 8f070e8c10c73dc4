"""Words typed short, names without vowels, numbers that stand close, and what a row's strange words do."""

from __future__ import annotations

import pytest

from tests.unit.dialogs.grammar.reading import entries, entry, problem, reading


def _row(text: str) -> dict[str, object]:
    return {told["animal"]: told.get("litres", 0) for told in entries(text) if told["kind"] == "milk"}


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("pndo 5 zwadi 4.5 nma 6", {"Pendo": 5, "Zawadi": 4.5, "Neema": 6}),
        ("zwd lta5,neem lta6,pend lta7", {"Zawadi": 5, "Neema": 6, "Pendo": 7}),
        ("tsi 4, pnd 7", {"Tausi": 4, "Pendo": 7}),
        ("Pendo 7,A12 pia7,0417 lta 5 na nusu", {"Pendo": 7, "A12": 7, "0417": 5.5}),
        ("nmekamua neema 6 tausi 5", {"Neema": 6, "Tausi": 5}),
    ],
)
def test_a_name_without_its_vowels_is_known_in_a_row(text: str, row: dict[str, float]) -> None:
    assert _row(text) == row
    assert not reading(text).problems


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("xyzq 5 neema 6", {"Neema": 6}),
        ("neema 6 tama 4", {"Neema": 6}),
        ("dada 5 neema 6", {"Neema": 6}),
        ("Neema 6, Tosha 5, Pendo 4", {"Neema": 6, "Pendo": 4}),
        ("tai 5 neema 6", {"Neema": 6}),
        ("neema 6, T 5", {"Neema": 6}),
    ],
)
def test_the_number_of_a_strange_word_goes_to_no_other_cow(text: str, row: dict[str, float]) -> None:
    assert _row(text) == row
    assert problem(text)[0] == "unknown_animal"


@pytest.mark.parametrize(
    "text", ["tyari 2, neema 6", "tayari 2 Neema 6", "done 2, Neema 6 litres", "2 tayari, Neema 6"]
)
def test_a_task_reported_before_the_milk_is_no_milk(text: str) -> None:
    done, milk = entries(text)
    assert (done["kind"], done["numbers"]) == ("done", [2])
    assert (milk["animal"], milk["litres"]) == ("Neema", 6)


@pytest.mark.parametrize(
    "text",
    [
        "cjaona heat kwa zawadi tangu mwezi wa pili", "sijaona dalili za joto kwa Neema",
        "joto halijaonekana kwa Neema", "hatujaona joto kwa Neema", "I didnt see any heat in Neema",
        "We have not noticed heat signs on Pendo", "Pendo haonyeshi dalili za joto",
        "cjui kama neema ana mimba",
        "Neema na Tausi hawajapata dawa ya minyoo", "neema hjapandshwa", "Natamani Neema afikishe lita 12",
        "ningependa Neema afikishe lita 10", "I hope Neema reaches 12 litres", "banda lina joto sana leo",
        "my neighbour's cow gives 20 litres a day", "Jirani ameuza ng'ombe wake milioni 1.2",
        "mbwa wa jirani amekufa", "my goats are coughing", "neema hana homa wala kikohozi", "naumwa leo",
    ],
)  # fmt: skip
def test_what_was_not_seen_is_hoped_for_or_is_anothers_is_no_record(text: str) -> None:
    assert not entries(text)
    assert problem(text)[0] == "not_understood"


@pytest.mark.parametrize(
    "text",
    [
        "Tausi yuko ok ila Pendo ana kikohozi", "Tausi yuko mzima, Pendo anakohoa",
        "tausi hana shida, pendo anakohoa", "Tausi is fine but Pendo is coughing",
        "Tausi yuko fresh lakini Pendo anakohoa",
    ],
)  # fmt: skip
def test_the_one_that_is_well_is_not_ill_with_the_other(text: str) -> None:
    assert [(told["animal"], told["signs"]) for told in entries(text)] == [("Pendo", ["cough"])]


@pytest.mark.parametrize(
    "text",
    [
        "Za leo? Mvua kubwa sana huku kwetu. Neema kapata lita 6", "Shikamoo, pls niandikie Neema lita 6",
        "Sorry I was late, the network was down. Neema 6",
        "Neema 6, mengine kesho",
        "Neema 6, others tomorrow",
        "Neema 6, nyingine nitatuma jioni",
        "Leo vipi? Neema 6", "simu ilizima. Neema 6",
        "mwanangu anaumwa, neema 6",

        "Neema 6, natamani afike 10", "Neema 6, not 7",
        "Neema lita 6, ndama alimtoroka akanyonya yote",
    ],
)  # fmt: skip
def test_chatter_neither_swallows_nor_turns_a_record(text: str) -> None:
    told = [one for one in entries(text) if one["kind"] == "milk"]
    assert [(one["animal"], one["litres"]) for one in told] == [("Neema", 6)]
    assert not reading(text).problems


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("Neema joto. Nimpigie nani?", "call"),
        ("Neema 6. Nifanye nini wiki hii?", "tasks"),
        ("Neema 6, Tausi 5. bei ya maziwa ni ngapi?", "price"),
    ],
)
def test_a_record_and_a_question_are_both_read(text: str, topic: str) -> None:
    told = entries(text)
    assert told[-1]["topic"] == topic
    assert told[0]["animal"] == "Neema"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("kaz za wik hii", {"topic": "tasks", "period": "week"}),
        ("wat do i do this wk", {"topic": "tasks", "period": "week"}),
        ("nimeandka nn leo", {"topic": "entries"}),
        ("nmeogsha ngmbe wte leo asb", {"kind": "spraying", "animals": ["*"]}),
        ("dewomed kito n sumu with levamisole 10ml each", {"animals": ["Kito", "Sumu"], "amount_ml": 20}),
        ("neema kapandshwa lo na fund juma", {"kind": "service", "technician": "juma"}),
        ("matumizi dawa ya kupe 12000/-", {"kind": "expense", "what": "dawa ya kupe"}),
    ],
)
def test_shorthand_is_read_in_full(text: str, told: dict[str, object]) -> None:
    assert told.items() <= entry(text).items()


@pytest.mark.parametrize("text", ["nmenunua pumba gunia2 sh36,000/=", "nimenunua pumba gunia 2 sh 36,000"])
def test_a_count_of_bags_is_no_money(text: str) -> None:
    assert entry(text)["amount"] == {"amount": "36000.00", "currency": "TZS"}


@pytest.mark.parametrize(
    "text",
    ["gav pendo 3kg dairy meal, neema the same", "Nimempa Pendo pumba kilo 3, Neema kiasi hicho hicho"],
)
def test_the_same_is_given_to_each(text: str) -> None:
    assert [(told["animals"], told["kg"]) for told in entries(text)] == [(["Pendo"], 3), (["Neema"], 3)]


@pytest.mark.parametrize(
    "text",
    [
        "Nyota na Chausiku tu ndio hawajapata dawa ya minyoo, wengine wote tayari",
        "only Nyota and Chausiku not dewormed, all the rest done",
    ],
)
def test_the_rest_done_is_all_but_those_named(text: str) -> None:
    told = entry(text)
    assert told["kind"] == "deworming"
    assert len(told["animals"]) == 12
    assert not {"Nyota", "Chausiku"} & set(told["animals"])


def test_a_cows_own_total_is_no_milking() -> None:
    told = entries("Neema asubuhi 6 jioni 5 jumla 11, Tausi asubuhi 4 jioni 3 jumla 7")
    assert [(one["animal"], one["litres"]) for one in told] == [
        ("Neema", 6), ("Neema", 5), ("Tausi", 4), ("Tausi", 3),
    ]  # fmt: skip
    assert [one["litres"] for one in entries("Neema 6+5=11")] == [6, 5]


@pytest.mark.parametrize("text", ["Neema nt pregnant", "sumu amekfa jna"])
def test_a_grave_word_typed_short_is_asked_about(text: str) -> None:
    assert problem(text)[0] == "confirm"


def test_a_calf_born_dead_is_not_alive() -> None:
    (calf,) = entry("chausiku gave birth to dead calf")["calves"]
    assert calf == {"sex": None, "alive": False, "name": None}


def test_a_number_refused_is_not_the_one_kept() -> None:
    fix, told = entries("nimekosea tausi ni 6 sio 7")
    assert (fix["kind"], told["litres"]) == ("fix", 6)


def test_everyone_but_two_leaves_both_out() -> None:
    told = entry("Sprayed everyone but pendo and tausi")
    assert not {"Pendo", "Tausi"} & set(told["animals"])
    assert len(told["animals"]) == 12


def test_who_is_called_to_serve_her_gives_her_no_name() -> None:
    assert not entries("tumemuita fundi aje kumpandisha neema")
