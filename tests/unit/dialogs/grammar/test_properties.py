"""Whatever the text: an answer, soon, of the promised shape."""

import time
from datetime import datetime

from hypothesis import given, settings
from hypothesis import strategies as st

from dialogs.grammar.answers import read_answer, read_choice, read_yes_no
from dialogs.grammar.place import Place
from dialogs.grammar.words import VOCABULARY
from service.husbandry.forms import dump, form
from service.husbandry.kinds import KINDS
from tests.unit.dialogs.grammar.reading import EMPTY, HERD, reading

NOW = datetime.fromisoformat("2026-03-02T00:15+03:00")
LONGEST_WAIT_S = 0.5
"""Far above what it takes on a busy machine; a text that makes the reader wander would exceed it."""

some_words = st.sampled_from(
    [
        *sorted(VOCABULARY.languages),
        *sorted(VOCABULARY.numbers),
        "Neema",
        "A12",
        "0417",
        "Furaha",
        "Juma",
        ",",
        ".",
        "?",
        "na",
        "6",
        "2.5",
        "31/2",
        "25:00",
        "1e9",
        "15,000/=",
        "12/13/2026",
        "0712345678",
        "@",
        "-",
        "\n",
    ]
)
farmers = st.lists(some_words, max_size=25).map(" ".join)
herds = st.sampled_from([HERD, EMPTY, None])


@settings(max_examples=300, deadline=None)
@given(st.one_of(st.text(max_size=10_000), farmers), herds)
def test_reading_always_ends_with_entries_or_a_question(text: str, herd: object) -> None:
    started = time.perf_counter()
    read = reading(text, now=NOW, herd=herd)  # type: ignore[arg-type]
    assert time.perf_counter() - started < LONGEST_WAIT_S
    assert read.entries or read.problems
    assert read.language in ("sw", "en")
    for entry in read.entries:
        assert dump(entry)["kind"] == entry.KIND


@settings(max_examples=100, deadline=None)
@given(farmers)
def test_an_entry_names_only_animals_of_the_farm(text: str) -> None:
    names = {animal.name for animal in HERD.animals} | {"*"}
    read = reading(text, now=NOW)
    new = {entry.name for entry in read.entries if entry.KIND == "new_animal"}  # type: ignore[attr-defined]
    for entry in read.entries:
        if entry.KIND not in ("ask", "done"):
            assert set(entry.named) <= names | new


@settings(max_examples=100, deadline=None)
@given(farmers)
def test_nothing_told_lies_in_the_future(text: str) -> None:
    for entry in reading(text, now=NOW).entries:
        if not entry.INSTRUCTION:
            assert entry.happened_on <= NOW.date()


@settings(max_examples=100, deadline=None)
@given(st.one_of(st.text(max_size=200), farmers), st.sampled_from([f for kind in KINDS for f in form(kind)]))
def test_answers_never_raise(text: str, field: object) -> None:
    read_answer(text, field, now=NOW, herd=HERD, place=Place())  # type: ignore[arg-type]
    read_choice(text, ("Neema", "Zawadi"))
    read_yes_no(text)
