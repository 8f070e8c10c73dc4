"""The vocabulary: verbs by their stems, slips, phrases."""

import pytest

from dialogs.grammar.words import VOCABULARY, is_known, keys_of, nearest


@pytest.mark.parametrize(
    "word",
    ["amepandishwa", "kapandishwa", "alipandishwa", "imepandishwa", "wamepandishwa", "amekwishapandishwa"],
)
def test_a_verb_is_known_by_its_stem(word: str) -> None:
    assert "+pandishwa" in keys_of(word).keys


@pytest.mark.parametrize("word", ["hajapandishwa", "hakupandishwa", "hatapandishwa", "asipandishwe"])
def test_a_denial_is_known_by_its_prefix(word: str) -> None:
    assert "!pandishwa" in keys_of(word).keys


def test_an_english_verb_may_bear_a_kiswahili_prefix() -> None:
    assert "cough" in keys_of("anacough").keys


@pytest.mark.parametrize(
    ("slip", "word"),
    [("joot", "joto"), ("anapnda", "anapanda"), ("chakla", "chakula"), ("asbuhi", "asubuhi"),
     ("anahrisha", "anaharisha"), ("wenzke", "wenzake")],
)  # fmt: skip
def test_a_slip_is_read_as_the_word_next_to_it(slip: str, word: str) -> None:
    found = nearest(slip)
    assert found is not None
    assert found[0] == word


@pytest.mark.parametrize("word", ["juma", "imenyesha", "sour", "furaha", "mwizi", "nyoka"])
def test_other_words_are_not_pressed_into_the_vocabulary(word: str) -> None:
    assert is_known(word) or nearest(word) is None


def test_both_languages_have_every_sign_and_disease() -> None:
    concepts: dict[str, set[str]] = {}

    def walk(node: dict[str, object]) -> None:
        for key, below in node.items():
            if key == "":
                for concept, language in below.items():  # type: ignore[attr-defined]
                    concepts.setdefault(concept, set()).add(language)
            else:
                walk(below)  # type: ignore[arg-type]

    walk(VOCABULARY.trie)
    lacking = [
        c for c, languages in concepts.items()
        if c.startswith(("sign.", "heat.", "disease.")) and len(languages) < 2 and c not in SHARED
    ]  # fmt: skip
    assert lacking == []


SHARED = ("disease.fmd", "disease.lsd", "disease.ecf", "disease.cbpp", "disease.rvf")
