"""The menu map in docs is the menu."""

from pathlib import Path

from dialogs.screens.layout import LIMIT
from dialogs.screens.map import drawn

PAGE = Path(__file__).parents[4] / "docs" / "reference" / "menu.md"


def test_the_map_in_docs_is_drawn_from_the_menu() -> None:
    assert PAGE.read_text(encoding="utf-8").partition("## Map")[2].endswith(f"\n\n{drawn()}")


def test_the_page_in_docs_names_the_limit() -> None:
    assert f"at most {LIMIT} GSM-7 characters" in PAGE.read_text(encoding="utf-8")
