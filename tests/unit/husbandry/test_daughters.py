"""A bull's daughters beside their herd-mates."""

from __future__ import annotations

from decimal import Decimal

from service.husbandry.daughters import Stable, compared

D = Decimal


def stable(daughters: str, herd_mates: str) -> Stable:
    ours, theirs = (tuple(D(litres) for litres in text.split()) for text in (daughters, herd_mates))
    return Stable(ours, theirs)


def test_the_worked_example_of_the_docs():
    """docs/trade/semen.md: (1 x 2 - 0.75 x 2) / 1.75 = 0.29 l (computed)."""
    found = compared([stable("9 11", "8 8"), stable("6", "8 8 8")])
    assert found is not None
    assert found.litres.quantize(D("0.01")) == D("0.29")
    assert found.effective_daughters == D("1.75")


def test_a_richer_farm_does_not_make_its_bulls_daughters_better():
    poor, rich = stable("6", "5"), stable("16", "15")
    found = compared([poor, rich])
    assert found is not None
    assert found.litres == 1


def test_a_farm_without_herd_mates_or_daughters_tells_nothing():
    assert compared([stable("9", ""), stable("", "8")]) is None
    with_both = compared([stable("9", "8"), stable("20", "")])
    assert with_both == compared([stable("9", "8")])
