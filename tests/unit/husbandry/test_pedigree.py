"""The inbreeding of a mating against the values of the textbooks (docs/trade/semen.md)."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from service.husbandry.forms import Calf
from service.husbandry.kinds.calving import Calving
from service.husbandry.kinds.service import Service
from service.husbandry.pedigree import (
    LINE,
    BullNames,
    Parents,
    Pedigree,
    inbreeding,
    known_generations,
    own_id,
    pedigree_of,
    plain,
    relationships,
)
from tests.unit.dialogs.farmhouse import new
from tests.unit.husbandry.book import Book, day

F = Fraction


def pedigree(text: str) -> Pedigree:
    """``calf=sire.dam`` for each animal, ``?`` for a parent that is not known."""
    found = {}
    for line in text.split():
        one, _, parents = line.partition("=")
        sire, dam = (None if name == "?" else name for name in parents.split("."))
        found[one] = Parents(sire, dam)
    return found


TEACHING = pedigree("3=1.2 4=1.? 5=4.3 6=5.2")
"""The pedigree in which the tabular method is usually taught; values computed by an independent program."""


@pytest.mark.parametrize(
    ("mating", "text", "sire", "dam", "expected"),
    [
        # Verified in a published table, and computed.
        ("sire and daughter", "d=s.m", "s", "d", F(1, 4)),
        ("full brother and sister", "b=s.m d=s.m", "b", "d", F(1, 4)),
        ("half brother and sister", "b=s.m d=s.n", "b", "d", F(1, 8)),
        ("sire and granddaughter", "d=s.m g=x.d", "s", "g", F(1, 8)),
        ("full first cousins", "a=s.m b=s.m c=a.x d=y.b", "c", "d", F(1, 16)),
        ("half first cousins", "a=s.m b=s.n c=a.x d=y.b", "c", "d", F(1, 32)),
        # Computed.
        ("uncle and niece, full", "a=s.m b=s.m n=b.x", "a", "n", F(1, 8)),
        ("bull and daughter of his half sister", "a=s.m h=s.n d=x.h", "a", "d", F(1, 16)),
        ("sire on his daughter's daughter by him", "d=s.m e=s.d", "s", "e", F(3, 8)),
        # Verified in a published table.
        ("full brother and sister, two generations", "a=s.m b=s.m c=a.b d=a.b", "c", "d", F(3, 8)),
        (
            "full brother and sister, three generations",
            "a=s.m b=s.m c=a.b d=a.b e=c.d f=c.d", "e", "f", F(1, 2),
        ),
        ("strangers", "a=s.m b=t.n", "a", "b", F(0)),
    ],
)  # fmt: skip
def test_a_mating_has_the_inbreeding_of_the_textbook(mating, text, sire, dam, expected):
    assert inbreeding(pedigree(text), sire, dam).coefficient == expected
    assert inbreeding(pedigree(text), dam, sire).coefficient == expected


def test_the_calf_between_is_a_quarter_inbred():
    table = relationships(pedigree("d=s.m e=s.d"), ["e"])
    assert table["e", "e"] == 1 + F(1, 4)


def test_the_teaching_pedigree_comes_out_as_taught():
    table = relationships(TEACHING, "123456")
    assert table["5", "5"] - 1 == table["6", "6"] - 1 == F("0.125")
    assert table["5", "6"] == F("0.6875")
    assert table["3", "5"] == F("0.6250")
    assert table["2", "6"] == F("0.6250")
    assert table["3", "6"] == F("0.5625")


def test_the_order_in_which_a_pedigree_is_written_changes_nothing():
    backwards = dict(reversed(TEACHING.items()))
    assert relationships(backwards, "654321") == relationships(TEACHING, "123456")


def paths(pedigree: Pedigree, sire: str, dam: str) -> Fraction:
    """Wright's own sum over paths through common ancestors: another way to the same number."""

    def lines(one: str) -> list[tuple[str, ...]]:
        up = [line for parent in pedigree.get(one, Parents()) if parent for line in lines(parent)]
        return [(one,), *((one, *line) for line in up)]

    total = F(0)
    for mine in lines(sire):
        for hers in lines(dam):
            if mine[-1] == hers[-1] and not set(mine[:-1]) & set(hers[:-1]):
                own = pedigree.get(mine[-1], Parents())
                inbred = paths(pedigree, own.sire, own.dam) if own.sire and own.dam else F(0)
                total += F(1, 2) ** (len(mine) + len(hers) - 1) * (1 + inbred)
    return total


@pytest.mark.parametrize(
    "text",
    [
        "3=1.2 4=1.? 5=4.3 6=5.2",
        "a=s.m b=s.m c=a.b d=a.b e=c.d f=c.d g=e.f h=s.g",
        "a=s.m b=s.n c=a.b d=s.c e=a.d f=e.c g=s.f",
        "a=?.m b=s.m c=a.b d=c.? e=b.d f=c.e",
    ],
)
def test_the_table_agrees_with_wrights_sum_over_paths(text):
    """Wright 1922: the sum of (1/2)^(n1 + n2 + 1) (1 + F of the common ancestor)."""
    found = pedigree(text)
    for sire, dam in [*pairwise(found), ("s", "f")]:
        assert inbreeding(found, sire, dam).coefficient == paths(found, sire, dam), (sire, dam)


# --- the line, and what is not known ---------------------------------------------------------------


def test_exactly_on_the_line_is_refused_and_just_below_it_is_not():
    cousins = inbreeding(pedigree("a=s.m b=s.m c=a.x d=y.b"), "c", "d")
    assert cousins.coefficient == LINE == F("0.0625")
    assert cousins.on_or_above_line
    assert not inbreeding(pedigree("a=s.m b=s.n c=a.x d=y.b"), "c", "d").on_or_above_line


def test_with_all_grandparents_known_it_is_no_lower_bound():
    known = pedigree("a=s.m b=s.m x=p.q y=v.w c=a.x d=y.b")
    assert not inbreeding(known, "c", "d").lower_bound


@pytest.mark.parametrize("gone", ["a=s.?", "x=?.q", "c=a.?", "d=?.b"])
def test_an_unknown_parent_or_grandparent_makes_it_a_lower_bound(gone):
    known = {**pedigree("a=s.m b=s.m x=p.q y=v.w c=a.x d=y.b"), **pedigree(gone)}
    found = inbreeding(known, "c", "d")
    assert found.lower_bound
    assert found.coefficient <= F(1, 16)


def test_an_animal_of_which_nothing_is_known_is_unrelated_by_a_lower_bound():
    assert inbreeding({}, "s", "d") == inbreeding({}, "d", "s")
    assert inbreeding({}, "s", "d").coefficient == 0
    assert inbreeding({}, "s", "d").lower_bound


def test_known_generations_are_counted_to_the_first_gap():
    assert known_generations(TEACHING, "1") == 0
    assert known_generations(TEACHING, "3") == 1
    assert known_generations(pedigree("a=s.m s=p.q m=v.w"), "a") == 2


def test_a_record_that_makes_an_animal_its_own_ancestor_is_still_answered():
    looped = pedigree("a=b.m b=a.n")
    assert 0 <= inbreeding(looped, "a", "b").coefficient <= 1
    assert 0 <= inbreeding(pedigree("a=a.a"), "a", "a").coefficient <= 1


# --- from a farm's record --------------------------------------------------------------------------

KILELE = BullNames(name="Kilele", code="IG-101")


def served(cow: str, on: str, sire: str) -> Service:
    return Service(animal=cow, on=day(on), method="ai", sire=sire)


def calved(cow: str, on: str, heifer: str) -> Calving:
    return Calving(animal=cow, on=day(on), calves=(Calf(sex="female", name=heifer),))


def farm_with_a_daughter(sire: str) -> Book:
    """Neema, served by *sire*, has calved Tumaini."""
    book = Book(new("Neema"))
    book.tell(served("Neema", "2025-06-02", sire))
    book.tell(calved("Neema", "2026-03-10", "Tumaini"))
    return book


def coefficient(book: Book, cow: str, bull: str, *bulls: BullNames) -> Fraction:
    known, names = pedigree_of(book.farm.animals.values(), bulls)
    return inbreeding(known, names.bull(bull), own_id(book.animal(cow).id)).coefficient


@pytest.mark.parametrize("told", ["Kilele", "KILELE", "kilele", "ig 101", "IG-101"])
def test_a_sire_is_the_catalogues_bull_by_name_or_code_however_it_was_written(told):
    assert coefficient(farm_with_a_daughter(told), "Tumaini", "Kilele", KILELE) == F(1, 4)


def test_a_bull_is_kin_by_his_own_sire_and_by_his_dams():
    book = farm_with_a_daughter("Kilele")
    son = BullNames(name="Mlima", sire="kilele")
    grandson = BullNames(name="Bonde", maternal_grandsire="KILELE")
    of_one_dam = BullNames(name="Kilele", dam="Rosa"), BullNames(name="Korongo", dam="rosa")
    assert coefficient(book, "Tumaini", "Mlima", KILELE, son) == F(1, 8)
    assert coefficient(book, "Tumaini", "Bonde", KILELE, grandson) == F(1, 16)
    assert coefficient(book, "Tumaini", "Korongo", *of_one_dam) == F(1, 16)
    assert coefficient(book, "Neema", "Kilele", KILELE) == 0


def test_a_farms_own_bull_has_the_parents_of_its_record():
    book = farm_with_a_daughter("Kilele")
    book.tell(new("Simba", status="bull", sex="male"))
    book.tell(served("Tumaini", "2027-06-02", "Simba"))
    book.tell(calved("Tumaini", "2028-03-10", "Pendo"))
    assert coefficient(book, "Pendo", "Simba", KILELE) == F(1, 4)
    assert coefficient(book, "Pendo", "Kilele", KILELE) == F(1, 8)


def test_a_name_of_the_farm_and_of_the_catalogue_means_the_catalogues_bull():
    book = farm_with_a_daughter("Kilele")
    book.tell(new("Kilele", status="bull", sex="male"))
    assert coefficient(book, "Tumaini", "Kilele", KILELE) == F(1, 4)


def test_names_are_compared_by_their_letters_and_figures():
    assert plain(" IG-101 ") == plain("ig101")
