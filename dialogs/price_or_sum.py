"""A sum beside litres sold that is hardly both: of one litre, or of all? Answered by a number or in words."""

from __future__ import annotations

from dataclasses import replace

from dialogs.grammar.answers import read_choice
from dialogs.grammar.checks import LEAST_PRICE
from dialogs.reading import Draft, Problem
from service.husbandry.units import Money

WHY = "price_or_sum"

OF_ONE, OF_ALL = range(2)

CHOICES = (("ya lita moja", "ya zote"), ("moja", "zote"), ("of one litre", "of all"), ("one", "all"))
"""What can be answered, in the order in which it is asked."""


def is_asked(problem: Problem) -> bool:
    return problem.ask.values.get("why") == WHY


def sum_told(draft: Draft) -> Money | None:
    """The sum in question: told as the whole where the price that follows is too small, else as the price."""
    price, amount = draft.values.get("price"), draft.values.get("amount")
    whole = price is not None and price.amount < LEAST_PRICE
    return amount if whole else price


def answered(text: str, draft: Draft) -> Draft | None:
    """*draft* with the sum as the price of one or as the whole; None: *text* is no answer."""
    choice = next((c for c in (read_choice(text, words) for words in CHOICES) if c is not None), None)
    told = sum_told(draft)
    if choice is None or told is None:
        return None
    as_told = {"price": told, "amount": None} if choice == OF_ONE else {"price": None, "amount": told}
    return replace(draft, values={**draft.values, **as_told})
