"""A text made plain: the same length, the same when done twice, and cut where a farmer would."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from dialogs.grammar.normalise import READ_AT_MOST, clean, tokens


def words(text: str) -> list[str]:
    return [token.word for token in tokens(text)]


@given(st.text(max_size=300))
def test_cleaning_twice_changes_nothing_more(text: str) -> None:
    assert clean(clean(text)) == clean(text)


@given(st.text(max_size=300))
def test_every_character_keeps_its_place(text: str) -> None:
    assert len(clean(text)) == len(text)


@given(st.text(max_size=300))
def test_tokens_stand_in_order_and_do_not_overlap(text: str) -> None:
    found = tokens(text)
    assert all(a.end <= b.start for a, b in itertools.pairwise(found))


def test_every_apostrophe_is_the_same() -> None:
    assert {words(t)[0] for t in ("ng'ombe", "ng’ombe", "n'gombe", "ng`ombe", "NG'OMBE")} == {"ngombe"}


def test_what_is_glued_is_taken_apart() -> None:
    assert words("neema6") == ["neema", "6"]
    assert words("6lts") == ["6", "lts"]
    assert words("lita10") == ["lita", "10"]


def test_an_ear_tag_stays_whole() -> None:
    assert [(t.word, t.sort) for t in tokens("A12 B07 0417")] == [
        ("a12", "tag"), ("b07", "tag"), ("0417", "number"),
    ]  # fmt: skip


def test_numbers_take_their_value_from_how_they_are_written() -> None:
    values = {t.word: t.value for t in tokens("6.5 6,5 15,000/= 15k 2O 1,200,000")}
    assert [float(v) for v in values.values() if v is not None] == [6.5, 6.5, 15000, 15000, 20, 1200000]


def test_emoji_and_control_characters_are_spaces() -> None:
    assert words("Neema \U0001f404 6\x00") == ["neema", "6"]


def test_only_the_beginning_of_an_endless_text_is_read() -> None:
    assert tokens("a " * 10_000)[-1].end <= READ_AT_MOST
