"""The statement in words: never more than three segments, and what each word of money is sorted under."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from dialogs import texts
from dialogs.answers_statement import answer_cow, answer_statement
from dialogs.costs import COSTS, INCOMES, cost_sort, feed_name, income_sort
from dialogs.statement_page import page
from dialogs.texts import THREE_SEGMENTS
from service import sms
from service.husbandry.dairy_accounts import Accounts, Debt
from service.husbandry.herd import Animal
from service.husbandry.statement import Statement
from service.husbandry.statement_figures import APART, CowFigures, Figures
from service.husbandry.units import Money

D = Decimal
HUGE, LITRES = D("12345678.50"), D("12345.75")
NAMES = {1: "W" * 12, 2: "V" * 12}
SORTS = ("feed", *COSTS, "animal", "other")

EVERYTHING = Figures(
    made=LITRES, calves=LITRES, sold=LITRES, delivered=LITRES, turned_back=LITRES, unpriced=LITRES,
    sales=HUGE, sales_at_last=HUGE, pay=HUGE, awaited=HUGE, awaited_litres=LITRES, kept_back=HUGE,
    priced=HUGE, priced_litres=LITRES, income=dict.fromkeys((*INCOMES, "animal", "other"), HUGE),
    spent=dict.fromkeys(SORTS, HUGE), days=365, missing=300,
    cows={cow: CowFigures(litres=LITRES, earned=HUGE, fed=HUGE / 2, unpriced_kg=LITRES, days=300)
          for cow in NAMES},
)  # fmt: skip
DEBT = Debt(buyer="Juma", owed=Money.of(HUGE, "TZS"), since=date(2026, 1, 1), ahead=Money.of(0, "TZS"))


def statement(first: date, last: date, until: date, figures: Figures = EVERYTHING) -> Statement:
    owed = Accounts(debts=(DEBT,))
    return Statement(
        first=first, last=last, until=until, currency="TZS", figures=figures, owed=owed, loan_left=HUGE
    )


MONTH = statement(date(2026, 9, 1), date(2026, 9, 30), date(2026, 9, 30))
SPANS = [
    MONTH,
    statement(date(2026, 9, 1), date(2026, 9, 30), date(2026, 9, 28)),
    statement(date(2026, 1, 1), date(2026, 12, 31), date(2026, 12, 31)),
    statement(date(2026, 1, 1), date(2026, 12, 31), date(2026, 9, 28)),
]


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("found", SPANS)
def test_the_longest_statement_is_three_segments_and_still_says_what_is_left(
    found: Statement, language: str
) -> None:
    text = answer_statement(found, MONTH, NAMES, language, offered=True)
    assert sms.septets(text) <= THREE_SEGMENTS
    left = f"{abs(found.figures.left).quantize(D(1)):,}"
    assert left in text
    assert ("havimo" if language == "sw" else "not in") in text


@pytest.mark.parametrize("language", ["sw", "en"])
@pytest.mark.parametrize("found", SPANS)
def test_the_longest_answer_about_a_cow_is_three_segments(found: Statement, language: str) -> None:
    cow = Animal(id=1, name="W" * 12, names=("W" * 12,), entered_on=date(2026, 1, 1))
    assert sms.septets(answer_cow(found, cow, language)) <= THREE_SEGMENTS


def test_a_cow_whose_milk_nobody_told_is_said_so() -> None:
    cow = Animal(id=7, name="Tausi", names=("Tausi",), entered_on=date(2026, 1, 1))
    assert "Tausi" in answer_cow(MONTH, cow, "sw")
    assert "hakuna maziwa" in answer_cow(MONTH, cow, "sw")


@pytest.mark.parametrize("language", ["sw", "en"])
def test_every_sort_of_cost_and_income_has_its_words(language: str) -> None:
    text = page(MONTH, MONTH, "Rehema", NAMES, language)
    for sort in {*SORTS, *INCOMES, "other"} - APART:
        keys = [f"cost.{sort}"] * (sort in SORTS) + [f"income.{sort}"] * (sort in INCOMES)
        assert all(texts.has(key) and texts.has(f"page.{key.replace('.', '_')}") for key in keys), sort
    assert all(len(line) <= 160 for line in text.splitlines())


@pytest.mark.parametrize(
    ("told", "sort"),
    [
        ("pumba", "feed"), ("pumba za mahindi", "feed"), ("chakula cha ng'ombe", "feed"), ("hay", "feed"),
        ("madini", "feed"), ("feed for Neema", "feed"), ("dawa ya kupe", "drugs"), ("chanjo", "drugs"),
        ("worm medicine", "drugs"), ("daktari", "vet"), ("vet", "vet"), ("mfanyakazi", "wages"),
        ("worker", "wages"), ("kibarua", "wages"), ("mbegu ya dume", "service"), ("AI", "service"),
        ("nauli", "transport"), ("maji", "water"), ("kamba", "repairs"), ("mkopo", "loan"),
        ("mikopo", "loan"), ("loan", "loan"), ("hisa", "savings"), ("ng'ombe", "animal"), ("cow", "animal"),
        ("makato", "other"), (None, "other"), ("", "other"), ("maintenance", "other"),
    ],
)  # fmt: skip
def test_a_cost_is_sorted_by_its_words(told: str | None, sort: str) -> None:
    assert cost_sort(told) == sort


@pytest.mark.parametrize(
    ("told", "sort"),
    [("mbolea", "manure"), ("samadi", "manure"), ("manure", "manure"), ("dume", "bull"), ("majani", "fodder"),
     ("mkopo", "loan"), ("ngozi", "other"), (None, "other")],
)  # fmt: skip
def test_other_income_is_sorted_by_its_words(told: str | None, sort: str) -> None:
    assert income_sort(told) == sort


def test_a_feed_has_one_name_however_it_is_told() -> None:
    assert feed_name("Pumba") == feed_name("maize bran")
    assert feed_name("kitu kipya") == "kitu kipya"
