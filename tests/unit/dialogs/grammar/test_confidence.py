"""How sure a reading is, and what of a text it left out."""

import pytest

from dialogs.reading import as_json
from tests.unit.dialogs.grammar.reading import reading


@pytest.mark.parametrize("text", ["Neema lita 6 asubuhi", "Neema ana joto", "nimeuza Mwezi milioni 1"])
def test_what_is_told_plainly_is_sure(text: str) -> None:
    assert reading(text).shaky == frozenset()


@pytest.mark.parametrize(
    "text",
    ["nemaa lita 6", "Neema 6 5", "Neema ana joot", "nadhani Neema ana joto", "Neema lita 6, Tausi pia"],
)
def test_what_is_put_right_or_guessed_is_shown_clearly(text: str) -> None:
    read = reading(text)
    assert read.entries
    assert max(read.shaky) < len(read.entries)


def test_the_json_says_how_sure_each_entry_is() -> None:
    read = reading("Neema lita 6, Zawdi lita 7")
    told = as_json("", read, ask=lambda problem: "")["entries"]
    assert [(e["animal"], e["confidence"]) for e in told] == [("Neema", "high"), ("Zawadi", "middling")]


@pytest.mark.parametrize(
    ("text", "unread"),
    [
        ("Neema 6, maji lita 20", "maji lita 20"),
        ("Neema 6, ndama amekunywa lita 2", "ndama amekunywa lita 2"),
        ("Neema lita 6. Tausi", ""),
        ("Neema 6 na Zawadi 7", ""),
        ("Neema 6, Tausi hajakamuliwa", ""),
        ("nimeogesha wote isipokuwa Neema na Tausi", ""),
        ("sold milk 10L @1300 to Rehema", ""),
    ],
)
def test_what_came_to_nothing_is_said(text: str, unread: str) -> None:
    assert reading(text).unread == unread
