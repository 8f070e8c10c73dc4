"""The sample messages: what share is read exactly, by language, and no harmful misreading."""

from __future__ import annotations

import pytest

from tests.reading import score
from tests.unit.dialogs.grammar.reading import CORPUS

FLOORS = {
    "samples.jsonl": {"en": 1.0, "sw": 1.0},
    "messages.jsonl": {"en": 1.0, "sw": 0.996},
    "second.jsonl": {"en": 1.0, "sw": 1.0},
    "fifth.jsonl": {"en": 1.0, "sw": 0.996},
    "sixth.jsonl": {"en": 1.0, "sw": 1.0},
}
"""
Shares read exactly right, as measured after mending by all these files. What was measured unseen, each at
its first reading: ``messages.jsonl`` 620 of 689 (90.0 %; en 145 of 166, sw 475 of 523), ``second.jsonl``
197 of 200 (98.5 %; en 41 of 43, sw 156 of 157), ``fifth.jsonl`` 526 of 570 (92.3 %),
``sixth.jsonl`` 239 of 250 (95.6 %; sw 175 of 185, en 64 of 65). Two of
``messages.jsonl`` are read otherwise by choice: a pregnancy told in misspelt words is asked about, and days
after a drug that are not said to be of a hold.
"""


@pytest.mark.parametrize("file", [name for name in FLOORS if (CORPUS / name).exists()])
def test_the_share_read_exactly(file: str) -> None:
    made = score(CORPUS / file)
    shares = {language: made.right[language] / made.of[language] for language in ("en", "sw")}
    assert all(share >= FLOORS[file][language] for language, share in shares.items()), shares
