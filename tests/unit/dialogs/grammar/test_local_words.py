"""Words of one cooperative, read beside the shipped ones."""

from typing import Any

import pytest

from dialogs.grammar.place import Place
from dialogs.grammar.read import read
from dialogs.grammar.words import LocalWords, vocabulary
from service.husbandry.forms import dump
from tests.unit.dialogs.grammar.reading import EVENING, HERD

LOCAL = LocalWords(
    (
        ("cue", "milk", "imbele"),
        ("cue", "calve", "-fyala"),
        ("disease", "ecf", "lusuku"),
        ("feed", "words", "mapande"),
        ("sign", "cough", "-kosomola"),
        ("cue", "calf", "nyana"),
        ("plain", "words", "mwalafyale"),
    )
)


def entry(text: str, local: LocalWords) -> dict[str, Any]:
    found = read(text, HERD, now=EVENING, language="sw", place=Place(local=local))
    return dump(found.entries[0]) if found.entries else {}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("imbele ya Neema lita 6", "milk"),
        ("Neema amefyala jike", "calving"),
        ("Neema anakosomola", "illness"),
        ("nimempa Neema mapande kilo 3", "feeding"),
        ("Neema amechanjwa lusuku", "vaccination"),
    ],
)
def test_a_local_word_is_read_where_it_is_spoken(text: str, kind: str) -> None:
    assert entry(text, LOCAL)["kind"] == kind


def test_it_means_nothing_elsewhere() -> None:
    assert entry("Neema amefyala jike", LocalWords()).get("kind") != "calving"
    assert entry("Neema anakosomola", LocalWords()).get("kind") != "illness"


def test_a_set_of_words_is_made_ready_once() -> None:
    assert vocabulary(LOCAL) is vocabulary(LocalWords(LOCAL.rows))
    assert vocabulary(LOCAL) is not vocabulary(LocalWords())


def test_a_meaning_that_there_is_not_is_refused() -> None:
    with pytest.raises(ValueError, match="no meaning"):
        vocabulary(LocalWords((("cue", "flying", "ruka"),)))
